"""Deciding on a piece, which tells its owner; asking and answering; undoing by a newer decision."""

from uuid import UUID

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import (
    NotDone,
    accept_example,
    attribute_anew,
    decline_example,
    reopen_example,
    return_example,
)
from catalogue.member_examples.gates import is_moderator, owns
from catalogue.member_examples.models import Example, ExampleDecision
from catalogue.member_examples.words import DecisionKind, ExampleState
from catalogue.reference.models import GarmentType, IssueVersion
from catalogue.review.deputies.standing_in import with_deputies
from catalogue.review.examples_queue.doubts import settle_doubts_of
from catalogue.review.examples_queue.looking import leave
from catalogue.review.models import PieceWord
from catalogue.review.notices.telling import read_by_all, tell
from catalogue.review.words import LONGEST


@transaction.atomic
def decide_on_piece(
    *,
    example: Example,
    moderator: Member,
    decision: str,
    reason: str,
    sending: int,
    held_as: IssueVersion | None = None,
    held: str = "",
    garment_type: GarmentType | None = None,
) -> ExampleDecision:
    """Accept, return or decline the sending that the moderator looked at, and tell the owner. Raises NotDone in words
    for one's own piece, a second decision and a sending that has gone by; then nothing is written."""
    if decision == DecisionKind.ACCEPTED:
        made = accept_example(
            example=example, moderator=moderator, reason=reason, sending=sending, held_as=held_as, held=held,
            garment_type=garment_type,
        )  # fmt: skip
    elif decision in (DecisionKind.RETURNED, DecisionKind.DECLINED):
        act = return_example if decision == DecisionKind.RETURNED else decline_example
        made = act(example=example, moderator=moderator, reason=reason, sending=sending)
    else:
        raise NotDone("Choose what you decide: accept, return or decline.")
    return told(made, example, moderator)


@transaction.atomic
def open_again(*, example: Example, moderator: Member, reason: str) -> ExampleDecision:
    """Undo by a newer decision: the piece waits again, the earlier decision stays readable, the owner is told."""
    return told(reopen_example(example=example, moderator=moderator, reason=reason), example, moderator)


@transaction.atomic
def keep_as_something_else(
    *, example: Example, moderator: Member, reason: str, held_as: IssueVersion | None, held: str, believed: str
) -> ExampleDecision:
    """Keep an accepted piece under another version, or none, and tell its owner. `believed`: the code of the version
    under which the moderator saw it. Raises NotDone where nothing would change."""
    now = example.held_as.code if example.held_as else ""
    if believed != now:
        raise NotDone("Another moderator has just decided on this example. Look again before you decide.")
    if held_as is not None and held_as.code == now:
        raise NotDone("It is kept as this already.")
    made = attribute_anew(
        example=example, moderator=moderator, reason=reason, held_as=held_as, held=held, believed=example.held_as
    )
    return told(made, example, moderator)


def told(decision: ExampleDecision, example: Example, moderator: Member) -> ExampleDecision:
    leave(example, moderator)
    settle_doubts_of(example, moderator)
    read_by_all(piece=example)
    tell(example.owner, decision=decision)
    return decision


@transaction.atomic
def write_word(*, example: Example, by: Member, text: str, token: UUID) -> PieceWord:
    """A word in the thread of a piece, by its owner or a moderator; the same token again is the same word.

    The owner's word is told to the moderators who decided or wrote, a moderator's to the owner.
    """
    own = owns(by, example)
    if not own and not is_moderator(by) or example.state == ExampleState.DRAFT:
        raise NotDone("There is no such example.")
    if not text.strip():
        raise NotDone("Write something first.")
    said, new = PieceWord.objects.get_or_create(
        sent_once=token, defaults={"example": example, "by": by, "text": text.strip()[:LONGEST]}
    )
    if not new:
        if (said.by_id, said.example_id) != (by.pk, example.pk):
            raise NotDone("This was sent already.")
        return said
    for member in moderators_and_deputies(example) if own else [example.owner]:
        tell(member, word=said)
    return said


def moderators_and_deputies(example: Example) -> list[Member]:
    """Those of `moderators_of`, and who stands in for those of them that are away, as far as they may open it."""
    told = with_deputies(moderators_of(example))
    return [one for one in told if is_moderator(one) and one.pk != example.owner_id]


def moderators_of(example: Example) -> list[Member]:
    """Those who have decided on the piece or written of it, and still moderate."""
    decided = Member.objects.filter(example_decisions__example=example)
    wrote = Member.objects.filter(pk__in=example.words.exclude(by=example.owner_id).values("by"))
    people = {one.pk: one for one in [*decided, *wrote] if one.pk != example.owner_id and is_moderator(one)}
    return list(people.values())
