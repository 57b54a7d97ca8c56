"""Charts of years: everything dated stands in them, nothing overlaps, nothing is surer than the record."""

import gzip
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations, pairwise

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.figures.step_notes import DETAILS, Step, in_order, told_from
from catalogue.figures.text_width import cut_to, text_width
from catalogue.figures.timelines import Section, chart, timeline_of_issuer, timeline_of_type
from catalogue.figures.years import pieces_of, span_of_years
from catalogue.member_examples.dated import dates_of_versions
from catalogue.member_examples.models import Example
from catalogue.member_examples.queries import keep_evidence
from catalogue.reference.changes import steps_to
from catalogue.reference.facts import Ancestor, VersionFacts
from catalogue.reference.models import ReferenceState
from catalogue.reference.separation import WEAK_ERROR
from catalogue.reference.snapshots import all_types, type_facts
from catalogue.reference.uncertain_dates import year_span
from identification.dating.spans import Documented, date_version
from identification.dating.words import years_between
from tests.catalogue.figures.drawn_shapes import points_of_path
from tests.making import make_type, make_version
from tests.reading import text

SVG = "{http://www.w3.org/2000/svg}"
MOST_BYTES = 3_000
BARE = VersionFacts(
    code="V", name="Version", kind="issue", cut="", colourway="", issuer="", date="", from_year=None, to_year=None,
    rarity=3, abundance=None, certainty="documented", piece_seen=True, reason="", note="", hazard_kind="", hazard="",
    names=(), makers=(), ancestors=(), passes_for=(), citations=(), stock_numbers=(), open_questions=(),
    record_number=None, standing="", cells={},
)  # fmt: skip


def version(code: str, date: str = "", *, after=(), made_from=(), **fields) -> VersionFacts:
    first, last = year_span(date) if date else (None, None)
    ancestors = [Ancestor(one, one, False) for one in after] + [Ancestor(one, one, True) for one in made_from]
    fields = {"name": f"Version {code}", "ancestors": tuple(ancestors)} | fields
    return replace(BARE, code=code, date=date, from_year=first, to_year=last, **fields)


def drawn(*versions: VersionFacts, close: bool = False, steps=()) -> ET.Element:
    return only(chart("A chart", [Section("Issued", versions, steps=dict(steps))], close=close))


def parsed(chart) -> list[ET.Element]:
    """Every part of a chart."""
    return [ET.fromstring(svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)) for svg in chart.parts]


def only(chart) -> ET.Element:
    (root,) = parsed(chart)
    return root


def all_links(chart) -> dict[str, ET.Element]:
    return {href: a for root in parsed(chart) for href, a in links(root).items()}


def links(root: ET.Element) -> dict[str, ET.Element]:
    """The link of every version by its address."""
    return {a.get("href"): a for a in root.iter(f"{SVG}a")}


def words_of(link: ET.Element) -> tuple[str, float, float, float]:
    """The text of a link, where it begins and ends at the most, and its height."""
    text = link.find(f"{SVG}text")
    words = "".join(text.itertext())
    code = text.find(f"{SVG}tspan").text
    return words, *ends_of(text, text_width(code, 13, bold=True) + text_width(words[len(code) :], 13))


def ends_of(text: ET.Element, width: float) -> tuple[float, float, float]:
    x, y = float(text.get("x")), float(text.get("y"))
    return (x - width, x, y) if text.get("text-anchor") == "end" else (x, x + width, y)


def notes_in(link: ET.Element) -> list[tuple[str, float, float, float]]:
    """The lines below a bar, as `words_of` gives its words."""
    return [
        (text.text, *ends_of(text, text_width(text.text, 13)))
        for text in link.iter(f"{SVG}text")
        if text.get("class") == "note"
    ]


def kinds(root: ET.Element, name: str = "") -> list[str]:
    """Classes of the strokes of bars (all links), or of one version's."""
    paths = [path for href, a in links(root).items() if name in href for path in a.iter(f"{SVG}path")]
    return [path.get("class") for path in paths]


