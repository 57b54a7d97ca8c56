"""axe-core (WCAG 2.2 rules and its own good practice) would find what is wrong; see also test_whole_pages."""

import pytest

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def axe():
    package = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe-playwright-python is missing")
    return package.Axe()


@pytest.mark.parametrize("address", ["/garment-types/NONE/", "/issue-versions/BLO-87/"])
def test_axe_finds_nothing_on_the_page_for_what_is_not_there(demo_site, chromium, axe, address):
    context = chromium.new_context()
    page = context.new_page()
    assert page.goto(demo_site + address).status == 404

    found = found_by(axe, page)
    context.close()

    assert found == []


def test_axe_would_find_a_picture_without_words(browser_page, axe):
    browser_page.set_content("<html lang='en'><title>t</title><main><h1>t</h1><img src='data:,'></main>")

    assert [rule for rule, _ in found_by(axe, browser_page)] == ["image-alt"]


def test_axe_would_find_pale_letters_in_the_dark_only(browser_page, axe):
    dark = "@media (prefers-color-scheme: dark) { body { background: #222; color: #333 } }"
    browser_page.set_content(f"<html lang='en'><title>t</title><style>{dark}</style><main><h1>Too pale</h1></main>")

    assert found_by(axe, browser_page, runOnly=["color-contrast"]) == []
    browser_page.emulate_media(color_scheme="dark")
    assert [rule for rule, _ in found_by(axe, browser_page, runOnly=["color-contrast"])] == ["color-contrast"]


def found_by(axe, page, **options) -> list[tuple[str, list[str]]]:
    """Each broken rule with the elements that break it."""
    if not page.evaluate("() => 'axe' in window"):
        page.evaluate(axe.axe_script)
    violations = page.evaluate(
        "options => axe.run(options).then(found => found.violations)", {"resultTypes": ["violations"]} | options
    )
    return [(rule["id"], [node["html"][:120] for node in rule["nodes"]]) for rule in violations]
