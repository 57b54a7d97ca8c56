"""A label typed and confirmed in a real browser without script, at phone width, in light and in dark."""

import pytest

from tests.in_browser.test_accessibility import axe, found_by  # noqa: F401 - a fixture
from tests.in_browser.test_layout import STICKING_OUT

pytestmark = pytest.mark.browser
LABEL = (
    "BLOUSE WORKING\nSIZE 4\nC/I4/61\nDUNSALLOW 1961\nNAME: J. SMITH\n65% POLYESTER 37% COTTON\n"
    "MACHINE WASH 40 MILD DO NOT BLEACH\nMFD 2/61\n" + "W" * 70
)


def read_and_confirm(page, site: str) -> None:
    page.goto(f"{site}/label/")
    page.fill("#text", LABEL)
    page.click("text=What does it say?")
    page.check('input[value="C/14/61"]')
    with page.expect_navigation():
        page.click("text=Take these")


def test_a_label_is_read_and_confirmed_without_script(demo_site, chromium):
    context = chromium.new_context(java_script_enabled=False, viewport={"width": 360, "height": 740})
    page = context.new_page()
    read_and_confirm(page, demo_site)
    named = page.inner_text("section[aria-labelledby=versions]")
    typed = page.input_value("#text")
    cookies = context.cookies()
    context.close()

    assert "Blouse, working, Pattern 57" in named
    assert typed == LABEL
    assert cookies == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_label_that_was_read_fits_a_phone_and_is_accessible(demo_site, chromium, axe, scheme):  # noqa: F811
    context = chromium.new_context(viewport={"width": 360, "height": 740}, color_scheme=scheme)
    page = context.new_page()
    read_and_confirm(page, demo_site)
    too_wide, faults = page.evaluate(STICKING_OUT), found_by(axe, page)
    context.close()

    assert too_wide == []
    assert faults == []
