"""Who may read and write the thread of a piece: its owner and the moderators, once it was sent."""

from django.http import Http404

from catalogue.member_examples.gates import example_for_moderator, example_for_owner, is_moderator
from catalogue.member_examples.models import Example
from catalogue.member_examples.words import ExampleState


def example_for_thread(person, code: str) -> Example:
    """Raises Http404 for everybody else, and for a draft that was never sent."""
    found = example_for_moderator(person, code) if is_moderator(person) else example_for_owner(person, code)
    if found.state == ExampleState.DRAFT:
        raise Http404("There is no such example.")
    return found
