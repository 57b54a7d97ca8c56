"""How often the right version can come first at all, and what to record next."""

import numpy as np
import pytest
from scipy import stats

from identification.engine import CellState, Feature, States, Version, attainable, compile_pack, told_apart
from tests.benchmarks.simulated import simulate

MANY = 40_000


def version(code: str, weight: float = 1.0, **cells: str) -> Version:
    return Version(code, {name: (CellState(state),) for name, state in cells.items()}, weight)


def test_with_one_binary_feature_the_share_is_the_sum_of_the_best_of_each_answer():
    """Σ_x max_v p_v P(x | v), worked out from the pack's own table."""
    pack = compile_pack(
        [Feature("a", ("x", "y"), error=0.1)],
        [version("one", 2, a="x"), version("two", 1, a="y"), version("three", 1, a="y")],
    )
    expected = (pack.prior * pack.table).max(axis=1).sum()

    found = attainable(pack, pieces=MANY)
    assert found.share == pytest.approx(expected, abs=0.01)
    assert (found.record_next, found.share_then) == (None, found.share)


def test_many_looks_at_two_versions_come_to_the_share_of_a_majority():
    """Condorcet: five answers, each right with .8, are right together with P(X >= 3); by scipy.stats.binom."""
    features = [Feature(f"f{i}", ("x", "y"), error=0.2) for i in range(5)]
    pack = compile_pack(
        features,
        [version("one", **{f.code: "x" for f in features}), version("two", **{f.code: "y" for f in features})],
    )
    right = pack.table[0, 0]

    assert attainable(pack, pieces=MANY).share == pytest.approx(stats.binom(5, right).sf(2), abs=0.01)


def test_versions_that_nothing_tells_apart_share_the_first_place():
    pack = compile_pack([Feature("a", ("x", "y"))], [version(str(i), a="x") for i in range(4)])

    assert attainable(pack).share == pytest.approx(1 / 4)


def test_the_feature_to_record_next_is_the_one_whose_gaps_hide_most():
    features = [Feature(code, ("x", "y", "z"), error=0.01) for code in ("family", "known", "gaps")]
    versions = [
        version(f"{family}{i}", family=family, known="x", **({"gaps": "xyz"[i]} if family == "x" else {}))
        for family in "xy"
        for i in range(3)
    ]
    found = attainable(compile_pack(features, versions, blanks="pooled"))

    assert found.record_next == "gaps"
    assert found.share + 0.05 < found.share_then <= 1


def test_a_detail_tells_nothing_of_pieces_without_its_part():
    """All pieces lost the flap: its button is never seen, and the versions stay untold."""
    features = [
        Feature("flap", ("none", "there"), absent="none", loss=1.0, error=0.0),
        Feature("button", ("x", "y"), parent="flap", shown_when=("there",), error=0.0),
    ]
    pack = compile_pack(features, [version("one", flap="there", button="x"), version("two", flap="there", button="y")])

    assert attainable(pack).share == pytest.approx(0.5)


def test_a_version_of_which_no_piece_was_seen_is_neither_drawn_nor_named():
    features = [Feature("a", ("x", "y"))]
    seen, unseen = version("one", a="x"), Version("two", {"a": (CellState("x"),)}, piece_seen=False)

    assert attainable(compile_pack(features, [seen, unseen])).share == 1.0
    assert attainable(compile_pack(features, [unseen])).share == 0.0


@pytest.mark.once
def test_the_same_pack_and_seed_give_the_same_answer_and_it_agrees_with_answering_everything():
    reference = simulate(30, 25, 4)
    pack = compile_pack(reference.features, reference.versions)
    found = attainable(pack, pieces=4000)

    assert attainable(pack) == attainable(pack)
    assert found.share == pytest.approx(share_by_weighing(pack, 1500), abs=0.04)


def share_by_weighing(pack, pieces: int) -> float:
    """Drawn one by one and weighed by the engine itself."""
    random = np.random.default_rng(8)
    right = 0
    for _ in range(pieces):
        truth = int(random.choice(len(pack.versions), p=pack.prior))
        answers = {}
        for place, feature in enumerate(pack.features):
            chances = pack.table[pack.starts[place] : pack.starts[place + 1], truth]
            state = feature.states[int(random.choice(len(chances), p=chances / chances.sum()))]
            answers[feature.code] = States((state,))
        right += int(pack.weigh(answers).posterior.argmax()) == truth
    return right / pieces


@pytest.mark.parametrize(("error", "told"), [(0.02, ("one", "two")), (0.2, ())])
def test_a_version_is_told_apart_when_nine_in_ten_of_its_pieces_come_first(error, told):
    """With one feature of two states a piece comes first exactly when its own state is answered."""
    pack = compile_pack([Feature("a", ("x", "y"), error=error)], [version("one", 9, a="x"), version("two", 1, a="y")])
    right = [pack.table[0, 0], pack.table[1, 1]]
    assert [chance >= 0.9 for chance in right] == [bool(told)] * 2

    assert told_apart(pack, each=4_000) == told


def test_of_two_like_versions_the_common_one_is_not_told_apart_either():
    features = [Feature("a", ("x", "y"), error=0.01)]
    pack = compile_pack(features, [version("one", 99, a="x"), version("like", 1, a="x"), version("other", 1, a="y")])

    assert told_apart(pack) == ("other",)


def test_only_what_may_be_looked_at_tells_apart():
    features = [Feature("a", ("x", "y"), error=0.01), Feature("inside", ("x", "y"), error=0.01, needs_opening=True)]
    pack = compile_pack(
        features,
        [version("one", a="x", inside="x"), version("two", a="x", inside="y"), version("three", a="y", inside="x")],
    )

    assert told_apart(pack) == ("one", "two", "three")
    assert told_apart(pack, allowed=lambda feature: not feature.needs_opening) == ("three",)
    assert told_apart(pack, allowed=lambda feature: False) == ()


def test_a_version_that_nobody_has_seen_is_left_out_of_the_count():
    unseen = Version("unseen", {"a": (CellState("x"),)}, piece_seen=False)
    pack = compile_pack([Feature("a", ("x", "y"), error=0.01)], [version("one", a="x"), version("two", a="y"), unseen])

    assert told_apart(pack) == ("one", "two")
    assert told_apart(compile_pack([Feature("a", ("x", "y"))], [unseen])) == ()
