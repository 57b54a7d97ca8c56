"""The fewest columns of a yes-or-no table that leave no row without a yes, and among the fewest those of least effort.

Minimum set cover, by branch and bound; it is NP-hard (Garey & Johnson 1979, Computers and Intractability, problem SP5
and, for tests that tell things apart, SP6; from memory), so the search has a limit and says when it met it. Rows and
columns are numbered; sets of rows are whole numbers used as bits.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import inf

from identification.engine.keys import members

# Rows looked at, not seconds: the same table gives the same answer on every machine. About a second.
MOST_LOOKS = 200_000
# Of more rows than this only those alike are dropped: comparing every two would take longer than the search.
MOST_COMPARED = 2_000
# Sums of efforts that differ by less than this are the same sum.
SAME_EFFORT = 1e-9


@dataclass(frozen=True)
class Cover:
    """Columns in rising order. `exact`: proved to be the fewest and, of those, of least effort."""

    columns: tuple[int, ...]
    exact: bool


def fewest_columns(columns: Sequence[int], efforts: Sequence[float], most_looks: int = MOST_LOOKS) -> Cover:
    """The least cover of all rows that any of the columns has."""
    wanted = 0
    for rows in columns:
        wanted |= rows
    kept = without_dominated(columns, efforts)
    search = Search(
        {place: columns[place] for place in kept},
        {place: float(efforts[place]) for place in kept},
        needed_rows(wanted, [columns[place] for place in kept]),
        most_looks,
    )
    search.run()
    return Cover(tuple(sorted(search.best)), search.looks <= most_looks)


def without_dominated(columns: Sequence[int], efforts: Sequence[float]) -> list[int]:
    """Columns that no other one replaces: one with all its rows that takes no more effort, the earlier of two alike."""
    kept: list[int] = []
    order = sorted(range(len(columns)), key=lambda c: (-columns[c].bit_count(), efforts[c], c))
    for place in order:
        if columns[place] and not any(
            columns[place] & ~columns[other] == 0 and efforts[other] <= efforts[place] for other in kept
        ):
            kept.append(place)
    return sorted(kept)


def needed_rows(wanted: int, columns: Sequence[int]) -> int:
    """The rows that matter: one is dropped where every cover of another row covers it too."""
    holders: dict[int, int] = {}
    for row in members(wanted):
        holders.setdefault(sum(1 << c for c, rows in enumerate(columns) if rows >> row & 1), row)
    needed: list[int] = []
    for held in sorted(holders, key=lambda held: (held.bit_count(), holders[held])):
        if len(holders) > MOST_COMPARED or not any(other & ~held == 0 for other in needed):
            needed.append(held)
    return sum(1 << holders[held] for held in needed)


@dataclass
class Search:
    """Depth first: of the row that fewest columns have, each of them is tried in turn."""

    columns: dict[int, int]
    efforts: dict[int, float]
    wanted: int
    most_looks: int
    best: list[int] = field(default_factory=list)
    cost: tuple[float, float] = (inf, inf)
    looks: int = 0

    def run(self) -> None:
        self.take_if_better(self.greedy())
        self.holders = {
            row: sorted(
                (c for c, rows in self.columns.items() if rows >> row & 1),
                key=lambda c: (-self.columns[c].bit_count(), self.efforts[c], c),
            )
            for row in members(self.wanted)
        }
        self.descend(self.wanted, [], 0.0, frozenset())

    def greedy(self) -> list[int]:
        """Always the column with most open rows: a first answer, never a proof."""
        chosen, open_rows = [], self.wanted
        while open_rows:
            column = max(self.columns, key=lambda c: ((self.columns[c] & open_rows).bit_count(), -self.efforts[c], -c))
            chosen.append(column)
            open_rows &= ~self.columns[column]
        return chosen

    def take_if_better(self, chosen: list[int]) -> None:
        cost = (len(chosen), sum(self.efforts[column] for column in chosen))
        if cost[0] < self.cost[0] or (cost[0] == self.cost[0] and cost[1] < self.cost[1] - SAME_EFFORT):
            self.best, self.cost = list(chosen), cost

    def descend(self, open_rows: int, chosen: list[int], effort: float, barred: frozenset[int]) -> None:
        """Every cover that holds the chosen columns and none of the barred ones, as far as one can still be better."""
        self.looks += 1 + open_rows.bit_count()
        if self.looks > self.most_looks:
            return
        if not open_rows:
            self.take_if_better(chosen)
            return
        if not self.can_be_better(open_rows, len(chosen), effort, barred):
            return
        row = min(members(open_rows), key=lambda r: (sum(c not in barred for c in self.holders[r]), r))
        tried: set[int] = set()
        for column in self.holders[row]:
            if column not in barred:
                rest = open_rows & ~self.columns[column]
                self.descend(rest, [*chosen, column], effort + self.efforts[column], barred | tried)
                tried.add(column)

    def can_be_better(self, open_rows: int, number: int, effort: float, barred: frozenset[int]) -> bool:
        """Rows without a column in common each need one of their own; and no column takes more than its share."""
        apart, effort_apart, rest = 0, 0.0, open_rows
        while rest:
            row = min(members(rest), key=lambda r: (len(self.holders[r]), r))
            open_to = [column for column in self.holders[row] if column not in barred]
            if not open_to:
                return False
            apart += 1
            effort_apart += min(self.efforts[column] for column in open_to)
            for column in open_to:
                rest &= ~self.columns[column]
            rest &= ~(1 << row)
        widest = max((rows & open_rows).bit_count() for column, rows in self.columns.items() if column not in barred)
        least = number + max(apart, -(-open_rows.bit_count() // widest))
        if least != self.cost[0]:
            return least < self.cost[0]
        return effort + effort_apart < self.cost[1] - SAME_EFFORT
