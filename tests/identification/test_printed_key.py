"""The key of a garment type for paper: what stands where, what is asked, and how long it is."""

import numpy as np
import pytest
from scipy import stats

from identification.engine import CellState, Feature, Version, compile_pack
from identification.engine.keys import Fork, Leaf
from identification.engine.printed_key import NO_PART, printed_key
from tests.identification.test_keys import huffman_cost, leaves


def test_the_key_of_a_type_ends_in_the_versions_that_nothing_tells_apart_and_leaves_out_the_unseen():
    features = [Feature("a", ("x", "y")), Feature("b", ("x", "y"), effort=3)]
    cells = {"one": "xx", "two": "xy", "twin": "xy", "three": "yx"}
    versions = [
        Version(code, {"a": (CellState(row[0]),), "b": (CellState(row[1]),)}, piece_seen=True)
        for code, row in cells.items()
    ]
    versions.append(Version("paper", {"a": (CellState("x"),)}, piece_seen=False))

    key = printed_key(compile_pack(features, versions))
    assert key.shortest
    assert key.tree == Fork(0, ((0, Fork(1, ((0, Leaf((0,))), (1, Leaf((1, 2)))))), (1, Leaf((3,)))))


def table_key(cells: dict[str, str], *, efforts=(), errors=(), kept=None, weights=None, **features):
    """The key of versions with a letter a feature: `-` not recorded, `xy` in brackets either."""
    count = len(next(iter(cells.values())).split())
    made = [
        Feature(
            f"f{place}",
            ("x", "y", "z"),
            effort=dict(efforts).get(place, 1.0),
            error=dict(errors).get(place, 0.05),
            **features.get(f"f{place}", {}),
        )
        for place in range(count)
    ]
    versions = [
        Version(
            code,
            {
                f"f{place}": tuple(CellState(state) for state in given)
                for place, given in enumerate(row.split())
                if given != "-"
            },
            weight=(weights or {}).get(code, 1.0),
        )
        for code, row in cells.items()
    ]
    return printed_key(compile_pack(made, versions), allowed=kept)


def test_a_version_with_several_states_stands_under_each_of_them_and_no_other():
    key = table_key({"one": "x", "either": "xy", "third": "z"})

    assert key.tree == Fork(0, ((0, Leaf((0, 1))), (1, Leaf((1,))), (2, Leaf((2,)))))


def test_a_version_that_never_has_the_part_is_told_by_its_detail():
    detail = {"parent": "f0", "shown_when": ("x",)}
    key = table_key({"square": "x x", "point": "x y", "without": "y -"}, f1=detail)

    assert key.tree == Fork(1, ((NO_PART, Leaf((2,))), (0, Leaf((0,))), (1, Leaf((1,)))))


def test_a_version_that_may_lack_the_part_stands_under_no_such_part_as_well():
    detail = {"parent": "f0", "shown_when": ("x",)}
    key = table_key({"square": "x x", "often": "xy y", "without": "y -"}, f1=detail)

    assert key.tree.branches[0] == (NO_PART, Leaf((1, 2)))
    assert key.tree.branches[2] == (1, Leaf((1,)))


def test_a_version_without_a_record_of_a_detail_stands_under_every_state_of_a_part_that_it_has():
    detail = {"parent": "f0", "shown_when": ("x",)}
    tree = table_key({"square": "x x", "point": "x y", "blank": "x -", "without": "y -"}, f1=detail).tree

    assert dict(tree.branches) == {NO_PART: Leaf((3,)), 0: Leaf((0, 2)), 1: Leaf((1, 2))}


def test_only_what_may_be_looked_at_is_asked():
    cells = {"a": "x x", "b": "x y", "c": "y x"}
    key = table_key(cells, kept=lambda feature: feature.code == "f0")

    assert key.tree == Fork(0, ((0, Leaf((0, 1))), (1, Leaf((2,)))))
    assert table_key(cells, kept=lambda feature: False).tree == Leaf((0, 1, 2))


def test_a_question_that_is_often_got_wrong_is_left_for_a_surer_one():
    assert table_key({"a": "x x", "b": "y y"}, errors=[(0, 0.3)]).tree.feature == 1
    assert table_key({"a": "x x", "b": "y y"}, errors=[(0, 0.3)], efforts=[(1, 2.0)]).tree.feature == 0


def test_the_mean_number_of_questions_is_that_of_the_pieces():
    """Huffman's rule again: weights 1/2, 1/4, 1/4 with yes-or-no questions take 1 1/2 on average."""
    cells = {"half": "x x", "quarter": "y x", "other": "y y"}
    key = table_key(cells, weights={"half": 2.0, "quarter": 1.0, "other": 1.0})

    assert key.questions == pytest.approx(1.5) == pytest.approx(huffman_cost([0.5, 0.25, 0.25]))
    assert key.most_questions == 2


def test_more_than_twelve_versions_give_a_key_that_does_not_claim_to_be_the_shortest():
    cells = {f"v{n:02d}": " ".join("xyz"[n // 3**place % 3] for place in range(3)) for n in range(13)}
    key = table_key(cells)

    assert not key.shortest
    assert key.questions >= stats.entropy(np.full(13, 1 / 13), base=3)
    assert sorted(leaves(key.tree)) == [(n,) for n in range(13)]