def crossed_words(root: ET.Element) -> list[tuple[str, str]]:
    """Lines of descent that run through words, with the words: those of bars, what changed, headings.

    Words reach from 10 above the line they stand on to 2 below it, which is less than their letters may.
    """
    boxes = [words for link in links(root).values() if "/issue-versions/" in link.get("href") for words in (
        words_of(link), *notes_in(link))]  # fmt: skip
    boxes += [
        (text.text, *ends_of(text, text_width(text.text, 14, bold=True)))
        for text in root.iter(f"{SVG}text")
        if text.get("class") == "heading"
    ]
    found = []
    for path in root.findall(f"{SVG}path"):
        if path.get("class") in ("follows", "made"):
            for x0, y0, x1, y1 in pieces_of_path(path.get("d")):
                found += [
                    (path.get("d"), words)
                    for words, begin, end, y in boxes
                    if x0 < end and x1 > begin and y0 < y + 2 and y1 > y - 10
                ]
    return found


def pieces_of_path(data: str) -> list[tuple[float, float, float, float]]:
    """Left, top, right, bottom of each level or upright piece, and the box of each bend."""
    found, before = [], None
    for command, here in zip(re.findall("[MHVQ]", data), points_of_path(data), strict=True):
        if command != "M":
            (x0, x1), (y0, y1) = (sorted(pair) for pair in zip(before, here, strict=True))
            found.append((x0, y0, x1, y1))
        before = here
    return found


def bars_of(root: ET.Element) -> dict[str, tuple[float, float, float, float]]:
    """By code of a version the box of its bar: left, top, right, bottom."""
    found = {}
    for href, link in links(root).items():
        strokes = [path for path in link.iter(f"{SVG}path") if path.get("class") != "tip"]
        points = [point for path in strokes for point in points_of_path(path.get("d"))]
        if points and "/issue-versions/" in href:
            across, down = zip(*points, strict=True)
            middle = (min(down) + max(down)) / 2
            found[href.split("/")[2]] = (min(across), middle - 4, max(across), middle + 4)
    return found


def lines_of_descent(root: ET.Element) -> list[tuple[ET.Element, ET.Element]]:
    """Each line with the arrowhead that stands behind it."""
    paths = root.findall(f"{SVG}path")
    return [(path, paths[place + 1]) for place, path in enumerate(paths) if path.get("class") in ("follows", "made")]


def lost_lines(root: ET.Element) -> list[tuple[str, str]]:
    """Lines that cannot be followed: broken, not begun at the bar of the one or not ended, by the point of an
    arrowhead, at the bar of the other."""
    bars, lost = bars_of(root), []
    for path, tip in lines_of_descent(root):
        above, below = path.get("data-from"), path.get("data-to")
        points, (back, point, _, *_) = points_of_path(path.get("d")), points_of_path(tip.get("d"))
        whole = path.get("d").count("M") == 1
        begun = near(points[0], bars[above])
        led = abs(points[-1][0] - point[0]) <= 7 and abs(points[-1][1] - point[1]) <= 1
        ends = near(point, bars[below]) and tip.get("class") == "tip" and back != point
        if not (whole and begun and led and ends):
            lost.append((above, below))
    return lost


def near(point: tuple[float, float], box: tuple[float, float, float, float]) -> bool:
    left, top, right, bottom = box
    return left - 1 <= point[0] <= right + 1 and top - 1 <= point[1] <= bottom + 1


def owner_of(path: ET.Element) -> tuple[str, str]:
    return path.get("data-from"), path.get("class")


def shared_ways(root: ET.Element) -> list[tuple[str, str]]:
    """Pairs of lines from different versions, or of different kinds, whose upright pieces lie on each other."""
    uprights = [
        (path, piece)
        for path, _ in lines_of_descent(root)
        for piece in pieces_of_path(path.get("d"))
        if piece[0] == piece[2] and piece[3] - piece[1] > 8
    ]
    return [
        (one.get("d"), other.get("d"))
        for (one, a), (other, b) in combinations(uprights, 2)
        if owner_of(one) != owner_of(other) and abs(a[0] - b[0]) < 3 and a[1] < b[3] and b[1] < a[3]
    ]


