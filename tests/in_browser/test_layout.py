"""Pages fit a phone, with the demo society in them and with nothing in them."""

import pytest

from tests.demo_pages import PAGES, every_record
from tests.reading import read_caution

pytestmark = pytest.mark.browser
# What is wider than the screen, unless a box around it scrolls by itself.
STICKING_OUT = """() => document.documentElement.scrollWidth <= document.documentElement.clientWidth ? [] :
    [...document.querySelectorAll("body *")]
        .filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5)
        .slice(0, 5).map(e => e.tagName + "." + e.className + ": " + e.textContent.trim().slice(0, 40))"""
# What is smaller than 14 px on the screen, in drawings as they come out. The lettering of a label or a ruler in a small
# picture, and the sign of what is not recorded, are drawing.
TOO_SMALL = """() => { const small = []
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    while (walker.nextNode()) {
        const element = walker.currentNode.parentElement
        if (!walker.currentNode.data.trim() || element.closest("script, style, title, desc, option, .part, .silent"))
            continue
        if (!element.checkVisibility() || !element.getClientRects().length) continue
        const text = element.closest("text"), scale = text ? text.getScreenCTM().a : 1
        const size = parseFloat(getComputedStyle(element).fontSize) * scale
        if (size < 13.9) small.push([size.toFixed(1), walker.currentNode.data.trim().slice(0, 40)])
    }
    return small }"""
LISTS = [
    addresses[0] for name, addresses in PAGES.items() if addresses[0].count("/") <= 2 and name != "walk_through:any"
]


def test_no_record_is_wider_than_a_phone(demo_site, browser_page):
    faults = {address: sticking_out(browser_page, demo_site + address) for address in every_record()}

    assert {address: parts for address, parts in faults.items() if parts} == {}


# Every name of the version becomes one of two hundred letters without a place to part it.
LENGTHENED = """name => { const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    let many = 0
    while (walker.nextNode()) if (walker.currentNode.data.includes(name)) {
        walker.currentNode.data = walker.currentNode.data.replaceAll(name, "Smock" + "x".repeat(195)); many++ }
    return many }"""


@pytest.mark.parametrize(
    "address",
    ["/compare/?v=SMK-76&v=SMK-61", "/compare/?v=SMK-76", "/examples/?version=SMK-76", "/mistaken-for/SMK-76/",
     "/issue-versions/SMK-76/history/", "/issue-versions/SMK-76/", "/garment-types/SMK/", "/which/claim/?v=SMK-76"],
)  # fmt: skip
def test_a_name_of_two_hundred_letters_widens_no_page(demo_site, browser_page, address):
    browser_page.set_viewport_size({"width": 360, "height": 740})
    browser_page.goto(demo_site + address)
    assert browser_page.evaluate(LENGTHENED, "Smock, fell, Pattern 76")

    assert browser_page.evaluate(STICKING_OUT) == []


@pytest.mark.parametrize("address", LISTS)
def test_a_site_with_nothing_in_it_has_whole_pages(empty_site, browser_page, address):
    assert sticking_out(browser_page, empty_site + address) == []
    assert browser_page.locator("h1").count() == 1


# How high the flats and all checks of a claim stand, and what of them is too small or beside the screen.
CLAIMED = """() => { const top = document.querySelector(".claimed").getBoundingClientRect().top
    const checks = [...document.querySelectorAll(".claim-check")]
    const drawn = [...document.querySelectorAll(".claimed svg")].filter(one => one.checkVisibility())
    return {high: checks.at(-1).getBoundingClientRect().bottom - top, checks: checks.length,
        low: Math.min(...[...document.querySelectorAll(".yes-or-no label")].map(l => l.offsetHeight)),
        astray: drawn.filter(one => { const box = one.getBoundingClientRect()
            return box.width < 40 || box.left < 0 || box.right > innerWidth }).length} }"""


def test_a_claim_is_checked_on_one_screen_of_a_phone_with_the_flat_and_a_drawing_for_each_check(
    demo_site, browser_page
):
    browser_page.set_viewport_size({"width": 360, "height": 740})
    browser_page.goto(f"{demo_site}/which/claim/?v=SMK-76")
    found = browser_page.evaluate(CLAIMED)

    assert found["checks"] == 4
    assert found["high"] <= 740
    assert found["low"] >= 44
    assert found["astray"] == 0


