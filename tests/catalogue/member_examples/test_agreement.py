"""Agreement between people, against published tables and a general library."""

import random

import pytest
from statsmodels.stats.inter_rater import cohens_kappa as by_statsmodels
from statsmodels.stats.inter_rater import fleiss_kappa as fleiss_by_statsmodels

from catalogue.member_examples.agreement import agreement_of_looks, cohens_kappa, fleiss_kappa

# Two raters, unweighted, each with the figure that another program gave: the tests of statsmodels 0.15
# (statsmodels/stats/tests/test_inter_rater.py) hold the first table as `table10` beside a printout of SAS, and the
# second as raters 2 and 3 of `anxiety`, beside R's `irr::kappa2`.
BY_SAS = [[0, 4, 1], [0, 8, 0], [0, 1, 5]]
BY_R = list(zip("36462424332333221334", "21443216111233113322", strict=True))
# Fleiss 1971, Psychological Bulletin 76:378, table 1: 30 patients, 6 psychiatrists, 5 diagnoses; kappa .430 (the same
# counts stand in the test data of statsmodels 0.14 as `diagnoses`).
FLEISS_1971 = """
0 0 0 6 0  0 3 0 0 3  0 1 4 0 1  0 0 0 0 6  0 3 0 3 0  2 0 4 0 0  0 0 4 0 2  2 0 3 1 0  2 0 0 4 0  0 0 0 0 6
1 0 0 5 0  1 1 0 4 0  0 3 3 0 0  1 0 0 5 0  0 2 0 3 1  0 0 5 0 1  3 0 0 1 2  5 1 0 0 0  0 2 0 4 0  1 0 2 0 3
0 0 0 0 6  0 1 0 5 0  0 2 0 1 3  2 0 0 4 0  1 0 0 4 1  0 5 0 1 0  4 0 0 0 2  0 2 0 4 0  1 0 5 0 0  0 0 0 0 6
"""


def rows_of(text: str, width: int) -> list[list[int]]:
    numbers = [int(word) for word in text.split()]
    return [numbers[i : i + width] for i in range(0, len(numbers), width)]


def pairs_of(table) -> list[tuple[int, int]]:
    return [(i, j) for i, row in enumerate(table) for j, number in enumerate(row) for _ in range(number)]


def test_two_raters_get_the_figures_of_sas_r_and_statsmodels():
    assert cohens_kappa(pairs_of(BY_SAS)) == pytest.approx(0.4842, abs=5e-5)
    assert cohens_kappa(pairs_of(BY_SAS)) == pytest.approx(by_statsmodels(BY_SAS, return_results=False), abs=1e-12)
    assert cohens_kappa(BY_R) == pytest.approx(-0.006289308, abs=5e-10)


def test_fleiss_own_table_gives_his_figure_and_that_of_statsmodels():
    table = rows_of(FLEISS_1971, 5)
    ours = fleiss_kappa(table)

    assert (len(table), {sum(row) for row in table}) == (30, {6})
    assert ours == pytest.approx(0.430, abs=5e-4)
    assert ours == pytest.approx(fleiss_by_statsmodels(table), abs=1e-12)


def test_any_table_agrees_with_statsmodels():
    draw = random.Random(1960)
    for _ in range(50):
        size = draw.randint(2, 5)
        table = [[draw.randint(0, 9) for _ in range(size)] for _ in range(size)]
        table[0][1] += 1
        assert cohens_kappa(pairs_of(table)) == pytest.approx(by_statsmodels(table, return_results=False), abs=1e-9)
        rated = [[draw.randint(0, size - 1) for _ in range(4)] for _ in range(draw.randint(3, 20))] + [[0, 0, 1, 1]]
        counts = [[row.count(answer) for answer in range(size)] for row in rated]
        assert fleiss_kappa(counts) == pytest.approx(fleiss_by_statsmodels(counts), abs=1e-9)


def test_no_case_and_one_answer_throughout_give_no_figure():
    assert cohens_kappa([]) is None
    assert cohens_kappa([("zip", "zip")] * 5) is None
    assert fleiss_kappa([]) is None
    assert fleiss_kappa([[1, 0], [0, 1]]) is None
    assert fleiss_kappa([[2, 0], [2, 0]]) is None


def test_cases_rated_unequally_often_are_refused_by_fleiss_and_sorted_out_before_it():
    with pytest.raises(ValueError, match="as many raters"):
        fleiss_kappa([[2, 0], [1, 2]])

    looks = [("zip", "zip"), ("zip", "fly"), ("fly", "fly"), ("zip",), ("fly", "fly", "zip")]
    assert agreement_of_looks(looks) == pytest.approx(fleiss_kappa([[2, 0], [1, 1], [0, 2]]))
    assert agreement_of_looks([("zip",), ("fly",)]) is None


def test_full_agreement_is_one_and_agreement_by_chance_is_nought():
    assert cohens_kappa([("a", "a"), ("b", "b")]) == 1
    assert cohens_kappa([("a", "a"), ("a", "b"), ("b", "a"), ("b", "b")]) == 0
