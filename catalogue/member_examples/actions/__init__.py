"""Everything that changes examples. Each action is atomic, and a second click or a second moderator is refused."""

from catalogue.member_examples.actions.alterations import add_alteration, confirm_alteration, take_back_alteration
from catalogue.member_examples.actions.deciding import (
    accept_example,
    attribute_anew,
    decline_example,
    reopen_example,
    return_example,
)
from catalogue.member_examples.actions.following import move_pieces
from catalogue.member_examples.actions.opinions import (
    Look,
    add_attribution,
    add_engines_attribution,
    add_observation,
    add_observations,
)
from catalogue.member_examples.actions.owning import (
    delete_draft,
    save_example,
    start_example,
    submit_example,
    withdraw_example,
)
from catalogue.member_examples.actions.refusals import ChangedMeanwhile, NotDone

__all__ = [
    "ChangedMeanwhile",
    "Look",
    "NotDone",
    "accept_example",
    "add_alteration",
    "add_attribution",
    "add_engines_attribution",
    "add_observation",
    "add_observations",
    "attribute_anew",
    "confirm_alteration",
    "decline_example",
    "delete_draft",
    "move_pieces",
    "reopen_example",
    "return_example",
    "save_example",
    "start_example",
    "submit_example",
    "take_back_alteration",
    "withdraw_example",
]
