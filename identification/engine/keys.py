"""A key for paper: a fixed tree of questions, as short as can be on average, for people who do not err.

Cost of a set of versions: cost(S) = effort_f × w(S) + Σ cost(part), over the parts into which feature f splits it; what
nothing splits costs nothing. The least such cost is found by dynamic programming over sets (Garey 1972, SIAM J.
Appl. Math. 23:173) with an entropy bound (Shannon 1948); the problem is NP-hard (Hyafil & Rivest 1976, Inf. Process.
Lett. 5:15), so larger tables use a rollout of the greedy rule, which is never worse than greedy (Bertsekas, Tsitsiklis
& Wu 1997, J. Heuristics 3:245). All cited from memory.

Versions are numbered; sets of them are whole numbers used as bits. A version whose state is not recorded, or that has
several states, goes down every branch: asking about it costs full price and settles nothing for it.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import inf, log2
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from identification.engine.pack import Pack

ANY = -1
# Exact search up to so many versions, rollout beyond.
MOST_SEARCHED = 12
ROLLED_OUT = 12
LEAST_SPLIT = 1e-12
TINY = 1e-300


@dataclass(frozen=True)
class Leaf:
    """The versions that remain: one, or those that nothing in the table tells apart."""

    versions: tuple[int, ...]


@dataclass(frozen=True)
class Fork:
    """A question and what comes after each state."""

    feature: int
    branches: tuple[tuple[int, "Fork | Leaf"], ...]


class KeyTable:
    """Versions × features of state numbers, `ANY` where a version may show any state.

    `weights` (even, if not given) are how common the versions are, `efforts` (1) what each question costs.
    """

    def __init__(self, states: Sequence[Sequence[int]], weights=None, efforts=None):
        rows = np.asarray(states, dtype=int)
        self.number, features = rows.shape
        weights = np.ones(self.number) if weights is None else np.asarray(weights, dtype=float)
        self.weights = (weights / weights.sum()).tolist()
        self.efforts = [1.0] * features if efforts is None else [float(effort) for effort in efforts]
        self.branches = [branches_of(rows[:, place]) for place in range(features)]
        # Versions × all states of all features, and versions × features: what each may show.
        masks = [branch for branches in self.branches for _, branch in branches or [(ANY, 0)]]
        self.shows = np.array([[mask >> row & 1 for mask in masks] for row in range(self.number)], dtype=float)
        self.shows_any = (rows == ANY).astype(float)
        self.widths = np.array([max(len(branches), 1) for branches in self.branches], dtype=int)
        self.starts = np.cumsum([0, *self.widths])[:-1]
        self.least_effort = min(self.efforts, default=1.0)
        self.widest = max((len(branches) for branches in self.branches), default=2)
        # Versions that look alike count as one in the bound; with `ANY` that is not enough, and there is no bound.
        self.look = np.unique(rows, axis=0, return_inverse=True)[1].ravel().tolist() if (rows != ANY).all() else None
        self.greedy_costs: dict[int, float] = {}
        self.least_costs: dict[int, tuple[float, int]] = {}
        self.weights_of: dict[int, float] = {}

    @cached_property
    def everything(self) -> int:
        return (1 << self.number) - 1

    def weight(self, versions: int) -> float:
        if versions not in self.weights_of:
            self.weights_of[versions] = sum(self.weights[place] for place in members(versions))
        return self.weights_of[versions]

    def parts(self, versions: int, feature: int) -> list[int]:
        """What is left of a set after each answer; nothing where the feature does not split it."""
        found = [part for _, branch in self.branches[feature] if (part := versions & branch)]
        return found if len(found) > 1 and versions not in found else []

    def ranked(self, versions: int) -> list[int]:
        """Features that split the set, most information per effort first, ties to less effort, then in order.

        A version that may show any state is taken to show each that is left as often.
        """
        here = members(versions)
        shows, weights = self.shows[here], np.array([self.weights[place] for place in here])
        number = shows.sum(axis=0)
        answers = np.add.reduceat(number > 0, self.starts)
        splits = (answers > 1) & (np.maximum.reduceat(number, self.starts) < len(here))
        wild = weights @ self.shows_any[here] / weights.sum()
        spread_out = np.repeat(wild / np.maximum(answers, 1), self.widths)
        shares = np.where(number > 0, weights @ shows / weights.sum() - np.repeat(wild, self.widths) + spread_out, 0.0)
        spread = -np.add.reduceat(shares * np.log2(np.maximum(shares, TINY)), self.starts)
        gains = np.where(splits, spread - wild * np.log2(np.maximum(answers, 1)), 0.0)
        scores = (gains / self.efforts).tolist()
        useful = [(-round(s, 12), self.efforts[f], f) for f, s in enumerate(scores) if s > LEAST_SPLIT]
        return [place for _, _, place in sorted(useful)]

    def entropy_bound(self, versions: int) -> float:
        """No tree can cost less: w(S) H(S) / log2 of the most answers, at the least effort."""
        whole = self.weight(versions)
        if not whole or self.look is None or self.widest < 2:
            return 0.0
        alike: dict[int, float] = defaultdict(float)
        for place in members(versions):
            alike[self.look[place]] += self.weights[place] / whole
        entropy = -sum(share * log2(share) for share in alike.values() if share > 0)
        return self.least_effort * whole * entropy / log2(self.widest)

    # ---- three ways to choose

    def greedy_cost(self, versions: int) -> float:
        """Cost of always asking the feature with the most information per effort."""
        if versions not in self.greedy_costs:
            best = next(iter(self.ranked(versions)), None) if versions & (versions - 1) else None
            self.greedy_costs[versions] = 0.0 if best is None else self.cost_after(versions, best, self.greedy_cost)
        return self.greedy_costs[versions]

    def cost_after(self, versions: int, feature: int, cost) -> float:
        return self.efforts[feature] * self.weight(versions) + sum(map(cost, self.parts(versions, feature)))

    def least_cost(self, versions: int) -> float:
        """The least cost of any tree."""
        return self.searched(versions)[0]

    def searched(self, versions: int) -> tuple[float, int]:
        """The least cost and the feature that begins the tree; ANY where nothing splits the set."""
        if versions in self.least_costs:
            return self.least_costs[versions]
        best, chosen = inf, ANY
        for feature in self.ranked(versions) if versions & (versions - 1) else ():
            parts = sorted(self.parts(versions, feature), key=self.entropy_bound, reverse=True)
            reached = self.efforts[feature] * self.weight(versions) + sum(map(self.entropy_bound, parts))
            for part in parts:
                if reached >= best:
                    break
                reached += self.least_cost(part) - self.entropy_bound(part)
            if reached < best:
                best, chosen = reached, feature
        self.least_costs[versions] = (0.0, ANY) if chosen == ANY else (best, chosen)
        return self.least_costs[versions]

    def rolled_out(self, versions: int) -> int:
        """Among the twelve best features the one after which going on greedily costs least."""
        features = self.ranked(versions)[:ROLLED_OUT]
        return min(features, key=lambda f: self.cost_after(versions, f, self.greedy_cost), default=ANY)

    def chosen(self, versions: int, how: str) -> int:
        if how == "exact":
            return self.searched(versions)[1]
        return self.rolled_out(versions) if how == "rollout" else next(iter(self.ranked(versions)), ANY)

    def tree(self, how: str = "rollout", versions: int | None = None) -> Fork | Leaf:
        """The whole key. `how`: exact, rollout or greedy."""
        versions = self.everything if versions is None else versions
        feature = self.chosen(versions, how) if versions & (versions - 1) else ANY
        if feature == ANY:
            return Leaf(tuple(members(versions)))
        parts = [(state, versions & branch) for state, branch in self.branches[feature]]
        return Fork(feature, tuple((state, self.tree(how, part)) for state, part in parts if part))

    def cost(self, tree: Fork | Leaf, versions: int | None = None) -> float:
        """Mean effort of a tree, with efforts of 1 the mean number of questions."""
        if isinstance(tree, Leaf):
            return 0.0
        versions = self.everything if versions is None else versions
        after = dict(self.branches[tree.feature])
        rest = sum(self.cost(branch, versions & after[state]) for state, branch in tree.branches)
        return self.efforts[tree.feature] * self.weight(versions) + rest


def bits(chosen) -> int:
    return sum(1 << place for place, is_in in enumerate(chosen) if is_in)


def members(versions: int) -> list[int]:
    found = []
    while versions:
        low = versions & -versions
        found.append(low.bit_length() - 1)
        versions ^= low
    return found


def branches_of(states: np.ndarray) -> list[tuple[int, int]]:
    """For each state the versions that may show it."""
    return [(int(state), bits((states == state) | (states == ANY))) for state in np.unique(states[states != ANY])]


def printed_key(pack: "Pack") -> Fork | Leaf:
    """The key of a garment type, over the versions of which a piece has been seen.

    Features and states are numbered as in the pack, versions too. Exact for up to twelve versions.
    """
    seen = [place for place, version in enumerate(pack.versions) if version.piece_seen]
    if not seen or not pack.features:
        return Leaf(tuple(seen))
    states = np.array([recorded_states(shares)[seen] for shares in pack.recorded]).T
    table = KeyTable(states, np.maximum(pack.prior[seen], LEAST_SPLIT), pack.efforts)
    return renumbered(table.tree("exact" if len(seen) <= MOST_SEARCHED else "rollout"), seen)


def expected_key(pack: "Pack") -> Fork | Leaf:
    """The key over all versions as they most likely look, gaps filled and of several states the commonest taken.

    A plan for a walk, not for print: features and states are numbered as in the pack. Exact for up to twelve versions.
    """
    if not pack.versions or not pack.features:
        return Leaf(tuple(range(len(pack.versions))))
    states = np.array([shares.argmax(axis=0) for shares in pack.doubted]).T
    table = KeyTable(states, np.maximum(pack.prior, LEAST_SPLIT), pack.efforts)
    return table.tree("exact" if len(pack.versions) <= MOST_SEARCHED else "rollout")


def recorded_states(shares: np.ndarray) -> np.ndarray:
    """The one state recorded for each version, ANY where none or several are."""
    occurs = shares > 0
    return np.where(occurs.sum(axis=0) == 1, occurs.argmax(axis=0), ANY)


def renumbered(tree: Fork | Leaf, seen: list[int]) -> Fork | Leaf:
    if isinstance(tree, Leaf):
        return Leaf(tuple(seen[place] for place in tree.versions))
    return Fork(tree.feature, tuple((state, renumbered(branch, seen)) for state, branch in tree.branches))
