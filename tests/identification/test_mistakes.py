"""What a piece would be named as: by the errors of those who look, and never what none of them has seen."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identification.engine import NOT_RECORDED, CellState, Feature, Version, compile_pack, named_as

STATES = ("yes", "no")


def pack(profiles: dict[str, str], *, error=0.05, unrecorded=0.001, **fields):
    """One letter a feature, y or n; `fields` go to single versions as code={...}."""
    number = len(next(iter(profiles.values())))
    features = [Feature(code=f"f{i}", states=STATES, error=error) for i in range(number)]
    versions = [
        Version(
            code=code,
            cells={f"f{i}": (CellState("yes" if sign == "y" else "no"),) for i, sign in enumerate(profile)},
            **fields.get(code, {}),
        )
        for code, profile in profiles.items()
    ]
    return compile_pack(features, versions, unrecorded=unrecorded)


@pytest.mark.parametrize("error", [0.05, 0.2, 0.35])
def test_with_one_feature_a_piece_is_mistaken_as_often_as_the_feature_is_got_wrong(error):
    """By hand: two versions alike common, one answer; the other is named exactly when the answer is wrong."""
    two = pack({"A": "y", "B": "n"}, error=error)
    wrong = float(two.table[two.row_of[0, "no"], 0])
    assert wrong == pytest.approx(error, abs=0.02)  # the record itself is doubted a little

    assert named_as(two, "A", walks=20_000)["B"] == pytest.approx(wrong, abs=0.01)


def test_three_features_mend_what_one_gets_wrong():
    """By hand: of three answers two must be wrong, 3 e² (1 - e) + e³."""
    three = pack({"A": "yyy", "B": "nnn"}, error=0.2)
    e = float(three.table[three.row_of[0, "no"], 0])

    assert named_as(three, "A", walks=20_000)["B"] == pytest.approx(3 * e**2 * (1 - e) + e**3, abs=0.01)


def test_what_nothing_tells_apart_is_named_in_equal_parts():
    shares = named_as(pack({"A": "yy", "B": "yy", "C": "nn"}), "A", walks=2_000)

    assert shares["A"] == shares["B"]
    assert shares["A"] > 0.4


def test_the_common_one_is_named_where_nothing_may_be_asked():
    uneven = pack({"A": "y", "B": "n"}, B={"weight": 3.0})

    assert named_as(uneven, "A", allowed=lambda feature: False) == {"B": 1.0}


def test_what_no_member_has_seen_is_never_named():
    unseen = pack({"A": "yyyy", "B": "nnnn"}, A={"piece_seen": False})

    assert "A" not in named_as(unseen, "A")


def test_a_stranger_that_fits_nothing_is_found_not_to_be_in_the_reference():
    strangers = pack({"A": "yyyyyyyy", "B": "yyyynnnn", "S": "nnnnyynn"}, unrecorded=0.1, S={"weight": 0.0})

    assert named_as(strangers, "S")[NOT_RECORDED] > 0.9


def test_without_features_or_questions_something_is_still_named():
    assert sum(named_as(compile_pack([], [Version("A", {})]), "A").values()) == pytest.approx(1)


@pytest.mark.fuzz
@given(st.lists(st.text("yn", min_size=4, max_size=4), min_size=1, max_size=6), st.floats(0.01, 0.4))
@settings(deadline=None, max_examples=30)
def test_all_pieces_are_named_once_and_the_same_every_time(profiles, error):
    many = pack({f"V{i}": profile for i, profile in enumerate(profiles)}, error=error)
    shares = named_as(many, "V0", walks=50)

    assert sum(shares.values()) == pytest.approx(1)
    assert list(shares.values()) == sorted(shares.values(), reverse=True)
    assert named_as(many, "V0", walks=50) == shares
