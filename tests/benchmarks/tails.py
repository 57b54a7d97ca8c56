"""Published guesses of the end of a run of dates, to measure ours beside them."""

from math import gamma, log

import numpy as np


def mean_gap_guess(years: list[int]) -> float:
    """The last year and the mean gap: Strauss & Sadler 1989."""
    return max(years) + (max(years) - min(years)) / (len(years) - 1)


def optimal_linear_estimate(years: list[float]) -> float:
    """End of a run that tails off, from its k latest dates: Roberts & Solow 2003, Nature 426:245.

    Weights e'L^-1 / (e'L^-1 e) with L_ij = Γ(2v+i)Γ(v+j) / (Γ(v+i)Γ(j)), j <= i, and v the mean of the logarithms of
    (last - earliest) / (last - each between), over k - 1. Needs at least three dates and no tie with the last.
    """
    latest = sorted(years, reverse=True)
    k = len(latest)
    v = sum(log((latest[0] - latest[-1]) / (latest[0] - one)) for one in latest[1:-1]) / (k - 1)
    table = np.empty((k, k))
    for i in range(1, k + 1):
        for j in range(1, i + 1):
            value = gamma(2 * v + i) * gamma(v + j) / (gamma(v + i) * gamma(j))
            table[i - 1, j - 1] = table[j - 1, i - 1] = value
    weights = np.linalg.solve(table, np.ones(k))
    return float(weights @ np.array(latest) / weights.sum())
