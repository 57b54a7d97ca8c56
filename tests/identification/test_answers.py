"""What single answers mean."""

import numpy as np
import pytest

from identification.engine import (
    ALTERED,
    CANNOT_TELL,
    PART_MISSING,
    CellState,
    Context,
    Feature,
    Measured,
    States,
    Version,
    compile_pack,
)

SQUARE, ROUND, NONE = States(("square",)), States(("round",)), States(("none",))


def cell(*states: str) -> tuple[CellState, ...]:
    return tuple(CellState(state) for state in states)


def flap_and_button():
    """A flap that can be lost, and its button."""
    features = [
        Feature("flap", ("none", "square", "round"), absent="none", loss=0.1, gain=0.01),
        Feature("button", ("brass", "horn"), parent="flap", shown_when=("square", "round")),
        Feature("cloth", ("serge", "cotton")),
    ]
    versions = [
        Version("brass", {"flap": cell("square"), "button": cell("brass"), "cloth": cell("serge")}),
        Version("horn", {"flap": cell("square"), "button": cell("horn"), "cloth": cell("serge")}),
        Version("plain", {"flap": cell("none"), "cloth": cell("serge")}),
    ]
    return features, versions


def test_a_detail_says_nothing_of_a_version_without_the_part_once_the_part_was_answered():
    pack = compile_pack(*flap_and_button(), blanks="pooled")
    brass = pack.place["button"], "brass"

    row = pack.table[pack.row_of[brass]]
    assert row[2] == pytest.approx(pack.base[pack.row_of[brass]])
    assert row[0] > row[2] > row[1]


def test_a_detail_seen_while_nobody_answered_the_part_shows_that_the_part_is_there():
    pack = compile_pack(*flap_and_button())
    implied = pack.weigh({"button": States(("brass",))})
    said = pack.weigh({"flap": States(("square", "round")), "button": States(("brass",))})

    assert implied.posterior == pytest.approx(said.posterior)
    assert implied.posterior[2] < pack.weigh({}).posterior[2] / 3


def test_two_details_show_their_part_once():
    features, versions = flap_and_button()
    twin = Feature("stitch", ("plain", "crossed"), parent="flap", shown_when=("square", "round"))
    pack = compile_pack([*features, twin], versions, blanks="pooled")
    details = {"button": States(("brass",)), "stitch": States(("plain",))}

    assert pack.weigh(details).posterior == pytest.approx(
        pack.weigh(details | {"flap": States(("square", "round"))}).posterior
    )


def test_a_detail_is_dropped_where_that_is_wanted_until_its_part_is_answered():
    pack = compile_pack(*flap_and_button(), unanswered_parent="drops")
    belief = pack.weigh({"button": States(("brass",))})

    assert belief.posterior == pytest.approx(pack.weigh({}).posterior)
    assert belief.left_out == {"button": "counts only where the part is there"}
    assert pack.weigh({"flap": SQUARE, "button": States(("brass",))}).left_out == {}


@pytest.mark.parametrize("flap", [NONE, PART_MISSING])
def test_details_of_a_part_that_is_not_there_count_for_nothing(flap):
    pack = compile_pack(*flap_and_button())
    with_detail = pack.weigh({"flap": flap, "button": States(("horn",))})

    assert with_detail.posterior == pytest.approx(pack.weigh({"flap": flap}).posterior)
    assert with_detail.left_out == {"button": "counts only where the part is there"}
    assert "button" not in [q.feature for q in pack.rank_questions(with_detail, {"flap": flap})]


def test_a_missing_part_is_not_the_same_as_none():
    pack = compile_pack(*flap_and_button())

    assert pack.weigh({"flap": PART_MISSING}).posterior[2] < pack.weigh({}).posterior[2]
    assert pack.weigh({"flap": NONE}).posterior[2] > pack.weigh({}).posterior[2]


def test_a_missing_part_of_a_feature_that_cannot_be_lost_counts_for_nothing():
    pack = compile_pack(*flap_and_button())

    assert pack.weigh({"cloth": PART_MISSING}).left_out == {"cloth": "counts for nothing"}


@pytest.mark.parametrize("answer", [CANNOT_TELL, ALTERED, States(()), States(("no such state",)), Measured(3)])
def test_answers_that_say_nothing_are_left_out_and_named(answer):
    pack = compile_pack(*flap_and_button())
    belief = pack.weigh({"flap": answer, "sleeve": SQUARE})

    assert belief.posterior == pytest.approx(pack.weigh({}).posterior)
    assert belief.left_out == {"flap": "counts for nothing", "sleeve": "not a feature of this garment type"}


def test_one_of_several_states_weighs_as_the_sum_of_its_states():
    pack = compile_pack(*flap_and_button())
    rows = [pack.row_of[pack.place["flap"], state] for state in ("square", "round")]
    prior = pack.weigh({}).posterior

    ratio = pack.weigh({"flap": States(("square", "round"))}).posterior / prior
    expected = pack.table[rows].sum(axis=0)
    assert ratio / ratio[0] == pytest.approx(expected / expected[0])


def test_a_second_look_that_agrees_is_less_than_two_answers():
    """Two looks at one piece share what was lost or added on it: P = sum over found states of both answers."""
    pack = compile_pack(*flap_and_button(), unrecorded=0.0)
    once, again = (pack.weigh({"flap": given}).posterior for given in (NONE, (NONE, NONE)))
    doubled = pack.prior * (once / pack.prior) ** 2
    doubled /= doubled.sum()

    assert once[2] < again[2] < doubled[2]


