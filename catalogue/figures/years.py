"""Years on a line: which are marked, and which part of a span is sure."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.reference.facts import VersionFacts
from catalogue.reference.words import Certainty

# How far an uncertain end is drawn beyond its year: a sign that it is uncertain, not a measure of how much.
UNSURE_YEARS = 2
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500)
LEAST_BETWEEN_MARKS = 56


@dataclass(frozen=True)
class Piece:
    """Part of a span, from the beginning of a year to the beginning of another."""

    begin: float
    end: float
    sure: bool


@dataclass(frozen=True)
class Scale:
    """Years from `first` to `last`, drawn from `left` to `right`."""

    first: int
    last: int
    left: int
    right: int

    def place(self, year: float) -> int:
        share = (min(max(year, self.first), self.last) - self.first) / (self.last - self.first)
        return round(self.left + share * (self.right - self.left))

    @property
    def marked(self) -> list[int]:
        """Round years, as close as their figures can stand."""
        most = max(1, (self.right - self.left) // LEAST_BETWEEN_MARKS)
        whole = self.last - self.first
        step = next((step for step in STEPS if whole / step <= most), STEPS[-1])
        return list(range(-(-self.first // step) * step, self.last + 1, step))


def span_of_years(versions: Iterable[VersionFacts]) -> tuple[int, int] | None:
    """First and last year of an axis that holds them all, with room for uncertain ends; None where none is dated."""
    years = [year for version in versions for year in (version.from_year, version.to_year) if year]
    return (min(years) - UNSURE_YEARS - 1, max(years) + UNSURE_YEARS + 2) if years else None


def pieces_of(version: VersionFacts, first: int, last: int) -> tuple[Piece, ...]:
    """The span in its pieces: a year whole, an end that is estimated or open not sure. Empty where it is not dated.

    Nothing is sure where both ends are estimated, or where the version itself is inferred.
    """
    if not version.from_year and not version.to_year:
        return ()
    early, _, late = version.date.partition("/")
    late = late or early
    begin = version.from_year or first
    end = version.to_year + 1 if version.to_year else last
    before, after = is_unsure(early), is_unsure(late)
    outer = (begin - UNSURE_YEARS * before, end + UNSURE_YEARS * after)
    if (before and (after or late == "..")) or (early == ".." and after) or version.certainty == Certainty.INFERRED:
        return (Piece(*outer, sure=False),)
    if late == "..":
        return (Piece(begin, begin + 1, sure=True), Piece(begin + 1, end, sure=False))
    if early == "..":
        return (Piece(begin, end - 1, sure=False), Piece(end - 1, end, sure=True))
    found = (Piece(outer[0], begin, sure=False), Piece(begin, end, sure=True), Piece(end, outer[1], sure=False))
    return tuple(piece for piece in found if piece.begin < piece.end)


def is_unsure(date: str) -> bool:
    """Marked about (~), uncertain (?) or both (%)."""
    return bool(re.search(r"[~?%]$", date))
