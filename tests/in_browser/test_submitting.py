"""A whole submission on a phone: with scripts and without, with the line gone in the middle."""

import re
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from tests.catalogue.member_examples.photographs.pictures import exif_with_place
from tests.conftest import PHONE
from tests.in_browser.test_accessibility import axe, found_by  # noqa: F401 - `axe` is a fixture
from tests.site_server import Server

pytestmark = pytest.mark.browser
SIGN_IN = """
from django.contrib.auth import BACKEND_SESSION_KEY, HASH_SESSION_KEY, SESSION_KEY
from django.conf import settings
from django.contrib.sessions.backends.db import SessionStore
from django.utils import timezone
from catalogue.accounts.models import Member
member = Member.objects.create_user("Sandpiper", password="not-used-here", admitted_at=timezone.now())
session = SessionStore()
session[SESSION_KEY] = str(member.pk)
session[BACKEND_SESSION_KEY] = settings.AUTHENTICATION_BACKENDS[0]
session[HASH_SESSION_KEY] = member.get_session_auth_hash()
session.create()
open({path!r}, "w").write(session.session_key)
"""
WALK = "/which/SMK/?_stop=yes&front_closure=neck_zip&cloth_pattern=ling&closure_cover=exposed"


@pytest.fixture(scope="module")
def own_site(new_folder) -> Iterator[tuple[str, str]]:
    """A site of the demo society to write to, and the session of a member who is signed in."""
    folder = new_folder("submitting", "demo")
    server = Server(folder)
    server.manage("shell", "--verbosity=0", "-c", SIGN_IN.format(path=str(folder / "session")))
    server.start()
    yield server.address, (folder / "session").read_text()
    server.stop()


@pytest.fixture
def phone(chromium, own_site):
    """A phone with the member signed in. Faults of scripts fail the test; a broken line and a refusal are none."""
    context = chromium.new_context(viewport=PHONE, locale="en-GB", has_touch=True)
    yield from signed_in(context, own_site)


@pytest.fixture
def plain_phone(chromium, own_site):
    context = chromium.new_context(viewport=PHONE, locale="en-GB", java_script_enabled=False)
    yield from signed_in(context, own_site)


def signed_in(context, own_site):
    address, session = own_site
    context.add_cookies([{"name": "sessionid", "value": session, "url": address}])
    page = context.new_page()
    page.set_default_timeout(20_000)
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.address = address
    yield page
    context.close()
    assert not faults


@pytest.fixture(scope="module")
def camera(tmp_path_factory) -> Path:
    """Pictures such as a phone makes: large, turned on their side, with where they were taken; and one that is none."""
    folder = tmp_path_factory.mktemp("camera")
    for name, colour in (("IMG_1.jpg", "olive"), ("IMG_2.jpg", "navy"), ("IMG_3.jpg", "maroon"), ("IMG_4.jpg", "teal")):
        image = Image.effect_noise((1600, 1200), 40).convert("RGB")
        image.paste(Image.new("RGB", (800, 600), colour), (400, 300))
        file = BytesIO()
        image.save(file, "JPEG", quality=90, exif=exif_with_place(6))
        (folder / name).write_bytes(file.getvalue())
    (folder / "drawing.jpg").write_bytes(b'<svg xmlns="http://www.w3.org/2000/svg"/>')
    return folder


def tap(page, words: str) -> None:
    page.get_by_role("button", name=words).first.click()


def begin(page) -> str:
    """A draft begun from a walk; the address of its pages."""
    page.goto(page.address + WALK)
    page.get_by_role("link", name="Submit this piece").click()
    tap(page, "Begin the draft")
    page.wait_for_url("**/photographs/")
    return page.url.removesuffix("photographs/")


def fits(page) -> bool:
    return page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]


def test_a_piece_goes_from_the_walk_to_the_moderators_on_a_phone(phone, camera):
    piece = begin(phone)
    for place, name in ((1, "IMG_1.jpg"), (2, "IMG_2.jpg")):
        phone.set_input_files(f".wanted:nth-child({place}) input[type=file]", camera / name)
        phone.wait_for_selector(f".contact-sheet li:nth-child({place}) img")
    phone.set_input_files(".wanted:nth-child(3) input[type=file]", [camera / "drawing.jpg", camera / "IMG_3.jpg"])
    phone.wait_for_selector(".contact-sheet li:nth-child(3) img")
    phone.get_by_text("1 of 2 arrived and is kept.").wait_for()

    assert "“drawing.jpg” is an SVG drawing" in phone.locator("#upload-told").inner_text()
    assert fits(phone)
    phone.get_by_role("link", name="Go on").click()
    phone.wait_for_url("**/seen/")
    phone.locator("main a.answer.go").first.click()
    phone.locator("button[name=answer]").first.click()
    phone.wait_for_url("**go=on")
    phone.get_by_role("link", name="Enough: go on").click()
    phone.get_by_role("link", name="Write down a label").click()
    phone.get_by_label("What it says").fill("SMOCK, FELL\nR. Brandt")
    tap(phone, "Keep this label")
    phone.wait_for_url("**/labels/")
    phone.goto(piece + "held/")
    phone.get_by_label(re.compile(r"\(SMK-76\)")).check()
    phone.get_by_label("On what grounds?").fill("The print and the zip.")
    tap(phone, "Save and go on")
    phone.wait_for_url("**/names/")
    for word in ("R.", "Brandt"):
        # Ticked beforehand, where it looks like a name.
        phone.locator(".word-ticks label", has_text=re.compile(f"^{re.escape(word)}$")).locator("input").check(
            force=True
        )
    tap(phone, "Mask the ticked words")
    phone.get_by_text("In a text: masked").wait_for()
    phone.get_by_label("There was one, and I have masked all of it").check()
    tap(phone, "Save and go on")
    phone.wait_for_url("**/review/**")
    assert "[name]" in phone.locator("main").inner_text()
    assert "Brandt" not in phone.locator("main").inner_text()
    phone.get_by_role("button", name="Send it").dblclick()
    phone.wait_for_url(piece)

    assert "Waiting for a moderator" in phone.locator("main").inner_text()
    assert fits(phone)


