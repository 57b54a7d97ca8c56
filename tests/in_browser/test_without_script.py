"""With JavaScript switched off everything still works."""

import pytest

from tests.conftest import PHONE

pytestmark = pytest.mark.browser


@pytest.fixture
def plain_page(chromium):
    context = chromium.new_context(viewport=PHONE, java_script_enabled=False)
    yield context.new_page()
    context.close()


def test_a_version_is_found_by_searching(demo_site, plain_page):
    plain_page.goto(demo_site)

    plain_page.locator("input[name=q]").first.fill("27 114 06")
    plain_page.keyboard.press("Enter")
    plain_page.wait_for_url("**/search/**")

    assert plain_page.locator("main a[href^='/issue-versions/BLO-']").count() >= 1


def test_versions_are_narrowed_by_a_form(demo_site, plain_page):
    plain_page.goto(f"{demo_site}/issue-versions/")
    box = plain_page.locator("form input[type=checkbox][name=kind][value=commercial_copy]")
    for summary in plain_page.locator("main summary").all():
        if box.is_visible():
            break
        summary.click()

    box.check()
    plain_page.locator("main form button").first.click()

    assert "kind=commercial_copy" in plain_page.url
    assert plain_page.locator("main a[href='/issue-versions/BLO-CC/']").count() == 1
    assert plain_page.locator("main a[href='/issue-versions/BLO-86/']").count() == 0


def test_a_walk_goes_on_and_back_and_an_answer_can_be_changed(demo_site, plain_page):
    plain_page.goto(f"{demo_site}/which/SMK/")
    first_question = plain_page.locator("h1").inner_text()

    plain_page.locator("main button[name]").first.click()
    second = plain_page.url
    plain_page.go_back()

    assert plain_page.locator("h1").inner_text() == first_question
    plain_page.locator("main button[name]").nth(1).click()
    assert plain_page.url != second


def test_a_claim_is_typed_checked_and_taken_into_a_walk(demo_site, plain_page):
    plain_page.goto(f"{demo_site}/which/")
    plain_page.get_by_text("Somebody says what it is").click()
    plain_page.locator("input[name=v]").fill("smk-76")
    plain_page.get_by_role("button", name="What would refute it?").click()

    plain_page.locator("input[name=cloth_pattern][value=ling]").check()
    plain_page.locator("input[name=front_closure][value=neck_zip]").check()
    cover = plain_page.locator("fieldset").filter(has=plain_page.locator("input[name=closure_cover]"))
    cover.get_by_text("Where, and what else it may be").click()
    cover.locator("input[value=exposed]").check()
    plain_page.get_by_role("button", name="What does that say?").click()

    assert plain_page.locator(".claim-standing").inner_text() == "Doubtful"
    assert plain_page.locator("input[name=closure_cover][value=exposed]").is_checked()
    plain_page.get_by_text("Go on from these answers").click()
    assert "/which/SMK/?" in plain_page.url
    assert "closure_cover=exposed" in plain_page.url
