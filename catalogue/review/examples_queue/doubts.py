"""Accepted pieces that a decision on versions made doubtful: they wait until a moderator has looked at each again."""

from django.db import transaction
from django.db.models import QuerySet
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import NotDone, attribute_anew
from catalogue.member_examples.gates import is_moderator
from catalogue.member_examples.models import Example, ExampleDecision
from catalogue.member_examples.words import ExampleState
from catalogue.reference.models import ReferenceState
from catalogue.review.models import FollowedPiece
from catalogue.review.notices.telling import tell

DOUBTFUL = "doubtful"


def open_doubts() -> QuerySet[FollowedPiece]:
    """Of pieces that are still accepted."""
    waiting = FollowedPiece.objects.exclude(doubt="").filter(settled_at__isnull=True)
    return waiting.filter(example__state=ExampleState.ACCEPTED)


def doubts_of(example: Example) -> list[FollowedPiece]:
    """What makes a piece doubtful now, with the decision that did."""
    found = open_doubts().filter(example=example).select_related("decision__proposal", "after")
    return list(found.order_by("pk"))


@transaction.atomic
def keep_as_it_is(*, example: Example, moderator: Member, reason: str, believed: str) -> ExampleDecision:
    """A moderator has looked: the piece stays what it is held to be, which is decided and attributed anew, and its
    owner is told. `believed`: the code of the version under which they saw it. Refused in words for one's own piece,
    where nothing is doubtful, and where that version was retired."""
    if not is_moderator(moderator):
        raise NotDone("Only moderators decide on examples.")
    ReferenceState.hold()
    example.refresh_from_db()
    if believed != (example.held_as.code if example.held_as else ""):
        raise NotDone("Another moderator has just decided on this example. Look again before you decide.")
    held_as = example.held_as
    made = attribute_anew(example=example, moderator=moderator, reason=reason, held_as=held_as, believed=held_as)
    if not settle_doubts_of(example, moderator):
        raise NotDone("Nothing about it is doubtful any more: somebody has looked at it already.")
    tell(example.owner, decision=made)
    return made


def settle_doubts_of(example: Example, by: Member) -> int:
    """Whatever a moderator decides on a piece settles what was doubtful about it; how much that was."""
    waiting = FollowedPiece.objects.filter(example=example, settled_at__isnull=True).exclude(doubt="")
    return waiting.update(settled_at=timezone.now(), settled_by=by)
