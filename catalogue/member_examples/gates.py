"""Who may open which example. Everything else that a person may not see is "not there", so nothing is given away."""

from django.http import Http404

from catalogue.accounts.roles import REVIEW_EXAMPLES, SUBMIT_EXAMPLES, may
from catalogue.member_examples.models import Example, ExampleSet
from catalogue.member_examples.rules import may_be_read
from catalogue.member_examples.words import ExampleState

NOT_THERE = "There is no such example."
TOGETHER = ("owner", "garment_type", "held_as", "maker", "sold_as_version")


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


def set_for_reader(person, code: str) -> ExampleSet:
    """A set of which the person may read at least two pieces. Raises Http404."""
    found = ExampleSet.objects.filter(code=code).first()
    if found is None or len(readable_pieces(person, found)) < 2:
        raise Http404("There is no such set.")
    return found


def readable_pieces(person, example_set: ExampleSet) -> list[Example]:
    """The pieces of a set that this person may read, in their order."""
    pieces = example_set.examples.select_related(*TOGETHER).prefetch_related("alterations")
    pieces = pieces.order_by("places_in_sets__position", "code")
    return [
        piece
        for piece in pieces
        if may_be_read(state=piece.state, is_owner=owns(person, piece), is_moderator=is_moderator(person))
    ]


def owns(person, example: Example) -> bool:
    return is_member(person) and example.owner_id == person.pk


def sees_unmasked(person, example: Example) -> bool:
    """Whether what may carry a wearer's name is shown to this person."""
    return owns(person, example) or is_moderator(person)