# ---- what is sure


@pytest.mark.parametrize(
    ("date", "pieces"),
    [
        ("1952/1958", [(1952, 1959, True)]),
        ("1960", [(1960, 1961, True)]),
        ("1957-09/1966~", [(1957, 1967, True), (1967, 1969, False)]),
        ("1970~/1981", [(1968, 1970, False), (1970, 1982, True)]),
        ("1964?/1966?", [(1962, 1969, False)]),
        ("1964~", [(1962, 1967, False)]),
        ("1990/..", [(1990, 1991, True), (1991, 2020, False)]),
        ("../1966", [(1940, 1966, False), (1966, 1967, True)]),
        ("1989~/..", [(1987, 2020, False)]),
        ("", []),
    ],
)
def test_a_span_is_sure_only_where_the_date_says_so(date, pieces):
    found = pieces_of(version("V", date), 1940, 2020)

    assert [(piece.begin, piece.end, piece.sure) for piece in found] == pieces


def test_nothing_of_a_version_that_is_only_inferred_is_drawn_as_sure():
    assert [piece.sure for piece in pieces_of(version("V", "1960/1970", certainty="inferred"), 1940, 2020)] == [False]


def test_an_issue_is_solid_and_everything_else_an_outline_whatever_the_colour():
    root = drawn(version("A", "1960/1970"), version("B", "1960/1970", kind="trial"))

    assert kinds(root, "/A/") == ["sure"]
    assert kinds(root, "/B/") == ["hollow"]


# ---- what labels tell

YEARLY = date_version(range(1958, 1970), Documented(not_before=1955, not_after=1990))


@pytest.mark.parametrize(
    ("date", "pieces"),
    [
        ("1957~/1966~", [(YEARLY.low, 1958, False), (1958, 1970, True), (1970, YEARLY.high + 1, False)]),
        ("1957/1966~", [(1957, 1970, True), (1970, YEARLY.high + 1, False)]),
        ("1957/..", [(1957, 1970, True), (1970, YEARLY.high + 1, False)]),
        ("1957/1969", [(1957, 1970, True)]),
    ],
)
def test_an_estimated_end_reaches_as_far_as_labels_leave_it_and_a_sure_one_stays(date, pieces):
    found = pieces_of(version("V", date), 1940, 2020, YEARLY)

    assert (YEARLY.begin_told, YEARLY.end_told) == (True, True)
    assert YEARLY.low < 1958
    assert YEARLY.high > 1969
    assert [(piece.begin, piece.end, piece.sure) for piece in found] == pieces


def test_too_few_labels_leave_an_estimated_end_as_it_was_and_bear_an_open_one_out():
    few = date_version([1991, 1994])

    assert pieces_of(version("V", "1990/1995~"), 1940, 2020, few) == pieces_of(version("V", "1990/1995~"), 1940, 2020)
    open_end = pieces_of(version("V", "1990/.."), 1940, 2020, few)
    assert [(piece.begin, piece.end, piece.sure) for piece in open_end] == [(1990, 1995, True), (1995, 2020, False)]


@pytest.mark.parametrize("close", [False, True])
def test_the_number_of_dated_labels_stands_on_the_bar_as_text_and_is_read(close):
    versions = [version("A", "1957/1966~"), version("B", "1990")]
    made = chart("A chart", [Section("Issued", tuple(versions))], close=close, dates={"A": YEARLY})

    for root in (only(made), only(replace(made, parts=made.narrow))):
        link = links(root)["/issue-versions/A/"]
        assert words_of(link)[0].endswith("12 labels")
        assert "Label years seen: 1958–69 (12 dated labels)" in link.find(f"{SVG}title").text
        assert f"{years_between(YEARLY.low, YEARLY.high)}" in link.find(f"{SVG}title").text
        assert "A 1957 – about 1966 (12 labels)" in root.find(f"{SVG}desc").text
        assert "label" not in "".join(links(root)["/issue-versions/B/"].itertext())
    assert "labels" in made.signs


