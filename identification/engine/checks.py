"""The shortest set of checks that tells versions apart, and the order in which they are least trouble.

A check is a feature; it separates two versions when both are recorded and no state occurs in both. The fewest
checks that separate all the pairs wanted are a minimum set cover (covering.py); over all pairs of a table this is the
minimum test collection (Garey & Johnson 1979, SP6; from memory).

Order: people stop as soon as they know. A piece of version t is settled when every wanted pair of t is separated;
with version v against its neighbours, a neighbour is settled by the first check that v fails, v itself by all of them.
The expected effort is Σ effort of a check × share of the pieces not settled before it. Its least value is found by
dynamic programming over sets of checks (Held & Karp 1962, J. SIAM 10:196; from memory).
"""

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from math import inf

from identification.engine.covering import MOST_LOOKS, fewest_columns

# The order of more checks than this is chosen step by step: most pieces settled for the effort.
MOST_ORDERED = 12
Pair = tuple[Hashable, Hashable]


@dataclass(frozen=True)
class Checks:
    """Checks in the order in which to make them.

    `exact`: no fewer would do, and no other so many take less effort. `newly`: for each check the pairs that it
    separates and none before it. `unseparated`: pairs that none of the features offered tells apart.
    `expected_effort`: of a piece drawn among the versions by weight, in this order.
    """

    features: tuple[str, ...]
    newly: tuple[tuple[Pair, ...], ...]
    unseparated: tuple[Pair, ...]
    exact: bool
    expected_effort: float


def smallest_checks(
    apart: Mapping[Pair, Sequence[str]],
    efforts: Mapping[str, float],
    weights: Mapping[Hashable, float] | None = None,
    *,
    most_looks: int = MOST_LOOKS,
) -> Checks:
    """The fewest features that separate every pair that can be separated, of those the least effort; and their order.

    `apart`: for each pair the features that separate it. `efforts`: the features that may be used, each with its
    effort; their order settles ties. `weights`: how common each version is (even, if not given).
    """
    names = list(efforts)
    pairs = list(apart)
    usable = [frozenset(apart[pair]) & efforts.keys() for pair in pairs]
    columns = [sum(1 << row for row, features in enumerate(usable) if name in features) for name in names]
    cover = fewest_columns(columns, [efforts[name] for name in names], most_looks)
    needs = needs_of(pairs, usable, weights)
    order = cheapest_order({c: columns[c] for c in cover.columns}, {c: efforts[names[c]] for c in cover.columns}, needs)
    newly, done = [], 0
    for column in order:
        newly.append(tuple(pair for row, pair in enumerate(pairs) if columns[column] & ~done & 1 << row))
        done |= columns[column]
    return Checks(
        features=tuple(names[column] for column in order),
        newly=tuple(newly),
        unseparated=tuple(pair for pair, features in zip(pairs, usable, strict=True) if not features),
        exact=cover.exact,
        expected_effort=effort_of(order, columns, {c: efforts[names[c]] for c in order}, needs),
    )


def needs_of(pairs: Sequence[Pair], usable, weights) -> list[tuple[float, int]]:
    """For each version its share of the pieces, and the rows of its pairs that can be separated."""
    rows: dict[Hashable, int] = {}
    for row, pair in enumerate(pairs):
        for version in pair:
            rows[version] = rows.get(version, 0) | (1 << row if usable[row] else 0)
    given = {version: 1.0 if weights is None else float(weights[version]) for version in rows}
    whole = sum(given.values())
    even = 1 / max(len(rows), 1)
    return [(given[version] / whole if whole else even, wanted) for version, wanted in rows.items()]


def unsettled(done: int, needs: Sequence[tuple[float, int]]) -> float:
    """Share of the pieces of which something is still to be told when the pairs in `done` are separated."""
    return sum(share for share, wanted in needs if wanted & ~done)


def effort_of(order: Sequence[int], columns, efforts: Mapping[int, float], needs) -> float:
    """Expected effort of making the checks in this order."""
    total, done = 0.0, 0
    for column in order:
        total += efforts[column] * unsettled(done, needs)
        done |= columns[column]
    return total


def cheapest_order(columns: Mapping[int, int], efforts: Mapping[int, float], needs) -> tuple[int, ...]:
    """The order of least expected effort; ties to the earlier columns."""
    if len(columns) > MOST_ORDERED:
        return step_by_step(columns, efforts, needs)
    places = sorted(columns)
    least: list[tuple[float, tuple[int, ...]]] = [(0.0, ())] + [(inf, ())] * ((1 << len(places)) - 1)
    for chosen in range(1, 1 << len(places)):
        for bit, column in enumerate(places):
            if chosen >> bit & 1:
                cost, before = least[chosen ^ 1 << bit]
                done = 0
                for earlier in before:
                    done |= columns[earlier]
                reached = (round(cost + efforts[column] * unsettled(done, needs), 12), (*before, column))
                least[chosen] = min(least[chosen], reached)
    return least[-1][1]


def step_by_step(columns: Mapping[int, int], efforts: Mapping[int, float], needs) -> tuple[int, ...]:
    """Next always the check that settles most for its effort."""
    order: list[int] = []
    done, left = 0, set(columns)
    while left:
        now = unsettled(done, needs)
        gain = {column: (now - unsettled(done | columns[column], needs)) / efforts[column] for column in left}
        order.append(max(left, key=lambda column: (gain[column], -efforts[column], -column)))
        done |= columns[order[-1]]
        left.remove(order[-1])
    return tuple(order)
