"""What somebody sees was altered on a piece that was accepted already. It is added, and never overwritten."""

from collections.abc import Mapping, Sequence

from django.db import transaction
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.member_examples.actions.refusals import NotDone, refuse_unread
from catalogue.member_examples.gates import is_moderator, owns
from catalogue.member_examples.happenings import alteration_added, alteration_settled
from catalogue.member_examples.models import Alteration, Example
from catalogue.member_examples.words import ExampleState
from catalogue.reference.models import Feature, ReferenceState

MOST_ADDED = 40


@transaction.atomic
def add_alteration(
    *, example: Example, member: Member, fields: Mapping[str, object], features: Sequence[Feature]
) -> Alteration:
    """Add an alteration to an accepted piece. From its owner or a moderator it counts at once: the features that it
    names say nothing of the version any more, for evidence as for the identification. From another member it is that
    person's view, until `confirm_alteration`. The same again is the same."""
    refuse_unread(example, member)
    example = Example.objects.select_for_update().get(pk=example.pk)
    if example.state != ExampleState.ACCEPTED:
        raise NotDone("Alterations are added here once a piece was accepted; before, its owner writes them down.")
    codes = {feature.pk for feature in features}
    for standing in example.alterations.filter(**fields).prefetch_related("features"):
        if standing.added_by_id == member.pk and {one.pk for one in standing.features.all()} == codes:
            return standing
    if example.alterations.count() >= MOST_ADDED:
        raise NotDone(f"A piece has at most {MOST_ADDED} alterations here.")
    last = example.alterations.order_by("position").last()
    now = timezone.now()
    sure = may_confirm(member, example)
    made = Alteration.objects.create(
        example=example,
        position=last.position + 1 if last else 0,
        added_by=member,
        added_at=now,
        confirmed_by=member if sure else None,
        confirmed_at=now if sure else None,
        **fields,
    )
    made.features.set(features)
    if sure:
        ReferenceState.mark_changed()
    else:
        alteration_added.send(sender=None, alteration=made)
    return made


def may_confirm(member: Member, example: Example) -> bool:
    """Whose word makes an alteration count: its owner's, who has the piece at hand, and moderators'."""
    return owns(member, example) or is_moderator(member)


@transaction.atomic
def confirm_alteration(*, alteration: Alteration, member: Member, so: bool = True) -> None:
    """Hold what another member added to be so; with `so=False` no more. Twice is once."""
    example = Example.objects.select_for_update().get(pk=alteration.example_id)
    if not may_confirm(member, example):
        raise NotDone("Only its owner and moderators confirm an alteration.")
    standing = Alteration.objects.filter(pk=alteration.pk, added_by__isnull=False)
    if not standing.exists():
        raise NotDone("It was taken back meanwhile, or stands in the owner's record.")
    by, at = (member, timezone.now()) if so else (None, None)
    if standing.filter(confirmed_by__isnull=so).update(confirmed_by=by, confirmed_at=at):
        ReferenceState.mark_changed()
        alteration_settled.send(sender=None, alteration=alteration)


@transaction.atomic
def take_back_alteration(*, alteration: Alteration, member: Member) -> None:
    """Who added it takes it back, or a moderator does; the row stays, and its features count again. Twice is once."""
    if alteration.added_by_id is None:
        raise NotDone("This stands in the owner's record.")
    if alteration.added_by_id != member.pk and not is_moderator(member):
        raise NotDone("Who added it takes it back, or a moderator does.")
    standing = Alteration.objects.filter(pk=alteration.pk)
    if standing.update(taken_back_at=timezone.now(), taken_back_by=member):
        ReferenceState.mark_changed()
        alteration_settled.send(sender=None, alteration=alteration)
