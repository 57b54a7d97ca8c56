"""Every figure of the demo society is read back and held against the records it was drawn from.

What is expected here is worked out from the spreadsheets alone, by rules written a second time.
"""

import csv
import gzip
import re
import xml.etree.ElementTree as ElementTree
from dataclasses import replace
from functools import cache

import pytest

from catalogue.figures.composing import MOST_KEPT, Shown, composed, kept_drawing
from catalogue.figures.figure import figures_of, spot
from catalogue.figures.parts import all_parts
from catalogue.figures.pen import Pen
from catalogue.figures.profiles import shown_of
from catalogue.figures.silhouettes import all_silhouettes
from catalogue.reference.models import IssueVersion, ProfileCell, ReferenceState
from catalogue.reference.regions import all_regions, views_of
from catalogue.reference.snapshots import all_types, type_of_version
from tests.demo_pages import codes
from tests.site_server import DEMO_FOLDER

pytestmark = pytest.mark.django_db
VERSIONS = codes("version")
TYPES = codes("type")
COMMONEST = ["always", "usually", "sometimes", "seldom"]
# Features whose state names the wearer's side, and those that sit on the pockets of the breast.
NAMES_SIDE = {"chest_pockets", "sleeve_pocket", "inside_pocket", "thigh_pocket"}
ON_THE_BREAST = {"chest_pocket_form", "flap_shape", "flap_fastening"}
SIDES = {"left": {"left"}, "pen_left": {"left"}, "right": {"right"}, "both": {"left", "right"}, "centre": {"centre"}}


@cache
def recorded(version: str) -> dict[str, str]:
    """The commonest state of each feature; of equally common ones the best founded, then the first."""
    order = {(row["feature"], row["state"]): place for place, row in enumerate(rows_of("states"))}
    found: dict[str, tuple[int, int, int, str]] = {}
    for row in rows_of("profiles"):
        if row["version"] == version:
            often = COMMONEST.index(row["how_often"] or "always")
            founded = {"documented": 0, "observed": 1}.get(row["certainty"], 2)
            one = often, founded, order[row["feature"], row["state"]], row["state"]
            found[row["feature"]] = min(one, found.get(row["feature"], one))
    return {feature: state for feature, (*_, state) in found.items()}


@cache
def rows_of(kind: str) -> list[dict[str, str]]:
    with (DEMO_FOLDER / f"{kind}.csv").open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def drawn_parts(svg: str) -> dict[str, set[str]]:
    """The sides on which each part of a drawing stands."""
    found: dict[str, set[str]] = {}
    for element in ElementTree.fromstring(svg).iter():
        if "data-part" in element.attrib:
            found.setdefault(element.attrib["data-part"], set()).add(element.attrib["data-side"])
    return found


def sides_on_record(feature: str, profile: dict[str, str]) -> set[str] | None:
    if feature in ON_THE_BREAST:
        return SIDES.get(profile.get("chest_pockets", "both"), set())
    return SIDES.get(profile[feature], set()) if feature in NAMES_SIDE else None


def disagreements(svg_by_view: dict[str, str], profile: dict[str, str]) -> list[str]:
    """Parts that the drawings show and the record does not, or on another side than it says."""
    found = []
    for view, svg in svg_by_view.items():
        for part, sides in drawn_parts(svg).items():
            feature, state = part.split(":")
            if profile.get(feature) != state:
                found.append(f"{view}: {part} is not on record")
            allowed = sides_on_record(feature, profile)
            if allowed is not None and not sides <= allowed:
                found.append(f"{view}: {part} stands on {sides}, on record is {allowed}")
    return found


def versions_of(type_code: str) -> list[str]:
    return [row["version"] for row in rows_of("versions") if row["type"] == type_code]


def views_drawn(version: str) -> dict[str, str]:
    facts = type_of_version(version)
    return {figure.view: figure.svg for figure in figures_of(facts, facts.versions[version])}


@pytest.mark.parametrize("type_code", TYPES)
def test_a_figure_shows_nothing_but_what_is_on_record_and_on_the_wearer_s_side(demo, type_code):
    for version in versions_of(type_code):
        assert disagreements(views_drawn(version), recorded(version)) == []


