"""From label years and documented dates to the years in which a version was probably made.

The interval is the wider of two. One is Strauss & Sadler 1989 (see `range_ends`) with the number of distinct years and
a range of last - first + 1, as whole years want it; it takes production to have been even. The other weighs, on a fixed
grid, every beginning and end against shapes of production that begin suddenly, linearly, with the square or with the
cube, and end in the same ways: where production tailed off the plain interval is too short in one case out of four.
Only whether a year is seen counts, not how often: one contract leaves many labels of one year.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from math import ceil, floor, gamma

import numpy as np

from identification.dating.range_ends import both_ends_reach

FEWEST_YEARS = 3
# How production may begin and end: the power with which it grows from nothing, 1 being sudden, and how likely each is
# taken to be. Chosen by simulation, so that linear and square tails are covered as stated, at most 2 points less; see
# tests/benchmarks/dating.py.
SHAPES = {1: 0.12, 2: 0.2, 3: 0.33, 4: 0.35}
# How many labels would be found in all, as a multiple of the distinct years that were.
PLENTY = (0.8, 1.3, 2.2, 5.0)
NEAR, STEPS, FARTHEST, LEAST_FARTHEST = 6, 18, 9, 20
MORE_LABELS = 5
# An end is told where the interval stays inside a known limit, as the years of the service, or a label stands at it:
# then it says more than the limit does. Else only while it may lie no farther from the labels, in their own spans, than
# they lie from one another, and from so many different years on: beyond that the interval says little more than that
# there are too few. Ours, no source; it changes what is said and never the interval, so what that holds stays as
# measured. Chosen by simulation (tests/benchmarks/dating.py prints both): without a limit, of ten labels those few
# intervals that are short missed an end too often; within one, of those told as many hold as stated, all courses of
# production taken together (of 5 labels 87.5 in 100 where it ran out with the square).
TOLD_WITHIN, FEWEST_TO_TELL = 1.0, 11


@dataclass(frozen=True)
class Documented:
    """What papers say, each None where none says it: the first and last year of making themselves, or limits to them.

    A year of making that is only estimated is no documented one. `why_not_before`, `why_not_after`: what stands behind
    a limit, to follow its year in a sentence.
    """

    first: int | None = None
    last: int | None = None
    not_before: int | None = None
    not_after: int | None = None
    why_not_before: str = ""
    why_not_after: str = ""


@dataclass(frozen=True)
class Narrowing:
    """What would make the interval shorter.

    `low` and `high`: about where it would stand with `labels` more label years between those seen; None where none are
    left between. `open_before` and `open_after`: years that a label from there, or a paper, would settle.
    """

    labels: int
    low: int | None
    high: int | None
    open_before: int
    open_after: int


@dataclass(frozen=True)
class VersionDates:
    """When a version was made, as far as label years tell.

    `first`–`last`: the span seen. `low`–`high`: the interval that holds both true ends at this level, in whole years
    rounded outward; None under three distinct years unless both ends are documented. `about_first`, `about_last`: the
    best single guesses, by the mean gap. `pieces`, `distinct`: dated pieces, and different years among them.
    `against`: label years that documented dates rule out; they are left out of the interval's limits but not of the
    span seen.
    """

    first: int
    last: int
    low: int | None
    high: int | None
    about_first: int | None
    about_last: int | None
    pieces: int
    distinct: int
    level: float
    documented: Documented
    against: tuple[int, ...]
    narrowing: Narrowing | None

    @property
    def begin_told(self) -> bool:
        """Whether papers or the labels say well enough when production began."""
        limit = self.documented.not_before
        inside = limit is not None and self.low is not None and (self.low > limit or self.first == limit)
        return self.documented.first is not None or inside or self.near_enough(self.low, self.first)

    @property
    def end_told(self) -> bool:
        """Whether papers or the labels say well enough when production ended."""
        limit = self.documented.not_after
        inside = limit is not None and self.high is not None and (self.high < limit or self.last == limit)
        return self.documented.last is not None or inside or self.near_enough(self.last, self.high)

    def near_enough(self, early: int | None, late: int | None) -> bool:
        if early is None or late is None or self.distinct < FEWEST_TO_TELL:
            return False
        return late - early <= TOLD_WITHIN * (self.last - self.first + 1)


def date_version(
    label_years: Iterable[int], documented: Documented | None = None, *, level: float = 0.95
) -> VersionDates | None:
    """The dates of a version, or None without any label year. The order of the years makes no difference.

    Raises ValueError for a level outside 0 to 1.
    """
    if not 0 < level < 1:
        raise ValueError("the level lies between 0 and 1")
    years = sorted(label_years)
    if not years:
        return None
    said = documented or Documented()
    wrong = {year for year in set(years) if outside(year, said)}
    against = tuple(year for year in years if year in wrong)
    kept = sorted(set(years) - wrong)
    ends = interval(tuple(kept), said, level) if len(kept) >= FEWEST_YEARS else documented_ends(said)
    low, about_first, about_last, high = ends
    return VersionDates(
        first=years[0],
        last=years[-1],
        low=low,
        high=high,
        about_first=about_first,
        about_last=about_last,
        pieces=len(years),
        distinct=len(set(years)),
        level=level,
        documented=said,
        against=against,
        narrowing=narrowing(kept, said, level, low, high) if kept else None,
    )


def outside(year: int, said: Documented) -> bool:
    early = [limit for limit in (said.first, said.not_before) if limit is not None]
    late = [limit for limit in (said.last, said.not_after) if limit is not None]
    return any(year < limit for limit in early) or any(year > limit for limit in late)


def documented_ends(said: Documented) -> tuple[int | None, int | None, int | None, int | None]:
    """Too few labels for an interval: the documented years themselves, where both are known."""
    if said.first is None or said.last is None:
        return None, None, None, None
    return said.first, said.first, said.last, said.last


def narrowing(kept: Sequence[int], said: Documented, level: float, low: int | None, high: int | None) -> Narrowing:
    """Under three distinct years only the years that a label or a paper would have to come from."""
    missing = [year for year in range(kept[0], kept[-1] + 1) if year not in kept]
    wanted = min(MORE_LABELS, len(missing))
    low_then = high_then = None
    if low is None or high is None:
        before = 0 if said.first is not None or said.not_before == kept[0] else 1
        after = 0 if said.last is not None or said.not_after == kept[-1] else 1
        return Narrowing(0, None, None, before, after)
    if wanted and len(kept) >= FEWEST_YEARS:
        step = len(missing) / wanted
        more = [missing[floor((place + 0.5) * step)] for place in range(wanted)]
        low_then, _, _, high_then = interval(tuple(sorted([*kept, *more])), said, level)
        # More labels never make it wider; the grid's own rounding may.
        low_then, high_then = max(low, low_then), min(high, high_then)
    return Narrowing(wanted, low_then, high_then, kept[0] - low, high - kept[-1])


@lru_cache(maxsize=4096)
def interval(years: tuple[int, ...], said: Documented, level: float) -> tuple[int, int, int, int]:
    """Low, the best guesses of both ends, and high, from at least three distinct years in order."""
    first, last = years[0], years[-1]
    span = last - first + 1
    before, after = reaches(span), reaches(span)
    chances = chances_of_ends(np.array(years), before, after)
    limits = (max_of(said.first, said.not_before), min_of(said.last, said.not_after))
    early = limited(chances.sum(axis=1), before, first - limits[0] if limits[0] is not None else None)
    late = limited(chances.sum(axis=0), after, limits[1] - last if limits[1] is not None else None)
    plain = both_ends_reach(level, len(years)) * span
    # The grid has two shapes to weigh besides the ends, and few years cannot tell a steep tail from a sudden end: the
    # chance of missing an end is lowered by two years out of all. Ours, no source; chosen by simulation.
    tail = 1 - (1 - level) / 2 * (len(years) - 2) / len(years)
    low = min(first - quantile(early, before, tail), floor(first - plain))
    high = max(last + quantile(late, after, tail), ceil(last + plain))
    # The mean gap is the published guess of an end (Strauss & Sadler 1989); years without a gap lie one apart.
    gap = round((last - first) / (len(years) - 1)) - 1
    about_first, about_last = first - gap, last + gap
    if limits[0] is not None:
        low = max(low, limits[0])
    if limits[1] is not None:
        high = min(high, limits[1])
    if said.first is not None:
        low = about_first = said.first
    if said.last is not None:
        high = about_last = said.last
    return low, max(low, about_first), min(high, about_last), high


def max_of(*limits: int | None) -> int | None:
    return max((limit for limit in limits if limit is not None), default=None)


def min_of(*limits: int | None) -> int | None:
    return min((limit for limit in limits if limit is not None), default=None)


def reaches(span: int) -> np.ndarray:
    """How far beyond the years seen an end may lie: year by year at first, then in growing steps."""
    farthest = max(FARTHEST * span, LEAST_FARTHEST)
    growing = np.round(np.geomspace(NEAR, farthest, STEPS - NEAR)).astype(int)
    return np.unique(np.concatenate([np.arange(NEAR), growing]))


def widths(reach: np.ndarray) -> np.ndarray:
    """How many years each step stands for."""
    return np.diff(np.append(reach, 2 * reach[-1] - reach[-2]))


def chances_of_ends(years: np.ndarray, before: np.ndarray, after: np.ndarray) -> np.ndarray:
    """Chance of each pair of ends, `before` the first year by `after` the last, over all shapes and plenties.

    A year of production f (its share of the whole) is seen with 1 - exp(-N f) where N labels are found in all, so the
    years not seen need not be gone through one by one: their shares sum to one less those seen. Beforehand a pair of
    ends is as likely as one over their distance, with which even production gives Strauss & Sadler again.
    """
    width_before, width_after = widths(before), widths(after)
    begin = years[0] - before - (width_before - 1) / 2
    end = years[-1] + 1 + after + (width_after - 1) / 2
    length = end[None, :] - begin[:, None]
    done = (years[None, None, :] + 0.5 - begin[:, None, None]) / length[:, :, None]
    begun, left = np.log(done), np.log1p(-done)
    found = []
    for (rise, p_rise), (fall, p_fall) in product(SHAPES.items(), repeat=2):
        whole = gamma(rise) * gamma(fall) / gamma(rise + fall)
        share = np.exp((rise - 1) * begun + (fall - 1) * left) / (whole * length[:, :, None])
        unseen = 1 - share.sum(axis=-1)
        for plenty in PLENTY:
            labels = plenty * len(years)
            seen = np.log(-np.expm1(-labels * share)).sum(axis=-1)
            found.append(seen - labels * unseen + np.log(p_rise * p_fall))
    logs = np.array(found) - np.log(length)
    chances = np.exp(logs - logs.max()).sum(axis=0) * width_before[:, None] * width_after[None, :]
    return chances / chances.sum()


def limited(chances: np.ndarray, reach: np.ndarray, most: int | None) -> np.ndarray:
    """The chances with what reaches beyond `most` years left out; a limit at the last label leaves the first step."""
    if most is None:
        return chances
    kept = np.where(reach <= most, chances, 0.0)
    return kept / kept.sum()


def quantile(chances: np.ndarray, reach: np.ndarray, level: float) -> int:
    """The reach up to which the chances come to `level`, a step taken to be even inside, rounded outward."""
    sums = np.cumsum(chances)
    place = min(int(np.searchsorted(sums, level)), len(reach) - 1)
    below = sums[place - 1] if place else 0.0
    inside = (level - below) / chances[place] if chances[place] else 0.0
    return int(reach[place] + ceil((widths(reach)[place] - 1) * min(max(inside, 0.0), 1.0)))
