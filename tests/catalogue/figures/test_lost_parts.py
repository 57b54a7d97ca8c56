"""What a lost part leaves behind is drawn and said beside "the part is missing", where a part can be lost."""

import csv
import gzip
from xml.etree import ElementTree

import pytest
from django.conf import settings

from catalogue.figures.lost_parts import ANY_PART, DRAWN, KIND_OF, left_behind
from catalogue.figures.parts import all_parts
from tests.catalogue.figures.test_details import ALLOWED, points_outside
from tests.reading import text, words

FEATURE_OF = {kind: feature for feature, kind in KIND_OF.items()} | {ANY_PART: "no such feature"}


def can_be_lost() -> list[str]:
    with open(settings.BASE_DIR / "fixtures/demo_society/features.csv", encoding="utf-8-sig") as file:
        return [row["feature"] for row in csv.DictReader(file) if row["absent"]]


def test_every_part_of_the_demo_that_can_be_lost_has_marks_of_its_kind():
    assert len(can_be_lost()) > 20
    assert [feature for feature in can_be_lost() if feature not in KIND_OF] == []


def test_every_feature_with_marks_is_one_that_is_drawn():
    assert set(KIND_OF) <= {feature for feature, _ in all_parts()}


def test_each_kind_of_part_has_a_picture_and_words_of_its_own():
    found = [left_behind(feature) for feature in FEATURE_OF.values()]
    assert len(found) == len(DRAWN)
    assert len({one.svg for one in found}) == len({one.words for one in found}) == len(DRAWN)


@pytest.mark.parametrize("kind", DRAWN)
def test_marks_are_drawn_small_light_and_inside_their_picture(kind):
    svg = left_behind(FEATURE_OF[kind]).svg
    tree = ElementTree.fromstring(f"<svg>{svg}</svg>")

    assert {element.tag for element in tree.iter()} <= ALLOWED
    assert {element.get("class") for element in tree} <= set("oetfbku")
    assert points_outside(svg) == []
    assert len(gzip.compress(svg.encode(), 9)) <= 500


def test_a_part_of_which_nothing_is_known_leaves_what_any_sewn_on_piece_leaves():
    assert left_behind("a feature of the society's own") == left_behind("chest_pockets")


def test_the_question_shows_what_a_lost_part_leaves_beside_that_answer(client, demo):
    page = text(client, "/which/SMK/?_ask=collar")
    button = page.split('value="part-missing"')[1].split("</button>")[0]

    assert left_behind("collar").svg in button
    assert f"Look for {left_behind('collar').words}." in words(button)


def test_a_part_that_cannot_be_lost_shows_no_marks(client, demo):
    page = text(client, "/which/SMK/?_ask=front_closure")
    button = page.split('value="part-missing"')[1].split("</button>")[0]

    assert "<svg" not in button
    assert "Look for" not in button