@pytest.mark.parametrize(
    ("date", "words"),
    [
        ("1957-09/1966~", "about 1957–66"),
        ("1957/1966", "1957–66"),
        ("1964?/1966?", "1964–66?"),
        ("1989%/..", "from about 1989?"),
        ("../1966", "until 1966"),
        ("1998~/2003", "about 1998–2003"),
    ],
)
def test_where_there_is_little_room_the_years_stand_short_and_no_surer_than_on_record(date, words):
    made = chart("A chart", [Section("Issued", (version("A", date),))], close=False)

    assert words_of(links(only(replace(made, parts=made.narrow)))["/issue-versions/A/"])[0] == f"A {words}"


def test_the_axis_reaches_as_far_as_an_end_may_lie():
    first, last = span_of_years([version("A", "1957~/1966~")], {"A": YEARLY})

    assert first < YEARLY.low
    assert last > YEARLY.high


@st.composite
def spans_and_labels(draw):
    first = draw(st.integers(1900, 2000))
    last = first + draw(st.integers(0, 30))
    date = draw(st.sampled_from([f"{first}", f"{first}~", f"{first}/{last}", f"{first}~/{last}?", f"{first}/..",
                                 f"../{last}", f"../{last}~", f"{first}?/.."]))  # fmt: skip
    years = draw(st.lists(st.integers(first - 8, last + 12), min_size=1, max_size=40))
    limits = draw(st.sampled_from([Documented(), Documented(not_before=1895, not_after=2026)]))
    certainty = draw(st.sampled_from(["documented", "inferred"]))
    return version("V", date, certainty=certainty), date_version(years, limits)


@pytest.mark.fuzz
@given(spans_and_labels())
@settings(deadline=None)
def test_whatever_record_and_labels_say_the_pieces_join_and_lie_on_the_axis(given_both):
    found, dates = given_both
    first, last = span_of_years([found], {"V": dates})
    pieces = pieces_of(found, first, last, dates)

    assert pieces
    assert all(piece.begin < piece.end for piece in pieces)
    assert all(one.end == other.begin for one, other in pairwise(pieces))
    assert first <= pieces[0].begin
    assert pieces[-1].end <= last


def test_on_its_page_every_version_with_dated_labels_says_how_many_in_one_query(client, demo_pieces):
    facts = type_facts("BLO")
    keep_evidence.kept.clear()
    with CaptureQueriesContext(connection) as asked:
        dates = dates_of_versions(all_types(), number=ReferenceState.current_number())
    issued = Example.objects.accepted().filter(garment_type__code="BLO", held_as__kind="issue")

    assert len(dates) > 20
    assert len([query for query in asked if "label_year" in query["sql"]]) == 1
    for address in ("/garment-types/BLO/", "/issuers/SFS/"):
        page = text(client, address)
        for code in facts.versions:
            number = issued.filter(held_as__code=code, label_year__isnull=False).count()
            link = page.partition(f'<a href="/issue-versions/{code}/"><title>')[2].partition("</a>")[0]
            assert (f"{number} label" in link) == bool(number) or not link, (address, code)


# ---- everything stands in it


def test_every_dated_version_of_the_demo_leads_to_its_page_and_every_other_is_named_beside_the_chart(demo):
    for facts in all_types():
        made = timeline_of_type(facts)
        linked = set(all_links(made))

        assert linked == {f"/issue-versions/{v.code}/" for v in facts.versions.values() if v.date}
        assert [v.code for v in made.undated] == [v.code for v in facts.versions.values() if not v.date]