REACH = """() => {
    const bar = document.querySelector(".thumb-bar"), button = bar.querySelector("button");
    const box = button.getBoundingClientRect();
    const first = document.querySelector(".answers .answer").getBoundingClientRect();
    return {
        seen: box.top >= 0 && box.bottom <= innerHeight && box.height >= 48,
        hit: document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2) === button,
        bar: bar.getBoundingClientRect().height, first: first.bottom < bar.getBoundingClientRect().top};
}"""

ANSWERS = """() => {
    const folds = [...document.querySelectorAll("main details:not([open])")];
    folds.forEach(fold => fold.open = true);
    const heights = [...document.querySelectorAll(".answer, main .tick")].map(e => e.getBoundingClientRect().height);
    folds.forEach(fold => fold.open = false);
    return heights.filter(height => height > 0);
}"""


@pytest.mark.parametrize("query", ["", "?front_closure=neck_zip&waist_draw=cannot-tell"])
def test_cannot_tell_is_within_reach_of_the_thumb_and_covers_no_first_answer(demo_site, browser_page, query):
    """48 pixels: what the house asks of an answer; WCAG 2.2, 2.5.8, asks for 24."""
    address = f"{demo_site}/which/SMK/{query}"
    browser_page.goto(address)

    found = browser_page.evaluate(REACH)
    asked = browser_page.locator("h1").inner_text()
    rows = browser_page.evaluate(ANSWERS)
    browser_page.locator(".thumb-bar button").click()

    assert (found["seen"], found["hit"], found["first"]) == (True, True, True)
    assert found["bar"] <= 64, "one line"
    assert min(rows) >= 48
    assert browser_page.locator("h1").inner_text() != asked, "the next question"
    assert "=cannot-tell" in browser_page.url


HIDDEN = """() => { const bar = document.querySelector(".thumb-bar").getBoundingClientRect();
    return [...document.querySelectorAll("main a, main button, main input, main summary")]
        .filter(e => !e.closest(".thumb-bar") && e.checkVisibility() && e.type !== "hidden")
        .map(e => [e.textContent.trim().slice(0, 30), e.getBoundingClientRect()])
        .filter(([, box]) => box.top < bar.bottom && box.bottom > bar.top).map(([words]) => words) }"""


@pytest.mark.parametrize(("width", "height"), [(360, 640), (640, 360), (1280, 900)])
def test_on_a_short_or_a_wide_screen_the_bar_follows_the_answers_and_says_nothing_twice(
    demo_site, browser_page, width, height
):
    browser_page.set_viewport_size({"width": width, "height": height})
    for query, links in (("", 0), ("?cloth_pattern=cannot-tell&front_closure=cannot-tell&_ask=button_fix", 2)):
        browser_page.goto(f"{demo_site}/which/SMK/{query}")
        gap = browser_page.evaluate(
            "() => document.querySelector('.thumb-bar').getBoundingClientRect().top"
            " - document.querySelector('.answers').getBoundingClientRect().bottom"
        )

        assert browser_page.evaluate(HIDDEN) == []
        assert browser_page.locator(".thumb-bar a:visible").count() == links
        assert browser_page.locator("button[value=cannot-tell]:visible").count() == 1
        assert 0 <= gap < 48 or not links


def test_the_button_below_a_measure_is_not_behind_the_bar(demo_site, browser_page):
    browser_page.goto(f"{demo_site}/which/SMK/?_ask=print_repeat")

    assert browser_page.get_by_role("button", name="Use this measure").is_visible()
    assert browser_page.evaluate(HIDDEN) == []
    assert browser_page.locator("button[value=cannot-tell]:visible").count() == 1


