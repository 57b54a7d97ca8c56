"""Error rates from repeated answers, against Dawid & Skene 1979, Applied Statistics 28:20."""

import csv
from pathlib import Path

import numpy as np
import pytest

from identification.health.error_rates import ErrorRate, error_rate, estimate, worth_telling

TABLE = Path(__file__).parents[2] / "data" / "dawid_skene" / "dawid_skene.csv"


def published_answers() -> tuple[list[list[tuple[int, int]]], np.ndarray]:
    """Of each patient the (observer, answer) pairs; the same as counts, patients × observers × classes."""
    with TABLE.open(encoding="utf-8") as file:
        header, *rows = csv.reader(file)
    observers = [int(name.removeprefix("observer")[0]) - 1 for name in header[1:]]
    told = [[(o, int(a) - 1) for o, a in zip(observers, row[1:], strict=True)] for row in rows]
    counts = np.zeros((len(told), 5, 4))
    for place, answers in enumerate(told):
        for observer, answer in answers:
            counts[place, observer, answer] += 1
    return told, counts


def slow_estimate(told, observers: int, classes: int, rounds: int = 200):
    """The paper's steps word for word in plain Python: equations 2.3 and 2.4, then 2.5."""
    truth = [[sum(a == j for _, a in one) / len(one) for j in range(classes)] for one in told]
    for _ in range(rounds):
        shares = [sum(row[j] for row in truth) / len(told) for j in range(classes)]
        tables = [[[0.0] * classes for _ in range(classes)] for _ in range(observers)]
        for row, one in zip(truth, told, strict=True):
            for observer, answer in one:
                for j in range(classes):
                    tables[observer][j][answer] += row[j]
        tables = [[[x / (sum(line) or 1.0) for x in line] for line in table] for table in tables]
        for place, one in enumerate(told):
            chance = list(shares)
            for observer, answer in one:
                chance = [chance[j] * tables[observer][j][answer] for j in range(classes)]
            truth[place] = [c / sum(chance) for c in chance]
    return truth, shares, tables


def test_the_published_shares_of_the_classes_are_found_again():
    # Dawid & Skene 1979, the shares printed as .40 .42 .11 .07.
    _, counts = published_answers()

    assert np.round(estimate(counts).shares, 2).tolist() == [0.40, 0.42, 0.11, 0.07]


def test_it_agrees_with_a_slow_and_independent_reading_of_the_paper():
    told, counts = published_answers()
    truth, shares, tables = slow_estimate(told, 5, 4)
    found = estimate(counts)

    assert found.truth == pytest.approx(np.array(truth), abs=1e-6)
    assert found.shares == pytest.approx(np.array(shares), abs=1e-6)
    assert found.tables == pytest.approx(np.array(tables), abs=1e-6)


def test_a_pattern_that_stands_for_many_pieces_weighs_as_many():
    _, counts = published_answers()
    rows, many = np.unique(counts, axis=0, return_counts=True)

    assert estimate(rows, many).shares == pytest.approx(estimate(counts).shares, abs=1e-6)


def test_an_item_without_answer_is_refused():
    with pytest.raises(ValueError, match="needs an answer"):
        estimate(np.zeros((1, 1, 2)))


def test_a_rate_that_people_really_have_is_found_from_pairs_of_looks():
    random = np.random.default_rng(7)
    patterns: dict = {}
    for _ in range(4_000):
        true = int(random.integers(3))
        seen = [true if random.random() > 0.15 else int((true + random.integers(1, 3)) % 3) for _ in range(3)]
        key = tuple((f"s{s}", seen.count(s)) for s in sorted(set(seen)))
        patterns[key] = patterns.get(key, 0) + 1
    measured = error_rate(patterns)

    assert measured.looks == 12_000
    assert measured.rate == pytest.approx(0.15, abs=0.015)


def test_single_looks_say_nothing_and_few_are_drawn_to_the_mean():
    assert error_rate({(("a", 1),): 50}) is None
    agreed = error_rate({(("a", 2),): 10, (("b", 1),): 99})
    assert (agreed.pieces, agreed.looks, agreed.wrong) == (10, 20, 0.0)
    # (0 + 2) / (20 + 40), the society's own rule.
    assert agreed.rate == pytest.approx(2 / 60)


def test_a_rate_is_offered_only_where_chance_does_not_explain_it():
    assert worth_telling(ErrorRate(50, 100, 30.0, 0.23), 0.05)
    assert not worth_telling(ErrorRate(50, 100, 5.0, 0.06), 0.05)
    assert not worth_telling(ErrorRate(5, 10, 9.0, 0.22), 0.05)
    assert worth_telling(ErrorRate(200, 400, 0.0, 0.005), 0.18)
    assert not worth_telling(ErrorRate(200, 400, 0.0, 0.005), 0.18, only_higher=True)
