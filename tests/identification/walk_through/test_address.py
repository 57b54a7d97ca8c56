"""The address of a walk: read, written, and never an error."""

from dataclasses import replace
from urllib.parse import parse_qsl

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.reference.facts import FeatureFacts, StateFacts
from identification.walk_through.address import Walk, read_measure, read_walk


def make_feature(code="front_closure", states=("zip", "buttons", "toggles"), **more) -> FeatureFacts:
    plain = dict(
        name=code.replace("_", " "), group="", question="?", kind="choice", unit="", spread=5.0, seen="outside",
        effort=1.0, error=0.05, error_note="", service_change="no", change_note="", absent=None, loss=0.0, gain=0.0,
        parent=None, shown_when=(), basis="", places=(),
    )  # fmt: skip
    made = tuple(s if isinstance(s, StateFacts) else StateFacts(s, s.title()) for s in states)
    return FeatureFacts(code=code, states=made, **(plain | more))


CLOSURE = make_feature()
POCKETS = make_feature("chest_pockets", ("none", "left", "right", "both"))
BRIM = make_feature(
    "brim",
    (StateFacts("narrow", "Under 6 cm", 0, 60), StateFacts("wide", "6 cm or more", 60, None)),
    kind="measurement",
)
BUTTONS = make_feature(
    "buttons", (StateFacts("n4", "4 or fewer", 0, 5), StateFacts("n5", "5 or more", 5, None)), kind="count"
)
FEATURES = {f.code: f for f in (CLOSURE, POCKETS, BRIM, BUTTONS)}


def read(query: str, **more) -> Walk:
    return read_walk(parse_qsl(query, keep_blank_values=True), FEATURES, **more)


def test_answers_are_read_in_the_order_of_the_address():
    walk = read("chest_pockets=left&front_closure=zip")

    assert list(walk.answers.items()) == [("chest_pockets", ("left",)), ("front_closure", ("zip",))]
    assert walk.notes == ()


def test_several_states_come_out_in_the_order_of_the_feature():
    assert read("front_closure=toggles,zip").answers["front_closure"] == ("zip,toggles",)


@pytest.mark.parametrize("word", ["cannot-tell", "part-missing", "altered"])
def test_the_reserved_answers_are_taken_by_every_feature(word):
    assert read(f"brim={word}&front_closure={word}").answers == {"brim": (word,), "front_closure": (word,)}


@pytest.mark.parametrize(
    ("typed", "kept"),
    [("55mm", "55mm"), ("55", "55mm"), ("5.5cm", "55mm"), ("5,5 cm", "55mm"), ("2in", "50.8mm"), ("055", "55mm")],
)
def test_a_measure_is_kept_in_millimetres(typed, kept):
    assert read_measure(typed) == kept


@pytest.mark.parametrize("typed", ["", "-5", "0", "wide", "1e3", "99999in", "٥٥", "5 5", "nan", "inf"])
def test_what_is_no_length_is_no_measure(typed):
    assert read_measure(typed) is None


def test_a_count_becomes_the_state_whose_band_holds_it():
    assert read("buttons=6").answers["buttons"] == ("n5",)


def test_the_second_value_is_the_answer_given_when_read_back():
    assert read("front_closure=zip&front_closure=buttons").answers["front_closure"] == ("zip", "buttons")


def test_a_third_value_is_left_out_and_said():
    walk = read("front_closure=zip&front_closure=buttons&front_closure=toggles")

    assert walk.answers["front_closure"] == ("zip", "buttons")
    assert len(walk.notes) == 1


@pytest.mark.parametrize(
    "query",
    [
        "colour=red",
        "front_closure=velcro",
        "front_closure=",
        "_colour=red",
        "_ask=nothing",
        "_year=19x4",
        "_accepted=yes",
    ],
)
def test_what_is_not_understood_is_dropped_with_a_note(query):
    walk = read(f"{query}&chest_pockets=left")

    assert walk.answers == {"chest_pockets": ("left",)}
    assert len(walk.notes) == 1


def test_a_long_name_is_shortened_in_the_note():
    assert len(read("x" * 5_000 + "=1").notes[0]) < 120


def test_changing_one_answer_keeps_the_others_and_their_order():
    walk = read("front_closure=zip&chest_pockets=left&brim=55mm").with_answer("chest_pockets", "both")

    assert walk.query() == "?front_closure=zip&chest_pockets=both&brim=55mm"


def test_a_maker_counts_only_if_some_state_is_limited_to_it():
    assert read("_maker=VSK", makers=["VSK"]).maker == "VSK"
    assert read("_maker=ZZZ", makers=["VSK"]).maker == ""


texts = st.sampled_from(["zip", "buttons", "zip,toggles", "cannot-tell", "altered"])


@given(
    st.lists(texts, max_size=2).map(lambda given: {"front_closure": tuple(given)} if given else {}),
    st.sampled_from([(), ("outside",), ("front",), ("front", "label")]),
    st.sampled_from(["", "brim", "_label_sewn"]), st.sampled_from([None, 1984]),
    st.sampled_from([("", None), ("same", 1984), ("cannot-tell", None), ("empty_row", 1971)]),
)  # fmt: skip
def test_reading_what_was_written_gives_the_same_walk(answers, views, ask, year, label):
    sewn, contract = label
    walk = replace(
        Walk(),
        answers=answers,
        views=views,
        ask=ask,
        year=year,
        label_sewn=sewn,
        label_contract=contract,
        label_maker="DUN,GAR",
        label_repair="HAL",
    )

    assert read(walk.query()[1:], views=["front", "back", "label"]) == walk


@pytest.mark.parametrize(
    ("query", "views"),
    [
        ("_views=front,label", ("front", "label")),
        ("_views=label&_views=front", ("front", "label")),
        ("_views=outside", ("outside",)),
        ("_views=label,outside", ("outside",)),
        ("_views=", ()),
    ],
)
def test_views_come_out_in_the_order_of_the_type_and_outside_stands_alone(query, views):
    walk = read(query, views=["front", "back", "label"])

    assert (walk.views, walk.notes) == (views, ())


def test_a_view_that_the_type_does_not_have_is_named_and_the_others_stay():
    walk = read("_views=front,brim", views=["front", "back"])

    assert walk.views == ("front",)
    assert walk.notes == ("“brim” is not a view: left out.",)


@given(st.text(max_size=300))
def test_no_address_is_an_error(query):
    walk = read(query)

    assert replace(read(walk.query()[1:]), notes=()) == replace(walk, notes=())
