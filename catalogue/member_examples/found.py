"""Which pieces a narrowing of the gallery leaves, in order, and how many each facet would show.

Of the accepted ones, which everybody sees, this is worked out once for each state of the reference: accepting,
withdrawing or looking again at a piece raises it. So a page costs the same at a hundred pieces and at a hundred
thousand, the last page as little as the first. Those that only this person sees are read each time, and come first.
"""

from array import array
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.db.models import QuerySet
from django.db.models.functions import Length
from django.http import QueryDict

from catalogue.member_examples.filters import FACETS, ExampleFilter, facet_counts, seen_by_all, seen_by_this_one
from catalogue.member_examples.models import Example
from catalogue.reference.snapshots import KeptForState

# An answer at 100,000 pieces takes less than a megabyte.
keep_found = KeptForState(most=24)
Counts = Mapping[str, Mapping[str, int]]


@dataclass(frozen=True)
class Accepted:
    """Numbers of the accepted pieces that a narrowing leaves, in the gallery's order, and what its facets count."""

    numbers: array
    counts: Counts


class Found(Sequence):
    """All pieces that a narrowing leaves for one person: their own and those that wait, then the accepted ones."""

    def __init__(self, first: Sequence[int], accepted: Sequence[int]):
        self.first, self.accepted = first, accepted

    def __len__(self) -> int:
        return len(self.first) + len(self.accepted)

    def __getitem__(self, asked: slice) -> list[int]:
        begin, end, _ = asked.indices(len(self))
        many = len(self.first)
        return [*self.first[begin:end], *self.accepted[max(0, begin - many) : max(0, end - many)]]


def found_for(
    filtered: ExampleFilter, given: QueryDict, person, *, moderator: bool, number: int
) -> tuple[Found, dict[str, Counter]]:
    """What a valid filter leaves for this person (None: a visitor), and by facet how many pieces show each value."""
    kept = keep_found(narrowing(given), lambda: accepted_found(filtered), number=number)
    counts = {facet: Counter(own) for facet, own in kept.counts.items()}
    if person is None:
        return Found((), kept.numbers), counts
    own = filtered.among(seen_by_this_one(person, moderator=moderator))
    first = list(in_order(own.rows()))
    for facet, more in facet_counts(own, list(FACETS)).items():
        counts[facet].update(more)
    return Found(first, kept.numbers), counts


def narrowing(given: QueryDict) -> tuple:
    """The same for two addresses that ask for the same."""
    return tuple(
        (name, tuple(sorted({value.strip() for value in given.getlist(name) if value.strip()})))
        for name in sorted(given)
        if name in ExampleFilter.base_filters
    )


def accepted_found(filtered: ExampleFilter) -> Accepted:
    accepted = filtered.among(seen_by_all())
    return Accepted(array("q", in_order(accepted.rows())), facet_counts(accepted, list(FACETS)))


def in_order(rows: QuerySet) -> QuerySet:
    """Numbers of pieces: E99 before E100."""
    return rows.order_by(Length("code"), "code").values_list("pk", flat=True)


def read_again(numbers: Sequence[int], visible: QuerySet) -> list[Example]:
    """The pieces of one page, in its order; without one that went meanwhile."""
    rows = {row.pk: row for row in visible.filter(pk__in=numbers)}
    return [rows[number] for number in numbers if number in rows]
