"""Pages print: as text that can be searched, all of it, on few pages, without the site's own furniture."""

import csv
import io
from unicodedata import normalize

import pytest

from tests.site_server import DEMO_FOLDER

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def reader():
    return pytest.importorskip("pypdf", reason="the package pypdf is missing").PdfReader


def printed(browser_page, reader, address: str):
    browser_page.goto(address)
    return reader(io.BytesIO(browser_page.pdf(format="A4", tagged=True)))


@pytest.mark.parametrize(("code", "pages"), [("SMK", 3), ("BLO", 3), ("HOO", 1)])
def test_a_key_prints_whole_with_every_version_and_without_what_is_for_the_screen(
    demo_site, browser_page, reader, code, pages
):
    paper = printed(browser_page, reader, f"{demo_site}/which/{code}/key/")
    text = bare("".join(page.extract_text() for page in paper.pages))
    with (DEMO_FOLDER / "versions.csv").open(encoding="utf-8-sig", newline="") as file:
        versions = [row for row in csv.DictReader(file) if row["type"] == code and row["piece_seen"] == "yes"]

    assert [row["name"] for row in versions if bare(row["name"]) not in text] == []
    assert bare("Skip to the content") not in text
    assert bare("Ask me one thing at a time") not in text
    assert len(paper.pages) <= pages


# Lists whose numbers or points stand left of the sheet: they hang out of the list by as much as is left free there.
OFF_THE_SHEET = """() => [...document.querySelectorAll("main :is(ol, ul)")].filter(one => {
    if (!one.checkVisibility() || !one.children.length) return false
    if (getComputedStyle(one.children[0]).listStyleType === "none") return false
    const style = getComputedStyle(one), wide = one.children.length > 9 && one.tagName === "OL" ? 1.9 : 1.2
    const left = one.getBoundingClientRect().left + parseFloat(style.paddingLeft)
    return left < wide * parseFloat(style.fontSize) }).map(one => one.outerHTML.slice(0, 60))"""


@pytest.mark.parametrize("address", ["/issue-versions/SMK-76/", "/compare/?v=SMK-76&v=SMK-83S", "/sources/S01/"])
def test_numbers_and_points_of_lists_stand_on_the_sheet(demo_site, browser_page, address):
    browser_page.set_viewport_size({"width": 718, "height": 1047})
    browser_page.goto(f"{demo_site}{address}")
    browser_page.emulate_media(media="print")

    assert browser_page.evaluate(OFF_THE_SHEET) == []


# Drawings of a key that are too small to see or stick out of the question they belong to.
ASTRAY = """() => [...document.querySelectorAll(".couplets svg")].filter(one => {
    const box = one.closest("li[id]").getBoundingClientRect(), of = one.getBoundingClientRect()
    return of.width < 20 || of.top < box.top || of.bottom > box.bottom || of.right > box.right + 1 }).length"""


def test_a_printed_key_is_no_wider_than_the_paper_and_no_question_is_torn_from_its_answers(demo_site, browser_page):
    """At the width of A4 less the browser's margins nothing sticks out, and no couplet may break between pages."""
    browser_page.set_viewport_size({"width": 718, "height": 1047})
    browser_page.goto(f"{demo_site}/which/SMK/key/")
    browser_page.emulate_media(media="print")
    wide = "() => [...document.querySelectorAll('body *')].filter(e => e.getBoundingClientRect().right > 718.5).length"
    breaks = "() => [...document.querySelectorAll('.couplets > li')].map(e => getComputedStyle(e).breakInside)"
    tall = "() => Math.max(...[...document.querySelectorAll('.couplets > li')].map(e => e.offsetHeight))"

    assert browser_page.evaluate(wide) == 0
    assert set(browser_page.evaluate(breaks)) == {"avoid"}
    assert browser_page.locator(".couplets svg").count() > 20
    assert browser_page.evaluate(ASTRAY) == 0
    assert browser_page.evaluate(tall) < 1047