def test_the_blouse_comes_down_from_version_to_version_as_its_records_say(demo):
    facts = type_facts("BLO")
    root = only(timeline_of_type(facts))
    lines = [path.get("class") for path in root.findall(f"{SVG}path") if path.get("class") in ("follows", "made")]

    related = [{(v.code, a.version) for a in v.ancestors} for v in facts.versions.values()]
    made = {(v.code, a.version) for v in facts.versions.values() for a in v.ancestors if a.made_from}
    assert lines.count("made") == len(made) == 2
    assert len(lines) == len(set().union(*related))


def test_the_words_beside_the_drawing_say_what_it_says():
    root = drawn(version("A", "1952/1958"), version("B", "1957-09/1966~", after=["A"]), version("C"))

    assert root.find(f"{SVG}desc").text == ("Issued: A 1952–58, B September 1957 – about 1966. Not dated: C.")
    assert links(root)["/issue-versions/B/"].find(f"{SVG}title").text == (
        "Version B (B): issue, September 1957 – about 1966; follows A"
    )


def test_what_an_issuer_never_gave_out_is_not_on_its_chart(demo):
    linked = set(all_links(timeline_of_issuer("Strandfell Service", all_types())))

    assert "/issue-versions/BLO-52/" in linked
    assert "/garment-types/BLO/" in linked
    assert "/issue-versions/BLO-CC/" not in linked
    assert "/issue-versions/BLO-CV/" not in linked


def test_a_type_none_of_whose_versions_is_dated_has_no_chart():
    assert chart("A chart", [Section("Issued", (version("A"), version("B")))], close=False) is None


def charts_of_the_demo() -> list[ET.Element]:
    """Every part of every chart, for wide screens and for phones."""
    dates = dates_of_versions(all_types(), number=ReferenceState.current_number())
    charts = [timeline_of_type(facts, dates=dates) for facts in all_types()]
    names = sorted({facts.issuer_name for facts in all_types()})
    charts += [timeline_of_issuer(name, all_types(), dates=dates) for name in names]
    every = [one for made in charts if made for one in (made, replace(made, parts=made.narrow))]
    return [root for made in every for root in parsed(made)]


def test_each_line_of_descent_leads_whole_from_the_one_version_to_the_other_and_says_which_is_the_later(demo_pieces):
    drawings = charts_of_the_demo()

    assert sum(len(lines_of_descent(root)) for root in drawings) > 120
    assert [lost for root in drawings for lost in lost_lines(root)] == []
    assert [crossed for root in drawings for crossed in crossed_words(root)] == []


def test_lines_from_different_versions_or_of_different_kinds_never_lie_on_each_other(demo_pieces):
    assert [shared for root in charts_of_the_demo() for shared in shared_ways(root)] == []


def test_a_line_that_would_run_through_words_goes_round_them_beside_the_chart():
    name = "Smock for the upper fells " * 9
    root = drawn(*(version(f"V-{n}", f"{1950 + n}", after=["V-0"] if n == 5 else [], name=name) for n in range(6)))
    ((path, _),) = lines_of_descent(root)
    left, _, width, _ = map(float, root.get("viewBox").split())

    assert crossed_words(root) == []
    assert lost_lines(root) == []
    assert min(x for x, _ in points_of_path(path.get("d"))) >= left
    assert width == float(root.get("width"))


def test_on_a_phone_a_chart_is_no_wider_than_the_screen_and_holds_every_version(demo_pieces):
    dates = dates_of_versions(all_types(), number=ReferenceState.current_number())
    for facts in all_types():
        made = timeline_of_type(facts, dates=dates)
        phone = replace(made, parts=made.narrow)

        assert all_links(phone).keys() == all_links(made).keys()
        assert all(float(root.get("width")) <= 328 for root in parsed(phone)), facts.code


# ---- fit and form


