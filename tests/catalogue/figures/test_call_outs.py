"""Each number of a figure leads, along lines that can be followed, to the part that it stands for."""

from dataclasses import replace

import pytest

from catalogue.figures.call_outs import MARGIN, RADIUS, STEP, CallOut, draw, framed, in_margins
from catalogue.figures.figure import draw_version
from catalogue.figures.pen import Pen
from catalogue.figures.silhouettes import all_silhouettes
from catalogue.reference.snapshots import type_of_version
from tests.catalogue.figures.drawn_shapes import DrawnPart, Point, drawn_parts, points_of_path, read
from tests.catalogue.figures.test_figures import TYPES, versions_of

pytestmark = pytest.mark.django_db


def where_they_lead(svg: str) -> dict[int, Point]:
    """By number the point that its line ends at; a number that no line reaches is left out."""
    groups = {group.get("class"): list(group) for group in read(svg).iter("g")}
    lines = [path.get("d").partition("m")[0] for path in groups["leads"] if path.tag == "path"]
    ends = [end_of(mark) for mark in groups["leads"] if mark.tag == "circle" or mark.get("class") == "absent"]
    found = {}
    for value, centre in numbers_of(svg).items():
        reached = [end for line, end in zip(lines, ends, strict=True) if passes(line, centre) and passes(line, end)]
        if reached:
            (found[value],) = reached
    return found


def end_of(mark) -> Point:
    """Of a dot its middle; of a line that ends with a cross, which is drawn in steps, the middle of that."""
    if mark.tag == "circle":
        return float(mark.get("cx")), float(mark.get("cy"))
    return points_of_path(mark.get("d").partition("m")[0])[-1]


def numbers_of(svg: str) -> dict[int, Point]:
    """By number the middle of its circle."""
    group = next(group for group in read(svg).iter("g") if group.get("class") == "call-outs")
    circles = [(float(c.get("cx")), float(c.get("cy"))) for c in group.iter("circle")]
    return {int(text.text): at for text, at in zip(group.iter("text"), circles, strict=True)}


def passes(path: str, point: Point) -> bool:
    """Whether the point lies on a straight piece of the path."""
    last = None
    for command, here in zip([c for c in path if c in "MLHV"], points_of_path(path), strict=True):
        if command != "M" and lies_between(last, here, point):
            return True
        last = here
    return False


def lies_between(begin: Point, end: Point, point: Point) -> bool:
    around = ((end[0] - begin[0]) ** 2 + (end[1] - begin[1]) ** 2) ** 0.5
    apart = sum(((one[0] - point[0]) ** 2 + (one[1] - point[1]) ** 2) ** 0.5 for one in (begin, end))
    return apart - around < 0.01


@pytest.mark.parametrize("type_code", TYPES)
def test_each_number_is_led_to_the_part_that_its_row_is_about(demo, type_code):
    checked = 0
    for code in versions_of(type_code):
        facts = type_of_version(code)
        version = facts.versions[code]
        feature_of = {number: feature for feature, number in facts.row_numbers(version).items()}
        for figure in draw_version(facts, version):
            parts = drawn_parts(figure.svg)
            led = where_they_lead(figure.svg)
            assert led.keys() == numbers_of(figure.svg).keys(), f"{code} {figure.view}: numbers without a line"
            for number, end in led.items():
                own = parts_for(facts, feature_of[number], parts)
                if own:
                    assert any(part.holds(end) for part in own), f"{code} {figure.view}: {number} {own[0].name} {end}"
                    checked += 1
    assert checked


def crosses_in(svg: str) -> list[Point]:
    """Where something is marked as not there."""
    leads = next(group for group in read(svg).iter("g") if group.get("class") == "leads")
    return [end_of(path) for path in leads if path.get("class") == "absent"]


