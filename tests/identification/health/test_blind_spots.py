"""What a record cannot separate, and what an empty cell is worth: against slow recomputation, and by laws."""

from itertools import combinations

import numpy as np
import pytest

from identification.health.blind_spots import (
    Matrix,
    blind_pairs,
    confusion,
    dearest_cells,
    worth_of_cells,
)


def small_matrix(seed: int) -> Matrix:
    """Up to five versions and four features, with blanks, cells of two states and one cell that does not apply."""
    random = np.random.default_rng(seed)
    versions, features = int(random.integers(2, 6)), int(random.integers(1, 5))
    shares = []
    for _ in range(features):
        states = int(random.integers(2, 4))
        column = np.zeros((states, versions))
        for v in range(versions):
            chosen = random.choice(states, int(random.integers(1, 3)) if random.random() < 0.3 else 1, replace=False)
            column[chosen, v] = 1 / len(chosen)
            if random.random() < 0.4:
                column[:, v] = np.nan
        shares.append(column)
    open_cells = random.random((features, versions)) > 0.1
    return Matrix(shares, random.choice([0.5, 1.5, 3.0, 5.0, 8.0], versions), open_cells)


def slow_confusion(shares, weights) -> float:
    """Two pieces, drawn one by one: version against version, feature against feature, state against state."""
    total, chance = sum(weights), 0.0
    for u in range(len(weights)):
        for v in range(len(weights)):
            apart = False
            for column in shares:
                first = {s for s in range(len(column)) if column[s][u] > 0}
                second = {s for s in range(len(column)) if column[s][v] > 0}
                apart = apart or bool(first and second and not first & second)
            if u != v and not apart:
                chance += weights[u] / total * weights[v] / total
    return chance


def slow_worth(matrix: Matrix, feature: int, version: int) -> tuple[float, list[float]]:
    """The expected fall by recording each state in turn, and the confusion after each."""
    before = slow_confusion(matrix.shares, list(matrix.weights))
    column = matrix.shares[feature]
    known = [v for v in range(column.shape[1]) if not np.isnan(column[0, v])]
    fall, after = 0.0, []
    for state in range(len(column)):
        chance = (sum(column[state, v] for v in known) + 1 / len(column)) / (len(known) + 1)
        then = [one.copy() for one in matrix.shares]
        then[feature][:, version] = np.eye(len(column))[state]
        after.append(slow_confusion(then, list(matrix.weights)))
        fall += chance * (before - after[-1])
    return fall, after


@pytest.mark.parametrize("seed", range(60))
def test_confusion_and_every_cells_worth_are_what_slow_recomputation_gives(seed):
    matrix = small_matrix(seed)
    worth = worth_of_cells(matrix)

    assert confusion(matrix) == pytest.approx(slow_confusion(matrix.shares, list(matrix.weights)), abs=1e-12)
    for feature, version in np.ndindex(worth.shape):
        gap = matrix.open_cells[feature, version] and not matrix.recorded[feature, version]
        expected = slow_worth(matrix, feature, version)[0] if gap else 0.0
        assert worth[feature, version] == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize("seed", range(30))
def test_recording_an_empty_cell_never_makes_confusion_worse_whatever_it_turns_out_to_be(seed):
    matrix = small_matrix(seed)
    before = confusion(matrix)

    for feature, version in np.argwhere(~matrix.recorded):
        assert max(slow_worth(matrix, feature, version)[1]) <= before + 1e-12


@pytest.mark.parametrize("seed", range(30))
def test_naming_the_versions_in_another_order_changes_nothing(seed):
    matrix = small_matrix(seed)
    order = np.random.default_rng(seed + 1).permutation(len(matrix.weights))
    renamed = Matrix([one[:, order] for one in matrix.shares], matrix.weights[order], matrix.open_cells[:, order])

    assert confusion(renamed) == pytest.approx(confusion(matrix), abs=1e-12)
    assert worth_of_cells(renamed) == pytest.approx(worth_of_cells(matrix)[:, order], abs=1e-12)
    assert blind_pairs(renamed)[0] == blind_pairs(matrix)[0]
    assert sorted(cell.worth for cell in dearest_cells(renamed)) == pytest.approx(
        sorted(cell.worth for cell in dearest_cells(matrix)), abs=1e-12
    )


@pytest.mark.parametrize("seed", range(30))
def test_the_pairs_are_those_without_a_separating_feature_and_what_settles_each_is_the_likeliest(seed):
    matrix = small_matrix(seed)
    number, pairs = blind_pairs(matrix)

    assert sum(pair.weight for pair in pairs) == pytest.approx(confusion(matrix), abs=1e-12)
    alike = {(u, v) for u, v in combinations(range(len(matrix.weights)), 2) if matrix.inseparable[u, v]}
    assert {(pair.one, pair.other) for pair in pairs} == alike
    assert number == len(alike)
    for pair in pairs:
        assert pair.chance == pytest.approx(likeliest(matrix, pair.one, pair.other), abs=1e-12)


def likeliest(matrix: Matrix, one: int, other: int) -> float:
    """The chance that recording the missing cells of one feature leaves no state in common, best feature."""
    best = 0.0
    for feature, column in enumerate(matrix.shares):
        empty = [v for v in (one, other) if not matrix.recorded[feature, v]]
        if not empty or not all(matrix.open_cells[feature, v] for v in empty):
            continue
        q = matrix.expected[feature]
        if len(empty) == 2:
            chance = sum(q[a] * q[b] for a in range(len(q)) for b in range(len(q)) if a != b)
        else:
            known = other if empty == [one] else one
            chance = sum(q[a] for a in range(len(q)) if not column[a, known] > 0)
        best = max(best, chance)
    return best


def test_a_type_without_features_is_all_confusion_and_one_version_none():
    nothing = Matrix([], np.array([1.0, 1.0]), np.zeros((0, 2), dtype=bool))

    assert confusion(nothing) == pytest.approx(0.5)
    assert worth_of_cells(nothing).shape == (0, 2)
    assert blind_pairs(nothing)[1][0].settle is None
    assert confusion(Matrix([], np.array([3.0]), np.zeros((0, 1), dtype=bool))) == 0.0
