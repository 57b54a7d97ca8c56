"""With blanks pooled the engine is the batch formats' bare model to a billionth, on open and invented tables."""

import numpy as np
import pytest

from identification.engine import CANNOT_TELL, CellState, Feature, States, Version, compile_pack
from identification.engine.tables import NOT_THERE, read_problem
from tests.benchmarks.simulated import draw_pieces, simulate
from tests.identification.open_tables import OPEN_TABLES, files_of
from tests.identification.slow_model import SlowModel

TOLERANCE = 1e-9


def as_text(answers):
    """Engine answers as they stand in a file."""
    words = {}
    for code, answer in answers.items():
        words[code] = "?" if answer is CANNOT_TELL else "-" if answer == NOT_THERE else answer.states[0]
    return words


def assert_same_posterior(features, versions, pieces, unrecorded=0.05):
    pack = compile_pack(features, versions, unrecorded=unrecorded, blanks="pooled", unanswered_parent="drops")
    slow = SlowModel(features, versions, unrecorded)
    for answers in pieces:
        belief = pack.weigh(answers)
        posterior, none_of_them = slow.posterior(as_text(answers))
        assert np.abs(belief.posterior - posterior).max() < TOLERANCE
        assert abs(belief.unrecorded - none_of_them) < TOLERANCE


def described(features, versions, number, seed):
    """Answers about drawn versions, some wrong, some cannot tell, some `-`."""
    random = np.random.default_rng(seed)
    for _ in range(number):
        version = versions[random.integers(len(versions))]
        answers = {}
        for feature in features:
            cell = [one.state for one in version.cells.get(feature.code, ()) if one.state in feature.states]
            states = cell if cell and random.random() > 0.1 else feature.states
            answers[feature.code] = States((str(random.choice(states)),))
            if random.random() < 0.15:
                answers[feature.code] = CANNOT_TELL
            elif "-" not in feature.states and random.random() < 0.05:
                answers[feature.code] = NOT_THERE
        yield answers


@pytest.mark.once
@pytest.mark.parametrize("name", OPEN_TABLES)
def test_open_tables_are_ranked_as_by_the_slow_model(name, tmp_path):
    try:
        problem = read_problem(*files_of(name, tmp_path))
    except FileNotFoundError as missing:
        pytest.skip(f"not installed: {missing}")
    versions = problem.versions[:120]
    assert_same_posterior(problem.features, versions, described(problem.features, versions, 6, seed=5))


@pytest.mark.parametrize(
    ("versions", "features", "seed"), [(12, 30, 1), (40, 30, 2), pytest.param(60, 50, 3, marks=pytest.mark.once)]
)
def test_simulated_lineages_are_ranked_as_by_the_slow_model(versions, features, seed):
    reference = simulate(versions, features, seed)
    pieces = [answers for _, answers in draw_pieces(reference, 15, seed, error=0.1)]
    assert_same_posterior(reference.features, reference.versions, pieces)


@pytest.mark.parametrize("unrecorded", [0.0, 0.3])
def test_other_chances_of_an_unrecorded_version_are_weighed_as_by_the_slow_model(unrecorded):
    reference = simulate(10, 12, 4)
    pieces = [answers for _, answers in draw_pieces(reference, 10, 4, error=0.1)]
    assert_same_posterior(reference.features, reference.versions, pieces, unrecorded)


def test_a_chain_of_details_needs_every_part_above_to_be_there():
    features = [
        Feature("flap", ("none", "square"), absent="none", loss=0.1, gain=0.01),
        Feature("button", ("none", "brass"), parent="flap", shown_when=("square",), absent="none", loss=0.2),
        Feature("mark", ("star", "wheel"), parent="button", shown_when=("brass",)),
    ]
    cells = [("square", "brass", "star"), ("square", "brass", "wheel"), ("square", "none", "-"), ("none", "-", "-")]
    versions = [
        Version(f"v{i}", {f.code: (CellState(state),) for f, state in zip(features, row, strict=True)})
        for i, row in enumerate(cells)
    ]
    pieces = [
        {"flap": States((flap,)), "button": States((button,)), "mark": States((mark,))}
        for flap in ("none", "square")
        for button in ("none", "brass")
        for mark in ("star", "wheel")
    ]
    assert_same_posterior(features, versions, [*pieces, {"mark": States(("star",))}, {}])


def test_errors_of_nought_and_weights_of_nought_are_weighed_as_by_the_slow_model():
    features = [Feature("a", ("x", "y"), error=0.0), Feature("b", ("x", "y", "z"), error=0.0)]
    versions = [
        Version("one", {"a": (CellState("x"),), "b": (CellState("y", 0.7), CellState("z", 0.3))}, weight=0.0),
        Version("two", {"a": (CellState("y"),)}, weight=2.0),
        Version("three", {"b": (CellState("x"),)}, weight=1.0),
    ]
    pieces = [{"a": States((a,)), "b": States((b,))} for a in "xy" for b in "xyz"]
    assert_same_posterior(features, versions, pieces)
