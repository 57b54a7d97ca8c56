"""What changed from version to version: said in words, once for each feature, and never where a record is silent."""

import re
from dataclasses import replace

import pytest
from django.utils.html import escape
from hypothesis import given
from hypothesis import strategies as st

from catalogue.reference.changes import OPPOSITE, changes, steps_to
from catalogue.reference.facts import CellFacts, FeatureFacts, StateFacts, TypeFacts, VersionFacts
from catalogue.reference.snapshots import all_types, type_facts
from tests.making import make_feature, make_type, make_version

FEATURE = FeatureFacts(
    code="", name="", group="", question="", kind="choice", unit="", spread=5, seen="outside", effort=1, error=0.05,
    error_note="", service_change="no", change_note="", absent=None, loss=0, gain=0, parent=None, shown_when=(),
    basis="", states=(), places=(),
)  # fmt: skip
VERSION = VersionFacts(
    code="V", name="V", kind="issue", cut="", colourway="", issuer="", date="", from_year=None, to_year=None, rarity=3,
    abundance=None, certainty="documented", piece_seen=True, reason="", note="", hazard_kind="", hazard="", names=(),
    makers=(), ancestors=(), passes_for=(), citations=(), stock_numbers=(), open_questions=(), record_number=None,
    standing="", cells={},
)  # fmt: skip
COLLAR = replace(FEATURE, code="collar", name="Collar", absent="none", states=(
    StateFacts("none", "No collar (band or cut edge)"), StateFacts("stand", "Stand (upright) collar"),
    StateFacts("fall", "Stand-and-fall (shirt) collar"), StateFacts("open", "Convertible: worn open or closed"),
))  # fmt: skip
TAB = replace(FEATURE, code="tab", name="Throat tab", parent="collar", shown_when=("stand", "fall", "open"),
              absent="none", states=(StateFacts("none", "None"), StateFacts("button", "Buttoned tab")))  # fmt: skip
BUTTONS = replace(FEATURE, code="buttons", name="Number of buttons", kind="count", states=(
    StateFacts("n4", "4 or fewer", 0, 5), StateFacts("n5", "5", 5, 6), StateFacts("n6", "6", 6, None)))  # fmt: skip
BRIM = replace(FEATURE, code="brim", name="Brim width", kind="measurement", unit="mm", states=(
    StateFacts("narrow", "Under 6 cm", 0, 60), StateFacts("wide", "6 cm or more", 60, None)))  # fmt: skip
SLEEVE = replace(FEATURE, code="sleeve", name="Sleeve setting", absent="off", states=(
    StateFacts("set_in", "Set-in (seam round the arm)"), StateFacts("off", "Sleeves taken off")))  # fmt: skip
HOME = TypeFacts(
    code="T", name="Type", other_names=(), garment_class="", issuer="", issuer_name="", description="", caution="",
    features={f.code: f for f in (COLLAR, TAB, BUTTONS, BRIM, SLEEVE)}, versions={},
)  # fmt: skip


def cell(feature: str, state: str, **fields) -> CellFacts:
    known = {"certainty": "documented", "sizes": (), "makers": (), "first_year": None, "last_year": None, "note": ""}
    label = HOME.features[feature].label_of(state)
    return CellFacts(feature, state, label, "always", None, **({"citations": ()} | known | fields))


def version(code: str = "V", **profile: str) -> VersionFacts:
    """A version whose profile is given as feature="state another_state"."""
    cells = {feature: tuple(cell(feature, state) for state in states.split()) for feature, states in profile.items()}
    return replace(VERSION, code=code, cells=cells)


def words(before: VersionFacts, after: VersionFacts) -> list[str]:
    return [note.words for note in changes(HOME, before, after).notes]


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ({"collar": "fall"}, {"collar": "open"}, "collar: convertible instead of stand-and-fall collar"),
        ({"collar": "none"}, {"collar": "stand"}, "collar added: stand collar"),
        ({"collar": "stand"}, {"collar": "none"}, "collar gone (before: stand collar)"),
        ({"collar": "stand"}, {"collar": "stand fall"}, "collar: also stand-and-fall collar"),
        ({"collar": "stand fall"}, {"collar": "fall"}, "collar: no longer stand collar, only stand-and-fall collar"),
        ({"collar": "stand"}, {"collar": "none stand"}, "collar: not always there"),
        ({"collar": "none stand"}, {"collar": "stand"}, "collar: always there, stand collar"),
        ({"collar": "none stand"}, {"collar": "none"}, "collar: no longer stand collar"),
        ({"collar": "stand fall"}, {"collar": "fall open"}, "collar: also convertible, no longer stand collar"),
        ({"buttons": "n5"}, {"buttons": "n6"}, "number of buttons: more, 6 instead of 5"),
        ({"buttons": "n5 n6"}, {"buttons": "n4"}, "number of buttons: fewer, 4 or fewer instead of 5 or 6"),
        ({"brim": "wide"}, {"brim": "narrow"}, "brim width: smaller, under 6 cm instead of 6 cm or more"),
        ({"sleeve": "set_in"}, {"sleeve": "off"}, "sleeve setting: sleeves taken off instead of set-in"),
    ],
)
def test_a_change_is_said_as_its_kind_asks(before, after, said):
    assert words(version(**before), version(**after)) == [said]