def test_nothing_that_has_the_focus_is_behind_the_bar(demo_site, browser_page):
    """WCAG 2.2, 2.4.11."""
    browser_page.goto(f"{demo_site}/which/SMK/?front_closure=cannot-tell")
    behind = HIDDEN.replace('document.querySelectorAll("main a, main button, main input, main summary")',
                            "[document.activeElement]")  # fmt: skip
    for _ in range(20):
        browser_page.keyboard.press("Tab")

        assert browser_page.evaluate(behind) == []
    assert browser_page.evaluate("() => scrollY") > 0, "it went past the first screen"


def test_each_number_on_a_figure_can_be_hit_with_a_fingertip_and_rows_open_the_view_of_theirs(demo_site, browser_page):
    """24 px across on a screen 320 px wide, no two overlapping: WCAG 2.2, 2.5.8."""
    browser_page.set_viewport_size({"width": 320, "height": 740})
    browser_page.goto(f"{demo_site}/issue-versions/SMK-76/")
    misses = browser_page.evaluate("""() => { const missed = []
        for (const link of document.querySelectorAll(".view[open] .call-outs a")) {
            link.scrollIntoView({block: "center"})
            const box = link.querySelector("circle").getBoundingClientRect()
            const x = box.x + box.width / 2, y = box.y + box.height / 2
            for (const [dx, dy] of [[0, 0], [11.5, 0], [-11.5, 0], [0, 11.5], [0, -11.5]]) {
                const hit = document.elementFromPoint(x + dx, y + dy)
                if (!hit || hit.closest("a") !== link) missed.push([link.getAttribute("href"), dx, dy])
            }
        }
        return missed }""")

    assert browser_page.locator(".view[open] .call-outs a").count() > 4
    assert misses == []
    row = browser_page.locator("a.n[href='#view-back']").first
    row.click()
    assert browser_page.locator(".view[open] summary").all_inner_texts() == ["Back"]
    assert browser_page.locator(f"#view-back a[href='#p{row.inner_text()}']").is_visible()
    assert browser_page.evaluate("() => document.querySelector('#view-back').getBoundingClientRect().top") >= 0


def test_letters_too_small_for_a_phone_would_be_seen(browser_page):
    browser_page.set_content(
        "<p style='font-size: 14px'>read</p><p style='font-size: 13px'>small</p>"
        "<svg viewBox='0 0 720 10' width='360'><text style='font-size: 26px'>drawn small</text></svg>"
    )

    assert browser_page.evaluate(TOO_SMALL) == [["13.0", "small"], ["13.0", "drawn small"]]


def test_what_sticks_out_would_be_seen(browser_page):
    browser_page.set_content("<p style='width: 500px'>wide</p>")

    assert browser_page.evaluate(STICKING_OUT) == ["P.: wide"]


def sticking_out(page, address: str) -> list[str]:
    """What is too wide at 360 or at 320 pixels."""
    page.set_viewport_size({"width": 360, "height": 740})
    answer = page.goto(address)
    assert answer.status == 200
    at_360 = page.evaluate(STICKING_OUT)
    page.set_viewport_size({"width": 320, "height": 740})
    return at_360 + page.evaluate(STICKING_OUT)


WHOLE_ANSWERS = """() => {
    const bar = document.querySelector(".thumb-bar").getBoundingClientRect().top
    const answers = [...document.querySelectorAll(".answers .answer")]
    return answers.filter(e => e.getBoundingClientRect().bottom <= bar).length
}"""


def test_a_question_shows_two_whole_answers_and_the_beginning_of_a_third_on_the_first_screen_of_a_phone(
    demo_site, browser_page
):
    browser_page.set_viewport_size({"width": 360, "height": 740})
    for query in ("", "?cloth_pattern=plain_dyed"):
        browser_page.goto(f"{demo_site}/which/SMK/{query}")
        third = "() => document.querySelectorAll('.answers .answer')[2].getBoundingClientRect().top < 690"

        assert browser_page.evaluate(WHOLE_ANSWERS) >= 2, query
        assert browser_page.evaluate(third), query