@pytest.mark.parametrize("type_code", TYPES)
def test_what_is_not_there_and_left_no_trace_is_led_to_a_cross_and_nothing_else_is(demo, type_code):
    crosses = 0
    for code in versions_of(type_code):
        facts = type_of_version(code)
        version = facts.versions[code]
        feature_of = {number: feature for feature, number in facts.row_numbers(version).items()}
        for figure in draw_version(facts, version):
            parts, marked = drawn_parts(figure.svg), crosses_in(figure.svg)
            assert figure.marks_absent == bool(marked)
            crosses += len(marked)
            for number, end in where_they_lead(figure.svg).items():
                feature = facts.features[feature_of[number]]
                states = [cell.state for cell in version.cells[feature.code]]
                if end in marked:
                    assert feature.absent in states, f"{code} {figure.view} {number}"
                    assert parts_for(facts, feature.code, parts) == [], f"{code} {figure.view} {number}"
                elif states == [feature.absent]:
                    assert parts_for(facts, feature.code, parts), f"{code} {figure.view} {number}: led to nothing"
    assert crosses or type_code in ("VES",)


def test_the_line_to_legs_that_were_cut_off_ends_at_the_frayed_edge_and_not_where_the_legs_were(demo):
    facts = type_of_version("TRO-CV")
    front = next(one for one in draw_version(facts, facts.versions["TRO-CV"]) if one.view == "front")
    number = facts.row_numbers(facts.versions["TRO-CV"])["ankle"]

    assert 300 < where_they_lead(front.svg)[number][1] < 350


def test_a_line_to_two_eyelets_ends_on_one_of_them(demo):
    facts = type_of_version("HAT-DM")
    side = next(one for one in draw_version(facts, facts.versions["HAT-DM"]) if one.view == "side_left")
    number = facts.row_numbers(facts.versions["HAT-DM"])["crown_vents"]
    x, y = where_they_lead(side.svg)[number]
    group = next(g for g in read(side.svg).iter("g") if g.get("data-part", "").startswith("crown_vents:"))
    eyelets = [tuple(float(c.get(name)) for name in ("cx", "cy", "r")) for c in group.iter("circle")]

    assert eyelets
    assert any((x - cx) ** 2 + (y - cy) ** 2 <= r**2 for cx, cy, r in eyelets)


def parts_for(facts, feature: str, parts: list[DrawnPart]) -> list[DrawnPart]:
    """The parts of a feature; of one that is not drawn (a closure without a cover) those of what it is a detail of."""
    while feature:
        own = [part for part in parts if part.name.startswith(f"{feature}:")]
        if own:
            return own
        feature = facts.features[feature].parent
    return []


@pytest.mark.parametrize("type_code", TYPES)
def test_numbers_stand_beside_or_below_the_drawing_and_never_on_each_other(demo, type_code):
    for code in versions_of(type_code):
        facts = type_of_version(code)
        for figure in draw_version(facts, facts.versions[code]):
            body = all_silhouettes()[facts.garment_class, figure.view]
            assert misplaced(list(numbers_of(figure.svg).values()), body.width, body.height) == [], code


def misplaced(circles: list[Point], width: float, height: float) -> list[Point]:
    """Circles that lie on the drawing, or so near to another that a fingertip cannot tell them apart."""
    over = [(x, y) for x, y in circles if -RADIUS < x < width + RADIUS and y < height]
    close = [
        one
        for place, one in enumerate(circles)
        for other in circles[place + 1 :]
        if abs(one[0] - other[0]) < STEP - 0.1 and abs(one[1] - other[1]) < STEP - 0.1
    ]
    return over + close


