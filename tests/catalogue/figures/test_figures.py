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

from catalogue.figures import composing
from catalogue.figures.composing import MOST_KEPT, Shown, composed, kept_drawing
from catalogue.figures.figure import draw_version, figures_of
from catalogue.figures.parts import all_parts
from catalogue.figures.pen import Pen
from catalogue.figures.profiles import shown_of
from catalogue.figures.silhouettes import all_silhouettes
from catalogue.figures.spots import claim_spots, spot
from catalogue.reference.models import IssueVersion, ProfileCell, ReferenceState
from catalogue.reference.regions import views_of
from catalogue.reference.snapshots import all_types, type_of_version
from tests.catalogue.figures.drawn_shapes import DrawnPart, drawn_parts
from tests.catalogue.figures.seen_on_flats import is_seen, to_be_seen
from tests.demo_pages import codes
from tests.making import lift_the_guards
from tests.site_server import DEMO_FOLDER

pytestmark = pytest.mark.django_db
VERSIONS = codes("version")
TYPES = codes("type")
COMMONEST = ["always", "usually", "sometimes", "seldom"]
Demanded = dict[str, dict[str, set[str]]]


@cache
def recorded(version: str) -> dict[str, str]:
    """Of each feature the state to be drawn: what can be seen before what cannot, and what is there before what is
    not; then the commonest, of equally common ones the best founded, then the latest, then the first."""
    return {feature: rows[0]["state"] for feature, rows in cells_of(version).items()}


@cache
def cells_of(version: str) -> dict[str, list[dict[str, str]]]:
    """The rows of each feature, the one to be drawn first."""
    order = {(row["feature"], row["state"]): place for place, row in enumerate(rows_of("states"))}
    garment_class = type_of_version(version).garment_class

    def rank(row: dict[str, str]) -> tuple:
        hidden = not is_seen(garment_class, row["feature"], row["state"])
        often = COMMONEST.index(row["how_often"] or "always")
        founded = {"documented": 0, "observed": 1}.get(row["certainty"], 2)
        until = -int(row["last_year"] or 9999)
        return hidden, hidden and row["state"] == "none", often, founded, until, order[row["feature"], row["state"]]

    found: dict[str, list[dict[str, str]]] = {}
    for row in rows_of("profiles"):
        if row["version"] == version:
            found.setdefault(row["feature"], []).append(row)
    return {feature: sorted(rows, key=rank) for feature, rows in found.items()}


def in_some_only(version: str, feature: str) -> bool:
    """Whether by the spreadsheets not every piece has the state to be drawn: it, or what it is a detail of."""
    rows = cells_of(version).get(feature, [])
    several = len(rows) > 1 or any(row["how_often"] not in ("", "always") or row["share"] for row in rows)
    return several or lacks_some_of(version, feature)


def lacks_some_of(version: str, feature: str) -> bool:
    """Whether some pieces have not what the feature is a detail of."""
    detail = next(row for row in rows_of("features") if row["feature"] == feature)
    if not detail["parent"]:
        return False
    shown_when = re.findall(r"[a-z0-9_]+", detail["shown_when"])
    above = [row["state"] for row in cells_of(version).get(detail["parent"], [])]
    return any(state not in shown_when for state in above) or lacks_some_of(version, detail["parent"])


@cache
def rows_of(kind: str) -> list[dict[str, str]]:
    with (DEMO_FOLDER / f"{kind}.csv").open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def disagreements(parts_by_view: dict[str, list[DrawnPart]], demanded: Demanded) -> list[str]:
    """What the drawings lack or show too much of, view by view: parts, and the wearer's sides that they stand on."""
    found = []
    for view in sorted(parts_by_view.keys() | demanded.keys()):
        shown: dict[str, set[str]] = {}
        for part in parts_by_view.get(view, ()):
            shown.setdefault(part.name, set()).add(part.side)
        asked = demanded.get(view, {})
        for name in sorted(shown.keys() | asked.keys()):
            stands, wanted = shown.get(name, set()), asked.get(name, set())
            if stands != wanted:
                found.append(f"{view}: {name} stands on {sorted(stands)}, on record is {sorted(wanted)}")
    return found


def on_the_other_side(parts: list[DrawnPart], view: str, width: float) -> list[str]:
    """Parts whose shapes do not lie where the side that they name is: from the front left is at the viewer's right."""
    found = []
    for part in parts:
        left, _, right, _ = part.box
        at_the_right = (left + right) / 2 > width / 2
        if part.side in ("left", "right") and at_the_right != ((part.side == "left") != (view == "back")):
            found.append(f"{view}: {part.name} of the wearer's {part.side}")
    return found