# Pairs of numbers on one drawing that lie on each other, and numbers that are smaller than text.
NUMBERS = """() => { let lying = 0, small = 0
    for (const drawing of document.querySelectorAll(".claimed svg.flat")) {
        const circles = [...drawing.querySelectorAll(".call-outs circle")].map(e => {
            const box = e.getBoundingClientRect()
            return {x: box.x + box.width / 2, y: box.y + box.height / 2, r: box.width / 2} })
        circles.forEach((one, n) => circles.slice(n + 1).forEach(other => {
            if (Math.hypot(one.x - other.x, one.y - other.y) < one.r + other.r - 0.5) lying++ }))
        for (const text of drawing.querySelectorAll(".call-outs text")) {
            const size = parseFloat(getComputedStyle(text).fontSize) * text.getScreenCTM().a
            if (size < 13.9) small++ }
    }
    return [lying, small] }"""


@pytest.mark.parametrize("code", ["BLO-86", "SMK-76", "COA-85", "TRO-83S"])
def test_the_numbers_on_the_drawings_of_a_claim_can_be_read_on_a_phone_and_do_not_lie_on_each_other(
    demo_site, browser_page, code
):
    browser_page.set_viewport_size({"width": 360, "height": 740})
    read_caution(browser_page.context.request, code[:3], site=demo_site)
    browser_page.goto(f"{demo_site}/which/claim/?v={code}")

    assert browser_page.locator(".claimed .call-outs text").count() >= 1
    assert browser_page.evaluate(NUMBERS) == [0, 0]


def test_how_far_members_agree_fits_a_phone_with_its_last_figure(demo_site, browser_page):
    browser_page.set_viewport_size({"width": 360, "height": 740})
    browser_page.goto(f"{demo_site}/examples/agreement/")
    ends = "() => [...document.querySelectorAll('main td:last-child')].map(e => e.getBoundingClientRect().right)"

    assert browser_page.locator("main tbody tr").count() > 5
    assert max(browser_page.evaluate(ends)) <= 360


def test_three_or_four_versions_are_compared_on_a_phone_without_scrolling_aside_and_their_codes_stay_in_sight(
    demo_site, browser_page
):
    browser_page.set_viewport_size({"width": 360, "height": 740})
    for codes in (["SMK-61", "SMK-76", "SMK-CC"], ["SMK-61", "SMK-76", "SMK-CC", "SMK-01S"]):
        browser_page.goto(f"{demo_site}/compare/?" + "&".join(f"v={code}" for code in codes))
        hidden = """() => [...document.querySelectorAll(".compared :is(td, th)")].filter(e => e.checkVisibility())
            .filter(e => e.getBoundingClientRect().right > innerWidth || e.scrollWidth > e.clientWidth + 1).length"""
        browser_page.locator("table.compared tr").nth(-4).scroll_into_view_if_needed()
        top = "() => [...document.querySelectorAll('.codes .code')].map(e => e.getBoundingClientRect().top)"

        assert browser_page.evaluate(hidden) == 0
        assert browser_page.locator(".codes .code").all_inner_texts() == codes
        assert all(0 <= place < 40 for place in browser_page.evaluate(top))
        assert browser_page.locator("table.compared td.figure").count() >= 2 * len(codes)


def test_a_phone_shows_the_chart_of_years_narrow_and_on_request_wide_with_what_changed(demo_site, browser_page):
    browser_page.goto(f"{demo_site}/garment-types/SMK/")
    wide, narrow = browser_page.locator(".timeline.wide").first, browser_page.locator(".timeline.phone").first
    assert (wide.is_visible(), narrow.is_visible()) == (False, True)

    browser_page.get_by_text("Wide, with names and what changed").click()
    assert (wide.is_visible(), narrow.is_visible()) == (True, False)
    assert wide.locator(".note").count() > 5
    assert browser_page.evaluate("document.documentElement.scrollWidth") == 360
    assert browser_page.evaluate("document.querySelector('.scroll').scrollWidth") > 600

    browser_page.get_by_text("Narrow again").click()
    assert (wide.is_visible(), narrow.is_visible()) == (False, True)


def test_a_search_for_one_endless_word_of_a_label_fits_a_phone(demo_site, browser_page):
    browser_page.goto(f"{demo_site}/search/?q=no 001 {'W' * 140}")

    assert browser_page.get_by_role("button", name="Have it read").is_visible()
    assert browser_page.evaluate("document.documentElement.scrollWidth") == 360
