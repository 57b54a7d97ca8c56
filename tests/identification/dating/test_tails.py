"""The published guesses that the benchmark sets beside ours."""

import pytest

from tests.benchmarks.tails import mean_gap_guess, optimal_linear_estimate

DODO = [1662, 1638, 1631, 1628, 1628, 1611, 1607, 1602, 1601, 1598]


def test_the_dodo_died_out_about_1690():
    """Roberts & Solow 2003, Nature 426:245: 1690, from these sightings."""
    assert optimal_linear_estimate(DODO) == pytest.approx(1690.4, abs=0.05)


def test_the_mean_gap_is_added_to_the_last():
    assert mean_gap_guess([1950, 1952, 1960]) == 1965