def demanded_of(version: str, profile: dict[str, str] | None = None) -> Demanded:
    """What the spreadsheets ask for, in the views in which anything on record is looked at."""
    facts = type_of_version(version)
    applying = [code for code, f in facts.features.items() if facts.applies(facts.versions[version], f)]
    record = {code: state for code, state in (profile or recorded(version)).items() if code in applying}
    everything = to_be_seen(facts.garment_class, record)
    looked_at = {place.view for code in record for place in facts.features[code].places}
    return {view: parts for view, parts in everything.items() if view in looked_at}


def versions_of(type_code: str) -> list[str]:
    return [row["version"] for row in rows_of("versions") if row["type"] == type_code]


def views_drawn(version: str) -> dict[str, str]:
    facts = type_of_version(version)
    return {figure.view: figure.svg for figure in figures_of(facts, facts.versions[version])}


def parts_drawn(version: str) -> dict[str, list[DrawnPart]]:
    """As the drawings stand now: nothing that is kept is taken."""
    kept_drawing.cache_clear()
    facts = type_of_version(version)
    drawn = draw_version(facts, facts.versions[version])
    return {figure.view: drawn_parts(figure.svg) for figure in drawn}


@pytest.mark.parametrize("type_code", TYPES)
def test_each_view_shows_exactly_the_parts_on_record_on_the_wearers_proper_sides(demo, type_code):
    for version in versions_of(type_code):
        assert disagreements(parts_drawn(version), demanded_of(version)) == [], version


@pytest.mark.parametrize("type_code", TYPES)
def test_dashed_is_each_part_that_only_some_pieces_have_and_no_other(demo, type_code):
    """A vent that some pieces have and others lack is a dashed vent, not a cross."""
    for version in versions_of(type_code):
        facts = type_of_version(version)
        for figure in draw_version(facts, facts.versions[version]):
            parts = drawn_parts(figure.svg)
            dashed = {part.name for part in parts if part.dashed}
            wanted = {part.name for part in parts if in_some_only(version, part.name.partition(":")[0])}
            assert dashed == wanted, f"{version} {figure.view}"
            assert figure.dashed == bool(dashed)


def test_parts_that_some_pieces_lack_are_drawn_on_many_figures_of_the_demo(demo):
    """So that the rule above is no empty one."""
    lacking = [
        (version, feature)
        for version in VERSIONS
        for feature, rows in cells_of(version).items()
        if len(rows) > 1 and "none" in {row["state"] for row in rows}
        if any(part.name.startswith(f"{feature}:") for parts in parts_drawn(version).values() for part in parts)
    ]
    assert {("COA-CC", "underarm_vent"), ("SMK-CV", "chest_pockets"), ("HAT-DM", "chin_strap")} <= set(lacking)
    assert len(lacking) > 10


@pytest.mark.parametrize("type_code", TYPES)
def test_what_some_pieces_have_in_place_of_what_is_drawn_stands_small_below_once(demo, type_code):
    for version in versions_of(type_code):
        facts = type_of_version(version)
        figures = draw_version(facts, facts.versions[version])
        wanted = []
        for feature, (drawn, *others) in cells_of(version).items():
            if is_seen(facts.garment_class, feature, drawn["state"]):
                seen_too = [row["state"] for row in others if is_seen(facts.garment_class, feature, row["state"])]
                wanted += [(feature, state) for state in seen_too]
        stands = [(one.feature, one.state) for figure in figures for one in figure.seconds]
        assert sorted(stands) == sorted(wanted), version
        for figure in figures:
            described = ElementTree.fromstring(figure.svg).findtext("desc")
            for one in figure.seconds:
                label = facts.features[one.feature].label_of(one.state)
                assert one.words.startswith(label)
                assert f"{label} (small, below)" in described, f"{version} {figure.view}"
                assert one.picture


def test_a_version_page_shows_the_second_state_beside_its_number_and_says_what_dashes_mean(client, demo):
    page = client.get("/issue-versions/BLO-71/").content.decode()
    row = re.search(r'<div id="p(\d+)"><dt>(?:(?!</dt>).)*Waist adjustment', page).group(1)
    second = re.search(r'<span class="second" data-second="waist_draw:cord_in">(.*?)</span>', page).group(1)

    assert 'data-part="waist_draw:tabs"' in page  # the later of two equally common ones is drawn large
    assert f'<a class="n" href="#p{row}">{row}</a>' in second
    assert "only 1971–1972" in second
    assert 'class="part"' in second
    assert "on some pieces only" in page
    always = client.get("/issue-versions/COA-85/").content.decode()
    assert "data-part" in always
    assert "on some pieces only" not in always


