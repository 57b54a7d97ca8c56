"""Upper garments are drawn in every view, and every state of what builds them has a picture of its own."""

import csv
import gzip
import re
from functools import cache
from itertools import product
from pathlib import Path
from xml.etree import ElementTree

import pytest

from catalogue.figures.composing import Shown, composed, picture
from catalogue.figures.figure import draw_version
from catalogue.figures.halves import across, closed, corner_at, from_middle
from catalogue.figures.pen import Box, Pen
from catalogue.figures.silhouettes import all_silhouettes
from catalogue.reference.snapshots import type_of_version
from tests.catalogue.figures.drawn_shapes import drawn_parts, read

DEMO = Path("fixtures/demo_society")
CLASSES = ("jacket", "pullover", "shirt", "coat", "waistcoat", "liner")
BODY_VIEWS = ("front", "back", "inside")
# As the demo society's reference and the wider list of features have them.
STATES = {
    "collar": "none stand fall convertible hood_fixed hood_button hood_stowed",
    "throat_tab": "none button hook_loop buckle",
    "hanger": "none tape self cord",
    "shoulder_strap": "none sewn_button slide chest_tab",
    "back_fullness": "plain box_pleat bellows yoke_gather",
    "hem_vent": "none centre side side_button",
    "waist_draw": "none cord_out cord_in tabs elastic",
    "hem_finish": "plain cord band_button elastic knitted",
    "sleeve_set": "set_in raglan gusset removed none",
    "reinforcement": "none self contrast double",
    "cuff": "plain band_button tab_button tab_hook_loop elastic knitted",
    "underarm_vent": "none sewn_eyelets metal_eyelets mesh_gusset zip",
}
ALLOWED = {"g", "path", "rect", "circle", "text"}
SHOWN = [(feature, state) for feature, states in STATES.items() for state in states.split()]


@cache
def rows(name: str) -> list[dict[str, str]]:
    with (DEMO / name).open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def weight(svg: str) -> int:
    return len(gzip.compress(svg.encode()))


def elements(svg: str) -> set[str]:
    return {node.tag for node in ElementTree.fromstring(f"<svg>{svg}</svg>").iter()} - {"svg"}


def upper_bodies():
    for (garment, view), body in all_silhouettes().items():
        if garment in CLASSES and view != "label":
            yield garment, view, body
            for _, other in body.variants:
                yield garment, view, other


def all_places(feature: str) -> tuple[tuple[str, str], ...]:
    places = next(row["places"] for row in rows("features.csv") if row["feature"] == feature)
    usual = places.split(";")[0]
    return tuple(tuple(place.split(":")) for place in usual.split("+"))


def profile_of(states: dict[str, str]) -> dict[str, Shown]:
    return {feature: Shown(feature, state, "always", all_places(feature)) for feature, state in states.items()}


def drawn(garment: str, view: str, states: dict[str, str]) -> str:
    pen = Pen()
    composed(pen, garment, view, profile_of(states))
    return pen.svg


@pytest.mark.parametrize("feature", STATES)
def test_every_state_that_the_demo_records_has_a_picture(feature):
    for row in rows("states.csv"):
        if row["feature"] == feature:
            assert picture(feature, row["state"]), row["state"]


@pytest.mark.parametrize("feature", STATES)
def test_no_two_states_of_a_feature_look_the_same(feature):
    pictures = [picture(feature, state) for state in STATES[feature].split()]
    assert len(set(pictures)) == len(pictures)


@pytest.mark.parametrize(("feature", "state"), SHOWN)
def test_a_picture_is_well_formed_light_and_made_of_shapes_alone(feature, state):
    svg = picture(feature, state)
    assert elements(svg) <= ALLOWED
    assert weight(svg) <= 500


@pytest.mark.parametrize("garment", CLASSES)
def test_a_garment_is_drawn_in_its_views(garment):
    views = {view for known, view in all_silhouettes() if known == garment}
    assert views >= set(BODY_VIEWS)
    assert ("sleeve_left" in views) is (garment != "waistcoat")


def test_regions_lie_within_the_drawing():
    for garment, view, body in upper_bodies():
        for name, box in body.regions.items():
            where = f"{garment} {view} {name}"
            assert box.w > 0, where
            assert box.h > 0, where
            assert box.x >= 0, where
            assert box.y >= 0, where
            assert box.x + box.w <= body.width, where
            assert box.y + box.h <= body.height, where


def test_points_lie_within_the_drawing_and_the_wearers_left_on_its_side():
    for garment, view, body in upper_bodies():
        for x, y in body.points.values():
            assert 0 <= x <= body.width, (garment, view)
            assert 0 <= y <= body.height, (garment, view)
        if "neck_left" in body.points:
            assert (body.points["neck_left"][0] > body.width / 2) is (view != "back")


