"""`python -m identification figures`: each figure against a published one."""

import json

import pytest

from identification.engine.figures import figure as worked_out
from tests.identification.command_line import lines, run


def figure(**request) -> dict:
    return lines(run("figures", text=json.dumps(request) + "\n"))[0]


def figures(*requests) -> list[dict]:
    return lines(run("figures", text="".join(json.dumps(request) + "\n" for request in requests)))


def test_range_ends_are_those_of_strauss_and_sadler():
    """Strauss & Sadler 1989: for 95 % the range reaches 4.8325, 1.4647, .5002, .2128 times beyond at n = 3, 5, 10, 20
    (recomputed with scipy.optimize.brentq)."""
    dated = {n: [1900 + 100 * i / (n - 1) for i in range(n)] for n in (3, 5, 10, 20)}
    found = figures(*({"kind": "range_ends", "years": years, "level": 0.95} for years in dated.values()))

    assert [line["high"] - 2000 for line in found] == pytest.approx([483.25, 146.47, 50.02, 21.28], abs=0.005)
    assert [1900 - line["low"] for line in found] == pytest.approx([line["high"] - 2000 for line in found])
    assert {(line["first"], line["last"]) for line in found} == {(1900.0, 2000.0)}


def test_unseen_versions_are_counted_as_by_chao_and_good():
    """Spiders of iNEXT: S 26, n 168, f1 12, f2 4 gives 43.893; S 37, n 252, f1 14, f2 4 gives 61.403 (arithmetic).
    Coverage .76: scikit-bio goods_coverage([1]*12 + [2]*4 + [3]*10)."""
    girdled = [1] * 12 + [2] * 4 + [3] * 9 + [168 - 12 - 8 - 27]
    logged = [1] * 14 + [2] * 4 + [3] * 18 + [252 - 14 - 8 - 54]
    found = figures(
        {"kind": "unseen", "counts": girdled},
        {"kind": "unseen", "counts": logged},
        {"kind": "unseen", "counts": [1] * 12 + [2] * 4 + [3] * 10},
        {"kind": "unseen", "counts": [5, 1, 1, 1]},
    )

    assert (len(girdled), sum(girdled), len(logged), sum(logged)) == (26, 168, 37, 252)
    assert found[0]["chao1"] == pytest.approx(43.893, abs=5e-4)
    assert found[1]["chao1"] == pytest.approx(61.403, abs=5e-4)
    assert found[2]["coverage"] == pytest.approx(0.76)
    assert found[3]["chao1"] == pytest.approx(4 + 7 / 8 * 3)


def test_a_weighted_price_quantile_is_the_smallest_price_that_reaches_the_share():
    """Prices 1 2 3 4 with weights 1 1 1 3: median 3; type 1 of numpy.quantile(method="inverted_cdf")."""
    np = pytest.importorskip("numpy")
    prices, weights, quantiles = [4, 1, 3, 2, 9.5], [3, 1, 1, 1, 0], [0, 0.25, 0.5, 0.75, 1]
    found = figure(kind="price", prices=prices, weights=weights, quantiles=quantiles)["quantiles"]

    kept = [(p, w) for p, w in zip(prices, weights, strict=True) if w]
    expected = np.quantile([p for p, _ in kept], quantiles, weights=[w for _, w in kept], method="inverted_cdf")
    assert found == expected.tolist() == [1, 2, 3, 4, 4]


def test_agreement_is_krippendorffs_alpha():
    """Krippendorff 2011, four raters by twelve units with gaps: nominal .743 (from memory)."""
    raters = [
        "1 2 3 3 2 1 4 1 2 . . .",
        "1 2 3 3 2 2 4 1 2 5 . 3",
        ". 3 3 3 2 3 4 2 2 5 1 .",
        "1 2 3 3 2 4 4 1 2 5 1 .",
    ]
    units = [[None if r == "." else r for r in unit] for unit in zip(*(line.split() for line in raters), strict=True)]

    assert figure(kind="agreement", ratings=units)["alpha"] == pytest.approx(0.743, abs=5e-4)
    assert figure(kind="agreement", ratings=[["a", "a"], ["a", "a"]])["alpha"] == 1


@pytest.mark.parametrize(
    ("request_", "words"),
    [
        ({"kind": "horoscope"}, "kind is one of range_ends, unseen, price, agreement"),
        ({}, "kind is one of"),
        ({"kind": ["price"]}, "kind is one of"),
        ({"kind": "range_ends", "years": [1950, 1960]}, "level is missing"),
        ({"kind": "range_ends", "years": [1950], "level": 0.95}, "two different years"),
        ({"kind": "range_ends", "years": ["1950", "1960"], "level": 0.95}, "a list of numbers"),
        ({"kind": "unseen", "counts": [0]}, "nothing was counted"),
        ({"kind": "unseen", "counts": [1.5]}, "whole numbers"),
        ({"kind": "price", "prices": [], "weights": [], "quantiles": [0.5]}, "each price needs a weight"),
        ({"kind": "price", "prices": [1], "weights": [1], "quantiles": [2]}, "from 0 to 1"),
        ({"kind": "agreement", "ratings": [["a", None]]}, "no unit has two ratings"),
        ({"kind": "agreement", "ratings": "aa"}, "a list of units"),
        ({"kind": "unseen", "counts": [2, 1], "level": 0.95}, "level is not known; it takes counts"),
    ],
)
def test_a_figure_that_cannot_be_worked_out_is_an_error_in_words(request_, words):
    assert words in worked_out(request_)["error"]


def test_an_error_does_not_end_the_program():
    refused, counted = figures({"kind": "horoscope"}, {"kind": "unseen", "counts": [5, 1, 1, 1]})

    assert "kind is one of" in refused["error"]
    assert counted["chao1"] == pytest.approx(4 + 7 / 8 * 3)
