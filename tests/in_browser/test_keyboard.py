"""Everything can be reached and used with the keyboard alone, and one can always see where one is."""

import pytest

pytestmark = pytest.mark.browser
FOCUSED = """() => { const e = document.activeElement;
    return {text: (e.innerText || e.name || "").trim(), href: e.getAttribute("href"), y: e.getBoundingClientRect().y,
            outline: getComputedStyle(e).outlineStyle} }"""
PAGES = [
    "/",
    "/garment-types/",
    "/garment-types/BLO/",
    "/issue-versions/",
    "/which/SMK/",
    "/search/?q=smock",
]


@pytest.mark.parametrize("address", PAGES)
def test_the_first_stop_leads_past_the_heading_to_the_content(demo_site, browser_page, address):
    browser_page.goto(demo_site + address)

    browser_page.keyboard.press("Tab")
    assert browser_page.evaluate(FOCUSED)["href"] == "#main"
    browser_page.keyboard.press("Enter")
    browser_page.keyboard.press("Tab")

    assert browser_page.evaluate("() => document.querySelector('main').contains(document.activeElement)")


@pytest.mark.parametrize("address", PAGES)
def test_every_stop_shows_itself_and_they_come_in_reading_order(demo_site, browser_page, address):
    browser_page.goto(demo_site + address)
    in_order = browser_page.evaluate("() => [...document.querySelectorAll('a[href],button,input,select,summary')]"
                                     ".filter(e => e.type != 'hidden' && e.checkVisibility()).length")  # fmt: skip
    stops = []
    for _ in range(min(in_order, 40)):
        browser_page.keyboard.press("Tab")
        stops.append(browser_page.evaluate(FOCUSED))

    assert [stop for stop in stops if stop["outline"] == "none"] == []
    unordered = '[tabindex]:not([tabindex="-1"], [role="region"][tabindex="0"])'  # a box that scrolls may be a stop
    assert browser_page.locator(unordered).count() == 0


def test_a_walk_goes_from_question_to_verdict_with_the_keyboard_alone(demo_site, browser_page):
    browser_page.goto(f"{demo_site}/which/SMK/")

    for _ in range(45):
        if browser_page.locator("button[name]:visible").count() == 0:
            break
        assert press_first_answer(browser_page), f"no answer can be reached on {browser_page.url}"

    assert browser_page.locator(".verdict").count() >= 1


def press_first_answer(page) -> bool:
    """Tab to the first answer within the content and press Enter."""
    before = page.url
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("() => document.activeElement.matches('main button[name]')"):
            page.keyboard.press("Enter")
            page.wait_for_url(lambda url: url != before)
            return True
    return False
