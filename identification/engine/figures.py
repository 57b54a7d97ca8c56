"""Figures of the trade from plain numbers, over lines of JSON."""

from identification.dating.range_ends import range_ends


def figure(request: dict) -> dict:
    """The answer to one request, or `error`."""
    kinds = {"range_ends": range_ends_figure, "unseen": unseen, "price": price, "agreement": agreement}
    make = kinds.get(request.get("kind"))
    if make is None:
        return {"error": f"kind is one of {', '.join(kinds)}"}
    try:
        return make(request)
    except (KeyError, TypeError, ValueError, ZeroDivisionError) as problem:
        return {"error": f"{request['kind']} cannot be worked out: {problem}"}


def range_ends_figure(request: dict) -> dict:
    return range_ends([float(year) for year in request["years"]], float(request["level"]))


def unseen(request: dict) -> dict:
    """At least how many kinds there are (Chao 1984, with (n-1)/n) and the share of pieces of kinds seen (Good 1953)."""
    counts = [int(count) for count in request["counts"] if int(count) > 0]
    total, once, twice = sum(counts), counts.count(1), counts.count(2)
    extra = once * once / (2 * twice) if twice else once * (once - 1) / 2
    return {"chao1": len(counts) + (total - 1) / total * extra, "coverage": 1 - once / total}


def price(request: dict) -> dict:
    """Weighted inverse of the distribution function (Hyndman & Fan 1996, type 1)."""
    pairs = sorted(zip(map(float, request["prices"]), map(float, request["weights"]), strict=True))
    total = sum(weight for _, weight in pairs)
    if not pairs or total <= 0 or any(weight < 0 for _, weight in pairs):
        raise ValueError("prices and weights of the same number, weights not negative")
    return {"quantiles": [quantile(pairs, total, float(q)) for q in request["quantiles"]]}


def quantile(pairs: list[tuple[float, float]], total: float, share: float) -> float:
    if not 0 <= share <= 1:
        raise ValueError("a quantile lies from 0 to 1")
    reached = 0.0
    for value, weight in pairs:
        reached += weight
        if weight > 0 and reached >= share * total * (1 - 1e-12):
            return value
    return pairs[-1][0]


def agreement(request: dict) -> dict:
    """Krippendorff's alpha for names (nominal), from the coincidences of every two ratings of a unit."""
    units = [[rating for rating in unit if rating is not None] for unit in request["ratings"]]
    units = [unit for unit in units if len(unit) > 1]
    totals: dict = {}
    for unit in units:
        for rating in unit:
            totals[rating] = totals.get(rating, 0) + 1
    number = sum(totals.values())
    seen = sum((len(unit) ** 2 - sum(unit.count(r) ** 2 for r in set(unit))) / (len(unit) - 1) for unit in units)
    expected = (number**2 - sum(count**2 for count in totals.values())) / (number - 1)
    return {"alpha": 1.0 if expected == 0 else 1 - seen / expected}
