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


def test_a_version_prints_as_text_with_its_profile_and_sources(demo_site, browser_page, reader):
    paper = printed(browser_page, reader, f"{demo_site}/issue-versions/BLO-86/")
    text = " ".join(" ".join(page.extract_text() for page in paper.pages).split())

    assert "BLO-86" in text
    assert "27-114-10" in text
    assert "Skip to the content" not in text
    assert len(text) > 1_500
    assert len(paper.pages) <= 6


def test_a_comparison_prints_on_two_pages(demo_site, browser_page, reader):
    paper = printed(browser_page, reader, f"{demo_site}/compare/?v=BLO-71&v=BLO-86")

    assert len(paper.pages) <= 2
    assert "BLO-71" in paper.pages[0].extract_text()


@pytest.mark.parametrize(("code", "pages"), [("SMK", 3), ("BLO", 3), ("HOO", 1)])
def test_a_key_prints_whole_with_every_version_and_without_what_is_for_the_screen(
    demo_site, browser_page, reader, code, pages
):
    paper = printed(browser_page, reader, f"{demo_site}/which/{code}/key/")
    text = " ".join(" ".join(page.extract_text() for page in paper.pages).split())
    with (DEMO_FOLDER / "versions.csv").open(encoding="utf-8-sig", newline="") as file:
        versions = [row for row in csv.DictReader(file) if row["type"] == code and row["piece_seen"] == "yes"]

    assert [row["name"] for row in versions if row["name"] not in text] == []
    assert "Skip to the content" not in text
    assert "Ask me one thing at a time" not in text
    assert len(paper.pages) <= pages


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


@pytest.mark.parametrize(
    ("address", "pages"),
    [
        ("/issue-versions/SMK-76/", 6),
        ("/compare/?v=BLO-71&v=BLO-86", 2),
        ("/compare/?v=SMK-61&v=SMK-76&v=SMK-CC&v=SMK-01S", 3),
        ("/which/BLO/key/", 3),
    ],
)
def test_nothing_that_is_shown_on_paper_is_lost_on_the_way(demo_site, browser_page, reader, address, pages):
    paper = printed(browser_page, reader, demo_site + address)
    text = bare("".join(page.extract_text() for page in paper.pages))
    browser_page.emulate_media(media="print")
    shown = [bare(piece) for piece in browser_page.evaluate(SHOWN)]

    assert len(paper.pages) <= pages
    assert len([piece for piece in shown if piece]) > 50
    assert [piece for piece in shown if piece not in text] == []


def test_a_line_that_runs_off_the_paper_would_be_missed(browser_page, reader):
    browser_page.set_content("<main><p>kept</p><p style='position:absolute;top:-99px'>lost above the paper</p></main>")
    text = bare("".join(page.extract_text() for page in reader(io.BytesIO(browser_page.pdf())).pages))

    assert [piece for piece in map(bare, browser_page.evaluate(SHOWN)) if piece not in text] == ["lostabovethepaper"]
