"""Trousers, headgear, gloves, bags and labels: every state is drawn, unlike its rivals, light, and within its view."""

import csv
import gzip
import re
from xml.etree import ElementTree

import pytest
from django.conf import settings

from catalogue.figures.composing import Shown, box_of, composed, picture
from catalogue.figures.pen import Pen
from catalogue.figures.silhouettes import all_silhouettes
from catalogue.reference.regions import all_regions, views_of
from tests.catalogue.figures.drawn_shapes import drawn_parts

STATES = {
    "fly": ("buttons", "zip", "studs", "none"),
    "waist_fix": ("brace_buttons", "loops", "side_tabs", "elastic", "drawcord"),
    "thigh_pocket": ("none", "left", "right", "both"),
    "ankle": ("plain", "tab_button", "cord", "zip_gusset", "foot_loop", "cut"),
    "reinforcement": ("none", "self", "contrast", "double"),
    "peak_rows": ("r3", "r5", "r7"),
    "ear_flaps": ("none", "fold_down", "tie_top"),
    "crown_vents": ("none", "sewn_eyelets", "metal_eyelets", "mesh"),
    "brim": ("narrow", "wide"),
    "chin_strap": ("none", "self", "cord", "elastic"),
    "glove_form": ("fingers", "mitten", "trigger", "half"),
    "glove_palm": ("none", "leather", "coated", "knit"),
    "glove_points": ("p0", "p1", "p3"),
    "glove_cuff": ("short", "gauntlet"),
    "wrist_fastening": ("none", "elastic", "button", "stud", "strap", "hook_loop"),
    "glove_lining": ("none", "sewn", "loose", "pile"),
    "bag_form": ("haversack", "rucksack", "holdall", "pouch", "sack"),
    "bag_closure": ("none", "buckle", "button", "stud", "zip", "quick", "cord"),
    "bag_flap": ("none", "half", "full", "pocket"),
    "bag_strap": ("none", "sewn", "hooked", "looped"),
    "bag_divider": ("none", "sewn", "loose", "pockets"),
    "bag_base": ("same", "double", "leather", "eyelets"),
}
# Where each feature is looked at, as the reference lists say.
PLACES = {
    "fly": (("front", "fly"),),
    "waist_fix": (("front", "waistband"),),
    "thigh_pocket": (("front", "thigh_left"), ("front", "thigh_right")),
    "ankle": (("front", "leg_end_left"),),
    "reinforcement": (("front", "knee_left"), ("back", "seat")),
    "peak_rows": (("front", "peak"),),
    "ear_flaps": (("side_left", "flap"),),
    "crown_vents": (("side_left", "crown"),),
    "brim": (("side_left", "brim"),),
    "chin_strap": (("side_left", "chin"),),
    "glove_form": (("back", "fingers"),),
    "glove_palm": (("palm", "palm"),),
    "glove_points": (("back", "back_of_hand"),),
    "glove_cuff": (("cuff", "cuff_edge"),),
    "wrist_fastening": (("cuff", "wrist"),),
    "glove_lining": (("cuff", "inside_cuff"),),
    "bag_form": (("front", "body"),),
    "bag_closure": (("flap", "fastening"),),
    "bag_flap": (("flap", "flap"),),
    "bag_strap": (("strap", "anchor"),),
    "bag_divider": (("inside", "divider"),),
    "bag_base": (("back", "base"),),
}
WORN = {
    "trousers": ("fly", "waist_fix", "thigh_pocket", "ankle", "reinforcement"),
    "over-trousers": ("fly", "waist_fix", "thigh_pocket", "ankle"),
    "cap": ("peak_rows", "ear_flaps", "crown_vents", "chin_strap"),
    "hat": ("crown_vents", "brim", "chin_strap"),
    "hood": ("crown_vents", "chin_strap"),
    "glove": tuple(code for code in STATES if code.startswith("glove_") or code == "wrist_fastening"),
    "bag": tuple(code for code in STATES if code.startswith("bag_")),
}
KINDS = set("oetfbku")
ALLOWED = {"svg", "g", "path", "rect", "circle", "text"}
ONE_BY_ONE = [(worn, code, state) for worn, codes in WORN.items() for code in codes for state in STATES[code]]


