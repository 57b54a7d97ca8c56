"""Claims: which checks would refute one soonest, and what answers say of it. No page, no database."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identification.engine import (
    CANNOT_TELL,
    DOUBTFUL,
    NOT_THIS,
    NOTHING_AGAINST,
    CellState,
    Feature,
    States,
    Version,
    compile_pack,
    judge_claim,
    refuting_checks,
)
from identification.engine.claims import alike, rival_weights


def pack_of(rows: dict[str, str], *, kinds=None, weights=None, **changes):
    """Versions with a letter a feature, `-` not recorded; features f0, f1 … of states x, y, z."""
    count = len(next(iter(rows.values())).split())
    features = [Feature(f"f{n}", ("x", "y", "z"), **changes.get(f"f{n}", {})) for n in range(count)]
    versions = [
        Version(
            code,
            {f"f{n}": tuple(map(CellState, cell)) for n, cell in enumerate(row.split()) if cell != "-"},
            kind=(kinds or {}).get(code, "issue"),
            weight=(weights or {}).get(code, 1.0),
        )
        for code, row in rows.items()
    ]
    return compile_pack(features, versions)


def seen(**states) -> dict:
    return {code: States((state,)) for code, state in states.items()}


def test_answers_are_as_alike_as_their_chances_overlap():
    """One less the total variation distance (any book on probability): here .95 and .05 against .025, both states
    recorded for one version each, error .05 over three states, doubt in the record counted in."""
    pack = pack_of({"a": "x", "b": "y", "c": "x"})
    table = pack.table
    distance = np.abs(table[:, [0]] - table).sum(axis=0) / 2

    assert alike(pack, 0, 0) == pytest.approx(1 - distance)
    assert alike(pack, 0, 0)[2] == pytest.approx(1)
    assert alike(pack, 0, 0)[1] < 0.2


def test_copies_and_conversions_hold_half_of_the_rivals_weight():
    kinds = {"copy": "commercial_copy", "altered": "conversion"}
    pack = pack_of(
        {"v": "x x", "copy": "y x", "altered": "z x", "other": "x y", "twin": "x x"},
        kinds=kinds,
        weights={"other": 7.0, "copy": 3.0},
    )

    assert rival_weights(pack, "v").tolist() == pytest.approx([0, 0.375, 0.125, 0.5, 0])


def test_what_would_show_a_copy_comes_before_what_shows_an_other_version():
    kinds = {"copy": "commercial_copy"}
    pack = pack_of(
        {"v": "x x x", "copy": "x x y", "o1": "y x x", "o2": "x y x"}, kinds=kinds, weights={"o1": 3.0, "o2": 3.0}
    )

    assert refuting_checks(pack, "v")[0] == "f2"


def test_a_check_that_is_hard_or_often_got_wrong_stands_back():
    rows = {"v": "x x", "copy": "y y"}

    assert refuting_checks(pack_of(rows), "v")[0] == "f0"
    assert refuting_checks(pack_of(rows, f0={"effort": 4.0}), "v")[0] == "f1"
    assert refuting_checks(pack_of(rows, f0={"error": 0.3}), "v")[0] == "f1"


def test_what_may_not_be_looked_at_is_never_named_nor_what_is_not_recorded():
    pack = pack_of({"v": "x x -", "copy": "y y y"}, f0={"needs_handling": True})

    assert refuting_checks(pack, "v", allowed=lambda feature: not feature.needs_handling) == ("f1",)


def test_a_detail_comes_with_its_part_and_behind_it():
    detail = {"parent": "f0", "shown_when": ("x",)}
    pack = pack_of({"v": "x x", "copy": "x y", "third": "x z"}, f1=detail)

    assert refuting_checks(pack, "v") == ("f0", "f1")
    assert refuting_checks(pack, "v", allowed=lambda feature: feature.code != "f0") == ()


def test_there_are_never_more_than_five_checks():
    rows = {"v": " ".join("x" * 9)} | {f"o{n}": " ".join("y" if n == m else "x" for m in range(9)) for n in range(9)}

    assert len(refuting_checks(pack_of(rows), "v")) == 5


def test_a_version_without_rivals_has_no_checks():
    assert refuting_checks(pack_of({"v": "x x"}), "v") == ()
    assert refuting_checks(pack_of({"v": "x x", "twin": "x x"}), "v") == ()


def test_nothing_speaks_against_a_claim_before_anything_is_seen():
    judged = judge_claim(pack_of({"v": "x", "o": "y"}), "v", {})

    assert (judged.standing, judged.decibans, judged.reasons) == (NOTHING_AGAINST, pytest.approx(0), ())


rows_of_states = st.lists(st.lists(st.sampled_from("xyz"), min_size=3, max_size=3), min_size=1, max_size=5)


@settings(max_examples=60, deadline=None)
@given(rows_of_states)
def test_cannot_tell_to_everything_leaves_nothing_against_the_claim(rows):
    pack = pack_of({f"v{n}": " ".join(row) for n, row in enumerate(rows)})
    judged = judge_claim(pack, "v0", dict.fromkeys(pack.feature_codes, CANNOT_TELL))

    assert judged.standing == NOTHING_AGAINST
    assert judged.decibans == pytest.approx(0)


@settings(max_examples=60, deadline=None)
@given(rows_of_states)
def test_a_piece_as_the_record_says_is_never_held_against_its_claim(rows):
    pack = pack_of({f"v{n}": " ".join(row) for n, row in enumerate(rows)})
    judged = judge_claim(pack, "v0", seen(**{f"f{n}": state for n, state in enumerate(rows[0])}))

    assert judged.standing == NOTHING_AGAINST
    assert judged.disagreements == ()


@settings(max_examples=80, deadline=None)
@given(rows_of_states, st.lists(st.sampled_from("xyz"), min_size=3, max_size=3))
def test_no_single_answer_makes_it_not_this(rows, answers):
    """Left out any one answer, a claim that is refuted is at least doubtful still."""
    pack = pack_of({f"v{n}": " ".join(row) for n, row in enumerate(rows)})
    given_answers = seen(**{f"f{n}": state for n, state in enumerate(answers)})

    if judge_claim(pack, "v0", given_answers).standing == NOT_THIS:
        for code in given_answers:
            kept = {name: answer for name, answer in given_answers.items() if name != code}
            assert judge_claim(pack, "v0", kept).standing in (DOUBTFUL, NOT_THIS)


def test_two_answers_against_rule_it_out_and_name_the_version_it_is():
    pack = pack_of({"v": "x x x x", "o": "y y y y", "p": "z z z z"})
    judged = judge_claim(pack, "v", seen(f0="y", f1="y", f2="y", f3="y"))

    assert judged.standing == NOT_THIS
    assert judged.rather == ("o",)
    assert judged.against == "o"
    assert judged.decibans < -10
    assert all(reason.decibans < 0 for reason in judged.reasons)


def test_one_answer_against_makes_it_doubtful_and_is_named():
    pack = pack_of({"v": "x x x", "o": "y x x", "p": "x y y"})
    judged = judge_claim(pack, "v", seen(f0="y", f1="x"))

    assert judged.standing == DOUBTFUL
    assert judged.rests_on == "f0"
    assert [one.feature for one in judged.disagreements] == ["f0"]


def test_what_is_often_got_wrong_alone_rules_nothing_out():
    weak = {f"f{n}": {"error": 0.2} for n in range(4)}
    pack = pack_of({"v": "x x x x", "o": "y y y y"}, **weak)

    assert judge_claim(pack, "v", seen(f0="y", f1="y", f2="y", f3="y")).standing == DOUBTFUL


def test_what_nothing_tells_from_it_counts_with_it():
    pack = pack_of({"v": "x", "twin": "x", "o": "y"}, weights={"twin": 99.0})
    judged = judge_claim(pack, "v", seen(f0="x"))

    assert judged.twins == ("twin",)
    assert judged.chance > 0.8
    assert judged.standing == NOTHING_AGAINST
    assert judged.against != "twin"


def test_a_look_alike_of_another_kind_stays_on_the_list_until_it_is_ruled_out():
    pack = pack_of({"v": "x x", "copy": "x y"}, kinds={"copy": "commercial_copy"})

    assert [one.version for one in judge_claim(pack, "v", seen(f0="x")).unchecked] == ["copy"]
    assert judge_claim(pack, "v", seen(f0="x", f1="x")).unchecked == ()
