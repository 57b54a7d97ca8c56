"""The close-up pictures: every state has its own, light enough for a slow link, made of the few allowed elements."""

import csv
import gzip
import re
from xml.etree import ElementTree

import pytest
from django.conf import settings

from catalogue.figures.cloth_fills import HATCHES, fill_for
from catalogue.figures.composing import picture
from catalogue.figures.parts import all_parts
from catalogue.templatetags.drawings import small

# States of the reference lists that the demo's own tables put other names to, or that no demo garment has.
MORE_STATES = {
    "cloth_pattern": ("print_a", "print_b"),
    "stock_no": ("old_form", "new_form", "coded"),
    "property_mark": ("mark_old", "mark_new"),
}
FEATURES = (
    *("button_fix", "button_material", "weave", "cloth_pattern", "colour", "print_repeat", "hand"),
    *("main_seam", "stitch_density", "lining"),
    *("label_kind", "label_place", "stock_no", "property_mark", "size_system", "treatment_label"),
    *("label_thread", "needle_holes", "trade_name", "stud_material"),
)
# What is told by its colour too: dyes, metals, thread.
OF_A_COLOUR = ("colour", "button_material", "stud_material", "label_thread")
ALLOWED = {"svg", "path", "rect", "circle", "text"}


def states_of(feature: str) -> list[str]:
    with open(settings.BASE_DIR / "fixtures/demo_society/states.csv", encoding="utf-8-sig") as file:
        demo = [row["state"] for row in csv.DictReader(file) if row["feature"] == feature]
    return demo + [state for state in MORE_STATES.get(feature, ()) if state not in demo]


def pictures_of(feature: str) -> dict[str, str]:
    return {state: picture(feature, state) for state in states_of(feature)}


@pytest.mark.parametrize("feature", FEATURES)
def test_every_state_has_a_picture_unlike_its_rivals(feature):
    pictures = pictures_of(feature)
    assert len(pictures) > 1
    assert [state for state, drawn in pictures.items() if not drawn] == []
    assert len(set(pictures.values())) == len(pictures)


@pytest.mark.parametrize("feature", FEATURES)
def test_a_picture_is_well_formed_and_made_of_the_few_allowed_elements(feature):
    for state, drawn in pictures_of(feature).items():
        tree = ElementTree.fromstring(f"<svg>{drawn}</svg>")
        assert {element.tag for element in tree.iter()} <= ALLOWED, state
        assert not {"style", "id"} & {name for element in tree.iter() for name in element.attrib}, state
        kinds = {element.get("class") for element in tree if element.tag != "text"}
        own_colour = {None} if feature in OF_A_COLOUR else set()
        assert kinds <= set("oetfbku") | own_colour, state


def test_a_colour_is_shown_in_itself_and_said_without_colour_by_lines_of_its_own():
    lines, tones = {}, {}
    for state, drawn in pictures_of("colour").items():
        shapes = list(ElementTree.fromstring(f"<svg>{drawn}</svg>"))
        if state != "mix":
            filled, hatched = shapes
            tones[state], lines[state] = filled.get("fill"), hatched.get("d")
            assert re.fullmatch("#[0-9a-f]{6}", tones[state])
            assert hatched.get("stroke") == "#000"  # as dark in the dark scheme, where the cloth's colour is the same
    red, green, blue = (int(tones["grey"][at : at + 2], 16) for at in (1, 3, 5))
    assert max(red, green, blue) - min(red, green, blue) <= 8
    assert len(set(lines.values())) == len(set(tones.values())) == len(lines) > 5


@pytest.mark.parametrize(("feature", "state"), [("button_material", "brass"), ("stud_material", "brass")])
def test_brass_is_told_by_glints_too_for_who_sees_no_colours(feature, state):
    shapes = list(ElementTree.fromstring(f"<svg>{picture(feature, state)}</svg>"))
    glints = sum(shape.get("d", "").count("Z") for shape in shapes if shape.get("class") == "k")
    assert any(shape.get("fill") for shape in shapes)
    assert glints >= 3


def test_no_colour_is_hatched_with_lines_that_cross_as_quilting_does():
    for state, one in HATCHES.items():
        markup, _ = fill_for({"cloth_pattern": "plain_dyed", "colour": state})
        [lines] = re.findall(r'stroke-opacity="[^"]*" d="([^"]*)"', markup)
        assert re.fullmatch(r"M1 0V\d+", lines), one


def test_every_picture_of_an_answer_weighs_at_most_500_bytes_gzipped_with_its_svg_tag():
    heavy = {}
    for (feature, state), parts in all_parts().items():
        for garment_class in {"", *(one for part in parts for one in part.classes)}:
            weight = len(gzip.compress(small(picture(feature, state, "", garment_class)).encode(), 9))
            if weight > 500:
                heavy[feature, state, garment_class] = weight
    assert len(all_parts()) > 250
    assert heavy == {}


@pytest.mark.parametrize("feature", FEATURES)
def test_nothing_is_drawn_outside_the_small_picture(feature):
    for state, drawn in pictures_of(feature).items():
        assert points_outside(drawn) == [], state


def points_outside(drawn: str) -> list[tuple[float, float]]:
    """Corners and control points that lie beyond the picture of 96 by 64."""
    found = []
    for element in ElementTree.fromstring(f"<svg>{drawn}</svg>"):
        if element.tag == "path":
            found += points_of(element.get("d", ""))
        elif element.tag == "rect":
            x, y, w, h = (float(element.get(name, 0)) for name in ("x", "y", "width", "height"))
            found += [(x, y), (x + w, y + h)]
        elif element.tag == "circle":
            x, y, r = (float(element.get(name, 0)) for name in ("cx", "cy", "r"))
            found += [(x - r, y - r), (x + r, y + r)]
        else:
            found.append((float(element.get("x", 0)), float(element.get("y", 0))))
    return [(x, y) for x, y in found if not (0 <= x <= 96 and 0 <= y <= 64)]


def points_of(data: str) -> list[tuple[float, float]]:
    found, here = [], (0.0, 0.0)
    for command, numbers in re.findall(r"([MLHVCQZ])([^MLHVCQZ]*)", data):
        values = [float(one) for one in re.findall(r"-?\d*\.?\d+", numbers)]
        if command == "H":
            points = [(x, here[1]) for x in values]
        elif command == "V":
            points = [(here[0], y) for y in values]
        else:
            points = list(zip(values[::2], values[1::2], strict=True))
        found += points
        here = points[-1] if points else here
    return found


def test_every_picture_of_these_modules_belongs_to_a_state_that_is_tested():
    drawn = {key for key in all_parts() if key[0] in FEATURES}
    assert drawn == {(feature, state) for feature in FEATURES for state in states_of(feature)}
