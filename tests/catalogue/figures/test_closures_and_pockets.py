"""What closes and holds a garment: every state has its own picture, and the flat shows what the record says."""

import csv
import gzip
import re
from xml.etree import ElementTree

import pytest
from django.conf import settings

from catalogue.figures.composing import Shown, composed, picture
from catalogue.figures.parts import Place, all_parts
from catalogue.figures.parts.closures import COUNTS, Opening
from catalogue.figures.pen import Box, Pen
from catalogue.figures.silhouettes import all_silhouettes

# The states as the reference lists have them; the demo's own are read from its table.
STATES = {
    "front_closure": "buttons neck_buttons toggles zip neck_zip press_studs hook_loop ties none",
    "closure_cover": "exposed fly flap_single flap_double",
    "front_buttons": "n4 n5 n6 n7",
    "zip_teeth": "metal moulded coil",
    "chest_pockets": "none left right both centre",
    "chest_pocket_form": "patch patch_pleat welt bellows slant_zip",
    "flap_shape": "none square point scallop round",
    "flap_fastening": "open button_exposed button_hidden stud hook_loop",
    "lower_pockets": "none patch inset_flap bellows hand_warmer",
    "sleeve_pocket": "none left right pen_left",
    "inside_pocket": "none left right both",
    "bartack": "none bartack rivet box_x",
    "liner_fixing": "none buttons loops studs zip",
}
PLACES = {
    "front_closure": (("front", "centre_front"),),
    "front_buttons": (("front", "centre_front"),),
    "closure_cover": (("front", "front_edge"),),
    "chest_pockets": (("front", "chest_left"), ("front", "chest_right")),
    "chest_pocket_form": (("front", "chest_left"),),
    "flap_shape": (("front", "chest_flap_left"),),
    "flap_fastening": (("front", "chest_flap_left"),),
    "lower_pockets": (("front", "skirt_left"), ("front", "skirt_right")),
    "sleeve_pocket": (("sleeve_left", "upper_outer"),),
    "inside_pocket": (("inside", "front_left"), ("inside", "front_right")),
    "bartack": (("front", "pocket_corner_left"),),
    "liner_fixing": (("inside", "front_edge_left"),),
}
ALLOWED = {"svg", "g", "path", "rect", "circle", "text"}


def states_of(feature: str) -> set[str]:
    with open(settings.BASE_DIR / "fixtures/demo_society/states.csv", encoding="utf-8-sig") as file:
        demo = {row["state"] for row in csv.DictReader(file) if row["feature"] == feature}
    return demo | set(STATES[feature].split())


def pictures_of(feature: str) -> dict[str, str]:
    return {state: picture(feature, state) for state in states_of(feature)}


def drawn(view: str = "front", garment_class: str = "coat", **profile: str) -> ElementTree.Element:
    """A garment of the class in that view, with nothing recorded but this."""
    pen = Pen()
    shown = {code: Shown(code, state, "always", PLACES[code]) for code, state in profile.items()}
    assert composed(pen, garment_class, view, shown) is not None
    return ElementTree.fromstring(f"<svg>{pen.svg}</svg>")


def part_of(tree: ElementTree.Element, feature: str, side: str = "") -> list[ElementTree.Element]:
    """Everything that was drawn for a feature, on one side or wherever it is."""
    groups = [group for group in tree.iter("g") if (group.get("data-part") or "").startswith(f"{feature}:")]
    return [one for group in groups if not side or group.get("data-side") == side for one in group]


def points_of(elements: list[ElementTree.Element]) -> list[tuple[float, float]]:
    """Corners of paths and rectangles, and middles of circles."""
    found = []
    for one in elements:
        if one.tag == "circle":
            found.append((float(one.get("cx")), float(one.get("cy"))))
        x = y = 0.0
        for command, numbers in re.findall(r"([MLHVCQ])([^MLHVCQZ]*)", one.get("d") or ""):
            values = [float(value) for value in re.findall(r"-?\d*\.?\d+", numbers)]
            if command == "H":
                x = values[-1]
            elif command == "V":
                y = values[-1]
            else:
                x, y = values[-2:]
                found += list(zip(values[::2], values[1::2], strict=True))[:-1]
            found.append((x, y))
    return found


def rims(elements: list[ElementTree.Element]) -> list[ElementTree.Element]:
    """Buttons and studs are the circles that are filled with paper."""
    return [one for one in elements if one.tag == "circle" and one.get("class") == "b"]


def data_of(tree: ElementTree.Element, feature: str) -> list[str]:
    return [one.get("d") or "" for one in part_of(tree, feature)]


# --- small pictures ---


@pytest.mark.parametrize("feature", STATES)
def test_every_state_has_a_picture_unlike_its_rivals(feature):
    pictures = pictures_of(feature)
    assert [state for state, svg in pictures.items() if not svg] == []
    assert len(set(pictures.values())) == len(pictures) > 1


