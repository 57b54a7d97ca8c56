"""Years on a line: which are marked, and which part of a span is sure."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalogue.reference.facts import VersionFacts
from catalogue.reference.words import Certainty
from identification.dating.spans import VersionDates

# How far an uncertain end is drawn beyond its year: a sign that it is uncertain, not a measure of how much.
UNSURE_YEARS = 2
# An estimated end that may lie farther than this from the labels is drawn to here.
FARTHEST_DRAWN = 60
OPEN = ".."
NO_DATES: Mapping[str, VersionDates] = {}
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


def span_of_years(
    versions: Iterable[VersionFacts], dates: Mapping[str, VersionDates] = NO_DATES
) -> tuple[int, int] | None:
    """First and last year of an axis that holds them all, with room for uncertain ends; None where none is dated.
    `dates`: by code of a version what its labels say."""
    spans = [reach(version, dates.get(version.code)) for version in versions]
    years = [year for span in spans for year in span if year]
    return (min(years) - UNSURE_YEARS - 1, max(years) + UNSURE_YEARS + 2) if years else None


def reach(version: VersionFacts, dates: VersionDates | None) -> tuple[int | None, ...]:
    """Years between which a version's bar may lie, in any order."""
    if not dates or not (version.from_year or version.to_year):
        return version.from_year, version.to_year
    before, after = ends_by_labels(version, dates)
    return version.from_year, version.to_year, before and before[0], after and after[1]


def ends_by_labels(version: VersionFacts, dates: VersionDates) -> tuple[tuple[int, int] | None, tuple[int, int] | None]:
    """For the beginning and the end each the first and last year that labels leave for it, where they tell and the
    record estimates it or leaves it open; None elsewhere. On the page of the version the same years stand dashed."""
    early, late = ends_of(version)
    before = after = None
    if not is_sure(early) and dates.begin_told and dates.low is not None:
        before = max(dates.low, dates.first - FARTHEST_DRAWN), max(dates.first, dates.low)
    if not is_sure(late) and dates.end_told and dates.high is not None:
        after = min(dates.last, dates.high), min(dates.high, dates.last + FARTHEST_DRAWN)
    return before, after


def pieces_of(version: VersionFacts, first: int, last: int, dates: VersionDates | None = None) -> tuple[Piece, ...]:
    """The span in its pieces: a year whole, an end that is estimated or open not sure. Empty where it is not dated.

    Nothing is sure where neither end is, or where the version itself is inferred. `dates`: what labels say. An end that
    they tell and the record does not is sure as far as there are labels, and not sure as far as it may lie beyond.
    """
    if not version.from_year and not version.to_year:
        return ()
    early, late = ends_of(version)
    before, after = ends_by_labels(version, dates) if dates else (None, None)
    begin = version.from_year or first
    end = version.to_year + 1 if version.to_year else last
    low, high = begin - UNSURE_YEARS * is_unsure(early), end + UNSURE_YEARS * is_unsure(late)
    if before:
        low, begin = before
    if after:
        end, high = after[0] + 1, after[1] + 1
    told = (before or is_sure(early)) or (after or is_sure(late))
    if not told or version.certainty == Certainty.INFERRED or begin >= end:
        return (Piece(low, high, sure=False),)
    if early == OPEN and not before:
        begin = min(end - 1, max(dates.first, begin)) if dates else end - 1
    elif late == OPEN and not after:
        end = max(begin + 1, min(dates.last + 1, end)) if dates else begin + 1
    found = (Piece(low, begin, sure=False), Piece(begin, end, sure=True), Piece(end, high, sure=False))
    return tuple(piece for piece in found if piece.begin < piece.end)


def ends_of(version: VersionFacts) -> tuple[str, str]:
    """Both ends of its date, as the record has them; of one year twice the same."""
    early, _, late = version.date.partition("/")
    return early, late or early


def is_sure(date: str) -> bool:
    """Neither marked nor open."""
    return date != OPEN and not is_unsure(date)


def is_unsure(date: str) -> bool:
    """Marked about (~), uncertain (?) or both (%)."""
    return bool(re.search(r"[~?%]$", date))