NUMBER = re.compile(r"-?\d*\.?\d+")


@pytest.mark.parametrize("garment", CLASSES)
def test_every_view_keeps_within_its_size(garment):
    views = [view for known, view, _ in upper_bodies() if known == garment]
    for view, (feature, state) in product(views, SHOWN):
        fitting = all_silhouettes()[garment, view].fitting({feature: state})
        for d in re.findall(r' d="([^"]*)"', drawn(garment, view, {feature: state})):
            values = [float(n) for n in NUMBER.findall(d)]
            if "H" in d or "V" in d:
                continue
            assert min(values[::2]) >= 0, (view, feature, state, d)
            assert max(values[::2]) <= fitting.width, (view, feature, state, d)
            assert min(values[1::2]) >= 0, (view, feature, state, d)
            assert max(values[1::2]) <= fitting.height, (view, feature, state, d)


def demo_profiles():
    kinds = {row["type"]: row["garment_class"] for row in rows("types.csv")}
    found = {row["version"]: (kinds[row["type"]], {}) for row in rows("versions.csv") if kinds[row["type"]] in CLASSES}
    for row in rows("profiles.csv"):
        if row["version"] in found and row["feature"] in STATES:
            found[row["version"]][1].setdefault(row["feature"], row["state"])
    return found


def test_a_demo_version_is_light_in_each_view_and_as_a_whole():
    for version, (garment, states) in demo_profiles().items():
        views = [view for known, view in all_silhouettes() if known == garment]
        drawings = [drawn(garment, view, states) for view in views]
        for view, svg in zip(views, drawings, strict=True):
            assert elements(svg) <= ALLOWED
            assert weight(svg) <= 3000, (version, view)
        assert weight("".join(drawings)) <= 8000, version


def test_a_jacket_without_a_band_ends_at_the_hip():
    body = all_silhouettes()["jacket", "front"]
    assert body.fitting({"hem_finish": "plain"}).height > body.fitting({"hem_finish": "band_button"}).height
    assert body.fitting({}) is body


def test_sleeves_that_were_taken_off_are_not_drawn():
    cuffs = 'data-part="cuff:plain"'
    assert cuffs in drawn("jacket", "front", {"sleeve_set": "set_in", "cuff": "plain"})
    body = all_silhouettes()["jacket", "front"]
    pen = Pen()
    body.draw(pen, {"sleeve_set": "removed"})
    bare = pen.svg
    pen = Pen()
    body.draw(pen, {"sleeve_set": "set_in"})
    assert len(bare) < len(pen.svg)


def test_a_cuff_shows_on_both_sleeves_of_the_flat_and_on_each_sleeve():
    for view, count in (("front", 2), ("back", 2), ("sleeve_left", 1), ("sleeve_right", 1)):
        assert drawn("shirt", view, {"cuff": "band_button"}).count('data-part="cuff:band_button"') == count


@pytest.mark.parametrize(("garment", "view"), [("jacket", "front"), ("coat", "back"), ("shirt", "sleeve_left")])
def test_a_knitted_cuff_is_narrower_than_the_end_of_a_plain_sleeve(garment, view):
    def width(cuff: str) -> float:
        parts = {part.name: part.box for part in drawn_parts(drawn(garment, view, {"cuff": cuff}))}
        left, _, right, _ = parts[f"cuff:{cuff}"]
        return right - left

    assert width("knitted") < 0.85 * width("plain")


@pytest.mark.parametrize("cuff", STATES["cuff"].split())
@pytest.mark.parametrize("garment", ["jacket", "shirt", "coat"])
def test_what_is_drawn_across_a_cuff_ends_at_the_edges_of_the_sleeve(garment, cuff):
    """Read back: no part of a cuff lies further out or in than the sleeve's own outline at its end."""
    body = all_silhouettes()[garment, "front"]
    corners = [point for name, point in body.points.items() if re.fullmatch(r"cuff_.*_left", name)]
    reach = max(x for x, _ in corners)
    near = min(x for x, _ in corners)
    for part in drawn_parts(drawn(garment, "front", {"cuff": cuff})):
        if part.name == f"cuff:{cuff}" and part.side == "left":
            left, _, right, _ = part.box
            assert near - 16 <= left
            assert right <= reach + 0.5