@st.composite
def wardrobes(draw) -> list[VersionFacts]:
    """Versions of any date and kind, with long and odd names, each after some that came before it."""
    found: list[VersionFacts] = []
    for place in range(draw(st.integers(1, 14))):
        first = draw(st.integers(1890, 2020))
        last = first + draw(st.integers(0, 40))
        date = draw(st.sampled_from(["", f"{first}", f"{first}~", f"{first}/{last}", f"{first}?/..", f"../{last}~"]))
        above = draw(st.lists(st.sampled_from([v.code for v in found]), max_size=2, unique=True)) if found else []
        kind = draw(st.sampled_from(["issue", "trial", "conversion", "reproduction", "unplaced"]))
        name = draw(st.text(st.characters(codec="utf-8", exclude_categories=["C"]), min_size=1, max_size=200))
        found.append(version(f"V-{place}", date, after=above, kind=kind, name=name))
    return found


@pytest.mark.fuzz
@given(wardrobes(), st.booleans(), st.data())
@settings(deadline=None)
def test_no_words_overlap_and_none_leave_the_drawing(versions, close, data):
    notes = st.lists(
        st.text(st.characters(codec="utf-8", exclude_categories=["C"]), min_size=1), min_size=1, max_size=5
    )
    steps = {
        v.code: tuple(Step(f"from {a.version}: ", tuple(data.draw(notes))) for a in v.ancestors)
        for v in versions
        if v.ancestors
    }
    made = chart("A chart", [Section("Issued", tuple(versions), steps=steps)], close=close)
    if made is None:
        return
    root = only(made)
    placed = [words for link in links(root).values() for words in (words_of(link), *notes_in(link))]

    assert all(begin >= -0.5 and end <= float(root.get("width")) + 0.5 for _, begin, end, _ in placed)
    for (_, begin, end, y), (_, other_begin, other_end, other_y) in combinations(placed, 2):
        assert y != other_y or end <= other_begin + 0.5 or other_end <= begin + 0.5
    assert crossed_words(root) == []
    assert lost_lines(root) == []
    assert shared_ways(root) == []
    assert "style=" not in made.parts[0]
    assert "<script" not in made.parts[0]


@pytest.mark.fuzz
@given(st.text(st.characters(codec="utf-8", exclude_categories=["C"]), max_size=250), st.floats(20, 900))
def test_what_is_cut_fits_and_begins_as_the_whole(text, width):
    cut = cut_to(text, width, 13)

    assert text_width(cut, 13) <= width
    assert cut == text or (cut.endswith("…") and text.startswith(cut[:-1]))


def test_what_is_cut_ends_with_a_whole_word():
    words = "cover of the closure: two storm flaps instead of one storm flap"

    for width in range(120, 500, 7):
        cut = cut_to(words, width, 14)
        assert cut == words or words[len(cut) - 1 :][:1] in (" ", ":"), cut
    assert cut_to("Donaudampfschifffahrt", 60, 14).startswith("Dona")


def test_a_name_of_two_hundred_letters_is_cut_and_stays_whole_in_the_title():
    name = "Smock for the upper fells " * 7 + "and no other"
    link = links(drawn(version("A", "1960/1970", name=name)))["/issue-versions/A/"]

    assert "…" in words_of(link)[0]
    assert "1960–70" in words_of(link)[0]
    assert name in link.find(f"{SVG}title").text


def test_a_name_with_signs_of_markup_is_written_as_text():
    root = drawn(version("A", "1960", name='<b>"Coat" & hood</b>'))

    assert '<b>"Coat" & hood</b>' in words_of(links(root)["/issue-versions/A/"])[0]


@pytest.mark.parametrize(("first", "last"), [(1960, 1960), (1900, 2000), (1066, 2020)])
def test_spans_of_one_year_and_of_many_have_years_that_can_be_read(first, last):
    root = drawn(version("A", f"{first}/{last}"))
    places = [int(text.get("x")) for text in root.find(f"{SVG}g").iter(f"{SVG}text")]

    assert 2 <= len(places) <= 20
    assert all(b - a >= 50 for a, b in zip(places, places[1:], strict=False))
    assert places[0] - 16 >= 0
    assert places[-1] + 16 <= int(root.get("width"))


