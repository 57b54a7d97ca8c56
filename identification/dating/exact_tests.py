"""Tests by counting every way in which chance could have dealt the states, within strata; and corrections for many.

A stratum holds pieces that are alike in something else, such as their maker. Within each, every way of dealing the
states to its pieces is taken to be as likely as any other, and the sums over all strata are compared. So a difference
between strata never passes for one within them.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import comb, erfc, exp, gcd, lgamma, sqrt

import numpy as np

# Above this many steps the exact distribution gives way to the normal one, which is then close.
MOST_STEPS = 1e6
# Above so many pieces whole numbers grow too long to count with: their logarithms do.
MANY = 1000


@dataclass(frozen=True)
class Tested:
    """A two-sided chance `p` and what it rests on.

    `least`: the smallest p that any dealing could have given; where that is not small the test can show nothing.
    `pieces`: those in strata that can say something. `side`: 1 where the chosen have the higher scores, else -1.
    `shift`: how far the sum lies from what chance would give, in standard deviations.
    """

    p: float
    least: float
    pieces: int
    side: int
    shift: float
    exact: bool


NOTHING = Tested(p=1.0, least=1.0, pieces=0, side=1, shift=0.0, exact=True)


def doubled_ranks(values: Sequence[float] | np.ndarray) -> np.ndarray:
    """Twice the rank of each value, ties sharing the mean rank: whole numbers from 2."""
    values = np.asarray(values)
    if values.dtype.kind == "i" and len(values) and int(values.max()) - int(values.min()) < len(values) + MANY:
        # Years, and whatever else is whole and close together, are counted instead of sorted.
        numbers = np.bincount(values - values.min())
        of_value = 2 * np.cumsum(numbers) - numbers + 1
        return of_value[values - values.min()]
    ordered = np.sort(values.astype(float))
    return np.searchsorted(ordered, values, "left") + np.searchsorted(ordered, values, "right") + 1


def in_strata(strata: Iterable, *columns: Iterable) -> list[tuple[np.ndarray, ...]]:
    """The columns as arrays, parted by the names in `strata`, in the order of the names as text."""
    names = list(strata)
    held = [np.asarray(list(column)) for column in columns]
    order: dict = {}
    for place, name in enumerate(names):
        order.setdefault(name, []).append(place)
    return [tuple(column[order[name]] for column in held) for name in sorted(order, key=repr)]


def rank_sum_test(
    strata: Iterable[tuple[np.ndarray, np.ndarray]], *, most_least: float = 1.0, far_from_sure: float = 1.0
) -> Tested:
    """Whether the chosen have higher or lower values, ranked within each stratum: (values, chosen) for each.

    One stratum: the Wilcoxon-Mann-Whitney test with ties. Several: their rank sums added, compared with every dealing
    within the strata. `most_least` and `far_from_sure` as `sum_test` has them.
    """
    ranked = [(doubled_ranks(values), chosen) for values, chosen in strata if len(values)]
    return sum_test(ranked, most_least, far_from_sure)


def share_test(strata: Iterable[tuple[np.ndarray, np.ndarray]]) -> Tested:
    """Whether being marked goes with being chosen: (marked, chosen) for each stratum.

    One stratum: Fisher's exact test, its smaller tail doubled. Several: the exact form of Cochran, Mantel, Haenszel.
    """
    return sum_test([(np.asarray(marked).astype(int), chosen) for marked, chosen in strata])


def sum_test(
    strata: Iterable[tuple[np.ndarray, np.ndarray]], most_least: float = 1.0, far_from_sure: float = 1.0
) -> Tested:
    """The sum of the whole-number scores of the chosen against all dealings: (scores, chosen) for each stratum.

    p is twice the smaller tail, at most 1. Strata where all or none are chosen, or all scores are the same, say
    nothing and are left out. Where `least` lies above `most_least` the dealings are not counted, and p is 1; nor are
    they where the normal distribution gives a p above `far_from_sure`, which is then told.
    """
    telling: list[tuple[np.ndarray, int]] = []  # the sorted scores of a stratum, and how many are chosen
    found, mean, variance, steps = 0, 0.0, 0.0, 0
    for scores, chosen in strata:
        values, picked = np.asarray(scores, dtype=np.int64), np.asarray(chosen, dtype=bool)
        size, some = len(values), int(np.count_nonzero(picked))
        if not 0 < some < size:
            continue
        lowest, highest = int(values.min()), int(values.max())
        if lowest == highest:
            continue
        values = values - lowest
        # Ranks of pieces that come by year are in order already, which a stable sort sees.
        telling.append((np.sort(values, kind="stable"), some))
        found += int(values[picked].sum())
        whole, squares = int(values.sum()), int((values * values).sum())
        mean += some * (whole / size)
        # Whole numbers until the last: size * squares - whole**2 is size times the sum of the squared deviations.
        variance += some * (size - some) * (size * squares - whole * whole) / (size * size * (size - 1))
        steps += whole * some * size
    if not telling:
        return NOTHING
    away = found - mean
    exact = steps <= MOST_STEPS
    least = least_chance(telling)
    by_normal = normal_chance(max(abs(away) - 0.5, 0) / sqrt(variance))
    exact = exact and (least > most_least or by_normal <= far_from_sure)
    if exact and least > most_least:
        p = 1.0
    elif exact:
        p = exact_chance([dealt(tuple(values.tolist()), some) for values, some in telling], found)
    else:
        p = by_normal
    return Tested(
        p=p,
        least=least,
        pieces=sum(len(values) for values, _ in telling),
        side=1 if away >= 0 else -1,
        shift=away / sqrt(variance),
        exact=exact,
    )


def normal_chance(deviations: float) -> float:
    """Both tails of the normal distribution beyond so many standard deviations."""
    return erfc(deviations / sqrt(2))


@lru_cache(maxsize=256)
def dealt(values: tuple[int, ...], some: int) -> np.ndarray:
    """Chance of each sum of `some` of the sorted values, from 0 up, every dealing equally likely.

    Value by value, with the number already taken: the recurrence of the hypergeometric distribution. The features of a
    type are mostly seen on the same pieces, so the same dealings come again and again; nobody may write into them.
    """
    top = sum(values[-some:])
    if 2 * some > len(values):
        # The sum of those not taken says as much, with fewer steps.
        others = dealt(values, len(values) - some)
        chances = np.zeros(top + 1)
        lowest = sum(values) - len(others) + 1
        chances[lowest:] = others[::-1][: top + 1 - lowest]
        chances.flags.writeable = False
        return chances
    unit = gcd(*values)
    ways = np.zeros((some + 1, top // unit + 1))
    ways[0, 0] = 1.0
    seen, reached, left = 0, 0, len(values)
    for value, count in Counter(value // unit for value in values).items():
        left -= count
        # Only what can be there by now, and can still come to `some` with those that are left.
        before = ways[: min(seen, some) + 1, : reached + 1].copy()
        for taken in range(1, min(count, some) + 1):
            from_row, rows = max(0, some - left - taken), min(seen, some - taken) + 1
            step = value * taken
            width = min(before.shape[1], ways.shape[1] - step)
            if width <= 0:
                break
            if from_row < rows:
                factor = float(comb(count, taken))
                ways[from_row + taken : rows + taken, step : step + width] += factor * before[from_row:rows, :width]
        seen += count
        reached = min(reached + value * count, ways.shape[1] - 1)
    chances = np.zeros(top + 1)
    chances[::unit] = ways[some] / ways[some].sum()
    chances.flags.writeable = False
    return chances


def exact_chance(distributions: Sequence[np.ndarray], found: int) -> float:
    """Twice the smaller tail of the sum of independent whole numbers."""
    whole = np.ones(1)
    for one in distributions:
        whole = np.convolve(whole, one)
    # What is as likely but for rounding belongs to the tail.
    return float(min(1.0, 2 * min(whole[: found + 1].sum(), whole[found:].sum())))


def least_chance(telling: Sequence[tuple[np.ndarray, int]]) -> float:
    """Twice the chance of the rarer of the two extremes: all chosen lowest, or all highest, in every stratum."""
    low = high = 1.0
    for values, some in telling:
        size = len(values)
        first, behind = alike_from(values, values[some - 1])
        low *= chance_to_draw(behind - first, some - first, size, some)
        first, behind = alike_from(values, values[-some])
        high *= chance_to_draw(behind - first, some - (size - behind), size, some)
    return min(1.0, 2 * min(low, high))


def alike_from(ordered: np.ndarray, value: int) -> tuple[int, int]:
    """Where the values equal to this one begin, and where they have ended."""
    return int(np.searchsorted(ordered, value, "left")), int(np.searchsorted(ordered, value, "right"))


def chance_to_draw(alike: int, taken: int, size: int, some: int) -> float:
    """Chance that `some` of the values are an extreme, or values equal to it: `taken` of its last are `alike`."""
    if size > MANY:
        return exp(log_ways(alike, taken) - log_ways(size, some))
    # A whole number over a whole number: for many pieces no float holds either of them.
    return comb(alike, taken) / comb(size, some)


def log_ways(size: int, some: int) -> float:
    """Logarithm of the number of ways to take some of so many."""
    return lgamma(size + 1) - lgamma(some + 1) - lgamma(size - some + 1)


def trend_test(strata: Iterable[tuple[np.ndarray, np.ndarray]], *, tries: int = 4999, seed: int = 1) -> Tested:
    """Whether two quantities rise or fall together, by their ranks within each stratum: (one, other) for each.

    `tries` dealings drawn from the generator of this seed, the one found counted among them (Phipson & Smyth 2010,
    from memory), so p is never 0; above 500 pieces the normal distribution. One stratum: Spearman's rank correlation.
    """
    ranked = [(doubled_ranks(one), doubled_ranks(other)) for one, other in strata if len(one) > 1]
    pairs = [(x - x.mean(), y - y.mean()) for x, y in ranked]
    pairs = [(x, y) for x, y in pairs if np.abs(x).max() > 0 and np.abs(y).max() > 0]
    if not pairs:
        return NOTHING
    found = sum(float(x @ y) for x, y in pairs)
    deviation = sqrt(sum(float(x @ x) * float(y @ y) / (len(x) - 1) for x, y in pairs))
    pieces = sum(len(x) for x, _ in pairs)
    if pieces > 500:
        p, least = normal_chance(abs(found) / deviation), 0.0
    else:
        draw = np.random.default_rng(seed)
        sums = sum(draw.permuted(np.tile(x, (tries, 1)), axis=1) @ y for x, y in pairs)
        beyond = int((np.abs(sums) >= abs(found) * (1 - 1e-12)).sum())
        p, least = (beyond + 1) / (tries + 1), 1 / (tries + 1)
    side = 1 if found >= 0 else -1
    return Tested(p=p, least=least, pieces=pieces, side=side, shift=found / deviation, exact=False)


def signed_rank_test(differences: Iterable[float]) -> Tested:
    """Whether differences within pieces lean to one side: the signed-rank test of Wilcoxon 1945, ties shared.

    Differences of nought say nothing and are left out. `side`: 1 where the positive ones weigh more.
    """
    values = np.array([d for d in differences if d], dtype=float)
    if not len(values):
        return NOTHING
    ranks = doubled_ranks(np.abs(values))
    found, whole = int(ranks[values > 0].sum()), int(ranks.sum())
    deviation = sqrt(float((ranks.astype(float) ** 2).sum())) / 2
    exact = len(values) <= 200
    if exact:
        p = exact_chance([np.bincount([0, int(rank)]) / 2 for rank in ranks], found)
    else:
        p = normal_chance(max(abs(found - whole / 2) - 0.5, 0) / deviation)
    least = min(1.0, 2.0 ** (1 - len(values)))
    side = 1 if found >= whole / 2 else -1
    return Tested(p, least, len(values), side, (found - whole / 2) / deviation, exact)


def holm(chances: Sequence[float]) -> list[float]:
    """Chances made larger so that all those below 0.05 together are wrong in at most 5 % of such sets: Holm 1979."""
    order = sorted(range(len(chances)), key=lambda place: chances[place])
    raised = [1.0] * len(chances)
    highest = 0.0
    for step, place in enumerate(order):
        highest = max(highest, min(1.0, (len(chances) - step) * chances[place]))
        raised[place] = highest
    return raised


def false_discovery(chances: Sequence[float]) -> list[float]:
    """Chances made larger so that of those below 0.05 some 5 % are wrong on average: Benjamini & Hochberg 1995."""
    order = sorted(range(len(chances)), key=lambda place: chances[place], reverse=True)
    raised = [1.0] * len(chances)
    lowest = 1.0
    for step, place in enumerate(order):
        lowest = min(lowest, chances[place] * len(chances) / (len(chances) - step))
        raised[place] = lowest
    return raised
