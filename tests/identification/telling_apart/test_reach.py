"""A type's page says how many of its versions can be told apart at all, and from outside."""

import pytest

from identification.telling_apart.reach import words as reach_words
from identification.walk_through import packs
from tests.making import make_feature, make_type, make_version
from tests.reading import text, words


@pytest.mark.parametrize(
    ("told", "outside", "known", "said"),
    [
        (10, 8, 12, "With everything looked at, 10 of the 12 versions can be told apart; from outside 8."),
        (12, 12, 12, "With everything looked at, all 12 versions can be told apart; from outside as many."),
        (2, 0, 2, "With everything looked at, both versions can be told apart; from outside none."),
        (0, 0, 3, "With everything looked at, none of the 3 versions can be told apart; from outside as many."),
    ],
)
def test_the_count_in_words(told, outside, known, said):
    assert reach_words(told, outside, known, closed=False) == said


def test_what_must_stay_closed_is_counted_closed():
    said = reach_words(2, 2, 2, closed=True)
    assert said == "With all that may be looked at while it stays closed, both versions can be told apart."


def test_the_page_names_the_two_blouses_that_nothing_separates(client, demo):
    """The scenario's own statement: BLO-57 and BLO-64G cannot be told apart on present knowledge."""
    page = words(text(client, "/garment-types/BLO/"))

    assert "With everything looked at, 8 of the 10 versions can be told apart; from outside" in page
    assert "Not for sure: BLO-57, BLO-64G." in page


def test_the_page_counts_the_hood_closed_and_leaves_out_a_vest_nobody_has_seen(client, demo):
    assert "while it stays closed, both versions" in words(text(client, "/garment-types/HOO/"))
    assert "can be told apart;" not in words(text(client, "/garment-types/VES/"))


def test_it_is_worked_out_once_and_again_when_the_reference_changes(client, db):
    garment = make_type("T")
    feature = make_feature("a", types=[garment], seen="outside", error=0.01)
    make_version(garment, "V1", {feature: "yes"})
    make_version(garment, "V2", {feature: "no"})

    assert "both versions can be told apart; from outside as many" in text(client, "/garment-types/T/")
    kept = packs.keep_count.kept["told apart", "T"]
    text(client, "/garment-types/T/")
    assert packs.keep_count.kept["told apart", "T"] is kept

    make_version(garment, "V3", {feature: "no"})
    assert "1 of the 3 versions can be told apart" in text(client, "/garment-types/T/")