def test_a_detail_comes_and_goes_with_its_part():
    without, with_tab = version(collar="none"), version(collar="stand", tab="button")

    assert words(without, with_tab) == ["collar added: stand collar", "with it throat tab: buttoned tab"]
    assert words(with_tab, without) == [
        "collar gone (before: stand collar)", "throat tab gone with its part (before: buttoned tab)",
    ]  # fmt: skip


def test_where_one_record_is_silent_nothing_is_said_to_have_changed():
    made = changes(HOME, version(collar="stand", brim="wide"), version(collar="stand", buttons="n5"))

    assert made.notes == ()
    assert made.not_recorded_before == ("Number of buttons",)
    assert made.not_recorded_after == ("Brim width",)


def test_on_which_pieces_only_is_said_with_the_state():
    after = replace(VERSION, cells={"collar": (cell("collar", "fall"), cell("collar", "open", first_year=1973))})

    assert words(version(collar="fall"), after) == ["collar: also convertible (only from 1973)"]


def test_a_change_that_was_only_concluded_is_marked():
    after = replace(VERSION, cells={"collar": (cell("collar", "open", certainty="inferred"),)})

    assert [note.inferred for note in changes(HOME, version(collar="fall"), after).notes] == [True]
    assert [note.inferred for note in changes(HOME, version(collar="fall"), version(collar="open")).notes] == [False]


# ---- laws


profiles = st.fixed_dictionaries(
    {},
    optional={
        code: st.lists(st.sampled_from([s.code for s in feature.states]), min_size=1, unique=True).map(" ".join)
        for code, feature in HOME.features.items()
    },
)


@pytest.mark.fuzz
@given(profiles)
def test_equal_records_have_no_change(profile):
    made = changes(HOME, version(**profile), version(**profile))

    assert (made.notes, made.not_recorded_before, made.not_recorded_after) == ((), (), ())


@pytest.mark.fuzz
@given(profiles, profiles)
def test_the_other_way_round_every_change_is_the_opposite(one, other):
    there, back = changes(HOME, version(**one), version(**other)), changes(HOME, version(**other), version(**one))

    turned = [(n.feature, OPPOSITE[n.kind], n.after, n.before) for n in there.notes]
    assert turned == [(n.feature, n.kind, n.before, n.after) for n in back.notes]
    assert there.not_recorded_before == back.not_recorded_after
    assert all(a.words != b.words for a, b in zip(there.notes, back.notes, strict=True))


@pytest.mark.fuzz
@given(profiles, profiles)
def test_every_feature_that_differs_is_mentioned_exactly_once_and_no_other(one, other):
    made = changes(HOME, version(**one), version(**other))
    differing = [code for code in HOME.features if set(one.get(code, "").split()) != set(other.get(code, "").split())]
    silent = made.not_recorded_before + made.not_recorded_after
    mentioned = [note.feature for note in made.notes]
    mentioned += [code for code, feature in HOME.features.items() if feature.name in silent]

    assert sorted(mentioned) == sorted(differing)


# ---- the demo society's own history


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        # 1957: moss herringbone cotton in place of slate serge; covered buttons, because brass ones caught in ropes.
        ("BLO-52", "BLO-57", "weave: herringbone twill instead of even twill"),
        ("BLO-52", "BLO-57", "colour: moss green instead of slate blue"),
        ("BLO-52", "BLO-57", "cover of the closure: hidden by a fly instead of exposed"),
        ("BLO-52", "BLO-57", "pocket flap shape: square instead of one point"),
        # 1971: stores numbers replace ledger numbers; the mark becomes SF over a wave.
        ("BLO-57", "BLO-71", "property mark: SF over a wave instead of eight-spoked wheel"),
        # 1962-63: a hard winter, cold cuts.
        ("SMK-61", "SMK-63C", "collar: collar with buttoned-on hood instead of stand-and-fall collar"),
        # 1972: a cord end caught in a winch; from then waist cords inside.
        ("SMK-61", "SMK-74L", "waist adjustment: drawcord, ends inside instead of drawcord, ends outside"),
        # 1976: metal zips, old fronts and labels used up; then the new front.
        ("SMK-74L", "SMK-76T", "zip teeth: metal teeth instead of plastic coil"),
        ("SMK-76T", "SMK-76", "cover of the closure: two storm flaps instead of one storm flap"),
        # 1985-86: the laundry broke sewn buttons.
        ("BLO-71", "BLO-86", "how buttons are fixed: slotted, held by a tape instead of sewn through 4 holes"),
        # 1979-86: the same coat, treated.
        ("COA-85", "COA-85R", "treatment or care label: insect-repellent treated instead of none or washing symbols"),
        # Copies print at about two thirds of the scale.
        ("SMK-76", "SMK-CC", "length of the print repeat: smaller, under 52 cm instead of 52 cm or more"),
    ],
)
def test_the_notes_tell_what_the_history_tells(demo, before, after, said):
    facts = type_facts(before.split("-")[0])
    found = [note.words for note in changes(facts, facts.versions[before], facts.versions[after]).notes]

    assert [words for words in found if words.startswith(said)] != []


