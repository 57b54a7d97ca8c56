"""A key for paper: a fixed tree of questions, as short as can be on average, for people who do not err.

Cost of a set of versions: cost(S) = effort_f × w(S) + Σ cost(part), over the parts into which feature f splits it; what
nothing splits costs nothing. The least such cost is found by dynamic programming over sets (Garey 1972, SIAM J.
Appl. Math. 23:173) with an entropy bound (Shannon 1948); the problem is NP-hard (Hyafil & Rivest 1976, Inf. Process.
Lett. 5:15), so larger tables use a rollout of the greedy rule, which is never worse than greedy (Bertsekas, Tsitsiklis
& Wu 1997, J. Heuristics 3:245). All cited from memory.

Versions are numbered; sets of them are whole numbers used as bits. A version that may show several states goes down the
branch of each of them, one whose state is not recorded down every branch: asking about it costs full price and may
settle nothing for it.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
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
    """For each feature its branches: a state with the set of versions that may show it.

    `weights` (even, if not given) are how common the versions are, `efforts` (1) what each question costs.
    """

    def __init__(self, branches: Sequence[Sequence[tuple[int, int]]], number: int, weights=None, efforts=None):
        self.branches = [list(of_feature) for of_feature in branches]
        self.everything = (1 << number) - 1
        weights = np.ones(number) if weights is None else np.asarray(weights, dtype=float)
        self.weights = (weights / weights.sum()).tolist()
        self.efforts = [1.0] * len(branches) if efforts is None else [float(effort) for effort in efforts]
        # Versions × all states of all features, and versions × features: what each may show, and how many states.
        masks = [branch for of_feature in self.branches for _, branch in of_feature or [(ANY, 0)]]
        self.shows = np.array([[mask >> row & 1 for mask in masks] for row in range(number)], dtype=float)
        self.widths = np.array([max(len(of_feature), 1) for of_feature in self.branches], dtype=int)
        self.starts = np.cumsum([0, *self.widths])[:-1]
        self.ways = np.maximum(np.add.reduceat(self.shows, self.starts, axis=1), 1.0)
        self.shares = self.shows / np.repeat(self.ways, self.widths, axis=1)
        self.least_effort = min(self.efforts, default=1.0)
        self.widest = max((len(of_feature) for of_feature in self.branches), default=2)
        # Versions that look alike count as one in the bound; with one on several branches there is no bound.
        is_plain = (self.ways == 1).all()
        self.look = np.unique(self.shows, axis=0, return_inverse=True)[1].ravel().tolist() if is_plain else None
        self.greedy_costs: dict[int, float] = {}
        self.least_costs: dict[int, tuple[float, int]] = {}
        self.weights_of: dict[int, float] = {}

    @classmethod
    def of_states(cls, states: Sequence[Sequence[int]], weights=None, efforts=None) -> "KeyTable":
        """From versions × features of state numbers, `ANY` where a version may show any state."""
        rows = np.asarray(states, dtype=int)
        return cls([branches_of(column) for column in rows.T], len(rows), weights, efforts)

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

        A version that may show several states is taken to show each as often.
        """
        here = members(versions)
        weights = np.array([self.weights[place] for place in here])
        weights = weights / weights.sum()
        number = self.shows[here].sum(axis=0)
        splits = np.add.reduceat(number > 0, self.starts, dtype=int) > 1
        splits &= np.maximum.reduceat(number, self.starts) < len(here)
        shares = weights @ self.shares[here]
        spread = -np.add.reduceat(shares * np.log2(np.maximum(shares, TINY)), self.starts)
        gains = np.where(splits, spread - weights @ np.log2(self.ways[here]), 0.0)
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

    def couplets(self, most: int) -> int:
        """How many forks the greedy tree has, counted no further than one beyond `most`."""
        number, open_sets = 0, [self.everything]
        while open_sets and number <= most:
            versions = open_sets.pop()
            feature = self.chosen(versions, "greedy") if versions & (versions - 1) else ANY
            if feature != ANY:
                number += 1
                open_sets += self.parts(versions, feature)
        return number

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


def expected_key(pack: "Pack") -> Fork | Leaf:
    """The key over all versions as they most likely look, gaps filled and of several states the commonest taken.

    A plan for a walk, not for print: features and states are numbered as in the pack. Exact for up to twelve versions.
    """
    if not pack.versions or not pack.features:
        return Leaf(tuple(range(len(pack.versions))))
    states = np.array([shares.argmax(axis=0) for shares in pack.doubted]).T
    table = KeyTable.of_states(states, np.maximum(pack.prior, LEAST_SPLIT), pack.efforts)
    return table.tree("exact" if len(pack.versions) <= MOST_SEARCHED else "rollout")
