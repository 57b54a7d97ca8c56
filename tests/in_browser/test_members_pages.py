"""Pages of those who are signed in: whole, fit for a phone, and nothing that axe objects to, in light and in dark."""

import pytest

from catalogue.accounts.demo import DEMO_PASSWORD
from tests.demo_pages import SIGNED_IN_PAGES
from tests.html_reading import read_html
from tests.in_browser.test_accessibility import axe, found_by  # noqa: F401 - a fixture
from tests.in_browser.test_layout import STICKING_OUT

pytestmark = pytest.mark.browser
# Links and buttons that a thumb would miss: WCAG 2.2, 2.5.8 asks for 24 pixels, this site for 44 in forms and menus.
SMALL = """() => [...document.querySelectorAll("main button, main input:not([type=hidden]), main select, .who summary,"
    + " main a.answer")]
    .filter(e => e.checkVisibility() && !["checkbox", "radio"].includes(e.type))
    .filter(e => { const box = e.getBoundingClientRect(); return box.height < 43.5 || box.width < 24; })
    .map(e => e.tagName + " " + e.textContent.trim().slice(0, 30) + " " + e.getBoundingClientRect().height)"""


def sign_in(page, site: str, name: str) -> None:
    page.goto(f"{site}/account/login/")
    page.fill("[name=login]", name)
    page.fill("[name=password]", DEMO_PASSWORD)
    page.get_by_role("button", name="Sign in", exact=True).click()
    page.wait_for_url("**/my/")


def opened(page, address: str):
    """The page itself, also where it asks for the password once more."""
    answer = page.goto(address)
    if "/reauthenticate/" in page.url:
        page.fill("[name=password]", DEMO_PASSWORD)
        with page.expect_navigation(url=address):
            page.get_by_role("button", name="Go on").click()
    return answer


@pytest.mark.parametrize("name", SIGNED_IN_PAGES)
def test_pages_of_members_are_whole_fit_a_phone_and_axe_finds_nothing(demo_site, browser_page, axe, name):  # noqa: F811
    sign_in(browser_page, demo_site, name)
    faults = {}
    for address in SIGNED_IN_PAGES[name]:
        opened(browser_page, demo_site + address)
        browser_page.locator("details.who summary").click()
        found = found_by(axe, browser_page)
        browser_page.emulate_media(color_scheme="dark")
        found += found_by(axe, browser_page, runOnly=["color-contrast"])
        browser_page.emulate_media(color_scheme="light")
        found += browser_page.evaluate(STICKING_OUT) + browser_page.evaluate(SMALL)
        page = read_html(browser_page.content())
        found += [] if len(page.headings) == 1 else [f"first headings: {page.headings}"]
        if found:
            faults[address] = found

    assert faults == {}


def test_the_menu_opens_by_keyboard_and_without_script(demo_site, chromium):
    context = chromium.new_context(java_script_enabled=False, viewport={"width": 360, "height": 740})
    page = context.new_page()
    sign_in(page, demo_site, "Knot")

    page.locator("details.who summary").focus()
    page.keyboard.press("Enter")
    for _ in range(len(page.locator("details.who a").all())):
        page.keyboard.press("Tab")
        if page.locator("details.who a:focus").get_attribute("href") == "/society/requests/":
            break
    page.keyboard.press("Enter")
    page.wait_for_url("**/society/requests/")
    heading = page.locator("h1").inner_text()
    context.close()

    assert heading == "Requests to join"