@pytest.mark.parametrize("feature", STATES)
def test_a_picture_is_well_formed_of_the_few_elements_and_light(feature):
    for state, svg in pictures_of(feature).items():
        tree = ElementTree.fromstring(f"<svg>{svg}</svg>")
        assert {one.tag for one in tree.iter()} <= ALLOWED, state
        assert not {"style", "id"} & {name for one in tree.iter() for name in one.attrib}, state
        assert {one.get("class") for one in tree if one.tag != "text"} <= set("oetfbku"), state
        assert len(gzip.compress(svg.encode(), 9)) <= 500, state


@pytest.mark.parametrize("state", COUNTS)
def test_the_picture_of_a_number_of_buttons_shows_so_many(state):
    tree = ElementTree.fromstring(f"<svg>{picture('front_buttons', state)}</svg>")
    assert len(rims(list(tree))) == COUNTS[state]


# --- the flat ---


@pytest.mark.parametrize("garment_class", ["jacket", "pullover", "shirt", "coat", "liner", "waistcoat"])
@pytest.mark.parametrize("feature", [feature for feature in STATES if feature in PLACES])
def test_every_state_lies_within_the_drawing_in_every_view(garment_class, feature):
    with_it = {"chest_pockets": "both", "front_closure": "buttons", "liner_fixing": "zip"}
    for view in ("front", "inside", "sleeve_left", "sleeve_right"):
        body = all_silhouettes().get((garment_class, view))
        for state in states_of(feature) if body else ():
            tree = drawn(view, garment_class, **{**with_it, feature: state})
            for x, y in points_of(part_of(tree, feature)):
                assert 0 <= x <= body.width, (view, state)
                assert 0 <= y <= body.height, (view, state)


@pytest.mark.parametrize("state", COUNTS)
def test_as_many_buttons_are_drawn_as_are_recorded(state):
    tree = drawn(front_closure="buttons", closure_cover="exposed", front_buttons=state)
    assert len(rims(part_of(tree, "front_buttons"))) == COUNTS[state]
    assert rims(part_of(tree, "front_closure")) == []  # so that dashes show that the number is not sure
    holes = part_of(tree, "front_buttons")[0].get("d")
    assert holes.count("M") == COUNTS[state]


@pytest.mark.parametrize("cover", ["fly", "flap_single", "flap_double"])
def test_buttons_under_a_cover_are_told_by_folds_alone(cover):
    six, seven = (drawn(front_closure="buttons", front_buttons=count, closure_cover=cover) for count in ("n6", "n7"))
    assert {one.get("class") for one in part_of(six, "front_buttons")} == {"f"}
    assert data_of(six, "front_buttons") != data_of(seven, "front_buttons")


@pytest.mark.parametrize("closure", ["buttons", "press_studs"])
def test_under_a_fly_no_button_shows_but_rows_of_stitches_do(closure):
    tree = drawn(front_closure=closure, closure_cover="fly")
    assert rims(part_of(tree, "front_closure")) == []
    assert "t" in {one.get("class") for one in part_of(tree, "closure_cover")}


@pytest.mark.parametrize("cover", ["flap_single", "flap_double"])
@pytest.mark.parametrize("closure", sorted(states_of("front_closure") - {"ties", "none"}))
def test_a_storm_flap_hides_the_closure_but_at_its_turned_back_foot(closure, cover):
    bare, covered, rival = (
        drawn(front_closure=state, closure_cover=over)
        for state, over in ((closure, "exposed"), (closure, cover), ("hook_loop" if "zip" in closure else "zip", cover))
    )
    foot = max(y for _, y in points_of(part_of(covered, "front_closure")))
    seen = [one for one in part_of(covered, "front_closure") if one.get("class") in "bk"]
    assert all(y > foot - 50 for _, y in points_of(seen))
    assert data_of(covered, "front_closure") != data_of(bare, "front_closure")
    assert data_of(covered, "front_closure") != data_of(rival, "front_closure")


def test_two_storm_flaps_are_told_from_one():
    one, two = (drawn(front_closure="zip", closure_cover=cover) for cover in ("flap_single", "flap_double"))
    assert len(part_of(two, "closure_cover")) > len(part_of(one, "closure_cover"))


def test_the_wearers_left_front_lies_on_top_so_its_edge_is_at_the_viewers_left():
    tree = drawn(front_closure="buttons", closure_cover="exposed")
    edge = next(one for one in part_of(tree, "front_closure") if one.get("class") == "e")
    button = rims(part_of(tree, "front_closure"))[0]
    assert points_of([edge])[0][0] < float(button.get("cx"))


@pytest.mark.parametrize("closure", ["neck_buttons", "toggles", "neck_zip"])
def test_what_is_pulled_over_the_head_closes_well_above_the_waist(closure):
    short, full = (drawn(garment_class="pullover", front_closure=state) for state in (closure, "buttons"))
    lowest = [max(y for _, y in points_of(part_of(tree, "front_closure"))) for tree in (short, full)]
    waist = all_silhouettes()["pullover", "front"].points["waist_left"][1]
    assert lowest[0] < waist - 50 < waist < lowest[1]