def test_nothing_is_said_of_what_was_carried_over(demo):
    for facts in all_types():
        for one in facts.versions.values():
            for step in steps_to(facts, one)[:1]:
                carried = {
                    code
                    for code, cells in one.cells.items()
                    if all(c.carried_from for c in cells)
                    and len(cells) == len(facts.versions[step["code"]].cells[code])
                }
                assert carried & {note.feature for note in step["notes"]} == set()


def test_the_unplaced_blouse_is_not_said_to_differ(demo):
    facts = type_facts("BLO")
    [step] = steps_to(facts, facts.versions["BLO-64G"])

    assert step["notes"] == ()
    assert "waist adjustment" in step["not_recorded_after"]


# ---- on the pages


def test_the_notes_stand_on_the_pages_of_the_type_the_version_and_the_comparison(client, demo):
    said = "Property mark: SF over a wave instead of eight-spoked wheel"

    for address in ("/garment-types/BLO/", "/issue-versions/BLO-71/", "/compare/?v=BLO-71&v=BLO-57"):
        assert said in client.get(address).content.decode(), address


def test_the_comparison_reads_from_the_earlier_to_the_later_whichever_was_named_first(client, demo):
    for address in ("/compare/?v=BLO-71&v=BLO-57", "/compare/?v=BLO-57&v=BLO-71"):
        assert "What changed, from BLO-57 to BLO-71" in client.get(address).content.decode()


def test_three_compared_versions_have_a_line_for_each_change_from_one_to_the_next(client, demo):
    page = client.get("/compare/?v=SMK-76&v=SMK-61&v=SMK-01S").content.decode()
    facts = type_facts("SMK")

    for before, after in (("SMK-61", "SMK-76"), ("SMK-76", "SMK-01S")):
        made = changes(facts, facts.versions[before], facts.versions[after]).notes
        step = page.split(f"From {before} to {after}: {len(made)} changes")[1].partition("</details>")[0]
        assert [escape(note.words[0].upper() + note.words[1:]) in step for note in made] == [True] * len(made)


def test_a_comparison_lists_what_is_marked_in_the_drawings_of_each_view_and_what_is_not(client, demo):
    page = client.get("/compare/?v=SMK-74L&v=SMK-76").content.decode()
    rows = re.findall(r'<tr[^>]*><th scope="row"[^>]*>(\w+)(.*?)</tr>', page, re.DOTALL)
    listed = {view: re.findall(r"Marked:</span> ([^<]*)\.", row) for view, row in rows if "<svg" in row}
    front = next(row for view, row in rows if view == "Front" and "<svg" in row)

    assert listed == {"Front": ["cover of the closure"], "Inside": []}
    assert set(re.findall(r'data-part="(\w+):[^"]*"[^>]*class="changed"', front)) == {"closure_cover"}
    assert "Not in the drawing: kind of label." in page


def test_versions_of_different_types_are_compared_in_what_both_types_have(client, demo):
    page = client.get("/compare/?v=BLO-71&v=COA-85").content.decode()

    assert "What changed, from BLO-71 to COA-85" in page
    assert page.count("Collar: ") == 1


def test_a_name_with_signs_of_markup_is_shown_as_text(client, db):
    garment_type = make_type("T")
    feature = make_feature("f", ("yes", "no"), types=[garment_type], name="<b>Edge</b>")
    first = make_version(garment_type, "T-1", {feature: "yes"})
    second = make_version(garment_type, "T-2", {feature: "no"})
    second.ancestors.create(ancestor=first, role="continues")

    assert "&lt;b&gt;Edge&lt;/b&gt;: no instead of yes" in client.get("/issue-versions/T-2/").content.decode()
