"""Spans of years drawn beside each other: solid where the years are sure, stitched where they are not."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.reference.facts import VersionFacts

# How far an uncertain end is drawn beyond its year: a sign that it is uncertain, not a measure of how much.
UNSURE_YEARS = 2
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500)
MOST_YEARS_MARKED = 7


@dataclass(frozen=True)
class Stroke:
    """Part of a span, in percent of the width; `kind` is sure, about or open."""

    begin: str
    end: str
    kind: str


@dataclass(frozen=True)
class Timeline:
    """Years marked on the axis with their places, and the strokes of each version by code."""

    years: tuple[tuple[int, str], ...]
    strokes: dict[str, tuple[Stroke, ...]]


@dataclass(frozen=True)
class Scale:
    first: int
    last: int

    def place(self, year: float) -> str:
        share = (min(max(year, self.first), self.last) - self.first) / (self.last - self.first)
        return f"{share * 100:.4g}%"


def timeline(versions: Sequence[VersionFacts]) -> Timeline | None:
    """The versions on one axis of years, or None when no version has a year."""
    years = [year for version in versions for year in (version.from_year, version.to_year) if year]
    if not years:
        return None
    scale = Scale(min(years) - UNSURE_YEARS - 1, max(years) + UNSURE_YEARS + 2)
    strokes = {version.code: tuple(strokes_of(version, scale)) for version in versions}
    return Timeline(tuple((year, scale.place(year)) for year in marked_years(scale)), strokes)


def marked_years(scale: Scale) -> list[int]:
    """Round years, at most seven."""
    whole = scale.last - scale.first
    step = next((step for step in STEPS if whole / step <= MOST_YEARS_MARKED), STEPS[-1])
    return list(range(-(-scale.first // step) * step, scale.last + 1, step))


def strokes_of(version: VersionFacts, scale: Scale) -> list[Stroke]:
    """A year is drawn whole, from its beginning to its end."""
    if not version.from_year and not version.to_year:
        return []
    first, _, last = version.date.partition("/")
    last = last or first
    begin = version.from_year if version.from_year else scale.first
    end = version.to_year + 1 if version.to_year else scale.last
    found = [Stroke(scale.place(begin), scale.place(end), "sure")]
    if version.from_year is None or version.to_year is None:
        found = open_ended(version, scale)
    if is_unsure(first):
        found.insert(0, Stroke(scale.place(begin - UNSURE_YEARS), scale.place(begin), "about"))
    if is_unsure(last):
        found.append(Stroke(scale.place(end), scale.place(end + UNSURE_YEARS), "about"))
    return found


def open_ended(version: VersionFacts, scale: Scale) -> list[Stroke]:
    """The known year, and a thin line towards the side that has no end."""
    if version.to_year is None:
        year = version.from_year
        rest = Stroke(scale.place(year + 1), scale.place(scale.last), "open")
    else:
        year = version.to_year
        rest = Stroke(scale.place(scale.first), scale.place(year), "open")
    return [Stroke(scale.place(year), scale.place(year + 1), "sure"), rest]


def is_unsure(date: str) -> bool:
    """Marked about (~), uncertain (?) or both (%)."""
    return bool(re.search(r"[~?%]$", date))