def test_a_second_look_that_differs_takes_most_of_the_first_back():
    pack = compile_pack(*flap_and_button(), unrecorded=0.0)
    once, corrected = (pack.weigh({"flap": given}).posterior for given in (NONE, (NONE, SQUARE)))

    assert corrected[0] > 2 * once[0]


def test_a_measure_counts_for_each_band_by_how_near_it_lies():
    """Normal error of 5 mm: on a limit both bands count alike; the chance of a band is that of the true measure."""
    brim = Feature("brim", ("narrow", "wide"), bands=((0, 50), (50, None)), sd=5.0, error=0.0)
    pack = compile_pack([brim], [Version("narrow", {"brim": cell("narrow")}), Version("wide", {"brim": cell("wide")})])

    at = {value: pack.weigh({"brim": Measured(value)}).posterior for value in (30, 50, 52, 90)}
    assert at[50][0] == pytest.approx(at[50][1])
    assert at[30][0] > 0.9 > at[52][1] > 0.5
    assert at[90][1] == pytest.approx(pack.weigh({"brim": States(("wide",))}).posterior[1], abs=1e-6)


def limited(**limits):
    features = [Feature("seam", ("felled", "overedged"), error=0.03)]
    states = (CellState("felled"), CellState("overedged", **limits))
    return features, [Version("v", {"seam": states}), Version("other", {"seam": cell("overedged")})]


@pytest.mark.parametrize(
    ("limits", "inside", "outside"),
    [
        ({"makers": ("VSK",)}, Context(maker="VSK"), Context(maker="LUM")),
        ({"sizes": ("5", "6")}, Context(size="6"), Context(size="2")),
        ({"first_year": 1992}, Context(year=1992), Context(year=1991)),
        ({"last_year": 1988}, Context(year=1988), Context(year=1989)),
    ],
)
def test_a_state_limited_to_some_pieces_counts_only_where_the_piece_may_be_one(limits, inside, outside):
    seam = {"seam": States(("overedged",))}
    chance = {
        context: compile_pack(*limited(**limits), context=context).weigh(seam).posterior[0]
        for context in (Context(), inside, outside)
    }

    assert chance[inside] == pytest.approx(chance[Context()])
    assert chance[outside] < chance[inside] / 3


@pytest.mark.parametrize("states", [("felled",), ("felled", "overedged")])
def test_a_limit_that_leaves_no_state_leaves_the_feature_unrecorded_of_such_pieces(states):
    features, versions = limited()
    only = [Version("v", {"seam": tuple(CellState(state, makers=("VSK",)) for state in states)}), versions[1]]
    silent = [Version("v", {}), versions[1]]
    theirs, others = Context(maker="VSK"), Context(maker="LUM")

    assert np.array_equal(compile_pack(features, only, context=theirs).table, compile_pack(features, only).table)
    assert np.array_equal(
        compile_pack(features, only, context=others).table, compile_pack(features, silent, context=others).table
    )


def test_versions_that_nothing_separates_keep_their_prior_odds():
    features = [Feature("a", ("x", "y")), Feature("b", ("x", "y"))]
    cells = {"a": cell("x"), "b": cell("y")}
    pack = compile_pack(
        features, [Version("one", cells, weight=3), Version("two", cells, weight=1), Version("else", {"a": cell("y")})]
    )
    posterior = pack.weigh({"a": States(("x",)), "b": States(("y",))}).posterior

    assert posterior[0] / posterior[1] == pytest.approx(3)
    assert pack.inseparable_from("one") == ("two",)
    assert pack.separating("one", "else") == ("a",)


def test_accepted_examples_sharpen_the_shares_but_not_what_the_record_separates():
    features = [Feature("a", ("x", "y", "z"))]
    counted = {"a": {"x": 8, "y": 2}}
    pack = compile_pack(features, [Version("v", {"a": cell("x", "y")}, counts=counted), Version("w", {"a": cell("z")})])

    assert pack.doubted[0][0, 0] > pack.doubted[0][1, 0] + 0.3
    assert pack.separating("v", "w") == ("a",)


@pytest.mark.parametrize(
    ("features", "versions", "options"),
    [
        ([Feature("a", ("x", "y")), Feature("a", ("x", "y"))], [], {}),
        ([Feature("a", ("x", "y"))], [Version("v", {}), Version("v", {})], {}),
        ([Feature("a", ("x", "y"), parent="b"), Feature("b", ("x", "y"), parent="a")], [], {}),
        ([], [], {"blanks": "guessed"}),
        ([], [], {"unanswered_parent": "maybe"}),
        ([], [], {"unrecorded": 1.0}),
    ],
)
def test_what_cannot_be_compiled_is_refused_in_words(features, versions, options):
    with pytest.raises(ValueError, match="[a-z] [a-z]"):
        compile_pack(features, versions, **options)


def test_with_no_versions_every_piece_is_unrecorded_and_with_no_features_the_prior_stands():
    nothing = compile_pack([Feature("a", ("x", "y"))], [])
    bare = compile_pack([], [Version("v", {}), Version("w", {})])

    assert nothing.weigh({"a": States(("x",))}).unrecorded == pytest.approx(1)
    assert bare.weigh({}).posterior == pytest.approx([0.475, 0.475])
