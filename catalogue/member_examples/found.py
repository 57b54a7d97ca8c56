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

from catalogue.member_examples.filters import FACETS, ExampleFilter, counted, seen_by_all, seen_by_this_one
from catalogue.member_examples.models import Example
from catalogue.reference.snapshots import KeptForState

# An answer at 100,000 pieces takes less than a megabyte.
keep_found = KeptForState(most=24)


@dataclass(frozen=True)
class Left:
    """Numbers of the pieces that a narrowing leaves, in the gallery's order, and how many show each value of a facet,
    under all filters but its own."""

    numbers: Sequence[int]
    counts: Mapping[str, Counter]


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


def found_for(filtered: ExampleFilter, person, *, moderator: bool, number: int) -> tuple[Found, Mapping[str, Counter]]:
    """What a valid filter leaves for this person (None: a visitor), and by facet how many pieces show each value."""
    kept = keep_found(filtered.asked, lambda: left_by(filtered.among(seen_by_all())), number=number)
    own = None if person is None else left_by(filtered.among(seen_by_this_one(person, moderator=moderator)))
    if own is None or not any(own.counts.values()):
        return Found((), kept.numbers), kept.counts
    return Found(own.numbers, kept.numbers), {facet: kept.counts[facet] + own.counts[facet] for facet in FACETS}


def left_by(filtered: ExampleFilter) -> Left:
    """One query for the pieces and every facet that narrows nothing; one for each that does. E99 before E100."""
    plain = [facet for facet in FACETS if not filtered.narrows(facet)]
    rows = filtered.rows().order_by(Length("code"), "code").values_list("pk", *(FACETS[facet][0] for facet in plain))
    numbers, *columns = zip(*rows, strict=True) if (rows := list(rows)) else [()] * (1 + len(plain))
    counts = {facet: Counter(filter(None, column)) for facet, column in zip(plain, columns, strict=True)}
    for facet in FACETS.keys() - counts.keys():
        counts[facet] = Counter(counted(filtered.rows(without=facet), FACETS[facet][0]))
    return Left(array("q", numbers), counts)


def read_again(numbers: Sequence[int], visible: QuerySet) -> list[Example]:
    """The pieces of one page, in its order; without one that went meanwhile."""
    rows = {row.pk: row for row in visible.filter(pk__in=numbers).order_by()}
    return [rows[number] for number in numbers if number in rows]