def weight(markup: str) -> int:
    return len(gzip.compress(markup.encode(), 9))


def drawn(garment_class: str, view: str, profile: dict[str, str]):
    """The pen after drawing, and the silhouette that fitted."""
    pen = Pen()
    shown = {code: Shown(code, state, "always", PLACES[code]) for code, state in profile.items()}
    return pen, composed(pen, garment_class, view, shown)


def views_drawn(garment_class: str) -> list[str]:
    return [view for view in views_of(garment_class) if (garment_class, view) in all_silhouettes()]


@pytest.mark.parametrize("feature", STATES)
def test_every_state_has_a_picture_unlike_its_rivals(feature):
    pictures = [picture(feature, state, garment_class="trousers") for state in STATES[feature]]
    assert all(pictures)
    assert len(set(pictures)) == len(pictures)


@pytest.mark.parametrize("feature", STATES)
def test_no_state_of_the_demo_is_left_out(feature):
    with open(settings.BASE_DIR / "fixtures/demo_society/states.csv", encoding="utf-8-sig") as file:
        demo = {row["state"] for row in csv.DictReader(file) if row["feature"] == feature}
    assert demo <= set(STATES[feature])


@pytest.mark.parametrize("feature", STATES)
def test_a_picture_is_well_formed_light_and_made_of_the_few_allowed_elements(feature):
    for state in STATES[feature]:
        markup = picture(feature, state, garment_class="trousers")
        tree = ElementTree.fromstring(f"<svg>{markup}</svg>")
        assert {element.tag for element in tree.iter()} <= ALLOWED, state
        assert {element.get("class") for element in tree.iter() if element.tag not in ("svg", "text")} <= KINDS, state
        assert weight(markup) <= 500, state


@pytest.mark.parametrize("garment_class", WORN)
def test_every_view_of_a_class_is_drawn(garment_class):
    assert views_drawn(garment_class) == list(views_of(garment_class))


def test_every_class_has_a_label_view():
    classes = {garment_class for garment_class, _, _ in all_regions()}
    assert {garment_class for garment_class, view in all_silhouettes() if view == "label"} == classes


@pytest.mark.parametrize("garment_class", WORN)
def test_regions_lie_within_the_drawing(garment_class):
    for view in views_drawn(garment_class):
        usual = all_silhouettes()[garment_class, view]
        for body in (usual, *(other for _, other in usual.variants)):
            listed = {region for worn, where, region in all_regions() if (worn, where) == (garment_class, view)}
            for region in listed | set(body.regions):
                box = box_of(garment_class, view, region, body)
                assert min(box.x, box.y) >= 0, (view, region)
                assert box.x + box.w <= body.width, (view, region)
                assert box.y + box.h <= body.height, (view, region)


@pytest.mark.parametrize(("garment_class", "feature", "state"), ONE_BY_ONE)
def test_a_view_keeps_within_its_size(garment_class, feature, state):
    for view in views_drawn(garment_class):
        pen, body = drawn(garment_class, view, {feature: state})
        for x, y in points(pen.svg):
            assert -2 <= x <= body.width + 2, (view, x, y)
            assert -2 <= y <= body.height + 2, (view, x, y)


@pytest.mark.parametrize(("garment_class", "feature"), [(worn, code) for worn, codes in WORN.items() for code in codes])
def test_the_flat_shows_which_state_is_recorded(garment_class, feature):
    views = views_drawn(garment_class)
    whole = {s: [drawn(garment_class, view, {feature: s})[0].svg for view in views] for s in STATES[feature]}
    without_names = {re.sub(r' data-part="[^"]*"', "", "".join(one)) for one in whole.values()}
    assert len(without_names) == len(whole)