@pytest.mark.parametrize("fixing", ["buttons", "studs"])
@pytest.mark.parametrize("garment", ["coat", "jacket", "waistcoat"])
def test_what_holds_a_liner_follows_the_facing_of_the_front(garment, fixing):
    body = all_silhouettes()[garment, "inside"]
    svg = drawn(garment, "inside", {"liner_fixing": fixing})
    held = re.search(rf'data-part="liner_fixing:{fixing}" data-side="left"[^>]*>(.*?)</g>', svg).group(1)
    dots = [(float(x), float(y)) for x, y in re.findall(r'class="b" cx="([\d.]+)" cy="([\d.]+)"', held)]
    (x0, y0), (x1, y1) = body.points["facing_top_left"], body.points["facing_foot_left"]
    assert len(dots) == 6
    for x, y in dots:
        assert abs(x - (x0 + (x1 - x0) * (y - y0) / (y1 - y0))) < 1
    assert (x1 > x0 + 20) is (garment == "coat")


def test_a_cuff_on_an_outline_without_sleeves_fills_its_place():
    assert 'data-part="cuff:knitted"' in drawn("waistcoat", "front", {"cuff": "knitted"})


def test_one_sleeve_is_the_mirror_image_of_the_other():
    def outermost(view):
        svg = drawn("coat", view, {})
        data = re.findall(r'class="o" d="([^"]*)"', svg)[-1]
        xs = [float(n) for n in NUMBER.findall(data)][::2]
        return min(xs), max(xs)

    left, right = outermost("sleeve_left"), outermost("sleeve_right")
    width = all_silhouettes()["coat", "sleeve_left"].width
    assert left == (width - right[1], width - right[0])


def test_a_half_becomes_an_outline_that_is_its_own_mirror_image():
    outline = closed("M0 10C5 10 8 8 10 0L0 30")
    assert outline == "M0 10C5 10 8 8 10 0L0 30L-10 0C-8 8 -5 10 0 10Z"


def test_a_half_becomes_a_line_from_side_to_side():
    assert across("M0 10C5 10 8 8 10 0") == "M-10 0C-8 8 -5 10 0 10C5 10 8 8 10 0"


@pytest.mark.parametrize("flipped", [False, True])
def test_a_middle_line_lies_in_the_middle_whichever_way_the_box_stands(flipped):
    pen = from_middle(Pen().in_box(Box(10, 20, 60, 40), flipped=flipped))
    assert pen.xy(0, 0) == (40, 20)
    assert pen.xy(50, 100) == ((10, 60) if flipped else (70, 60))


def test_the_inner_corner_of_a_box_lies_at_the_named_point_on_both_sides():
    assert corner_at(Pen().in_box(Box(300, 50, 60, 40)), 44, 98).xy(44, 98) == (300, 50)
    assert corner_at(Pen().in_box(Box(140, 50, 60, 40), flipped=True), 44, 98).xy(44, 98) == (200, 50)


@pytest.mark.django_db
@pytest.mark.parametrize("version", ["VES-80", "BLO-71", "SHI-68"])
def test_breast_pockets_stay_clear_of_the_stitches_round_the_armhole(demo, version):
    facts = type_of_version(version)
    front = next(one for one in draw_version(facts, facts.versions[version]) if one.view == "front")
    parts = drawn_parts(front.svg)
    pockets = [one for one in parts if one.name.startswith(("chest_pocket", "flap_shape:")) and one.side == "left"]

    assert pockets
    for pocket in pockets:
        _, top, right, foot = pocket.box
        beside = [x for x, y in along_armhole(front.svg) if top <= y <= foot]
        assert min(beside) - right > 2, pocket.name


def along_armhole(svg: str) -> list[tuple[float, float]]:
    """Points all along the curves of the wearer's left armhole, which the body draws where no row speaks of it."""
    groups = [g for g in read(svg).iter("g") if g.get("data-part", "").startswith("sleeve_set:")]
    left = [g for g in groups if g.get("data-side") == "left"]
    (group,) = left or [g for g in read(svg).iter("g") if g.get("class") == "body"]
    found = []
    for path in group.iter("path"):
        numbers = [
            [float(n) for n in re.findall(r"-?\d*\.?\d+", step)] for step in re.split("[MC]", path.get("d")) if step
        ]
        ends = [step[-2:] for step in numbers]
        for start, step in zip(ends, numbers[1:], strict=False):
            if len(step) == 6:
                found += [on_curve([*start, *step], turn / 40) for turn in range(41)]
    return [(x, y) for x, y in found if x > 310]


def on_curve(points: list[float], t: float) -> tuple[float, float]:
    shares = ((1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3)
    x, y = (sum(share * at for share, at in zip(shares, points[axis::2], strict=True)) for axis in (0, 1))
    return x, y
