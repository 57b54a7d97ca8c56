"""A version's page prints: as text that can be searched, with its address, without the site's own furniture."""

import io

import pytest

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
