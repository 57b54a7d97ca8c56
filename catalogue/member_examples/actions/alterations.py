"""What somebody sees was altered on a piece that was accepted already. It is added, and never overwritten."""

from collections.abc import Mapping, Sequence

from django.db import transaction
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.member_examples.actions.refusals import NotDone, refuse_unread
from catalogue.member_examples.gates import is_moderator
from catalogue.member_examples.models import Alteration, Example
from catalogue.member_examples.words import ExampleState
from catalogue.reference.models import Feature, ReferenceState

MOST_ADDED = 40


@transaction.atomic
def add_alteration(
    *, example: Example, member: Member, fields: Mapping[str, object], features: Sequence[Feature]
) -> Alteration:
    """Add an alteration to an accepted piece, as its owner or as another member's view. The features that it names
    say nothing of the version from now on, for evidence as for the identification. The same again is the same."""
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
    made = Alteration.objects.create(
        example=example,
        position=last.position + 1 if last else 0,
        added_by=member,
        added_at=timezone.now(),
        **fields,
    )
    made.features.set(features)
    ReferenceState.mark_changed()
    return made


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
