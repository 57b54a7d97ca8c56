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
# Chances of so many pieces are multiplied before a logarithm is taken: 0.005 to the power of these is still a number.
MULTIPLIED = 100
FEW_ALIKE = 8  # so many multiplications cost less than one logarithm


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


def counts_by_year(years: np.ndarray, later: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Each year once, with the number of pieces of the earlier and of the later state."""
    seen, place = np.unique(np.asarray(years, dtype=int), return_inverse=True)
    with_later = np.bincount(place, weights=np.asarray(later, dtype=float), minlength=len(seen))
    return seen, np.bincount(place, minlength=len(seen)) - with_later, with_later


def weighed_curve(years: np.ndarray, later: np.ndarray) -> Curve:
    """The curves that dated pieces leave possible; `later` is true where a piece shows the later state.

    Every middle between the first and the last year is as likely beforehand as any other, every length on a scale of
    ratios, every floor. Takes whole years; the order of the pieces makes no difference.
    """
    seen, earlier, with_later = counts_by_year(years, later)
    first, last = int(seen[0]), int(seen[-1])
    middles, shares = grid(first, last)
    chances = log_chances(shares[seen - first], earlier, with_later, FLOORS)
    weights = np.exp(chances - chances.max())
    weights /= weights.sum()
    all_years = np.arange(first, last + 1, dtype=float)
    by_curve = weights.sum(axis=2)
    share = np.tensordot(shares, by_curve.T, axes=2)
    return Curve(middles, weights.sum(axis=(1, 2)), all_years, share, float(weights.sum(axis=(0, 1)) @ FLOORS))


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
    """Log of the chance of what was seen under each middle, length and floor (an array of these three axes).

    `shares` by year, length and middle; `earlier` and `later` are the numbers of pieces in each of these years.
    """
    floors = floors[:, None, None]
    found = np.zeros((len(floors), *shares.shape[1:]))
    product, pieces = np.ones_like(found), 0
    for share, old, new in zip(shares, earlier.astype(int).tolist(), later.astype(int).tolist(), strict=True):
        chance = floors + (1 - 2 * floors) * share
        for chances, number in ((chance, new), (1 - chance, old)):
            if number > FEW_ALIKE:
                found += number * np.log(chances)
                continue
            for _ in range(number):
                product *= chances
            pieces += number
        if pieces >= MULTIPLIED:
            found += np.log(product)
            product, pieces = np.ones_like(found), 0
    return np.ascontiguousarray((found + np.log(product)).transpose(2, 1, 0))


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