@pytest.mark.parametrize("places", [[50], [20, 1, 1, 30], [3] * 16, [1] * 29, [9, 9, 9]])
def test_many_numbers_make_rows_below_the_drawing_and_no_tower(places):
    numbers, call_outs = iter(range(1, 1000)), []
    for turn, many in enumerate(places):
        at = (100 + 300 * turn // len(places), 40 + 60 * (turn % 7))
        call_outs.append(CallOut(tuple(next(numbers) for _ in range(many)), at))
    pen = Pen()
    placed = in_margins(call_outs, 500, 500)
    draw(pen, placed, {})
    frame = framed(placed, 500, 500)
    circles = numbers_of(pen.svg)

    assert sorted(circles) == list(range(1, sum(places) + 1))
    assert {number: end for one in call_outs for number, end in dict.fromkeys(one.numbers, one.point).items()} == (
        where_they_lead(pen.svg)
    )
    assert misplaced(list(circles.values()), 500, 500) == []
    # Style sheets draw the circles larger on a phone and in print: at most as wide as the steps between them.
    assert all(frame.x <= x - STEP / 2 and x + STEP / 2 <= frame.x + frame.w for x, _ in circles.values())
    assert all(y + STEP / 2 <= frame.y + frame.h for _, y in circles.values())
    assert (frame.w, frame.y) == (500 + 2 * MARGIN, 0)
    assert frame.h <= 500 + STEP * (sum(places) / 11 + len(places) / 11 + 1)


def test_fifty_features_at_one_region_stay_a_figure_that_can_be_read(demo):
    facts = type_of_version("SMK-76")
    version = facts.versions["SMK-76"]
    closure = facts.features["front_closure"]
    more = {f"more_{n}": replace(closure, code=f"more_{n}", name=f"Further {n}") for n in range(50)}
    cells = {code: version.cells["front_closure"] for code in more}
    crowded = replace(version, code="SMK-76-crowded", cells=version.cells | cells)
    facts = replace(facts, features=facts.features | more, versions={crowded.code: crowded})

    front = next(figure for figure in draw_version(facts, crowded) if figure.view == "front")
    numbers = numbers_of(front.svg)
    _, _, width, height = map(float, read(front.svg).get("viewBox").split())

    assert len(numbers) > 60
    assert where_they_lead(front.svg).keys() == numbers.keys()
    assert height < 1.6 * width


def led_on(code: str, view: str, feature: str) -> tuple[Point, list[DrawnPart], float]:
    """Where the line of a feature ends, the parts of that view, and the middle line of its drawing."""
    facts = type_of_version(code)
    figure = next(one for one in draw_version(facts, facts.versions[code]) if one.view == view)
    number = facts.row_numbers(facts.versions[code])[feature]
    middle = all_silhouettes()[facts.garment_class, view].fitting({"hem_finish": "plain"}).width / 2
    return where_they_lead(figure.svg)[number], drawn_parts(figure.svg), middle


def test_a_line_to_a_part_that_another_lies_over_ends_where_it_can_be_seen(demo):
    end, parts, _ = led_on("BLO-71", "inside", "inside_pocket")

    assert any(part.holds(end) for part in parts if part.name.startswith("inside_pocket:"))
    assert not any(part.holds(end) for part in parts if part.name.startswith("label_place:"))


@pytest.mark.parametrize("code", ["COA-85", "VES-66G"])
def test_a_line_to_a_plain_hem_ends_at_one_side_and_not_at_the_opening_of_the_front(demo, code):
    (x, _), _, middle = led_on(code, "front", "hem_finish")

    assert abs(x - middle) > 40


def test_the_line_to_sleeves_that_were_taken_off_ends_on_the_frayed_edge(demo):
    (x, y), parts, _ = led_on("BLO-CV", "front", "sleeve_set")
    edge = [part for part in parts if part.name == "sleeve_set:removed"]

    assert edge
    assert min(((x - a) ** 2 + (y - b) ** 2) ** 0.5 for part in edge for a, b in part.points) < 8


def test_nothing_hangs_where_sleeves_were_taken_off(demo):
    facts = type_of_version("BLO-CV")
    back = next(one for one in draw_version(facts, facts.versions["BLO-CV"]) if one.view == "back")

    assert not [part for part in drawn_parts(back.svg) if part.name.startswith("reinforcement:")]
    assert facts.row_numbers(facts.versions["BLO-CV"])["reinforcement"] not in numbers_of(back.svg)
