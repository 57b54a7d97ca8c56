"""What a lost part leaves behind is drawn and said beside "the part is missing", where a part can be lost."""

import gzip
from xml.etree import ElementTree

import pytest

from catalogue.figures.lost_parts import ANY_PART, DRAWN, KIND_OF, left_behind
from catalogue.figures.parts import all_parts
from catalogue.reference.snapshots import all_types
from catalogue.templatetags.drawings import small
from tests.catalogue.figures.test_details import ALLOWED, points_outside
from tests.reading import text, words

FEATURE_OF = {kind: feature for feature, kind in KIND_OF.items()} | {ANY_PART: "no such feature"}


@pytest.mark.django_db
def test_every_part_of_the_demo_of_which_a_walk_asks_whether_it_is_missing_has_marks_of_its_kind(demo):
    asked = {code for facts in all_types() for code, f in facts.features.items() if facts.can_be_missing(f)}
    assert len(asked) > 40
    assert asked - KIND_OF.keys() == set()


def test_every_feature_with_marks_is_one_that_is_drawn():
    assert set(KIND_OF) <= {feature for feature, _ in all_parts()}


def test_each_kind_of_part_has_a_picture_and_words_of_its_own():
    found = [left_behind(feature) for feature in FEATURE_OF.values()]
    assert len(found) == len(DRAWN)
    assert len({one.svg for one in found}) == len({one.words for one in found}) == len(DRAWN)


def test_the_question_of_the_closure_shows_what_buttons_and_a_zip_leave(client, demo):
    page = text(client, "/which/SMK/?_ask=front_closure")
    button = page.split('value="part-missing"')[1].split("</button>")[0]

    assert left_behind("front_closure").svg in button
    assert "Look for tufts of thread and empty buttonholes; of a zip" in words(button)


@pytest.mark.parametrize("kind", DRAWN)
def test_marks_are_drawn_small_light_and_inside_their_picture(kind):
    svg = left_behind(FEATURE_OF[kind]).svg
    tree = ElementTree.fromstring(f"<svg>{svg}</svg>")

    assert {element.tag for element in tree.iter()} <= ALLOWED
    assert {element.get("class") for element in tree} <= set("oetfbku")
    assert points_outside(svg) == []
    assert len(gzip.compress(small(svg).encode(), 9)) <= 500


def test_a_part_of_which_nothing_is_known_leaves_what_any_sewn_on_piece_leaves():
    assert left_behind("a feature of the society's own") == left_behind("chest_pockets")


def test_the_question_shows_what_a_lost_part_leaves_beside_that_answer(client, demo):
    page = text(client, "/which/SMK/?_ask=collar")
    button = page.split('value="part-missing"')[1].split("</button>")[0]

    assert left_behind("collar").svg in button
    assert f"Look for {left_behind('collar').words}." in words(button)


def test_a_part_that_cannot_be_lost_shows_no_marks(client, demo):
    page = text(client, "/which/SMK/?_ask=weave")

    assert 'value="cannot-tell"' in page
    assert 'value="part-missing"' not in page
