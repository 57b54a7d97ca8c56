"""How far the true span of production may reach beyond the dated pieces.

Strauss & Sadler 1989, Mathematical Geology 21:411, for finds spread evenly over the true span.
"""

from collections.abc import Sequence
from math import isfinite


def coverage(reach: float, number: int) -> float:
    """Chance that both true ends lie within `reach` × the observed range beyond it, for `number` dates.

    1 - 2(1+α)^(1-n) + (1+2α)^(1-n): both ends at once.
    """
    return 1 - 2 * (1 + reach) ** (1 - number) + (1 + 2 * reach) ** (1 - number)


def one_end_reach(level: float, number: int) -> float:
    """How far one end alone reaches, in parts of the range: α = (1-C)^(-1/(n-1)) - 1."""
    return (1 - level) ** (-1 / (number - 1)) - 1


def both_ends_reach(level: float, number: int) -> float:
    """α with `coverage(α, n) = level`, found by halving."""
    low, high = 0.0, 1.0
    while coverage(high, number) < level:
        low, high = high, 2 * high
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if coverage(middle, number) < level else (low, middle)
    return (low + high) / 2


def range_ends(years: Sequence[float], level: float) -> dict[str, float]:
    """`first` and `last` seen, and `low` and `high`: the true ends at this level, years as real numbers.

    Raises ValueError for fewer than two years, years that are all the same, or a level outside 0 to 1.
    """
    if not 0 < level < 1:
        raise ValueError("the level lies between 0 and 1")
    if len(years) < 2 or not all(map(isfinite, years)) or min(years) == max(years):
        raise ValueError("two different years at least are needed")
    first, last = min(years), max(years)
    margin = both_ends_reach(level, len(years)) * (last - first)
    return {"first": first, "last": last, "low": first - margin, "high": last + margin}