@pytest.mark.parametrize("type_code", TYPES)
def test_every_recorded_state_that_has_a_part_for_the_class_is_on_the_figure(demo, type_code):
    for version in versions_of(type_code):
        facts = type_of_version(version)
        drawn = {part for svg in views_drawn(version).values() for part in drawn_parts(svg)}
        applies = {code for code, f in facts.features.items() if facts.applies(facts.versions[version], f)}
        missing = []
        for feature, state in recorded(version).items():
            places = facts.features[feature].places if feature in applies else ()
            for part in all_parts().get((feature, state), ()):
                views = set(part.views) if part.views else {place.view for place in places}
                named = sides_on_record(feature, recorded(version))
                if part.detail or named == set() or not places or not draws_something(part, state):
                    continue
                if any(region_known(facts.garment_class, part, view) for view in views & set(views_drawn(version))):
                    missing += [f"{feature}:{state}"] * (f"{feature}:{state}" not in drawn)
        assert missing == []


def region_known(garment_class: str, part, view: str) -> bool:
    """Whether the class has a region for the part in this view; places that the feature names always are known."""
    if not part.views:
        return not part.classes or garment_class in part.classes
    body = all_silhouettes()[garment_class, view]
    known = {region for garment, seen, region in all_regions() if (garment, seen) == (garment_class, view)}
    fits = not part.classes or garment_class in part.classes
    return fits and any(region in known or region in body.regions for region in part.views[view])


def draws_something(part, state: str) -> bool:
    """What the original never had leaves nothing on the flat."""
    return state not in ("none", "plain", "open", "no", "closed", "exposed")


def test_left_and_right_exchanged_in_a_record_are_found_out(demo):
    exchanged = {"left": "right", "right": "left"}
    wrong = 0
    for version in VERSIONS:
        profile = recorded(version)
        told = {feature for feature in NAMES_SIDE & set(profile) if profile[feature] in exchanged}
        if told:
            other = profile | {feature: exchanged[profile[feature]] for feature in told}
            wrong += bool(disagreements(views_drawn(version), other))
    assert wrong > 0


@pytest.mark.parametrize("view", ["front", "inside", "back"])
def test_the_wearer_s_left_lies_at_the_viewer_s_right_but_from_behind(demo, view):
    facts = type_of_version("BLO-57")
    body = all_silhouettes()["jacket", view]
    pen = Pen()
    shown = shown_of(facts, facts.versions["BLO-57"])
    composed(pen, "jacket", view, shown)
    checked = 0
    for group in ElementTree.fromstring(f"<svg>{pen.svg}</svg>").iter("g"):
        side = group.attrib.get("data-side")
        numbers = [float(n) for path in group.iter("path") for n in re.findall(r"(?<=[ML])-?[\d.]+", path.attrib["d"])]
        if side in ("left", "right") and numbers:
            at_the_right = sum(numbers) / len(numbers) > body.width / 2
            assert at_the_right == ((side == "left") != (view == "back")), group.attrib["data-part"]
            checked += 1
    assert checked > 0 or view == "back"


@pytest.mark.parametrize("type_code", TYPES)
def test_call_outs_are_the_numbers_of_the_profile(client, demo, type_code):
    for version in versions_of(type_code):
        page = client.get(f"/issue-versions/{version}/").content.decode()
        rows = set(re.findall(r'<div id="p(\d+)">', page))
        leads = set(re.findall(r'<a href="#p(\d+)"><circle', page))

        assert leads <= rows
        if "<details" in page and 'class="view"' in page:
            assert leads


@pytest.mark.parametrize("type_code", TYPES)
def test_the_text_of_a_figure_says_what_the_record_says(demo, type_code):
    for version in versions_of(type_code):
        facts = type_of_version(version)
        numbers = facts.row_numbers(facts.versions[version])
        for view, svg in views_drawn(version).items():
            described = ElementTree.fromstring(svg).findtext("desc")
            for code, cells in facts.versions[version].cells.items():
                here = any(place.view == view for place in facts.features[code].places)
                if here and facts.applies(facts.versions[version], facts.features[code]):
                    assert f"{numbers[code]} {facts.features[code].name}:" in described
                    assert all(cell.label in described for cell in cells)


