"""A measure and the bands that states of a measurement stand for."""

from collections.abc import Sequence
from math import erf, inf, sqrt

import numpy as np


def below(limit: float, value: float, sd: float) -> float:
    """Chance that the true measure lies under `limit` when `value` was measured, normal with `sd`."""
    if limit == inf:
        return 1.0
    return 0.5 * (1 + erf((limit - value) / (sd * sqrt(2))))


def chance_of_bands(bands: Sequence[tuple[float, float | None]], value: float, sd: float) -> np.ndarray:
    """Chance of each band (low included, high not) for a measured value. Sums to 1 over gapless bands.

    The lowest band reaches down without end, so that a measure near nought loses nothing.
    """
    lows = [low if i else -inf for i, (low, _) in enumerate(bands)]
    highs = [inf if high is None else high for _, high in bands]
    chances = [
        below(high, value, sd) - (0.0 if low == -inf else below(low, value, sd))
        for low, high in zip(lows, highs, strict=True)
    ]
    return np.array(chances)
