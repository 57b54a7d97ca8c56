"""How the share of a later state grows over the years: one curve with its doubt, and the plainest one without a shape.

The curve is a logistic one between two floors: pieces of either state turn up at any time, repaired or wrongly dated.
Its middle, its length and its floors are weighed on a fixed grid, so that two states that never meet, where the best
curve would be infinitely steep, are no special case. The middle is told by what all the curves together make likely.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

MOST_MIDDLES = 160
FINEST = 0.2  # of a year, between two middles
# How long a change takes, in the scale of the curve: from 10 to 90 % it takes 4.4 times as long.
SHORTEST, LENGTHS = 0.15, 9
FLOORS = np.array([0.005, 0.02, 0.05, 0.1])
# How likely it is beforehand that a maker changed in a year of its own. Ours, no source; chosen by simulation, see
# tests/benchmarks/dating.py.
APART = 0.1


@dataclass(frozen=True)
class Curve:
    """The weighed curves: `middles` with `weights`, and the share of the later state expected in each year.

    `middles` are on the line of years where a whole number is the label year itself: 1985.5 is between the labels of
    1985 and of 1986. `years` and `share` hold the expected share, without the pieces of the floors.
    """

    middles: np.ndarray
    weights: np.ndarray
    years: np.ndarray
    share: np.ndarray
    floor: float

    def quantile(self, level: float) -> float:
        return float(self.middles[min(np.searchsorted(np.cumsum(self.weights), level), len(self.middles) - 1)])

    def share_in(self, year: float) -> float:
        return float(np.interp(year, self.years, self.share))

    def chance_of_later(self, year: float) -> float:
        """Chance that a piece of this year shows the later state, repaired and misdated ones counted in."""
        return self.floor + (1 - 2 * self.floor) * self.share_in(year)


def weighed_curve(years: np.ndarray, later: np.ndarray) -> Curve:
    """The curves that dated pieces leave possible; `later` is true where a piece shows the later state.

    Every middle between the first and the last year is as likely beforehand as any other, every length on a scale of
    ratios, every floor. Takes whole years; the order of the pieces makes no difference.
    """
    return curve_of_makers(years, later, np.full(len(years), -1))[0]


def curve_of_makers(years: np.ndarray, later: np.ndarray, maker: np.ndarray) -> tuple[Curve, np.ndarray]:
    """The curves that the makers left possible who changed together, and for each maker the chance that it did not.

    `maker` is the number of the maker of each piece, from 0 up; pieces under -1 are never apart. A maker apart changed
    in a year of its own, each as likely as any other, at the length and with the floors of the rest. Which makers are
    apart is not settled first: all ways are weighed, so that a maker under suspicion keeps the years open.
    """
    seen, place = np.unique(np.asarray(years, dtype=int), return_inverse=True)
    maker, later = np.asarray(maker, dtype=int), np.asarray(later, dtype=bool)
    first, last = int(seen[0]), int(seen[-1])
    middles, shares = grid(first, last)
    number = int(maker.max()) + 1
    # One row for each maker, the last (-1) for the pieces that are never apart.
    earlier, with_later = (
        np.bincount((maker * len(seen) + place)[those] % ((number + 1) * len(seen)), minlength=(number + 1) * len(seen))
        .reshape(number + 1, len(seen))
        .astype(float)
        for those in (~later, later)
    )
    chances = log_chances(shares[seen - first], earlier, with_later, FLOORS)
    own_year = np.log(np.exp(chances[:number] - chances[:number].max(axis=1, keepdims=True)).mean(axis=1))
    own_year += chances[:number].max(axis=1) if number else 0.0
    alone = np.log(APART) + own_year[:, None]
    either = np.logaddexp(np.log1p(-APART) + chances[:number], alone)
    whole = either.sum(axis=0) + chances[number]
    weights = np.exp(whole - whole.max())
    weights /= weights.sum()
    apart = (weights * np.exp(alone - either)).sum(axis=(1, 2, 3))
    all_years = np.arange(first, last + 1, dtype=float)
    share = np.tensordot(shares, weights.sum(axis=2).T, axes=2)
    floor = float(weights.sum(axis=(0, 1)) @ FLOORS)
    return Curve(middles, weights.sum(axis=(1, 2)), all_years, share, floor), apart


@lru_cache(maxsize=16)
def grid(first: int, last: int) -> tuple[np.ndarray, np.ndarray]:
    """The middles, and the share of the later state in each year under each length and middle (an array of these three
    axes). The curves of one type mostly run over the same years; nobody may write into them."""
    step = max(FINEST, (last - first + 1) / MOST_MIDDLES)
    middles = np.arange(first - 0.5 + step / 2, last + 0.5, step)
    longest = max((last - first) / 4, 4 * SHORTEST)
    lengths = np.geomspace(SHORTEST, longest, LENGTHS)
    years = np.arange(first, last + 1, dtype=float)
    shares = logistic((years[:, None, None] - middles) / lengths[:, None])
    middles.flags.writeable = shares.flags.writeable = False
    return middles, shares


def log_chances(shares: np.ndarray, earlier: np.ndarray, later: np.ndarray, floors: np.ndarray) -> np.ndarray:
    """Log of the chance of what was seen under each middle, length and floor, the last three axes of what is returned.

    `shares` by year, length and middle; `earlier` and `later` are the numbers of pieces in each of these years, one row
    for each maker or none.
    """
    lengths, middles = shares.shape[1:]
    chance = floors[:, None] + (1 - 2 * floors[:, None]) * shares.transpose(2, 1, 0).reshape(-1, 1, len(shares))
    found = np.log(chance) @ np.transpose(later) + np.log(1 - chance) @ np.transpose(earlier)
    return np.moveaxis(found, (0, 1), (-2, -1)).reshape(*np.shape(later)[:-1], middles, lengths, len(floors))


def logistic(steps: np.ndarray) -> np.ndarray:
    """1 / (1 + e^-x), safe for any x."""
    return 0.5 * (1 + np.tanh(steps / 2))


def never_falling(shares: np.ndarray, weights: np.ndarray) -> np.ndarray:
    """The never falling row nearest to `shares` in weighted squares: neighbours that fall are pooled (isotonic).

    `weights` are above 0. Returns an array as long as `shares`.
    """
    means: list[float] = []
    masses: list[float] = []
    lengths: list[int] = []
    for share, weight in zip(shares, weights, strict=True):
        means.append(float(share))
        masses.append(float(weight))
        lengths.append(1)
        while len(means) > 1 and means[-2] >= means[-1]:
            mass = masses[-2] + masses[-1]
            means[-2:] = [(means[-2] * masses[-2] + means[-1] * masses[-1]) / mass]
            masses[-2:] = [mass]
            lengths[-2:] = [lengths[-2] + lengths[-1]]
    return np.repeat(means, lengths)
