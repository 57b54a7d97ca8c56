"""While the features of a proposal are chosen, the drawing of what is chosen stays in sight."""

from collections.abc import Iterator

import pytest

from tests.conftest import PHONE
from tests.site_server import Server

pytestmark = pytest.mark.browser
SIGN_IN = """
from django.contrib.auth import BACKEND_SESSION_KEY, HASH_SESSION_KEY, SESSION_KEY
from django.conf import settings
from django.contrib.sessions.backends.db import SessionStore
from catalogue.accounts.models import Member
member = Member.objects.get(username="Plover")
session = SessionStore()
session[SESSION_KEY] = str(member.pk)
session[BACKEND_SESSION_KEY] = settings.AUTHENTICATION_BACKENDS[0]
session[HASH_SESSION_KEY] = member.get_session_auth_hash()
session.create()
open({path!r}, "w").write(session.session_key)
"""
WIDE = {"width": 1280, "height": 900}
# The drawing's box, and the box of a choice that was scrolled to.
BOXES = """() => {
    for (const group of document.querySelectorAll(".proposed-group")) group.open = true
    const choices = [...document.querySelectorAll(".feature .tick")]
    const choice = choices[Math.floor(choices.length * 0.7)]
    choice.querySelector("input").focus()
    choice.scrollIntoView({block: "nearest"})
    const drawing = document.querySelector("[data-figure] svg.flat")
    return [drawing, choice].map(e => { const box = e.getBoundingClientRect()
        return [box.left, box.top, box.right, box.bottom] }) }"""


@pytest.fixture(scope="module")
def authors_site(new_folder) -> Iterator[tuple[str, str]]:
    """A site of the demo society to write to, and the session of its author."""
    folder = new_folder("choosing", "demo")
    server = Server(folder)
    server.manage("shell", "--verbosity=0", "-c", SIGN_IN.format(path=str(folder / "session")))
    server.start()
    yield server.address, (folder / "session").read_text()
    server.stop()


def test_the_drawing_and_the_choice_are_in_sight_together_and_the_drawing_follows_it(authors_site, browser_page):
    address, session = authors_site
    browser_page.context.add_cookies([{"name": "sessionid", "value": session, "url": address}])
    browser_page.goto(f"{address}/proposals/new/?version=SMK-76")
    browser_page.click("main button[value=profile]")
    browser_page.wait_for_url("**/edit/profile/")  # and until it is loaded, the style at its end too

    for size in (PHONE, WIDE):
        browser_page.set_viewport_size(size)
        (left, top, right, bottom), (begin, head, _, foot) = browser_page.evaluate(BOXES)
        assert top >= 0, size
        assert bottom <= size["height"], size
        assert head >= 0, size
        assert foot <= size["height"], size
        assert bottom <= head or right <= begin, f"the drawing covers the choice at {size}"

    before = browser_page.locator("[data-figure] svg.flat").first.inner_html()
    collar = browser_page.locator("fieldset.feature", has_text="Collar").first.locator("input[type=radio]").nth(5)
    collar.check()
    browser_page.wait_for_function(
        "before => document.querySelector('[data-figure] svg.flat').innerHTML !== before", arg=before
    )


def test_on_the_drawing_board_the_state_that_was_shown_stands_below_its_drawing(authors_site, browser_page):
    address, session = authors_site
    browser_page.context.add_cookies([{"name": "sessionid", "value": session, "url": address}])
    browser_page.set_viewport_size(PHONE)
    browser_page.goto(f"{address}/figures/board/SMK/?_version=SMK-76&_view=front&_region=collar")
    browser_page.locator("[name=collar][value=hood_fixed]").check()
    browser_page.click("text=Show it on the drawing")
    browser_page.wait_for_url("**collar=hood_fixed*")

    drawing = browser_page.locator(".board-map svg").bounding_box()
    chosen = browser_page.locator("label:has([value=hood_fixed])").bounding_box()
    assert drawing["y"] >= -1
    assert drawing["y"] + drawing["height"] <= chosen["y"]
    assert chosen["y"] + chosen["height"] <= PHONE["height"]
    assert 'data-part="collar:hood_fixed"' in browser_page.locator(".board-map svg").inner_html()