def test_sixty_versions_stand_under_each_other_with_the_years_above_and_below():
    many = [version(f"V-{n}", f"{1950 + n}", after=[f"V-{n - 1}"]) for n in range(60)]
    root = drawn(*many)
    rows = {words_of(link)[3] for link in links(root).values()}

    assert len(rows) == 60
    assert len({text.get("y") for text in root.find(f"{SVG}g").iter(f"{SVG}text")}) == 2


def test_versions_that_follow_each_other_share_a_row_where_only_their_codes_are_named():
    root = drawn(version("A", "1950/1955"), version("B", "1970/1975", after=["A"]), close=True)

    assert len({words_of(link)[3] for link in links(root).values()}) == 1


def test_a_circle_of_ancestors_and_a_version_after_itself_are_drawn_all_the_same():
    root = drawn(version("A", "1950", after=["B", "A"]), version("B", "1960", after=["A"]))

    assert len(links(root)) == 2


def test_a_chart_of_twelve_versions_is_light(demo):
    facts = type_facts("SMK")
    assert len(facts.versions) == 12

    (svg,) = timeline_of_type(facts).parts
    assert len(gzip.compress(svg.encode())) <= MOST_BYTES


def test_a_chart_of_sixty_versions_weighs_as_much_as_five_of_twelve():
    many = [
        version(f"V-{n:02}", f"{1950 + n}~/{1955 + n}", name=f"Smock, pattern {1950 + n}", after=[f"V-{n // 2:02}"])
        for n in range(60)
    ]
    parts = ("collar", "cuff", "lining", "waist cord", "label", "breast pocket", "zip", "hem", "elbow", "seams")
    steps = {
        f"V-{n:02}": (
            Step(f"from V-{n // 2:02}: ", tuple(f"{p}: form {n * 7 % 11} instead of {n * 5 % 13}" for p in parts)),
        )
        for n in range(1, 60)
    }
    root = drawn(*many, steps=steps)

    assert sum(len(notes_in(link)) for link in links(root).values()) == 2 * 59
    assert len(gzip.compress(ET.tostring(root))) <= 5 * MOST_BYTES


def test_years_of_an_axis_leave_room_for_ends_that_are_not_sure():
    first, last = span_of_years([version("A", "1960~/1970~")])

    assert first < 1958
    assert last > 1972


# ---- what changed, at the step


def test_what_changed_stands_as_text_at_the_step_of_each_version_that_follows_or_imitates_one(demo):
    """As many changes as the two records differ in, those that do not fit counted."""
    for facts in all_types():
        found = all_links(timeline_of_type(facts))
        for version in facts.versions.values():
            if not version.date:
                continue
            link = found[f"/issue-versions/{version.code}/"]
            told = " ".join(line for line, *_ in notes_in(link))
            changed = [step for step in steps_to(facts, version) if step["notes"]]
            assert len(re.findall(r"(?:from|unlike) [A-Z]{3}-\w+: ", told)) == len(changed), version.code
            assert all(f"{step['code']}: " in told for step in changed)
            if len(changed) == 1:
                rest = re.search(r" and (\d+) more$", told)
                shown = len(changed[0]["notes"]) - (int(rest[1]) if rest else 0)
                whole = sum(note.words in told for note in changed[0]["notes"])
                assert whole + told.count("…") == shown >= 1, version.code
            assert all(line in link.find(f"{SVG}title").text for line, *_ in notes_in(link))


def test_the_demo_smock_of_1976_says_what_its_changeover_had_not(demo):
    link = all_links(timeline_of_type(type_facts("SMK")))["/issue-versions/SMK-76/"]

    assert [line for line, *_ in notes_in(link)] == [
        "from SMK-76T: cover of the closure: two storm flaps instead of one storm flap;",
        "kind of label: printed nylon satin instead of printed cotton tape",
    ]


