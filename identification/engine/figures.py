"""Figures of the trade from plain numbers, as JSON requests and answers."""

from collections import Counter
from collections.abc import Mapping, Sequence
from math import isfinite

from identification.dating.range_ends import range_ends

TAKEN = {
    "range_ends": ("years", "level"),
    "unseen": ("counts",),
    "price": ("prices", "weights", "quantiles"),
    "agreement": ("ratings",),
}


def figure(request: Mapping) -> dict:
    """The answer to one request, or `{"error": words}`."""
    kinds = {
        "range_ends": range_ends_figure,
        "unseen": unseen_figure,
        "price": price_figure,
        "agreement": agreement_figure,
    }
    kind = request.get("kind")
    make = kinds.get(kind) if isinstance(kind, str) else None
    if make is None:
        return {"error": f"kind is one of {', '.join(kinds)}"}
    if unknown := [key for key in request if key not in ("kind", *TAKEN[kind])]:
        return {"error": f"{kind}: {unknown[0][:80]} is not known; it takes {', '.join(TAKEN[kind])}"}
    try:
        return make(request)
    except KeyError as missing:
        return {"error": f"{request['kind']}: {missing.args[0]} is missing"}
    except (TypeError, ValueError) as problem:
        return {"error": f"{request['kind']}: {problem}"}


def range_ends_figure(request: Mapping) -> dict:
    return range_ends(numbers(request, "years"), number(request, "level"))


def unseen_figure(request: Mapping) -> dict:
    counts = numbers(request, "counts")
    if any(count < 0 or count != int(count) for count in counts):
        raise ValueError("counts are whole numbers from 0")
    counts = [int(count) for count in counts if count]
    return {"chao1": at_least(counts), "coverage": coverage(counts)}


def price_figure(request: Mapping) -> dict:
    prices = numbers(request, "prices")
    weights = numbers(request, "weights") if "weights" in request else [1.0] * len(prices)
    return {"quantiles": [weighted_quantile(prices, weights, share) for share in numbers(request, "quantiles")]}


def agreement_figure(request: Mapping) -> dict:
    ratings = request["ratings"]
    if not isinstance(ratings, list) or not all(isinstance(unit, list) for unit in ratings):
        raise ValueError("ratings is a list of units, each a list of ratings or null")
    return {"alpha": nominal_alpha(ratings)}


def numbers(request: Mapping, name: str) -> list[float]:
    values = request[name]
    if not isinstance(values, list) or any(isinstance(v, bool) or not isinstance(v, int | float) for v in values):
        raise ValueError(f"{name} is a list of numbers")
    if not all(map(isfinite, values)):
        raise ValueError(f"{name} holds a number without end")
    return [float(value) for value in values]


def number(request: Mapping, name: str) -> float:
    value = request[name]
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError(f"{name} is a number")
    return float(value)


def at_least(counts: Sequence[int]) -> float:
    """At least so many kinds in all: Chao 1984, S + (n-1)/n f1²/(2 f2), without doubletons f1(f1-1)/2 (from memory).

    `counts`: pieces of each kind seen. A lower bound. Raises ValueError when nothing was seen.
    """
    total, once, twice = counted(counts)
    extra = once * once / (2 * twice) if twice else once * (once - 1) / 2
    return len(counts) + (total - 1) / total * extra


def coverage(counts: Sequence[int]) -> float:
    """Chance that the next piece is of a kind already seen, 1 - f1/n: Good 1953, Biometrika 40:237 (from memory)."""
    total, once, _ = counted(counts)
    return 1 - once / total


def counted(counts: Sequence[int]) -> tuple[int, int, int]:
    if not sum(counts):
        raise ValueError("nothing was counted")
    return sum(counts), list(counts).count(1), list(counts).count(2)


def weighted_quantile(prices: Sequence[float], weights: Sequence[float], share: float) -> float:
    """Smallest price up to which the weights reach `share` of their sum: Hyndman & Fan 1996, type 1 (from memory).

    Raises ValueError for a share outside 0 to 1, no price, weights of another number, below nought or all nought.
    """
    if not prices or len(weights) != len(prices) or min(weights) < 0 or not sum(weights):
        raise ValueError("each price needs a weight from 0, and one of them more than that")
    if not 0 <= share <= 1:
        raise ValueError("a quantile lies from 0 to 1")
    pairs = sorted((price, weight) for price, weight in zip(prices, weights, strict=True) if weight)
    # A tenth added ten times is not quite one: what is reached but for rounding is reached.
    wanted = share * sum(weight for _, weight in pairs) * (1 - 1e-12)
    reached = 0.0
    for price, weight in pairs:
        reached += weight
        if reached >= wanted:
            return price
    return pairs[-1][0]


def nominal_alpha(units: Sequence[Sequence]) -> float:
    """Krippendorff's alpha for names, 1 - observed / expected disagreement; None is no rating (Krippendorff 2011).

    Without any disagreement to expect (one name only) it is 1. Raises ValueError where no unit has two ratings.
    """
    shared = [rated for unit in units if len(rated := [one for one in unit if one is not None]) > 1]
    if not shared:
        raise ValueError("no unit has two ratings")
    totals = Counter(one for unit in shared for one in unit)
    everything = sum(totals.values())
    observed = sum((len(unit) ** 2 - sum(n * n for n in Counter(unit).values())) / (len(unit) - 1) for unit in shared)
    expected = (everything**2 - sum(n * n for n in totals.values())) / (everything - 1)
    return 1.0 if expected == 0 else 1 - observed / expected