def test_what_is_typed_saves_itself_and_survives_a_lost_line(phone):
    piece = begin(phone)
    phone.goto(piece + "condition/")
    history = phone.get_by_label("What is said of its history")
    history.fill("From a market.")
    phone.get_by_text(re.compile(r"^Saved \d\d:\d\d\. Only you see it")).wait_for()

    phone.goto(piece + "held/")
    phone.get_by_label("On what grounds?").fill("The print.")
    phone.get_by_text(re.compile(r"^Not saved yet")).wait_for()
    phone.get_by_text(re.compile(r"^Saved \d\d:\d\d\. Only you see it")).wait_for()
    phone.reload()
    assert phone.get_by_label("On what grounds?").input_value() == "The print."

    phone.goto(piece + "condition/")
    phone.context.set_offline(True)
    history.fill("From a market, in 2011.")
    phone.get_by_text("No connection. What you typed is kept on this device.").wait_for()
    tap(phone, "Save and go on")
    phone.get_by_text("No connection. Nothing is lost").wait_for()
    phone.context.set_offline(False)
    phone.goto(piece + "condition/")
    if phone.get_by_role("button", name="Bring it back").count():
        tap(phone, "Bring it back")
    phone.get_by_text(re.compile(r"^Saved \d\d:\d\d\. Only you see it")).wait_for()
    phone.wait_for_timeout(4_000)
    phone.reload()

    assert phone.get_by_label("What is said of its history").input_value() == "From a market, in 2011."
    assert phone.get_by_role("button", name="Bring it back").count() == 0


def cut_line(page) -> None:
    """The phone thinks that it is connected, and nothing arrives."""
    page.route("**/*", lambda route: route.abort())


NO_LINE = "No connection. Nothing is lost: it is all still here. Tap again when there is one."


def test_without_a_line_going_on_stays_on_the_page_and_sends_when_tapped_again(phone):
    cut_begin = phone.address + "/my-pieces/new/?type=SMK"
    phone.goto(cut_begin)
    cut_line(phone)
    phone.get_by_label("What did the seller call it?").fill("a shepherd's smock")
    tap(phone, "Begin the draft")
    phone.get_by_text(NO_LINE).wait_for()
    assert phone.url == cut_begin
    phone.unroute_all()
    tap(phone, "Begin the draft")
    phone.wait_for_url("**/photographs/")
    piece = phone.url.removesuffix("photographs/")

    phone.get_by_role("link", name="Go on").wait_for()
    cut_line(phone)
    phone.get_by_role("link", name="Go on").click()
    phone.get_by_text(NO_LINE).wait_for()
    assert phone.url == piece + "photographs/"
    phone.unroute_all()

    phone.goto(piece + "labels/new/")
    phone.get_by_label("What it says").fill("SMOCK")
    cut_line(phone)
    for _ in range(2):
        tap(phone, "Keep this label")
        phone.get_by_text(NO_LINE).wait_for()
    told = phone.get_by_text(NO_LINE)
    assert told.count() == 1
    place = told.bounding_box()
    assert 0 <= place["y"] <= PHONE["height"] - place["height"]
    assert phone.get_by_label("What it says").input_value() == "SMOCK"
    phone.unroute_all()
    phone.goto(piece + "garment/")
    assert phone.get_by_label("What did the seller call it?").input_value() == "a shepherd's smock"
    phone.goto(piece + "labels/new/")
    tap(phone, "Bring it back")
    tap(phone, "Keep this label")
    phone.wait_for_url("**/labels/")
    assert phone.locator(".label-text").count() == 1


def test_a_label_half_written_is_offered_again_and_a_sent_one_is_not(phone):
    piece = begin(phone)
    phone.goto(piece + "labels/new/")
    phone.get_by_label("What it says").fill("SMOCK")
    phone.goto(piece + "labels/new/")
    tap(phone, "Bring it back")
    assert phone.get_by_label("What it says").input_value() == "SMOCK"

    tap(phone, "Keep this label")
    phone.wait_for_url("**/labels/")
    phone.goto(piece + "labels/new/")
    assert phone.get_by_role("button", name="Bring it back").count() == 0
    assert phone.get_by_label("What it says").input_value() == ""


