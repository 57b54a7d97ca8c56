"""Pages of members' pieces in a real browser: nothing runs off a phone's screen, and axe finds nothing."""

import pytest

from tests.conftest import served

pytestmark = pytest.mark.browser
PAGES = ["/examples/", "/examples/?version=BLO-86", "/examples/E138/", "/sets/G2/", "/sets/", "/examples/agreement/"]


@pytest.fixture(scope="module")
def site_with_pieces(tmp_path_factory):
    """The address of a running site with the demo society and its pieces."""
    yield from served(tmp_path_factory.mktemp("pieces"), ("start_demo", "--no-serve"))


def test_pages_of_pieces_fit_a_phone_and_have_no_fault_that_axe_finds(browser_page, site_with_pieces):
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    faults = {}
    for address in PAGES:
        for scheme in ("light", "dark"):
            browser_page.emulate_media(color_scheme=scheme)
            browser_page.goto(site_with_pieces + address)
            width = browser_page.evaluate("document.documentElement.scrollWidth")
            found = [
                f"{one['id']}: {one['nodes'][0]['html'][:120]}" for one in axe.run(browser_page).response["violations"]
            ]
            if found or width > 360:
                faults[address, scheme] = found, width
    assert faults == {}
