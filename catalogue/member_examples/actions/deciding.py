"""What moderators decide about other members' pieces."""

from collections.abc import Mapping

from django.db import transaction
from django.db.models import F
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.member_examples import rules
from catalogue.member_examples.actions.opinions import write_attribution
from catalogue.member_examples.actions.refusals import ChangedMeanwhile, NotDone, refuse
from catalogue.member_examples.gates import is_moderator
from catalogue.member_examples.models import Example, ExampleDecision
from catalogue.member_examples.words import AttributedBy, DecisionKind, NameOnLabel
from catalogue.reference.models import GarmentType, IssueVersion, ReferenceState


@transaction.atomic
def accept_example(
    *,
    example: Example,
    moderator: Member,
    reason: str,
    sending: int,
    held_as: IssueVersion | None = None,
    held: str = "",
    garment_type: GarmentType | None = None,
    grounds: str = "",
) -> ExampleDecision:
    """Take a piece in as evidence, as a version or (`held`: not_in_reference, cannot_say) as none.

    `sending`: `times_sent` of the piece that the moderator looked at. `grounds`: what the attribution rests on; the
    reason where empty. A second moderator is refused, and nothing is written.
    """
    kept_type = garment_type or example.garment_type
    ReferenceState.hold()
    refuse(retired(held_as))
    refuse(
        rules.reason_not_to_keep_as(
            type_code=kept_type.code if kept_type else "",
            version_type=held_as.garment_type.code if held_as else None,
            name_unmasked=example.name_on_label == NameOnLabel.TO_MASK,
            holds_version=held_as is not None,
        )
    )
    decision = decide(
        DecisionKind.ACCEPTED, example, moderator, reason, sending, held_as=held_as, garment_type=kept_type
    )
    write_attribution(example, AttributedBy.SOCIETY, moderator, held_as, held, grounds.strip() or reason)
    ReferenceState.mark_changed()
    return decision


@transaction.atomic
def return_example(*, example: Example, moderator: Member, reason: str, sending: int) -> ExampleDecision:
    """Send a piece back to its owner with a question."""
    return decide(DecisionKind.RETURNED, example, moderator, reason, sending)


@transaction.atomic
def decline_example(*, example: Example, moderator: Member, reason: str, sending: int) -> ExampleDecision:
    """Do not take a piece in. Its owner and the moderators can still read it."""
    return decide(DecisionKind.DECLINED, example, moderator, reason, sending)


@transaction.atomic
def attribute_anew(
    *,
    example: Example,
    moderator: Member,
    reason: str,
    held_as: IssueVersion | None,
    held: str = "",
    believed: IssueVersion | None,
) -> ExampleDecision:
    """Keep an accepted piece under another version. `believed`: what it was held as when the moderator looked."""
    ReferenceState.hold()
    refuse(retired(held_as))
    refuse(
        rules.reason_not_to_keep_as(
            type_code=example.garment_type.code if example.garment_type else "",
            version_type=held_as.garment_type.code if held_as else None,
            name_unmasked=False,
            holds_version=held_as is not None,
        )
    )
    decision = decide(
        DecisionKind.ATTRIBUTED_ANEW,
        example,
        moderator,
        reason,
        example.times_sent,
        held_as=held_as,
        only_if={"held_as": believed},
    )
    write_attribution(example, AttributedBy.SOCIETY, moderator, held_as, held, reason)
    ReferenceState.mark_changed()
    return decision


@transaction.atomic
def reopen_example(*, example: Example, moderator: Member, reason: str) -> ExampleDecision:
    """Put a decided piece back among those that wait: an accepted one counts as evidence no longer."""
    decision = decide(DecisionKind.REOPENED, example, moderator, reason, example.times_sent)
    Example.objects.filter(pk=example.pk).update(times_sent=F("times_sent") + 1, sent_once=None)
    ReferenceState.mark_changed()
    example.refresh_from_db()
    return decision


def retired(version: IssueVersion | None) -> str | None:
    """Why nothing is kept as this version any more; asked while nobody else changes the reference."""
    if version is None or not IssueVersion.objects.retired().filter(pk=version.pk).exists():
        return None
    return f"{version.name} is held to be no version any more. Look again before you decide."


def decide(
    kind: DecisionKind,
    example: Example,
    moderator: Member,
    reason: str,
    sending: int,
    *,
    held_as: IssueVersion | None = None,
    garment_type: GarmentType | None = None,
    only_if: Mapping[str, object] | None = None,
) -> ExampleDecision:
    """Move the example by compare-and-set and write the decision down."""
    if not is_moderator(moderator):
        raise NotDone("Only moderators decide on examples.")
    example.refresh_from_db()
    refuse(
        rules.reason_not_to_decide(
            decision=kind,
            state=example.state,
            moderator_id=moderator.pk,
            owner_id=example.owner_id,
            reason=reason,
            sending=sending,
            times_sent=example.times_sent,
        )
    )
    before, after = rules.MOVES[kind]
    changes = {"state": after, "held_as": held_as, "revision": F("revision") + 1, "changed_at": timezone.now()}
    if garment_type is not None:
        changes["garment_type"] = garment_type
    still = Example.objects.filter(pk=example.pk, state__in=before, times_sent=sending, revision=example.revision)
    if not still.filter(**(only_if or {})).update(**changes):
        raise ChangedMeanwhile("Another moderator has just decided on this example. Look again before you decide.")
    made = ExampleDecision.objects.create(
        example=example, moderator=moderator, decision=kind, held_as=held_as, reason=reason.strip(), sending=sending
    )
    example.refresh_from_db()
    return made
