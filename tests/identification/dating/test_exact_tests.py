"""Exact tests and corrections against scipy, statsmodels and counting by hand."""

from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from math import comb

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identification.dating.exact_tests import (
    chance_to_draw,
    doubled_ranks,
    false_discovery,
    holm,
    in_strata,
    rank_sum_test,
    share_test,
    signed_rank_test,
    trend_test,
)

stats = pytest.importorskip("scipy.stats")

NEW = [1986, 1987, 1987, 1989, 1990, 1991]
OLD = [1978, 1980, 1981, 1984, 1986, 1988, 1983]


def one_stratum(old, new):
    return [(np.array([*old, *new]), np.array([False] * len(old) + [True] * len(new)))]


def test_ranks_share_ties_as_scipy_ranks_them():
    values = [3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5]

    assert (doubled_ranks(values) / 2).tolist() == stats.rankdata(values).tolist()


def test_one_stratum_without_ties_is_the_mann_whitney_test():
    old, new = [1, 2, 4, 7, 11], [3, 5, 8, 9, 12, 13]

    found = rank_sum_test(one_stratum(old, new))

    assert found.p == pytest.approx(stats.mannwhitneyu(old, new, method="exact").pvalue, rel=1e-9)
    assert found.exact
    assert found.side == 1


def test_one_stratum_with_ties_is_the_permutation_test():
    expected = stats.permutation_test(
        (np.array(NEW), np.array(OLD)),
        lambda x, y, axis: stats.rankdata(np.concatenate([x, y], axis=axis), axis=axis)[..., : x.shape[axis]].sum(axis),
        permutation_type="independent",
        n_resamples=np.inf,
        vectorized=True,
    )

    assert rank_sum_test(one_stratum(OLD, NEW)).p == pytest.approx(expected.pvalue, rel=1e-9)


def test_many_pieces_take_the_normal_distribution_with_ties_as_scipy_does():
    draw = np.random.default_rng(5)
    old, new = draw.integers(1950, 1980, 300), draw.integers(1953, 1983, 260)

    found = rank_sum_test(one_stratum(old, new))
    expected = stats.mannwhitneyu(new, old, method="asymptotic", use_continuity=True).pvalue

    assert not found.exact
    # The one corrects by half a step of doubled ranks, the other by half a rank.
    assert found.p == pytest.approx(expected, rel=0.02)


@pytest.mark.parametrize("table", [[[3, 1], [1, 3]], [[8, 2], [1, 5]], [[7, 3], [2, 9]]])
def test_shares_of_one_stratum_are_fishers_exact_test_with_its_tail_doubled(table):
    (a, b), (c, d) = table
    marked = np.array([1] * a + [0] * b + [1] * c + [0] * d)
    chosen = np.array([True] * (a + b) + [False] * (c + d))
    tails = [stats.fisher_exact(table, alternative=side).pvalue for side in ("less", "greater")]

    assert share_test([(marked, chosen)]).p == pytest.approx(min(1, 2 * min(tails)), rel=1e-9)


def test_fishers_tea_tasting_is_found_again():
    """Fisher 1935: three of four cups right, one tail 17/70 (from memory; scipy gives the same)."""
    found = share_test([(np.array([1, 1, 1, 0, 1, 0, 0, 0]), np.array([True] * 4 + [False] * 4))])

    assert found.p == pytest.approx(2 * 17 / 70)


def test_strata_are_counted_as_every_dealing_within_them():
    strata = [(np.array([1, 2, 2, 5]), (1, 3)), (np.array([3, 4, 9]), (2,)), (np.array([1, 1]), (0,))]
    scores = [doubled_ranks(values) for values, _ in strata[:2]]
    sums = [
        scores[0][list(one)].sum() + scores[1][list(other)].sum()
        for one in combinations(range(4), 2)
        for other in combinations(range(3), 1)
    ]
    found = scores[0][[1, 3]].sum() + scores[1][[2]].sum()
    tails = [sum(s <= found for s in sums), sum(s >= found for s in sums)]

    tested = rank_sum_test([(v, np.isin(np.arange(len(v)), where)) for v, where in strata])

    assert tested.p == pytest.approx(min(1, 2 * min(tails) / len(sums)))
    assert tested.pieces == 7
    assert tested.least == pytest.approx(2 * min(sums.count(min(sums)), sums.count(max(sums))) / len(sums))


