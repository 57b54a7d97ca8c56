"""The ring on a photograph follows a tap, the arrow keys and the numbers."""

import re
from pathlib import Path
from types import SimpleNamespace

import pytest
from django.template.loader import render_to_string

from catalogue.figures.marked_pictures import ring
from catalogue.member_examples.marked_photographs.forms import MarkForm
from catalogue.reference.marked_spots import Spot
from tests.catalogue.member_examples.submitting.forms_sent import picture
from tests.in_browser.test_accessibility import axe, found_by  # noqa: F401 - `axe` is a fixture

pytestmark = pytest.mark.browser
ROOT = Path(__file__).resolve().parent.parent.parent
SITE = "http://marking.example/"


@pytest.fixture
def marking(browser_page):
    """The page of an author with its script and styles, from no server."""
    row = SimpleNamespace(pk=1, key="0" * 32, width=640, height=480, shows="two holes", is_marked=False)
    context = {
        "society_name": "A society",
        "row": row,
        "feature": SimpleNamespace(name="Closure", question="How?", code="closure"),
        "form": MarkForm(is_shown=False),
        "ring": ring(640, 480, Spot(320, 240, 64)),
    }
    page = render_to_string("member_examples/marked_photographs/mark.html", context)
    files = {"webp": picture("olive"), "html": page.encode()}
    for kind in ("css", "js"):
        for path in (ROOT / "static").rglob(f"*.{kind}"):
            files[path.name] = path.read_bytes()
    types = {"css": "text/css", "js": "text/javascript", "webp": "image/jpeg", "html": "text/html"}

    def answer(route):
        name = re.split(r"[/?]", route.request.url)[-1] or "html"
        kind = name.rsplit(".")[-1]
        route.fulfill(body=files.get(name, files.get(kind, b"")), content_type=types.get(kind, "text/plain"))

    browser_page.route("**/*", answer)
    browser_page.goto(SITE)
    return browser_page


def test_a_tap_the_arrow_keys_and_the_numbers_move_the_ring(marking, axe):  # noqa: F811
    board = marking.locator(".marked")
    box = marking.locator(".marked img").bounding_box()

    marking.mouse.click(box["x"] + box["width"] * 0.75, box["y"] + box["height"] * 0.25)
    assert [float(marking.input_value(f"[name={name}]")) for name in ("x", "y", "radius")] == pytest.approx(
        [75, 25, 10], abs=0.6
    )
    board.focus()
    for key in ("ArrowLeft", "ArrowLeft", "ArrowDown", "+", "-", "-"):
        marking.keyboard.press(key)
    x, y, radius = (float(marking.input_value(f"[name={name}]")) for name in ("x", "y", "radius"))
    assert (x, y, radius) == pytest.approx((73, 26, 9), abs=0.6)

    drawn = marking.locator(".marked circle").first
    seen = drawn.bounding_box()
    assert seen["x"] + seen["width"] / 2 == pytest.approx(box["x"] + box["width"] * x / 100, abs=2)
    assert seen["y"] + seen["height"] / 2 == pytest.approx(box["y"] + box["height"] * y / 100, abs=2)
    marking.fill("[name=x]", "10")
    assert float(drawn.get_attribute("cx")) == pytest.approx(64)
    assert marking.evaluate("document.documentElement.scrollWidth") <= 360
    assert found_by(axe, marking) == []