# Every piece of text that is shown on paper; a drawing's name and description are none.
SHOWN = """() => { const found = []
    const walker = document.createTreeWalker(document.querySelector("main"), NodeFilter.SHOW_TEXT)
    while (walker.nextNode()) { const element = walker.currentNode.parentElement
        if (["title", "desc"].includes(element.tagName) || !element.checkVisibility()) continue
        if (element.getClientRects().length) found.push(walker.currentNode.data) }
    return found }"""


def bare(text: str) -> str:
    """Letters and figures only, since a line may break anywhere else; a ligature as the letters it stands for."""
    return "".join(filter(str.isalnum, normalize("NFKC", text)))


# What is pressed, typed or followed, but for a claim's checks, which are ticked on paper, and drawn answers.
FURNITURE = """() => [...document.querySelectorAll(
    "nav, footer, button:not(.answers .answer), input, select, textarea, .thumb-bar, .doors")]
    .filter(e => e.checkVisibility() && e.getClientRects().length)
    .filter(e => !e.matches(".check input, .exactly input, .yes-or-no input, .letter"))
    .map(e => e.outerHTML.slice(0, 60))"""
COLOURS = "() => ['--paper', '--ink'].map(name => getComputedStyle(document.documentElement).getPropertyValue(name))"


@pytest.mark.parametrize(
    ("address", "pages"),
    [
        ("/issue-versions/SMK-76/", 6),
        ("/compare/?v=BLO-71&v=BLO-86", 2),
        ("/compare/?v=SMK-61&v=SMK-76&v=SMK-CC&v=SMK-01S", 4),
        ("/which/BLO/key/", 3),
        ("/which/claim/?v=SMK-76", 2),
        ("/which/SMK/?front_closure=neck_zip&cloth_pattern=ling&_stop=yes", 3),
        ("/garment-types/SMK/", 5),
        ("/examples/E138/", 5),
        ("/issuers/SFS/", 3),
    ],
)
def test_nothing_that_is_shown_on_paper_is_lost_on_the_way(demo_site, browser_page, reader, address, pages):
    """Nor is anything on it that paper has no use for, nor the dark of a dark screen."""
    browser_page.emulate_media(color_scheme="dark")
    paper = printed(browser_page, reader, demo_site + address)
    text = bare("".join(page.extract_text() for page in paper.pages))
    browser_page.emulate_media(media="print", color_scheme="dark")
    shown = [bare(piece) for piece in browser_page.evaluate(SHOWN)]

    assert len(paper.pages) <= pages
    assert len([piece for piece in shown if piece]) > 20
    assert [piece for piece in shown if piece not in text] == []
    assert browser_page.evaluate(FURNITURE) == []
    assert browser_page.evaluate(COLOURS) == ["#fff", "#000"]
    if address.startswith("/issue-versions/"):
        # Every view is on paper, though one is open on the screen: front, back and inside bear the wearer's sides.
        first = paper.pages[0].extract_text()
        views = ("Front", "Back", "Inside", "Left sleeve", "Right sleeve")
        assert [view for view in views if view not in first] == []
        assert first.count("wearer's left") >= 3


def test_a_line_that_runs_off_the_paper_would_be_missed(browser_page, reader):
    browser_page.set_content("<main><p>kept</p><p style='position:absolute;top:-99px'>lost above the paper</p></main>")
    text = bare("".join(page.extract_text() for page in reader(io.BytesIO(browser_page.pdf())).pages))

    assert [piece for piece in map(bare, browser_page.evaluate(SHOWN)) if piece not in text] == ["lostabovethepaper"]


def test_a_type_page_that_is_printed_at_once_has_the_drawing_of_every_version(demo_site, browser_page):
    """Without having been scrolled: what is fetched only when it comes into sight would be missing on paper."""
    browser_page.goto(f"{demo_site}/garment-types/SMK/")
    missing = "() => [...document.querySelectorAll('.card')].filter(e => !e.complete || !e.naturalWidth).length"

    assert browser_page.locator(".card").count() == 12
    assert browser_page.evaluate(missing) == 0
