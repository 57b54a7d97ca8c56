"""The curves of a changing share against scipy's and scikit-learn's."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identification.dating.fits import curve_of_makers, log_chances, logistic, never_falling, weighed_curve

YEARS = np.array([1970, 1972, 1973, 1975, 1976, 1978, 1979, 1980, 1982, 1983, 1985, 1986, 1988, 1990, 1991, 1993])
LATER = np.array([0, 0, 1, 0, 0, 1, 0, 0, 1, 1, 0, 1, 1, 1, 1, 1], dtype=bool)


def likeliest(years, later):
    """Middle and length of the best curve with next to no floors, on a fine grid."""
    middles, lengths = np.linspace(1970, 1993, 461), np.geomspace(0.5, 20, 300)
    shares = logistic((years[:, None, None] - middles) / lengths[:, None])
    chances = log_chances(shares, (~later).astype(float), later.astype(float), np.array([1e-12]))[:, :, 0]
    best = np.unravel_index(chances.argmax(), chances.shape)
    return middles[best[0]], lengths[best[1]], chances.max()


def test_the_likeliest_curve_is_that_of_scipy():
    optimize = pytest.importorskip("scipy.optimize")

    def loss(at):
        share = logistic((YEARS - at[0]) / at[1])
        return -(np.log(share[LATER]).sum() + np.log(1 - share[~LATER]).sum())

    expected = optimize.minimize(loss, [1980, 3], method="Nelder-Mead", options={"xatol": 1e-6, "fatol": 1e-9})
    middle, length, chance = likeliest(YEARS, LATER)

    assert middle == pytest.approx(expected.x[0], abs=0.05)
    assert length == pytest.approx(expected.x[1], rel=0.02)
    assert chance == pytest.approx(-expected.fun, abs=1e-3)


def test_the_likeliest_curve_is_that_of_scikit_learn():
    linear = pytest.importorskip("sklearn.linear_model")
    fit = linear.LogisticRegression(C=1e9, tol=1e-9, max_iter=10000).fit((YEARS - 1980.0)[:, None], LATER)

    middle, length, _ = likeliest(YEARS, LATER)

    assert middle == pytest.approx(1980 - fit.intercept_[0] / fit.coef_[0, 0], abs=0.05)
    assert length == pytest.approx(1 / fit.coef_[0, 0], rel=0.02)


@given(st.lists(st.tuples(st.floats(0, 1), st.integers(1, 9)), min_size=1, max_size=25))
@settings(max_examples=80, deadline=None)
def test_never_falling_shares_are_scikit_learns_isotonic_ones(rows):
    isotonic = pytest.importorskip("sklearn.isotonic")
    shares, weights = np.array([r[0] for r in rows]), np.array([float(r[1]) for r in rows])

    found = never_falling(shares, weights)

    assert found == pytest.approx(isotonic.isotonic_regression(shares, sample_weight=weights), abs=1e-9)
    assert (np.diff(found) >= 0).all()


def test_states_that_never_meet_leave_the_gap_between_them():
    curve = weighed_curve(np.array([1980, 1981, 1982, 1983, 1988, 1989, 1990, 1991]), np.array([0] * 4 + [1] * 4))

    assert 1982.5 < curve.quantile(0.025) < 1984
    assert 1987 < curve.quantile(0.975) < 1988.5
    assert curve.quantile(0.5) == pytest.approx(1985.5, abs=0.3)
    assert curve.weights.sum() == pytest.approx(1)


def test_the_share_expected_grows_from_little_to_much():
    curve = weighed_curve(YEARS, LATER)

    assert (np.diff(curve.share) > 0).all()
    assert curve.share_in(1970) < 0.25 < 0.75 < curve.share_in(1993)
    assert curve.floor < curve.chance_of_later(1970) < 0.5


def test_a_span_of_centuries_is_still_a_grid_of_modest_size():
    curve = weighed_curve(np.array([1700, 1750, 2100, 2200]), np.array([0, 0, 1, 1]))

    assert len(curve.middles) <= 161
    assert 1750 < curve.quantile(0.5) < 2100


def test_makers_that_changed_together_leave_about_the_curve_of_all():
    years, maker = np.tile(np.arange(1970, 1990), 3), np.repeat([0, 1, 2], 20)
    curve, apart = curve_of_makers(years, years >= 1978, maker)

    assert curve.quantile(0.5) == pytest.approx(weighed_curve(years, years >= 1978).quantile(0.5), abs=0.2)
    assert (apart < 0.05).all()


def test_a_maker_that_went_on_is_apart_and_leaves_the_years_of_the_others():
    years = np.concatenate([np.arange(1970, 1990), np.arange(1970, 1990), np.arange(1970, 1990)])
    maker = np.repeat([0, 1, 2], 20)
    later = years >= np.where(maker == 2, 1986, 1978)
    curve, apart = curve_of_makers(years, later, maker)

    assert apart[2] > 0.95
    assert (apart[:2] < 0.05).all()
    assert 1976.5 < curve.quantile(0.025) < curve.quantile(0.975) < 1978.5
