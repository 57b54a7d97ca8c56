"""How far the true span of production may reach beyond the dated pieces."""

from math import inf


def coverage(reach: float, number: int) -> float:
    """Chance that both true ends lie within `reach` × the observed range beyond it, for evenly spread dates.

    1 - 2(1+α)^(1-n) + (1+2α)^(1-n): Strauss & Sadler 1989, Mathematical Geology 21:411, both ends at once.
    """
    return 1 - 2 * (1 + reach) ** (1 - number) + (1 + 2 * reach) ** (1 - number)


def range_ends(years: list[float], level: float) -> dict[str, float]:
    """`first`, `last` seen and `low`, `high`: the ends at this level, years as real numbers.

    Raises ValueError under two years, or for a level that is no chance; with two years the ends are open (inf).
    """
    if len(years) < 2 or not 0 < level < 1:
        raise ValueError("two or more years and a level between 0 and 1 are needed")
    first, last = min(years), max(years)
    if len(years) == 2 or first == last:
        reach = inf if first < last else 0.0
    else:
        reach = reach_for(level, len(years))
    margin = reach * (last - first) if first < last else 0.0
    return {"first": first, "last": last, "low": first - margin, "high": last + margin}


def reach_for(level: float, number: int) -> float:
    """α with `coverage(α, n) = level`, by halving."""
    low, high = 0.0, 1.0
    while coverage(high, number) < level:
        high *= 2
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if coverage(middle, number) < level else (low, middle)
    return (low + high) / 2