@pytest.mark.parametrize("garment_class", WORN)
def test_a_view_weighs_at_most_three_kilobytes_and_a_figure_eight(garment_class):
    for turn in range(max(len(STATES[code]) for code in WORN[garment_class])):
        profile = {code: STATES[code][turn % len(STATES[code])] for code in WORN[garment_class]}
        views = [drawn(garment_class, view, profile)[0].svg for view in views_drawn(garment_class)]
        assert max(weight(view) for view in views) <= 3000
        assert weight("".join(views)) <= 8000


def test_a_second_layer_is_pictured_where_the_garment_has_it():
    for state in STATES["reinforcement"]:
        knee, elbow = (picture("reinforcement", state, garment_class=worn) for worn in ("trousers", "jacket"))
        assert knee != elbow
        assert picture("reinforcement", state) == elbow


def test_a_thigh_pocket_at_the_wearers_left_lies_at_the_viewers_right():
    def x_of(state: str) -> float:
        pen, _ = drawn("trousers", "front", {"thigh_pocket": state})
        part = re.search(r'<g data-part="thigh_pocket:[^>]*>(.*?)</g>', pen.svg).group(1)
        return min(x for x, _ in points(part))

    assert x_of("left") > 250 > x_of("right")


def test_the_left_front_of_a_fly_laps_over_the_right():
    """Common practice, no source: the J of stitches runs down the wearer's left front."""
    pen, _ = drawn("trousers", "front", {"fly": "zip"})
    part = re.search(r'<g data-part="fly:zip"[^>]*>(.*?)</g>', pen.svg).group(1)
    rows = re.search(r'<path class="t" d="([^"]*)"', part).group(1)
    assert min(x for x, _ in points_of(rows)) >= 250


def test_a_peak_shows_as_many_rows_as_its_state_says():
    for state, rows in (("r3", 3), ("r5", 5), ("r7", 7)):
        pen, _ = drawn("cap", "front", {"peak_rows": state})
        part = re.search(r'<g data-part="peak_rows:[^>]*>(.*?)</g>', pen.svg).group(1)
        assert re.search(r'<path class="t" d="([^"]*)"', part).group(1).count("M") == rows


def points(markup: str) -> list[tuple[float, float]]:
    """Ends and control points of everything drawn."""
    found = []
    for element in ElementTree.fromstring(f"<svg>{markup}</svg>").iter():
        if element.tag == "path":
            found += points_of(element.get("d", ""))
        elif element.tag == "circle":
            x, y, r = (float(element.get(name, 0)) for name in ("cx", "cy", "r"))
            found += [(x - r, y - r), (x + r, y + r)]
        elif element.tag == "rect":
            x, y, w, h = (float(element.get(name, 0)) for name in ("x", "y", "width", "height"))
            found += [(x, y), (x + w, y + h)]
    return found


def points_of(data: str) -> list[tuple[float, float]]:
    found, here = [], (0.0, 0.0)
    for command, numbers in re.findall(r"([MLHVCQZ])([^MLHVCQZ]*)", data):
        values = [float(one) for one in re.findall(r"-?\d*\.?\d+", numbers)]
        if command == "H":
            line = [(x, here[1]) for x in values]
        elif command == "V":
            line = [(here[0], y) for y in values]
        else:
            line = list(zip(values[::2], values[1::2], strict=True))
        found += line
        here = line[-1] if line else here
    return found


@pytest.mark.parametrize("brim", ["narrow", "wide"])
def test_a_hat_from_above_is_an_oval_longer_from_face_to_back_than_wide(brim):
    pen = Pen()
    composed(pen, "hat", "top", {"brim": Shown("brim", brim, "always", ())})
    (part,) = [one for one in drawn_parts(f"<svg>{pen.svg}</svg>") if one.name == f"brim:{brim}"]
    left, top, right, foot = part.box

    assert 1.1 < (foot - top) / (right - left) < 1.25
