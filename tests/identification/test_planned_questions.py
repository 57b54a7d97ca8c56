"""The bare walk follows the shortest key while its answers do, and is on its own after that."""

import numpy as np
import pytest

from identification.engine import CANNOT_TELL, Ask, CellState, Feature, States, Version, compile_pack
from identification.engine.keys import KeyTable
from identification.engine.pack import MOST_PLANNED
from identification.engine.stepping import plain_step
from tests.identification.test_keys import TRAP


def pack_of(rows, weights=None, *, effort=lambda place: 1.0):
    """States of features f0, f1, … as numbers; nobody errs and every version is recorded."""
    rows = np.asarray(rows)
    features = [
        Feature(f"f{i}", tuple(f"s{s}" for s in range(max(int(column.max()) + 1, 2))), error=0.0, effort=effort(i))
        for i, column in enumerate(rows.T)
    ]
    versions = [
        Version(f"v{i}", {f"f{j}": (CellState(f"s{state}"),) for j, state in enumerate(row)}, weight)
        for i, (row, weight) in enumerate(zip(rows, [1.0] * len(rows) if weights is None else weights, strict=True))
    ]
    return compile_pack(features, versions, unrecorded=0.0, blanks="pooled")


def questions_for(rows, row) -> int:
    """Questions until one version alone shows all the answers; doubt in the record may want to see more."""
    pack, rows = pack_of(rows), np.asarray(rows)
    answers: dict[str, object] = {}
    left = rows
    while len(left) > 1:
        step = plain_step(pack, pack.weigh(answers), answers)
        place = int(step.feature[1:])
        answers[step.feature] = States((f"s{row[place]}",))
        left = left[left[:, place] == row[place]]
    return len(answers)


def test_the_walk_needs_the_optimum_where_most_information_first_does_not():
    """Five versions by eight features: optimum 1.6, greedy 2.0 (searched exhaustively; no source)."""
    pack = pack_of(TRAP)

    assert np.mean([questions_for(TRAP, row) for row in TRAP]) == pytest.approx(1.6)
    greedy = pack.rank_questions(pack.weigh({}), {})[0].feature
    assert plain_step(pack, pack.weigh({}), {}) != Ask(greedy, "version")


@pytest.mark.parametrize("seed", range(5))
def test_without_errors_the_walk_is_as_short_as_the_exact_optimum(seed):
    """The exact optimum by our search, itself checked against every tree and published optima."""
    rows = np.unique(np.random.default_rng(seed).integers(0, 3, (9, 12)), axis=0)
    table = KeyTable.of_states(rows)

    asked = np.mean([questions_for(rows, row) for row in rows])
    assert asked == pytest.approx(table.least_cost(table.everything))


@pytest.mark.parametrize("given", [CANNOT_TELL, States(("s0", "s1"))])
def test_an_answer_that_the_plan_does_not_know_ends_the_plan_and_not_the_walk(given):
    pack = pack_of(TRAP)
    first = plain_step(pack, pack.weigh({}), {})
    answers = {first.feature: given}

    assert pack.planned_question(answers) is None
    ranked = pack.rank_questions(pack.weigh(answers), answers)
    assert plain_step(pack, pack.weigh(answers), answers) == Ask(ranked[0].feature, "version")


def test_a_planned_question_gives_way_to_one_that_tells_far_more_now():
    """The plan takes answers for right: of two features that split alike, people get the first wrong."""
    cells = {"a": (CellState("x"),), "b": (CellState("x"),)}, {"a": (CellState("y"),), "b": (CellState("y"),)}
    features = [Feature("a", ("x", "y"), error=0.4), Feature("b", ("x", "y"), error=0.01)]
    pack = compile_pack(features, [Version(f"v{i}", cell) for i, cell in enumerate(cells)])

    assert pack.planned_question({}) == "a"
    assert plain_step(pack, pack.weigh({}), {}) == Ask("b", "version")


def test_a_very_large_table_is_walked_without_a_plan():
    rows = np.random.default_rng(2).integers(0, 2, (MOST_PLANNED // 20 + 1, 20))
    pack = pack_of(rows)

    assert pack.planned_question({}) is None
    assert isinstance(plain_step(pack, pack.weigh({}), {}), Ask)
