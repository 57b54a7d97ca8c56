"""Versions that the recorded features cannot separate, and what each empty cell is worth. Pure numpy.

Two versions are *inseparable on present knowledge* when no feature recorded for both has disjoint states. **Confusion**
is the chance that two pieces, drawn one after the other by abundance, are of different versions which are inseparable:

    C = Σ_v Σ_{u ≠ v} π_v π_u [v, u inseparable],   π the abundances, rescaled to 1.

The **worth** of an empty cell (v, f) is the expected fall of C once it is recorded with one state s, drawn with the
chance q_f(s) = (Σ of the recorded shares + 1/K) / (recorded cells + 1), the engine's row of a feature of which nothing
is known:

    worth(v, f) = 2 π_v Σ_s q_f(s) Σ_{u inseparable from v, f recorded for u, s not among u's states} π_u.

Recording a cell can only separate more, so no outcome makes C larger. The definitions are ours; no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np


@dataclass(frozen=True, eq=False)
class Matrix:
    """A garment type's record as plain numbers.

    `shares`: for each feature states × versions, each recorded column summing to 1, NaN where nothing is recorded.
    `weights`: abundance of each version, from 0. `open_cells`: features × versions, where an empty cell is a gap and
    not a detail of a part that the version never has.
    """

    shares: Sequence[np.ndarray]
    weights: np.ndarray
    open_cells: np.ndarray

    @cached_property
    def abundance(self) -> np.ndarray:
        """Weights rescaled to 1; even where all are nought."""
        total = self.weights.sum()
        return self.weights / total if total > 0 else np.full(len(self.weights), 1 / max(len(self.weights), 1))

    @cached_property
    def recorded(self) -> np.ndarray:
        """Features × versions."""
        said = np.array([~np.isnan(shares[0]) for shares in self.shares], dtype=bool)
        return said.reshape(len(self.shares), len(self.weights))

    @cached_property
    def inseparable(self) -> np.ndarray:
        """Versions × versions: different, and no feature recorded for both with disjoint states."""
        alike = ~np.eye(len(self.weights), dtype=bool)
        for shares, said in zip(self.shares, self.recorded, strict=True):
            shows = (np.nan_to_num(shares) > 0).astype(np.float32)
            alike &= (shows.T @ shows > 0) | ~(said[:, None] & said[None, :])
        return alike

    @cached_property
    def expected(self) -> tuple[np.ndarray, ...]:
        """For each feature the chances with which an empty cell turns out as each state."""
        rows = []
        for shares, said in zip(self.shares, self.recorded, strict=True):
            rows.append((shares[:, said].sum(axis=1) + 1 / len(shares)) / (said.sum() + 1))
        return tuple(rows)

    @cached_property
    def excluded_by(self) -> tuple[np.ndarray, ...]:
        """For each feature, one number a version: the chance that a cell recorded anew has no state in common with
        this version's; 0 where this version's own is not recorded."""
        return tuple(
            np.where(said, 1.0 - expected @ (np.nan_to_num(shares) > 0), 0.0)
            for shares, said, expected in zip(self.shares, self.recorded, self.expected, strict=True)
        )


@dataclass(frozen=True)
class Cell:
    """An empty cell: places of its version and feature, and its worth, a chance."""

    version: int
    feature: int
    worth: float


@dataclass(frozen=True)
class Blind:
    """A pair that nothing on record separates. `weight`: the chance that two drawn pieces are such a pair.

    `settle` is the feature that would separate them most likely, with that `chance`, recorded for the versions
    `record_for` (one of them, or both); None and 0 where no empty cell could.
    """

    one: int
    other: int
    weight: float
    settle: int | None
    chance: float
    record_for: tuple[int, ...]


def confusion(matrix: Matrix) -> float:
    """The chance that two pieces drawn by abundance are of different, inseparable versions."""
    share = matrix.abundance
    return float(share @ matrix.inseparable @ share)


def worth_of_cells(matrix: Matrix) -> np.ndarray:
    """Features × versions: the expected fall of `confusion` once the cell is recorded; 0 where it is no gap."""
    share = matrix.abundance
    if not len(matrix.shares):
        return np.zeros((0, len(share)))
    excluded = np.array(matrix.excluded_by) * share
    worth = 2 * share * (excluded @ matrix.inseparable)
    return np.where(matrix.open_cells & ~matrix.recorded, worth, 0.0)


def dearest_cells(matrix: Matrix) -> list[Cell]:
    """The empty cells that are worth something, dearest first."""
    worth = worth_of_cells(matrix)
    places = np.argwhere(worth > 0)
    cells = [Cell(int(v), int(f), float(worth[f, v])) for f, v in places]
    return sorted(cells, key=lambda cell: (-round(cell.worth, 12), cell.version, cell.feature))


def blind_pairs(matrix: Matrix, *, most: int | None = None) -> tuple[int, list[Blind]]:
    """How many pairs nothing separates, and these pairs, the commonest first; of the first `most` what would settle
    them is worked out."""
    ones, others = np.nonzero(np.triu(matrix.inseparable))
    share = matrix.abundance
    weights = 2 * share[ones] * share[others]
    order = np.lexsort((others, ones, -np.round(weights, 12)))
    return len(order), [
        blind(matrix, int(ones[place]), int(others[place]), float(weights[place])) for place in order[:most]
    ]


def blind(matrix: Matrix, one: int, other: int, weight: float) -> Blind:
    """The pair with the cell that would separate it most likely; one cell goes before two of the same chance."""
    best: tuple[float, int, int | None, tuple[int, ...]] = (0.0, 0, None, ())
    for feature, expected in enumerate(matrix.expected):
        empty = tuple(v for v in (one, other) if not matrix.recorded[feature, v])
        if not empty or not all(matrix.open_cells[feature, v] for v in empty):
            continue
        known = other if empty == (one,) else one
        chance = (
            float(matrix.excluded_by[feature][known]) if len(empty) == 1 else float(1.0 - np.square(expected).sum())
        )
        if (round(chance, 12), -len(empty)) > (round(best[0], 12), -best[1]):
            best = (chance, len(empty), feature, empty)
    return Blind(one, other, weight, best[2], best[0], best[3])
