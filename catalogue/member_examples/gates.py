"""Who may open which example. Everything else that a person may not see is "not there", so nothing is given away."""

from django.core.exceptions import PermissionDenied
from django.db.models import Count, Q, QuerySet
from django.http import Http404

from catalogue.accounts.roles import REVIEW_EXAMPLES, SUBMIT_EXAMPLES, may
from catalogue.member_examples.filters import visible_to
from catalogue.member_examples.models import Example, ExampleInSet, ExampleSet
from catalogue.member_examples.rules import may_be_read
from catalogue.member_examples.words import ExampleState

NOT_THERE = "There is no such example."
NO_SET = "There is no such set."
ONLY_THEIRS = "You may read this set; only who made it, and moderators, change it."
TOGETHER = ("owner", "garment_type", "held_as", "maker", "sold_as_version", "shade_pair__exposed")


def is_member(person) -> bool:
    """May speak of pieces, and own some."""
    return may(person, SUBMIT_EXAMPLES)


def is_moderator(person) -> bool:
    """May decide on other people's examples."""
    return may(person, REVIEW_EXAMPLES)


def example_for_reader(person, code: str) -> Example:
    """An accepted example for everybody; else for its owner, and for moderators once it was sent. Raises Http404."""
    example = Example.objects.select_related(*TOGETHER).filter(code=code).first()
    if example is None or not may_be_read(
        state=example.state, is_owner=owns(person, example), is_moderator=is_moderator(person)
    ):
        raise Http404(NOT_THERE)
    return example


def example_for_owner(person, code: str) -> Example:
    """One's own example in any state. Raises Http404 for everybody else: that it exists is not told."""
    if not is_member(person):
        raise Http404(NOT_THERE)
    example = Example.objects.select_related(*TOGETHER).filter(code=code, owner=person).first()
    if example is None:
        raise Http404(NOT_THERE)
    return example


def example_for_moderator(person, code: str) -> Example:
    """Any example that was sent, for moderators only; also their own, on which they cannot decide."""
    if not is_moderator(person):
        raise Http404(NOT_THERE)
    example = Example.objects.select_related(*TOGETHER).filter(code=code).exclude(state=ExampleState.DRAFT).first()
    if example is None:
        raise Http404(NOT_THERE)
    return example


def example_for_removing_names(person, code: str) -> Example:
    """One's own example in any state; for moderators any that was sent. Raises Http404 for everybody else."""
    example = Example.objects.select_related(*TOGETHER).filter(code=code).first()
    if example is None or not may_remove_names(person, example):
        raise Http404(NOT_THERE)
    return example


def may_remove_names(person, example: Example) -> bool:
    """The owner at any time, moderators once it was sent."""
    return owns(person, example) or is_moderator(person) and example.state != ExampleState.DRAFT


def readable_sets(person) -> QuerySet:
    """Sets of which the person may read two pieces (`pieces`: how many); also those that are their own, and those with
    a piece of theirs in it."""
    visible = visible_to(person if is_member(person) else None, moderator=is_moderator(person)).order_by()
    readable = Count("places", filter=Q(places__example__in=visible))
    found = ExampleSet.objects.annotate(pieces=readable)
    if not is_member(person):
        return found.filter(pieces__gte=2)
    with_own = ExampleInSet.objects.filter(example__owner=person).values("example_set")
    return found.filter(Q(pieces__gte=2) | Q(made_by=person) | Q(pk__in=with_own))


def set_for_reader(person, code: str) -> ExampleSet:
    """Raises Http404 for a set that is not there for this person, as for one that is dissolved."""
    found = readable_sets(person).select_related("made_by").filter(code=code).first()
    if found is None:
        raise Http404(NO_SET)
    return found


def set_for_changing(person, code: str) -> ExampleSet:
    """One's own set, dissolved or not; for moderators also others' of which they may read two pieces. Of one that may
    be read and not changed that is said; one that may not be read is not there. Raises PermissionDenied or Http404."""
    found = ExampleSet.with_dissolved.select_related("made_by").filter(code=code).first() if is_member(person) else None
    if found is not None and may_change_set(person, found):
        return found
    if found is not None and readable_sets(person).filter(pk=found.pk).exists():
        raise PermissionDenied(f"“{found.name}” was made by {found.made_by.username}. {ONLY_THEIRS}")
    raise Http404(NO_SET)


def may_change_set(person, found: ExampleSet) -> bool:
    if not is_member(person):
        return False
    return found.made_by_id == person.pk or (is_moderator(person) and len(readable_places(person, found)) > 1)


def readable_places(person, found: ExampleSet) -> list[ExampleInSet]:
    """The places of a set whose pieces this person may read, in their order."""
    places = found.places.select_related("added_by", *(f"example__{name}" for name in TOGETHER))
    return [
        place
        for place in places.prefetch_related("example__alterations")
        if may_be_read(
            state=place.example.state, is_owner=owns(person, place.example), is_moderator=is_moderator(person)
        )
    ]


def owns(person, example: Example) -> bool:
    return is_member(person) and example.owner_id == person.pk


def sees_unmasked(person, example: Example) -> bool:
    """Whether what may carry a wearer's name is shown to this person."""
    return owns(person, example) or is_moderator(person)