def test_a_figure_of_an_altered_garment_says_what_was_done_that_it_may_not_show(client, demo):
    """No feature speaks of the length of a sleeve, so the shirt with sleeves cut short is drawn with long ones."""
    page = client.get("/issue-versions/SHI-DM/").content.decode()
    caption = re.search(r'<figcaption class="hint"><p>(.*?)</p>', page).group(1)

    assert "sleeves of worn shirts cut to the elbow" in caption
    assert "does not show" in caption
    assert page.count("does not show") == 1
    assert "does not show" not in client.get("/issue-versions/SHI-68/").content.decode()


@pytest.mark.parametrize("type_code", TYPES)
def test_the_shapes_of_a_part_lie_where_its_side_is(demo, type_code):
    """The wearer's left lies at the viewer's right in front and inside views, at the viewer's left from behind."""
    garment_class = type_of_version(versions_of(type_code)[0]).garment_class
    for version in versions_of(type_code):
        for view, parts in parts_drawn(version).items():
            if view in ("front", "inside", "back"):
                width = all_silhouettes()[garment_class, view].width
                assert on_the_other_side(parts, view, width) == [], version


def test_every_part_that_is_left_out_or_drawn_on_one_side_only_is_found_out(demo):
    """The check of the check: of every part on every figure of the demo each side is taken away in turn."""
    taken = 0
    for version in VERSIONS:
        parts, demanded = parts_drawn(version), demanded_of(version)
        for view in parts:
            for name, side in {(part.name, part.side) for part in parts[view]}:
                left = [part for part in parts[view] if (part.name, part.side) != (name, side)]
                assert disagreements(parts | {view: left}, demanded), f"{version} {view}: {name} {side}"
                taken += 1
    assert taken > 1000


def test_a_site_that_forgets_a_part_or_a_side_is_found_out(demo, monkeypatch):
    """The drawing itself goes wrong here: first each part is unknown to it, then nothing is drawn on the right."""
    first_with = {}
    for version in VERSIONS:
        for parts in demanded_of(version).values():
            first_with |= {name: version for name in parts if name not in first_with}
    assert len(first_with) > 90
    for name, version in first_with.items():
        with monkeypatch.context() as patched:
            patched.setitem(all_parts(), tuple(name.split(":")), [])
            assert disagreements(parts_drawn(version), demanded_of(version)), name
    places = composing.places_of
    monkeypatch.setattr(composing, "places_of", lambda *of: [one for one in places(*of) if one[1] != "right"])
    sided = [v for v in VERSIONS if any("right" in sides for p in demanded_of(v).values() for sides in p.values())]
    assert len(sided) > 40
    assert [version for version in sided if not disagreements(parts_drawn(version), demanded_of(version))] == []
    kept_drawing.cache_clear()


def test_left_and_right_exchanged_in_a_record_are_found_out(demo):
    exchanged = {"left": "right", "right": "left", "left_front": "right_front", "right_front": "left_front"}
    told = 0
    for version in VERSIONS:
        profile, parts = recorded(version), parts_drawn(version)
        for feature, state in demanded_sides(version, profile, exchanged).items():
            swapped = demanded_of(version, profile | {feature: exchanged[state]})
            assert disagreements(parts, swapped), f"{version}: {feature}"
            told += 1
    assert told > 5


def demanded_sides(version: str, profile: dict[str, str], exchanged: dict[str, str]) -> dict[str, str]:
    """Features of a record whose state names one side, and which are to be seen."""
    drawn = {name for parts in demanded_of(version).values() for name in parts}
    return {f: state for f, state in profile.items() if state in exchanged and f"{f}:{state}" in drawn}


@pytest.mark.parametrize("type_code", TYPES)
def test_call_outs_are_the_numbers_of_the_profile_and_its_rows_lead_back_to_them(client, demo, type_code):
    for version in versions_of(type_code):
        page = client.get(f"/issue-versions/{version}/").content.decode()
        rows = set(re.findall(r'<div id="p(\d+)">', page))
        leads = set(re.findall(r'<a href="#p(\d+)"><circle', page))
        views = dict(re.findall(r'<figure id="view-(\w+)">(.*?)</figure>', page, re.DOTALL))
        back = dict(re.findall(r'<div id="p(\d+)"><dt><a class="n" href="#view-(\w+)"', page))

        assert leads <= rows
        assert set(back) == leads
        assert all(f'<a href="#p{row}">' in views[view] for row, view in back.items())
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


