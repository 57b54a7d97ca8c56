"""Every page of the demo, opened once: it fits a phone, every letter is large and dark enough, and axe finds nothing to
object to, in light and in dark, with everything unfolded."""

import pytest

from tests.conftest import PHONE, watched_page
from tests.demo_pages import ADDRESSES, BEHIND_THE_CAUTION
from tests.in_browser.test_accessibility import axe, found_by  # noqa: F401 - `axe` is a fixture
from tests.in_browser.test_contrast import LEAST, TOO_PALE
from tests.in_browser.test_layout import TOO_SMALL, sticking_out
from tests.reading import read_caution

pytestmark = pytest.mark.browser
# A piece with photographs and a set, which are no part of the reference and so in no table of its pages.
OF_PIECES = ["/examples/E138/", "/sets/G2/"]
TARGETS = {"target-size": {"enabled": True}}  # WCAG 2.2, 2.5.8, which axe asks for only when told to
UNFOLDED = "() => document.querySelectorAll('details').forEach(e => e.open = true)"


@pytest.fixture(scope="module")
def window(chromium, demo_site):
    """One page of the browser for all addresses, since to open one costs as much as to look at it. The cautions are
    read already."""
    with watched_page(chromium) as opened:
        page, _ = opened
        read_caution(page.request, *BEHIND_THE_CAUTION, site=demo_site)
        yield opened


@pytest.mark.parametrize("address", ADDRESSES + OF_PIECES)
def test_a_page_fits_a_phone_can_be_read_and_is_open_to_everybody(demo_site, window, axe, address):  # noqa: F811
    page, faults = window
    faults.clear()
    page.emulate_media(color_scheme="light")

    too_wide = sticking_out(page, demo_site + address)
    page.set_viewport_size(PHONE)
    page.evaluate(UNFOLDED)
    too_small = page.evaluate(TOO_SMALL)
    pale_in_light = page.evaluate(TOO_PALE, LEAST)
    found_in_light = found_by(axe, page, rules=TARGETS)
    page.emulate_media(color_scheme="dark")
    pale_in_dark = page.evaluate(TOO_PALE, LEAST)
    found_in_dark = found_by(axe, page, runOnly=["color-contrast"])  # the one rule that sees colours

    assert faults == []
    assert too_wide == []
    assert too_small == []
    assert pale_in_light == []
    assert found_in_light == []
    assert pale_in_dark == []
    assert found_in_dark == []
