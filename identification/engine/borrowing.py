"""Filling blank cells from relatives, where that predicts the recorded cells better than the base row does."""

import numpy as np

WIDTHS = (0.1, 0.25, 0.5, 1.0, 2.0)
TRUSTS = (0.3, 0.6, 0.8, 0.95)
MOST_TESTED = 3_000


def borrowed_shares(issued: list[np.ndarray], bases: list[np.ndarray]) -> dict[int, np.ndarray]:
    """Rows for each feature with a blank cell (versions × states); empty where nothing can or should be borrowed.

    p(blank) = c · Σ_u k_uv d_uf / Σ_u k_uv + (1 - c) base_f with k_uv = exp(-κ · mismatches over the features
    recorded for both, rescaled to all). κ and c are chosen by the leave-one-cell-out log score; if no pair beats the
    base row, nothing is borrowed.
    """
    if not issued or len(issued[0]) < 3:
        return {}
    with_blanks = [f for f, shares in enumerate(issued) if np.isnan(shares[:, 0]).any()]
    if not with_blanks:
        return {}
    mismatch, common = distances(issued)
    chosen = best_pair(issued, bases, mismatch, common)
    if chosen is None:
        return {}
    width, trust = chosen
    kernel = np.exp(-width * len(issued) * mismatch / np.maximum(common, 1))
    np.fill_diagonal(kernel, 0.0)
    return {f: mixed(kernel, issued[f], bases[f], trust) for f in with_blanks}


def distances(issued: list[np.ndarray]) -> tuple[np.ndarray, np.ndarray]:
    """Expected mismatches of every two versions, and over how many features both are recorded."""
    shares = np.concatenate([np.nan_to_num(s) for s in issued], axis=1)
    recorded = np.stack([~np.isnan(s[:, 0]) for s in issued], axis=1).astype(float)
    common = recorded @ recorded.T
    return common - shares @ shares.T, common


def mixed(kernel: np.ndarray, shares: np.ndarray, base: np.ndarray, trust: float) -> np.ndarray:
    """Relatives' shares weighted by the kernel, mixed with the base row."""
    known = ~np.isnan(shares[:, 0])
    weights = kernel[:, known]
    total = weights.sum(axis=1, keepdims=True)
    near = np.divide(weights @ shares[known], total, out=np.tile(base, (len(kernel), 1)), where=total > 0)
    return trust * near + (1 - trust) * base


def tested_cells(issued: list[np.ndarray]) -> list[np.ndarray]:
    """Which recorded rows of each feature are left out in turn; a fixed sample when there are very many."""
    rows = [np.flatnonzero(~np.isnan(s[:, 0])) for s in issued]
    total = sum(len(r) for r in rows)
    step = max(1, -(-total // MOST_TESTED))
    return [r[f % step :: step] for f, r in enumerate(rows)]


def best_pair(issued, bases, mismatch: np.ndarray, common: np.ndarray) -> tuple[float, float] | None:
    """κ and c with the best log score of left-out cells, or None when the base row alone does as well."""
    scores = np.zeros((len(WIDTHS), len(TRUSTS)))
    base_score = 0.0
    for f, rows in enumerate(tested_cells(issued)):
        known = ~np.isnan(issued[f][:, 0])
        if not len(rows) or known.sum() < 3:
            continue
        shares = issued[f][known]
        truth = issued[f][rows]
        without = left_out_bases(shares, truth)
        base_score += score(truth, without)
        here = 1 - truth @ shares.T
        others = np.maximum(common[np.ix_(rows, known)] - 1, 1)
        apart = len(issued) * (mismatch[np.ix_(rows, known)] - here) / others
        itself = rows[:, None] == np.flatnonzero(known)[None, :]
        for i, width in enumerate(WIDTHS):
            weights = np.where(itself, 0.0, np.exp(-width * np.maximum(apart, 0.0)))
            total = weights.sum(axis=1, keepdims=True)
            near = np.divide(weights @ shares, total, out=without.copy(), where=total > 0)
            for j, trust in enumerate(TRUSTS):
                scores[i, j] += score(truth, trust * near + (1 - trust) * without)
    i, j = np.unravel_index(scores.argmax(), scores.shape)
    return (WIDTHS[i], TRUSTS[j]) if scores[i, j] > base_score else None


def left_out_bases(shares: np.ndarray, truth: np.ndarray) -> np.ndarray:
    """The base row as it would be without the cell itself."""
    states = shares.shape[1]
    return (shares.sum(axis=0) - truth + 1 / states) / len(shares)


def score(truth: np.ndarray, predicted: np.ndarray) -> float:
    return float((truth * np.log(np.maximum(predicted, 1e-9))).sum())
