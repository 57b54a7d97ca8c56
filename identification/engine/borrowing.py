"""Filling blank cells from relatives, where that predicts the recorded cells better than the base row does.

p(blank) = c · Σ_u k_uv d_uf / Σ_u k_uv + (1 - c) base_f with k_uv = exp(-κ · mismatches over the features recorded for
both, rescaled to all): the product kernel of Aitchison & Aitken 1976, Biometrika 63:413. κ and c are chosen by the
leave-one-cell-out log score (likelihood cross-validation, Habbema et al. 1974). Both are cited from memory.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

WIDTHS = (0.1, 0.25, 0.5, 1.0, 2.0)
TRUSTS = (0.3, 0.6, 0.8, 0.95)
MOST_TESTED = 3_000
FEWEST_VERSIONS = 3
LEAST = 1e-9
DIGITS = 6
FULL_PRECISION = 200_000


@dataclass(frozen=True)
class Relatives:
    """Recorded shares side by side, and how every two versions compare.

    `shares`: versions × all states, nought where not recorded; `recorded`: versions × features;
    `common`: over how many features two versions are both recorded; `apart`: in how many of them they differ.
    """

    shares: np.ndarray
    recorded: np.ndarray
    starts: np.ndarray
    common: np.ndarray
    apart: np.ndarray

    def span(self, place: int) -> slice:
        return slice(int(self.starts[place]), int(self.starts[place + 1]))


def borrowed_shares(issued: Sequence[np.ndarray], bases: Sequence[np.ndarray]) -> dict[int, np.ndarray]:
    """Columns (states × versions) for each feature with a blank cell; nothing where nothing should be borrowed."""
    with_blanks = [place for place, shares in enumerate(issued) if np.isnan(shares[0]).any()]
    if not with_blanks or issued[0].shape[1] < FEWEST_VERSIONS:
        return {}
    relatives = compare(issued)
    chosen = best_pair(relatives, bases)
    if chosen is None:
        return {}
    width, trust = chosen
    kernel = np.exp(-width * len(issued) * relatives.apart / np.maximum(relatives.common, 1))
    np.fill_diagonal(kernel, 0.0)
    seen, weight = kernel @ relatives.shares, kernel @ relatives.recorded
    borrowed = {}
    for place in with_blanks:
        total = weight[:, place : place + 1]
        base = bases[place][None, :]
        near = np.where(total > 0, seen[:, relatives.span(place)] / np.where(total > 0, total, 1), base)
        borrowed[place] = (trust * near + (1 - trust) * base).T.astype(float)
    return borrowed


def compare(issued: Sequence[np.ndarray]) -> Relatives:
    """Expected mismatches of every two versions. Of a very large table half the precision is plenty here."""
    shares = np.nan_to_num(np.concatenate(issued)).T
    precision = np.float64 if shares.size <= FULL_PRECISION else np.float32
    shares = shares.astype(precision)
    recorded = np.stack([~np.isnan(s[0]) for s in issued], axis=1).astype(precision)
    common = recorded @ recorded.T
    starts = np.cumsum([0, *(len(s) for s in issued)])
    return Relatives(shares, recorded, starts, common, np.maximum(common - shares @ shares.T, 0))


def tested_cells(relatives: Relatives) -> list[np.ndarray]:
    """Which recorded cells of each feature are left out in turn; an even choice when there are very many."""
    columns = [np.flatnonzero(column) for column in relatives.recorded.T]
    step = max(1, -(-sum(len(rows) for rows in columns) // MOST_TESTED))
    return [rows[place % step :: step] for place, rows in enumerate(columns)]


def best_pair(relatives: Relatives, bases: Sequence[np.ndarray]) -> tuple[float, float] | None:
    """κ and c with the best log score of left-out cells, or None when the base row alone does as well."""
    scores = np.zeros((len(WIDTHS), len(TRUSTS)))
    base_score = 0.0
    for place, rows in enumerate(tested_cells(relatives)):
        known = np.flatnonzero(relatives.recorded[:, place])
        if not len(rows) or len(known) < FEWEST_VERSIONS:
            continue
        shares = relatives.shares[known, relatives.span(place)]
        truth = relatives.shares[rows, relatives.span(place)]
        without = (shares.sum(axis=0) - truth + 1 / shares.shape[1]) / len(shares)
        base_score += log_score(truth, without)
        scores += [
            [log_score(truth, trust * near + (1 - trust) * without) for trust in TRUSTS]
            for near in left_out_guesses(relatives, rows, known, shares, truth, without)
        ]
    # Rounded, so that pairs that do equally well stay equal in whatever order the versions come: the first is taken.
    scores = scores.round(DIGITS)
    best = np.unravel_index(scores.argmax(), scores.shape)
    return (WIDTHS[best[0]], TRUSTS[best[1]]) if scores[best] > round(base_score, DIGITS) else None


def left_out_guesses(relatives: Relatives, rows, known, shares, truth, without):
    """What relatives say of left-out cells, one guess for every width; the cell itself has no voice."""
    pair = np.ix_(rows, known)
    here = 1 - truth @ shares.T
    others = np.maximum(relatives.common[pair] - 1, 1)
    apart = relatives.recorded.shape[1] * np.maximum(relatives.apart[pair] - here, 0) / others
    itself = rows[:, None] == known[None, :]
    for width in WIDTHS:
        weights = np.where(itself, 0.0, np.exp(-width * apart))
        total = weights.sum(axis=1, keepdims=True)
        yield np.where(total > 0, weights @ shares / np.where(total > 0, total, 1), without)


def log_score(truth: np.ndarray, predicted: np.ndarray) -> float:
    return float((truth * np.log(np.maximum(predicted, LEAST))).sum())