@pytest.mark.parametrize("closure", ["neck_buttons", "toggles", "neck_zip"])
def test_a_short_opening_ends_above_a_pocket_across_the_breast(closure):
    profile = {"front_closure": closure, "chest_pockets": "centre", "chest_pocket_form": "patch"}
    tree = drawn(garment_class="pullover", **profile)
    pocket = min(y for _, y in points_of(part_of(tree, "chest_pocket_form")))
    assert max(y for _, y in points_of(part_of(tree, "front_closure"))) <= pocket


def test_an_opening_without_a_pocket_region_is_a_third_of_the_front():
    pen = Pen().in_box(Box(200, 50, 30, 300))
    place = Place(profile={"front_closure": "neck_zip", "chest_pockets": "centre"})
    assert Opening.of(pen, place).foot == 108


@pytest.mark.parametrize(("state", "sides"), [("left", {"left"}), ("right", {"right"}), ("both", {"left", "right"})])
def test_a_breast_pocket_with_its_flap_lies_on_the_wearers_side(state, sides):
    profile = {"chest_pockets": state, "chest_pocket_form": "patch", "flap_shape": "point", "flap_fastening": "stud"}
    tree = drawn(garment_class="jacket", **profile)
    middle = all_silhouettes()["jacket", "front"].width / 2
    for feature in ("chest_pocket_form", "flap_shape", "flap_fastening"):
        assert {side for side in ("left", "right") if part_of(tree, feature, side)} == sides
        assert all(x > middle for x, _ in points_of(part_of(tree, feature, "left")))
        assert all(x < middle for x, _ in points_of(part_of(tree, feature, "right")))


@pytest.mark.parametrize("form", sorted(states_of("chest_pocket_form")))
def test_which_breast_has_a_pocket_is_drawn_as_the_outline_of_its_form(form):
    tree = drawn(chest_pockets="left", chest_pocket_form=form)
    assert part_of(tree, "chest_pockets", "left") != []
    assert set(data_of(tree, "chest_pockets")) <= set(data_of(tree, "chest_pocket_form"))


def test_a_pocket_of_unknown_form_is_drawn_in_outline():
    assert len(part_of(drawn(chest_pockets="both"), "chest_pockets")) == 2


def test_without_breast_pockets_no_pocket_is_drawn():
    tree = drawn(chest_pockets="none")
    assert part_of(tree, "chest_pockets") == []


@pytest.mark.parametrize("state", ["bartack", "rivet", "box_x"])
def test_strain_points_lie_at_the_corners_of_the_pockets_that_are_there(state):
    both = drawn(garment_class="jacket", chest_pockets="both", chest_pocket_form="patch", bartack=state)
    left = drawn(garment_class="jacket", chest_pockets="left", chest_pocket_form="patch", bartack=state)
    bare = drawn(garment_class="jacket", chest_pockets="none", lower_pockets="none", bartack=state)
    assert len(part_of(both, "bartack")) == 2 * len(part_of(left, "bartack")) > 0
    assert part_of(left, "bartack", "right") == []
    assert part_of(bare, "bartack") == []


@pytest.mark.parametrize("form", ["patch", "inset_flap", "bellows"])
def test_strain_points_of_a_lower_pocket_lie_at_its_mouth(form):
    tree = drawn(lower_pockets=form, bartack="rivet")
    middles = [float(one.get("cy")) for one in rims(part_of(tree, "bartack"))]
    top = min(y for _, y in points_of(part_of(tree, "lower_pockets")))
    assert len(middles) == 4
    assert all(top <= y <= top + 14 for y in middles)


def test_strain_points_of_a_slit_for_the_hands_lie_at_both_its_ends():
    tree = drawn(lower_pockets="hand_warmer", bartack="rivet")
    levels = sorted({float(one.get("cy")) for one in rims(part_of(tree, "bartack"))})
    slit = [y for _, y in points_of(part_of(tree, "lower_pockets"))]
    assert len(levels) == 2
    assert levels[0] - min(slit) < 8
    assert max(slit) - levels[1] < 8


def test_a_pocket_across_the_breast_has_strain_points_too():
    tree = drawn(garment_class="pullover", chest_pockets="centre", chest_pocket_form="patch", bartack="rivet")
    assert len(rims(part_of(tree, "bartack", "centre"))) == 2


@pytest.mark.parametrize(
    ("state", "left", "right"), [("left", True, False), ("right", False, True), ("pen_left", True, False)]
)
def test_a_sleeve_pocket_is_drawn_on_its_own_sleeve_alone(state, left, right):
    assert bool(part_of(drawn("sleeve_left", sleeve_pocket=state), "sleeve_pocket")) is left
    assert bool(part_of(drawn("sleeve_right", sleeve_pocket=state), "sleeve_pocket")) is right


def test_a_liner_is_fixed_along_both_front_edges():
    tree = drawn("inside", liner_fixing="buttons")
    assert len(rims(part_of(tree, "liner_fixing", "left"))) == len(rims(part_of(tree, "liner_fixing", "right"))) == 6


def test_the_teeth_of_a_zip_are_too_small_for_the_flat():
    assert all(part.detail for state in states_of("zip_teeth") for part in all_parts()["zip_teeth", state])
