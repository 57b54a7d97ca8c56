"""How often people answer a feature wrongly, from pieces at which several people looked.

Dawid & Skene 1979, Applied Statistics 28:20: the true state of each piece, the share of each state and a table of
errors are estimated in turn (EM) from repeated answers, without knowing any truth. Here the people are one table
together (as the paper's first observer is one, who judged three times): a feature is asked of strangers.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

ROUNDS, SETTLED = 1_000, 1e-9
TINY = 1e-300
# The society's mean error counts as so many looks: (wrong + 2) / (looks + 40). Ours; no source.
MEAN_ERROR, WORTH_LOOKS = 0.05, 40
# A rate is offered from so many looks on, where it is further from the one in use than a hundredth and than chance
# makes it so often (two standard errors). Ours; no source.
FEWEST_LOOKS, LEAST_CHANGE, STANDARD_ERRORS = 20, 0.01, 2.0


@dataclass(frozen=True, eq=False)
class Estimated:
    """`truth`: items × classes, each row summing to 1. `shares`: of the classes. `tables`: observers × true class ×
    answer, each row summing to 1. `rounds`: how many were needed."""

    truth: np.ndarray
    shares: np.ndarray
    tables: np.ndarray
    rounds: int


def estimate(counts: np.ndarray, weights: np.ndarray | None = None) -> Estimated:
    """Dawid & Skene's EM. `counts`: items × observers × classes, how often an observer gave each answer to an item.
    `weights`: how many items each row stands for. It begins at the share of each answer, as the paper does.

    Raises ValueError where an item has no answer at all.
    """
    counts = np.asarray(counts, dtype=float)
    weights = np.ones(len(counts)) if weights is None else np.asarray(weights, dtype=float)
    answers = counts.sum(axis=1)
    if not len(counts) or (answers.sum(axis=1) == 0).any():
        raise ValueError("every item needs an answer")
    truth = answers / answers.sum(axis=1, keepdims=True)
    rounds, moved = 0, 1.0
    while rounds < ROUNDS and moved >= SETTLED:
        held = truth * weights[:, None]
        shares = held.sum(axis=0) / held.sum()
        tables = np.einsum("ij,ikl->kjl", held, counts)
        tables = tables / np.maximum(tables.sum(axis=2, keepdims=True), TINY)
        log = np.log(np.maximum(shares, TINY)) + np.einsum("ikl,kjl->ij", counts, np.log(np.maximum(tables, TINY)))
        log -= log.max(axis=1, keepdims=True)
        now = np.exp(log)
        now /= now.sum(axis=1, keepdims=True)
        moved = float(np.abs(now - truth).max())
        truth, rounds = now, rounds + 1
    return Estimated(truth, shares, tables, rounds)


@dataclass(frozen=True)
class ErrorRate:
    """`wrong` of `looks` at `pieces` were wrong, as estimated; `rate` is what the engine should use."""

    pieces: int
    looks: int
    wrong: float
    rate: float


def error_rate(patterns: Mapping[tuple[tuple[str, int], ...], int]) -> ErrorRate | None:
    """From patterns of answers, each ((state, people who saw it), …), with how many pieces show it.

    Pieces at which only one person looked say nothing and are left out; None where none is left. `rate` is drawn to
    the society's mean: (wrong + 2) / (looks + 40).
    """
    used = {pattern: many for pattern, many in patterns.items() if sum(people for _, people in pattern) > 1}
    return rate_of(tuple(sorted(used.items()))) if used else None


@lru_cache(maxsize=4_096)
def rate_of(patterns: tuple[tuple[tuple[tuple[str, int], ...], int], ...]) -> ErrorRate:
    """The same, of patterns by two people and more: a decision on one piece leaves most features' patterns alone."""
    used = dict(patterns)
    states = sorted({state for pattern in used for state, _ in pattern})
    counts = np.zeros((len(used), 1, len(states)))
    for row, pattern in enumerate(used):
        for state, people in pattern:
            counts[row, 0, states.index(state)] += people
    weights = np.array(list(used.values()), dtype=float)
    truth = estimate(counts, weights).truth
    agreeing = (truth * counts[:, 0]).sum(axis=1)
    looks = float((weights * counts[:, 0].sum(axis=1)).sum())
    wrong = max(looks - float((weights * agreeing).sum()), 0.0)
    rate = (wrong + MEAN_ERROR * WORTH_LOOKS) / (looks + WORTH_LOOKS)
    return ErrorRate(int(weights.sum()), int(looks), wrong, rate)


def worth_telling(measured: ErrorRate, in_use: float, *, only_higher: bool = False) -> bool:
    """Whether there are looks enough, and the rate in use is off by more than chance explains.

    `only_higher`: the rate in use also has to cover something that people who look at one piece see alike, such as a
    part changed in service, so that a lower figure says nothing against it.
    """
    change = measured.rate - in_use
    by_chance = STANDARD_ERRORS * (in_use * (1 - in_use) / (measured.looks + WORTH_LOOKS)) ** 0.5
    enough = measured.looks >= FEWEST_LOOKS and abs(change) > max(LEAST_CHANGE, by_chance)
    return enough and (change > 0 or not only_higher)
