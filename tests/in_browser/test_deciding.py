"""Pieces are decided with single keys in a real browser; the keys rest while something is typed."""

from collections.abc import Iterator

import pytest

from tests.conftest import PHONE
from tests.in_browser.test_accessibility import axe, found_by  # noqa: F401 - `axe` is a fixture
from tests.site_server import ROOT, Server

pytestmark = pytest.mark.browser
SET_UP = """
from django.contrib.auth import BACKEND_SESSION_KEY, HASH_SESSION_KEY, SESSION_KEY
from django.conf import settings
from django.contrib.sessions.backends.db import SessionStore
from io import BytesIO
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from PIL import Image
from catalogue.member_examples.models import Photograph
from tests.catalogue.member_examples.pieces import make_society, sent
society = make_society()
for _ in range(3):
    piece = sent(society, closure="zip")
file = BytesIO()
Image.new("RGB", (320, 240), "olive").save(file, "WEBP")
default_storage.save("photographs/olive.webp", ContentFile(file.getvalue()))
for n in range(24):
    sizes = [{{"name": "photographs/olive.webp", "longer": 320, "width": 320, "height": 240}}]
    Photograph.objects.create(example=piece, files=sizes, width=320, height=240, sha256=f"{{n:064x}}", position=n)
session = SessionStore()
session[SESSION_KEY] = str(society.mo.pk)
session[BACKEND_SESSION_KEY] = settings.AUTHENTICATION_BACKENDS[0]
session[HASH_SESSION_KEY] = society.mo.get_session_auth_hash()
session.create()
open({path!r}, "w").write(session.session_key)
"""


@pytest.fixture(scope="module")
def queue_site(new_folder) -> Iterator[tuple[str, str]]:
    """A site with three pieces that wait, and the session of a moderator."""
    folder = new_folder("deciding", "empty")
    server = Server(folder)
    server.environment["PYTHONPATH"] = str(ROOT)
    server.manage("shell", "--verbosity=0", "-c", SET_UP.format(path=str(folder / "session")))
    server.start()
    yield server.address, (folder / "session").read_text()
    server.stop()


def test_a_piece_is_returned_with_keys_alone_and_the_next_follows(browser_page, queue_site):
    address, session = queue_site
    browser_page.context.add_cookies([{"name": "sessionid", "value": session, "url": address}])
    browser_page.goto(f"{address}/pieces-that-wait/E001/")
    chosen = "form[data-decides] [name=decision]:checked"
    reason = browser_page.locator("[name=reason]").first

    browser_page.keyboard.press("r")
    assert browser_page.locator(chosen).get_attribute("value") == "returned"
    browser_page.keyboard.type("drat and n")  # typed into the reason, where the keys rest
    assert reason.input_value() == "drat and n"
    assert browser_page.locator(chosen).get_attribute("value") == "returned"

    with browser_page.expect_navigation():
        browser_page.keyboard.press("Control+Enter")
    assert browser_page.url.endswith("/pieces-that-wait/E002/#main")
    assert "E001: returned with a question" in browser_page.locator("main").inner_text().lower().replace("e001", "E001")

    with browser_page.expect_navigation():
        browser_page.keyboard.press("n")
    assert browser_page.url.endswith("/pieces-that-wait/E003/")

    browser_page.locator("[data-keys-on]").uncheck()
    browser_page.locator("body").press("a")
    assert browser_page.locator(chosen).count() == 0
    browser_page.reload()
    assert not browser_page.locator("[data-keys-on]").is_checked()


def test_a_half_written_reason_waits_for_its_piece_while_others_are_looked_at(browser_page, queue_site):
    address, session = queue_site
    browser_page.context.add_cookies([{"name": "sessionid", "value": session, "url": address}])
    browser_page.goto(f"{address}/pieces-that-wait/E002/")
    browser_page.keyboard.press("d")
    browser_page.keyboard.type("The label says")
    browser_page.locator("h1").click()  # away from the field, where the keys rest
    with browser_page.expect_navigation():
        browser_page.keyboard.press("n")
    reason = browser_page.locator("form[data-decides] [name=reason]")
    back = browser_page.get_by_text("What you had begun to write here is back.")
    assert browser_page.url.endswith("/pieces-that-wait/E003/")
    assert (reason.input_value(), back.is_visible()) == ("", False)

    browser_page.goto(f"{address}/pieces-that-wait/E002/")
    chosen = browser_page.locator("form[data-decides] [name=decision]:checked")
    assert (reason.input_value(), back.is_visible()) == ("The label says", True)
    assert chosen.get_attribute("value") == "declined"

    reason.fill("")
    browser_page.locator("form[data-decides] [name=decision][value=returned]").check()
    reason.fill("Which label is it?")
    with browser_page.expect_navigation():
        browser_page.get_by_role("button", name="Decide, and on to the next").click()
    browser_page.goto(f"{address}/pieces-that-wait/E002/")
    assert browser_page.evaluate("Object.keys(sessionStorage)") == []


def test_a_piece_with_many_photographs_is_decided_on_one_screen(browser_page, queue_site, axe):  # noqa: F811
    address, session = queue_site
    browser_page.context.add_cookies([{"name": "sessionid", "value": session, "url": address}])
    browser_page.set_viewport_size({"width": 1280, "height": 900})
    browser_page.goto(f"{address}/pieces-that-wait/E003/")
    strip = browser_page.get_by_role("region", name="24 photographs")
    box = strip.bounding_box()
    decide = browser_page.get_by_role("button", name="Decide, and on to the next").bounding_box()

    assert box["height"] < 300
    assert strip.evaluate("one => one.scrollWidth > one.clientWidth")
    assert decide["y"] + decide["height"] < 900
    for words in ("What accepting changes", "The site's own identification", "Likely duplicates"):
        assert browser_page.get_by_role("heading", name=words).bounding_box()["y"] < 900, words
    assert browser_page.evaluate("document.documentElement.scrollHeight") < 2_000
    strip.focus()
    browser_page.keyboard.press("ArrowRight")
    browser_page.wait_for_function("document.querySelector('.strip').scrollLeft > 0")

    assert found_by(axe, browser_page) == []
    browser_page.set_viewport_size(PHONE)
    assert found_by(axe, browser_page) == []
    assert browser_page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