def test_on_an_issuers_chart_stands_the_change_that_tells_most_with_whole_words_and_the_number_of_the_rest(demo):
    chart = timeline_of_issuer("Strandfell Service", all_types())
    lines = {href: notes_in(link) for href, link in all_links(chart).items() if "/issue-versions/" in href}
    told = {href: " ".join(line for line, *_ in found) for href, found in lines.items()}
    first = {version.code: steps[0].notes[0] for version, steps in chart.told}

    assert told["/issue-versions/LIN-83/"] == "fixing for a liner: press studs instead of loops on the liner +9"
    assert told["/issue-versions/CAP-83S/"] == "pattern (colourway): shingle print instead of ling print +5"
    assert told["/issue-versions/BLO-52/"] == ""
    assert {len(found) for found in lines.values()} <= {0, 1, 2}
    assert len([found for found in told.values() if found]) > 25
    for code, whole in first.items():
        shown = re.sub(r"…? \+\d+$|…$", "", told[f"/issue-versions/{code}/"])
        assert whole.startswith(shown), code
        assert not whole[len(shown) :][:1].isalnum(), f"{code}: cut within a word: {shown}"


def test_what_changed_stands_below_an_issuers_chart_in_full(client, demo):
    page = text(client, "/issuers/SFS/")
    _, _, below = page.partition("What changed at each step, in full")
    smocks = type_facts("SMK")

    for step in steps_to(smocks, smocks.versions["SMK-83S"]):
        assert all(note.words.lower() in below.lower() for note in step["notes"])


def test_what_parts_a_version_from_most_others_is_named_before_what_some_share_and_before_the_label(demo):
    for facts in all_types():
        for version in facts.versions.values():
            for step in steps_to(facts, version):
                notes = [note for note in in_order(facts, version, step) if not note.inferred]
                plain = [facts.features[note.feature].group == "label" for note in notes if note.kind not in DETAILS]
                firm = [
                    told_from(facts, version, note.feature)
                    for note in notes
                    if note.kind not in DETAILS
                    and not note.before & note.after
                    and facts.features[note.feature].group != "label"
                    and facts.features[note.feature].error < WEAK_ERROR
                ]
                assert firm == sorted(firm, reverse=True), version.code
                assert not (plain and plain[0] and not all(plain) and firm), version.code


def test_a_chart_too_high_for_a_sheet_comes_in_parts_each_with_its_years():
    sections = [Section(f"Type {t}", tuple(version(f"T{t}-{n}", f"{1950 + n}") for n in range(12))) for t in range(7)]
    made = chart("A chart", sections, close=False)
    roots = parsed(made)

    assert len(roots) == 4
    assert all(int(root.get("height")) <= 1400 for root in roots)
    assert all(len(list(root.find(f"{SVG}g").iter(f"{SVG}text"))) > 3 for root in roots)
    assert len(all_links(made)) == 7 * 12
    assert "Type 0, Type 1" in roots[0].find(f"{SVG}title").text


# ---- on its pages


def test_the_chart_stands_on_the_pages_of_the_type_and_the_issuer_in_a_box_that_scrolls(client, demo):
    for address in ("/garment-types/SMK/", "/issuers/SFS/"):
        page = client.get(address).content.decode()

        assert re.search(
            r'<div class="scroll" role="region" aria-label="[^"]+" tabindex="0"><svg class="timeline wide"', page
        )


def test_a_type_without_a_dated_version_has_a_page_without_a_chart(client, db):
    make_version(make_type("PON"), "PON-1")

    assert "timeline" not in client.get("/garment-types/PON/").content.decode()


def test_the_chart_asks_the_database_nothing(demo):
    facts, types = type_facts("SMK"), all_types()

    with CaptureQueriesContext(connection) as asked:
        timeline_of_type(facts, number=1)
        timeline_of_issuer("Strandfell Service", types, number=1)

    assert len(asked) == 0