def test_a_difference_between_makers_is_none_within_them():
    years, chosen, makers = [1, 2, 3, 11, 12, 13], [False] * 3 + [True] * 3, "aaabbb"

    assert rank_sum_test(in_strata(makers, years, chosen)).pieces == 0
    assert rank_sum_test([(np.array(years), np.array(chosen))]).p == pytest.approx(0.1)


def test_signed_ranks_are_wilcoxons():
    differences = [1.5, -0.5, 2.5, 3.0, 4.0, -1.0, 5.5, 6.0, 7.5]

    assert signed_rank_test(differences).p == pytest.approx(
        stats.wilcoxon(differences, method="exact").pvalue, rel=1e-9
    )
    assert signed_rank_test([0, 0]).pieces == 0


def test_a_trend_in_one_stratum_is_spearmans():
    draw = np.random.default_rng(8)
    one = draw.normal(size=30)
    other = 0.4 * one + draw.normal(size=30)

    found = trend_test([(one, other)])
    expected = stats.permutation_test(
        (one,), lambda x: stats.spearmanr(x, other).statistic, permutation_type="pairings", n_resamples=999, rng=3
    )

    assert found.p == pytest.approx(expected.pvalue, abs=0.03)
    assert found.p == trend_test([(one, other)]).p
    assert found.shift / np.sqrt(29) == pytest.approx(stats.spearmanr(one, other).statistic)


@given(st.lists(st.floats(0, 1), min_size=1, max_size=30))
@settings(max_examples=25, deadline=None)
def test_corrections_are_those_of_statsmodels_and_scipy(chances):
    multiple = pytest.importorskip("statsmodels.stats.multitest")

    assert holm(chances) == pytest.approx(multiple.multipletests(chances, method="holm")[1].tolist())
    assert false_discovery(chances) == pytest.approx(multiple.multipletests(chances, method="fdr_bh")[1].tolist())
    assert false_discovery(chances) == pytest.approx(stats.false_discovery_control(chances).tolist())


@given(st.lists(st.tuples(st.integers(0, 8), st.booleans(), st.sampled_from("ab")), min_size=2, max_size=25))
@settings(max_examples=60, deadline=None)
def test_a_chance_is_one_and_no_order_changes_it(rows):
    def chance(some):
        makers, years, chosen = [r[2] for r in some], [r[0] for r in some], [r[1] for r in some]
        return rank_sum_test(in_strata(makers, years, chosen))

    found = chance(rows)

    assert 0 < found.least <= found.p * (1 + 1e-9)
    assert found.p <= 1
    assert chance(rows[::-1]).p == pytest.approx(found.p)


def test_dealings_that_can_show_nothing_are_not_counted_and_all_else_of_the_test_stays():
    years, chosen = np.array([1970, 1971, 1972, 1973]), np.array([False, False, True, True])
    counted, spared = rank_sum_test([(years, chosen)]), rank_sum_test([(years, chosen)], most_least=0.05)

    # Two of four can be dealt in six ways: common practice, counted by hand.
    assert counted.p == pytest.approx(2 / 6)
    assert spared == replace(counted, p=1.0)
    assert rank_sum_test([(years, chosen)], most_least=0.4) == counted


@pytest.mark.parametrize(
    ("alike", "taken", "size", "some"), [(3, 1, 1500, 2), (40, 12, 1001, 300), (700, 2, 2000, 1999)]
)
def test_the_chance_of_an_extreme_of_many_pieces_is_that_of_whole_numbers(alike, taken, size, some):
    """Counted in whole numbers of any length (`fractions`)."""
    exact = Fraction(comb(alike, taken), comb(size, some))

    assert chance_to_draw(alike, taken, size, some) == pytest.approx(float(exact), rel=1e-9)


@given(st.lists(st.integers(-5, 5) | st.integers(-(10**9), 10**9), min_size=1, max_size=40))
def test_ranks_of_whole_numbers_are_scipys_whether_counted_or_sorted(values):
    assert doubled_ranks(np.array(values)).tolist() == (2 * stats.rankdata(values)).tolist()
    assert doubled_ranks([float(value) for value in values]).tolist() == (2 * stats.rankdata(values)).tolist()
