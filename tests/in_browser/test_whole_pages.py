"""Every page of the demo, opened once: it fits a phone, every letter can be read, and axe finds nothing to object to,
in light and in dark, with everything unfolded."""

import pytest

from tests.demo_pages import ADDRESSES
from tests.in_browser.test_accessibility import axe, found_by  # noqa: F401 - `axe` is a fixture
from tests.in_browser.test_contrast import LEAST, TOO_PALE
from tests.in_browser.test_layout import sticking_out

pytestmark = pytest.mark.browser
# A piece with photographs and a set, which are no part of the reference and so in no table of its pages.
OF_PIECES = ["/examples/E138/", "/sets/G2/"]
UNFOLDED = "() => document.querySelectorAll('details').forEach(e => e.open = true)"


@pytest.mark.parametrize("address", ADDRESSES + OF_PIECES)
def test_a_page_fits_a_phone_can_be_read_and_is_open_to_everybody(demo_site, browser_page, axe, address):  # noqa: F811
    too_wide = sticking_out(browser_page, demo_site + address)
    browser_page.set_viewport_size({"width": 360, "height": 740})
    browser_page.evaluate(UNFOLDED)
    pale_in_light = browser_page.evaluate(TOO_PALE, LEAST)
    found_in_light = found_by(axe, browser_page)
    browser_page.emulate_media(color_scheme="dark")
    pale_in_dark = browser_page.evaluate(TOO_PALE, LEAST)
    found_in_dark = found_by(axe, browser_page, runOnly=["color-contrast"])  # the one rule that sees colours

    assert too_wide == []
    assert pale_in_light == []
    assert found_in_light == []
    assert pale_in_dark == []
    assert found_in_dark == []
