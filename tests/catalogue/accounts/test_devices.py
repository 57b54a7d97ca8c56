"""Where a member is signed in, and signing out everywhere else."""

import pytest
from django.contrib.sessions.models import Session
from django.test import Client

from catalogue.accounts.devices import browser_words
from tests.reading import text, words

PHONE = "Mozilla/5.0 (Android 14; Mobile; rv:132.0) Gecko/132.0 Firefox/132.0"
DESK = "Mozilla/5.0 (X11; Linux x86_64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/130.0.0.0 Safari/537.36"


def signed_in(member, browser: str) -> Client:
    visitor = Client(headers={"user-agent": browser})
    visitor.get("/")
    member.set_password("a long walk by the sea")
    member.save()
    address = {"login": member.username, "password": "a long walk by the sea"}
    assert visitor.post("/account/login/", address).status_code == 302
    return visitor


def is_in(visitor: Client) -> bool:
    return visitor.get("/my/").status_code == 200


@pytest.fixture
def both(cast):
    """Ada by phone and at her desk, signed in by the same password; Bo beside her."""
    phone = signed_in(cast.ada, PHONE)
    desk = Client(headers={"user-agent": DESK})
    desk.post("/account/login/", {"login": "Ada", "password": "a long walk by the sea"})
    return phone, desk, signed_in(cast.bo, PHONE)


def test_each_browser_is_listed_with_this_one_first(both):
    page = words(text(both[1], "/my/devices/"))

    assert page.index("Chrome, Linux this one signed in on") < page.index("Firefox, Android signed in on")
    assert page.count("signed in on") == 2


def test_no_page_holds_the_key_of_a_session(both):
    pages = [text(visitor, "/my/devices/") for visitor in both]

    assert not [key for key in Session.objects.values_list("session_key", flat=True) if key in "".join(pages)]


def test_signing_out_everywhere_else_leaves_this_one_and_other_people(both):
    phone, desk, bo = both
    for _ in range(2):
        desk.post("/my/devices/", {"everywhere": "yes"})

    assert (is_in(phone), is_in(desk), is_in(bo)) == (False, True, True)


def test_one_is_signed_out_by_its_mark_and_nobody_elses(both):
    phone, desk, bo = both
    theirs = bo.get("/my/devices/").context["devices"][0].mark
    marks = [one.mark for one in desk.get("/my/devices/").context["devices"]]
    for mark in (theirs, "none", "", marks[0]):  # of another person, of nobody, none at all, this one
        desk.post("/my/devices/", {"mark": mark})
    assert (is_in(phone), is_in(desk), is_in(bo)) == (True, True, True)

    desk.post("/my/devices/", {"mark": marks[1]})
    assert (is_in(phone), is_in(desk)) == (False, True)


def test_a_sign_in_that_a_change_of_password_ended_is_not_listed(both, cast):
    cast.ada.set_password("another walk by the sea")
    cast.ada.save()
    again = Client(headers={"user-agent": DESK})
    again.post("/account/login/", {"login": "Ada", "password": "another walk by the sea"})

    assert len(again.get("/my/devices/").context["devices"]) == 1


@pytest.mark.parametrize(
    ("description", "expected"),
    [
        (PHONE, "Firefox, Android"),
        (DESK, "Chrome, Linux"),
        ("Mozilla/5.0 (iPhone; CPU iPhone OS 17_0 like Mac OS X) AppleWebKit/605.1.15 Version/17.0 Safari/604.1",
         "Safari, iPhone"),
        ("", "A browser that does not say which"),
        ("<script>alert(1)</script>", "A browser that does not say which"),
    ],
)  # fmt: skip
def test_a_browser_is_named_in_two_words(description, expected):
    """The descriptions follow the form of RFC 9110, 10.1.5 (User-Agent); these three are from memory."""
    assert browser_words(description) == expected