def test_the_text_of_a_sleeve_says_which_it_is_and_names_the_cuff_that_is_drawn_on_it(demo):
    views = views_drawn("BLO-71")
    for side in ("left", "right"):
        described = ElementTree.fromstring(views[f"sleeve_{side}"]).findtext("desc")
        assert described.startswith(f"The wearer's {side} sleeve.")
        assert "Cuff: " in described


def test_places_of_which_nothing_is_recorded_are_marked_as_such_and_no_others(demo):
    marked = 0
    for code in VERSIONS:
        facts = type_of_version(code)
        version = facts.versions[code]
        places: dict[str, set[str]] = {}
        spoken: dict[str, set[str]] = {}
        for feature in facts.features.values():
            if facts.applies(version, feature):
                into = spoken if feature.code in recorded(code) else places
                for place in feature.places:
                    into.setdefault(place.view, set()).add(place.region)
        for view, svg in views_drawn(code).items():
            silent = places.get(view, set()) - spoken.get(view, set()) - {"cloth"}
            assert svg.count('<g class="silent">') == len(silent), f"{code} {view}"
            assert ("Not recorded: " in svg) == bool(silent)
            marked += len(silent)
    assert marked > 0


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
    lift_the_guards()
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


@pytest.mark.parametrize(
    ("place", "boxes"),
    [(("front", "waist"), 1), (("front", "nowhere"), 0), (("moon", "waist"), 0), (("any", "cloth"), 0)],
)
def test_a_state_that_nobody_has_drawn_is_a_bare_outline_of_its_place_as_far_as_the_garment_has_it(demo, place, boxes):
    facts = type_of_version("SMK-76")
    version = facts.versions["SMK-76"]
    view, region = place
    here = replace(facts.features["collar"].places[0], view=view, region=region)
    odd = replace(facts.features["collar"], code="odd", places=(here,))
    cells = tuple(replace(cell, state="strange", label="<b>" + "long " * 40) for cell in version.cells["collar"])
    version = replace(version, code="SMK-76-odd", cells=version.cells | {"odd": cells})
    facts = replace(facts, features=facts.features | {"odd": odd}, versions={version.code: version})

    figures = {figure.view: figure.svg for figure in draw_version(facts, version)}

    assert figures["front"].count('data-place="odd:strange"') == boxes
    assert "odd:strange" not in {part.name for part in drawn_parts(figures["front"])}
    number = facts.row_numbers(version)["odd"]
    assert (f'href="#p{number}"' in figures["front"]) == bool(boxes)
    assert not any("<b>" in svg for svg in figures.values())


@pytest.mark.parametrize(("version", "where"), [("BLO-86", "right of the middle"), ("BLO-94", "in the middle")])
def test_a_claim_marks_what_is_on_the_label_where_the_claimed_version_has_its_label(demo, version, where):
    """BLO-86 has it on the wearer's left front, at the viewer's right in a garment laid open; BLO-94 in the neck."""
    facts = type_of_version(version)
    drawings = claim_spots(facts, facts.versions[version], [facts.features["label_kind"]])

    (middle,) = [marked_middle(figure.svg, facts, figure.view) for figure in drawings]

    assert middle == pytest.approx(0.5, abs=0.03) if where == "in the middle" else 0.6 < middle < 0.95


@pytest.mark.parametrize("feature", ["front_closure", "closure_cover", "zip_teeth"])
def test_what_is_looked_at_on_a_short_opening_is_marked_no_farther_than_the_opening(demo, feature):
    """SMK-76 has a short zip at the neck that ends above the pocket in the middle of the breast."""
    facts = type_of_version("SMK-76")
    version = facts.versions["SMK-76"]
    answered = {code: shown.state for code, shown in shown_of(facts, version).items()}
    height = all_silhouettes()[facts.garment_class, "front"].height
    (claimed,) = claim_spots(facts, version, [facts.features[feature]])
    asked = spot(facts, facts.features[feature], answered)

    assert lowest_marked(claimed.svg) < height / 2
    assert feature == "front_closure" or lowest_marked(asked.svg) < height / 2


def lowest_marked(svg: str) -> float:
    (marks,) = re.findall(r'<g class="spot">(.*?)</g>', svg)
    return max(float(y) for y in re.findall(r"V(-?[\d.]+)", marks))


def marked_middle(svg: str, facts, view: str) -> float:
    """How far from the drawing's left edge the middle of what is marked lies, in parts of its width."""
    (marks,) = re.findall(r'<g class="spot">(.*?)</g>', svg)
    across = [float(x) for x in re.findall(r"M(-?[\d.]+)", marks)]
    width = all_silhouettes()[facts.garment_class, view].width
    return (min(across) + max(across)) / 2 / width
