"""Pieces that follow a decision on their version, many at once."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from django.db import transaction
from django.db.models import F
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.member_examples.actions.refusals import NotDone
from catalogue.member_examples.models import Attribution, Example, ExampleDecision
from catalogue.member_examples.words import AttributedBy, DecisionKind, ExampleState, Held
from catalogue.reference.models import IssueVersion, ReferenceState

NOTHING_MORE: Mapping[str, str] = MappingProxyType({})


@transaction.atomic
def move_pieces(
    *,
    to: Mapping[str, IssueVersion],
    deciders: Sequence[Member],
    reason: str,
    more: Mapping[str, str] = NOTHING_MORE,
) -> list[tuple[ExampleDecision, Attribution]]:
    """Keep accepted pieces, by code, as other versions: of each a decision and a standing attribution, both dated; what
    was held before stays readable. Nobody decides on their own piece, so each gets the first of `deciders` who does
    not own it. `more`: by code what is to be said of a piece beside the reason for all. The caller
    holds `ReferenceState`. Raises NotDone, and writes nothing, where nobody is left.
    """
    pieces = list(Example.objects.filter(code__in=to, state=ExampleState.ACCEPTED).order_by("code"))
    if not pieces:
        return []
    now = timezone.now()
    decisions, held = [], []
    for piece in pieces:
        decider = next((one for one in deciders if one.pk != piece.owner_id), None)
        if decider is None:
            raise NotDone(f"The piece {piece.code} is your own: somebody else has to decide that it follows.")
        version = to[piece.code]
        why = " ".join(filter(None, (reason, more.get(piece.code))))
        decisions.append(
            ExampleDecision(
                example=piece, moderator=decider, owner_id=piece.owner_id, decision=DecisionKind.ATTRIBUTED_ANEW,
                held_as=version, reason=why, sending=piece.times_sent, made_at=now,
            )
        )  # fmt: skip
        held.append(
            Attribution(
                example=piece, by=AttributedBy.SOCIETY, member=decider, held=Held.VERSION, version=version,
                grounds=why, made_at=now,
            )
        )  # fmt: skip
    for version in {one.pk: one for one in to.values()}.values():
        codes = [piece.pk for piece in pieces if to[piece.code].pk == version.pk]
        Example.objects.filter(pk__in=codes).update(held_as=version, revision=F("revision") + 1, changed_at=now)
    made = ExampleDecision.objects.bulk_create(decisions)
    written = Attribution.objects.bulk_create(held)
    ReferenceState.mark_changed()
    return list(zip(made, written, strict=True))