@pytest.mark.parametrize("type_code", TYPES)
def test_a_whole_figure_weighs_at_most_eight_kilobytes_and_a_spot_three(demo, type_code):
    for version in versions_of(type_code):
        facts = type_of_version(version)
        whole = "".join(views_drawn(version).values())
        answers = {code: shown.state for code, shown in shown_of(facts, facts.versions[version]).items()}
        spots = [found.svg for f in facts.features.values() if (found := spot(facts, f, answers))]

        assert len(gzip.compress(whole.encode())) <= 8_000
        assert max((len(gzip.compress(svg.encode())) for svg in spots), default=0) <= 3_000


def test_every_class_of_the_demo_has_its_views(demo):
    missing = [
        (facts.code, view)
        for facts in all_types()
        for view in views_of(facts.garment_class)
        if (facts.garment_class, view) not in all_silhouettes()
    ]
    assert missing == []


def test_words_of_a_record_never_reach_a_drawing_unescaped(demo):
    facts = type_of_version("BLO-57")
    version = replace(facts.versions["BLO-57"], name='<script>alert("1")</script>', code="BLO-57-x")
    hostile = replace(facts, versions={"BLO-57-x": version})

    for figure in figures_of(hostile, version):
        assert "<script" not in figure.svg
        ElementTree.fromstring(figure.svg)


def test_a_drawing_is_kept_by_all_that_it_depends_on_and_kept_drawings_are_bounded():
    """Kept drawings must differ wherever the profile, the marks or the cloth differ, and be the same otherwise."""
    places = (("front", "front_edge"),)
    one, other = (Shown("front_closure", state, "always", places) for state in ("buttons", "zip"))
    kept_drawing.cache_clear()

    def drawing(shown: Shown, **look) -> str:
        pen = Pen(**look)
        composed(pen, "jacket", "front", {shown.feature: shown}, changed=("front_closure", "not there"))
        return pen.svg

    first = drawing(one)
    assert drawing(one) == first
    assert kept_drawing.cache_info().hits == 1
    assert len({first, drawing(other), drawing(one, cloth="url(#a)"), drawing(one, alone=True)}) == 4
    pen = Pen()
    composed(pen, "jacket", "front", {one.feature: one})
    assert pen.svg != first or "changed" not in first, "the marks are part of the key"
    assert kept_drawing.cache_info().maxsize == MOST_KEPT


def test_a_changed_record_is_drawn_anew_at_once(client, demo):
    """The key is what the record says, so a page never shows the drawing of an older one."""
    address = "/compare/?v=BLO-86&v=BLO-71"
    before = client.get(address).content
    cell = ProfileCell.objects.filter(
        record=IssueVersion.objects.get(code="BLO-86").current_record_id, state__feature__code="front_closure"
    ).get()
    cell.state = cell.state.feature.states.exclude(pk=cell.state_id).first()
    cell.save()
    ReferenceState.mark_changed()

    after = client.get(address).content

    assert f'data-part="front_closure:{cell.state.code}"'.encode() in after
    assert after != before


def test_of_equally_common_states_the_best_founded_is_drawn(demo):
    """The quilted liner of 1963: its name says quilted, pieces were reported as fully lined; each is usual."""
    facts = type_of_version("LIN-63")
    cells = facts.versions["LIN-63"].cells["lining"]
    assert {cell.state: (cell.how_often, cell.certainty) for cell in cells} == {
        "full": ("usually", "observed"),
        "quilt": ("usually", "documented"),
    }

    assert shown_of(facts, facts.versions["LIN-63"])["lining"].state == "quilt"
    assert "lining:quilt" in views_drawn("LIN-63")["front"]


@pytest.mark.parametrize(("how_often", "dashed"), [("always", 0), ("usually", 1), ("sometimes", 1), ("seldom", 1)])
def test_what_not_every_piece_shows_is_drawn_dashed(how_often, dashed):
    pen = Pen()
    composed(
        pen,
        "jacket",
        "front",
        {"front_closure": Shown("front_closure", "zip", how_often, (("front", "centre_front"),))},
    )

    assert pen.svg.count('class="unsure"') == dashed
