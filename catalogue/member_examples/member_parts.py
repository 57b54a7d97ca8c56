"""What this slice knows of a person: their pieces and sets, on their page, in their export, and when they leave."""

from collections.abc import Iterator

from django.core.files.storage import default_storage

from catalogue.accounts.sections import MemberPart, register
from catalogue.member_examples.sets import own_sets
from catalogue.member_examples.submitting.own_pieces import exported, forget_drafts, latest, stored_sizes


def pictures(member) -> Iterator[tuple[str, bytes]]:
    """The largest stored size of every photograph, under the number of its piece."""
    for name, stored in stored_sizes(member):
        try:
            with default_storage.open(stored) as file:
                yield name, file.read()
        except OSError:  # a file that is lost must not keep the rest back
            continue


register(
    MemberPart(
        name="pieces",
        heading="Your pieces",
        template="member_examples/submitting/own_section.html",
        own=latest,
        export=exported,
        files=pictures,
        forget=forget_drafts,
    )
)
register(
    MemberPart(
        name="sets",
        heading="Your sets",
        template="member_examples/sets/own_section.html",
        own=own_sets.latest,
        export=own_sets.exported,
        forget=own_sets.forget,
    )
)