def test_pictures_that_break_off_on_the_way_are_named_and_can_be_sent_again(phone, camera):
    begin(phone)
    phone.context.set_offline(True)
    phone.set_input_files(".wanted:nth-child(1) input[type=file]", camera / "IMG_4.jpg")
    phone.get_by_text("the connection broke off").wait_for()
    tap(phone, "Send it again")
    phone.get_by_text("the connection broke off").wait_for()
    phone.context.set_offline(False)
    tap(phone, "Send it again")
    phone.wait_for_selector(".contact-sheet li img")
    phone.get_by_text("1 of 1 arrived and is kept.").wait_for()
    assert phone.get_by_role("button", name="Send it again").count() == 0

    assert phone.locator(".contact-sheet li").count() == 1


def test_a_place_in_a_picture_is_drawn_over_and_gone(phone, camera):
    piece = begin(phone)
    phone.set_input_files(".wanted:nth-child(1) input[type=file]", camera / "IMG_1.jpg")
    phone.wait_for_selector(".contact-sheet li img")
    phone.get_by_role("link", name="Blur a place in picture 1").click()
    phone.wait_for_url("**/blur/")
    box = phone.locator(".blur-picture").bounding_box()
    phone.mouse.move(box["x"] + box["width"] * 0.2, box["y"] + box["height"] * 0.2)
    phone.mouse.down()
    phone.mouse.move(box["x"] + box["width"] * 0.6, box["y"] + box["height"] * 0.4, steps=4)
    phone.mouse.up()
    x, y, w, h = (float(part) for part in phone.locator("input[name=area]").input_value().split(","))
    assert (round(x, 1), round(y, 1), round(w, 1), round(h, 1)) == (0.2, 0.2, 0.4, 0.2)
    tap(phone, "Blur it for good")
    phone.wait_for_url("**/photographs/#p*")
    phone.goto(piece + "names/")

    assert "In a photograph: masked" in phone.locator("main").inner_text()


def test_without_script_a_whole_submission_works(plain_phone, camera):
    page = plain_phone
    piece = begin(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= 360  # the browser's own buttons for files are wide
    page.set_input_files(".wanted:nth-child(1) input[type=file]", [camera / "IMG_1.jpg", camera / "drawing.jpg"])
    page.locator(".wanted:nth-child(1) .no-script").click()
    page.get_by_text("Not taken:").wait_for()
    assert "“drawing.jpg” is an SVG drawing" in page.locator("main").inner_text()
    assert page.locator(".contact-sheet li").count() == 1

    page.get_by_role("link", name="Blur a place in picture 1").click()
    page.locator(".blur-picture input").nth(9).check()
    tap(page, "Blur it for good")
    page.wait_for_url("**/photographs/#p*")
    page.goto(piece + "seen/next/")
    page.locator("button[name=answer]").first.click()
    page.wait_for_url("**go=on")
    page.goto(piece + "size/")
    page.get_by_label("Pit to pit").fill("57,5")
    tap(page, "Save and go on")
    page.wait_for_url("**/condition/")
    page.goto(piece + "names/")
    page.get_by_label("There was one, and I have masked all of it").check()
    tap(page, "Save and go on")
    page.wait_for_url("**/review/**")
    tap(page, "Send it")
    page.wait_for_url(piece)

    assert "Waiting for a moderator" in page.locator("main").inner_text()


STEPS = ["photographs", "seen", "seen/front_closure", "labels", "labels/new", "size", "condition", "alterations",
         "alterations/new", "held", "names", "review", "garment", ""]  # fmt: skip


def test_every_page_fits_a_phone_and_axe_finds_nothing_in_light_or_dark(phone, camera, axe):  # noqa: F811
    piece = begin(phone)
    phone.set_input_files(".wanted:nth-child(1) input[type=file]", camera / "IMG_2.jpg")
    phone.wait_for_selector(".contact-sheet li img")
    number = phone.locator(".contact-sheet li").first.get_attribute("id").removeprefix("p")
    pages = [piece + f"{name}/".lstrip("/") for name in [*STEPS, f"photographs/{number}", f"photographs/{number}/blur"]]
    pages += [
        phone.address + "/my-pieces/",
        phone.address + "/my-pieces/new/",
        piece + "delete/",
    ]
    found = {}
    for address in pages:
        phone.goto(address)
        phone.emulate_media(color_scheme="light")
        faults = found_by(axe, phone) + ([] if fits(phone) else [("too wide", [])])
        phone.emulate_media(color_scheme="dark")
        faults += found_by(axe, phone, runOnly=["color-contrast"])
        found[address] = faults

    assert {address: faults for address, faults in found.items() if faults} == {}


@pytest.mark.parametrize("beside", ["uploading.js", "blurring.js"])
def test_the_scripts_of_a_step_are_light(beside):
    folder = Path(__file__).resolve().parents[2] / "static" / "page_behaviour"

    assert sum(len((folder / name).read_bytes()) for name in ("saving.js", beside)) < 8_192
