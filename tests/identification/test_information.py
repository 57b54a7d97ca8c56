"""How much a set of questions tells together."""

from math import log2

import pytest

from identification.engine import CellState, Feature, States, Version, compile_pack, expected_information


def pack(*profiles: str, error: float = 0.0):
    """Versions equally common; one letter a feature, y or n."""
    features = [Feature(code=f"f{i}", states=("yes", "no"), error=error) for i in range(len(profiles[0]))]
    versions = [
        Version(f"V{n}", {f"f{i}": (CellState("yes" if s == "y" else "no"),) for i, s in enumerate(profile)})
        for n, profile in enumerate(profiles)
    ]
    return compile_pack(features, versions, unrecorded=1e-6)


def test_questions_that_tell_four_versions_apart_give_two_bits():
    """By hand: log2 4, less what the doubt about each record leaves."""
    assert expected_information(pack("yy", "yn", "ny", "nn"), {}, walks=4_000) == pytest.approx(2, abs=0.25)


def test_one_question_gives_what_shannons_formula_says():
    """Shannon 1948, A Mathematical Theory of Communication, section 12: the rate of a binary symmetric channel is
    1 - H(e) (cited from memory). One question about two versions alike common is such a channel."""
    two = pack("y", "n", error=0.2)
    e = float(two.table[two.row_of[0, "no"], 0])
    by_formula = 1 + e * log2(e) + (1 - e) * log2(1 - e)

    assert expected_information(two, {}, walks=20_000) == pytest.approx(by_formula, abs=0.02)


def test_what_two_questions_both_tell_is_counted_once():
    twice = pack("yy", "nn")
    once = expected_information(twice, {}, allowed=lambda f: f.code == "f0", walks=2_000)

    assert once <= expected_information(twice, {}, walks=2_000) <= 1


def test_nothing_allowed_or_nothing_to_tell_gives_nothing():
    assert expected_information(pack("y", "n"), {}, allowed=lambda f: False) == pytest.approx(0, abs=1e-9)
    assert expected_information(pack("y", "y"), {}) == pytest.approx(0, abs=0.01)
    assert expected_information(compile_pack([], []), {}) == 0


def test_answers_take_from_what_is_left_to_learn():
    four = pack("yy", "yn", "ny", "nn")
    after = expected_information(four, {"f0": States(("yes",))}, walks=2_000)

    assert after < expected_information(four, {}, walks=2_000)
