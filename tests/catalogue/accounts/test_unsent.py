"""What was typed into a form is not lost when the session was over before it was sent."""

import re

import pytest
from django.contrib.sessions.models import Session
from django.test import Client
from django.utils import timezone

from catalogue.accounts import unsent
from catalogue.accounts.models import JoinRequest
from catalogue.review.models import Proposal, ProposalWord
from tests.catalogue.review.proposing import drafted, make_society, sent
from tests.forms import Sent
from tests.making import make_member
from tests.reading import text, words

LONG = "The hem is turned twice.\nThree labels of 1962 say so, and none of before. <b>"


@pytest.fixture
def society(db):
    return make_society()


def signed_in(name: str) -> Client:
    """A browser that holds the site to its tokens against forged forms."""
    client = Client(enforce_csrf_checks=True)
    sign_in(client, name)
    client.get("/my/")
    return client


def sign_in(client: Client, name: str, next_page: str = "/my/"):
    form = form_on(client, f"/account/login/?next={next_page}", "/account/login/")
    return client.post("/account/login/", form | {"login": name, "password": "a-long-password", "next": next_page})


def form_on(client: Client, page: str, of: str) -> dict[str, str]:
    """What a browser would send of the form on a page that goes to `of`. It reads no line end that begins a text."""
    sent = Sent(client.get(page).content.decode(), of=of).sent
    return {name: value.removeprefix("\n") for name, value in sent.items()}


def end_sessions(client: Client) -> None:
    Session.objects.all().delete()


def test_what_was_typed_is_shown_after_signing_in_and_sent_from_there(society):
    proposal = drafted(society.ada, society.one, {"note": "Of poplin."})
    client = signed_in("Ada")
    address = f"/proposals/{proposal.pk}/edit/"
    form = form_on(client, address, address)
    end_sessions(client)

    answer = client.post(address, form | {"grounds": LONG, "note": "Of drill."})
    assert answer["Location"] == "/account/login/?next=%2Fmy%2Funsent%2F"
    answer = sign_in(client, "Ada", "/my/unsent/")
    assert answer["Location"] == "/my/unsent/"
    page = text(client, "/my/unsent/")
    assert "You were signed out before this was sent" in page
    assert "<b>" not in client.get("/my/unsent/").content.decode()
    again = form_on(client, "/my/unsent/", address)
    assert again["grounds"].replace("\r\n", "\n") == LONG

    answer = client.post(address, again)
    assert answer.status_code == 302
    proposal.refresh_from_db()
    assert (proposal.grounds.replace("\r\n", "\n"), proposal.rows["note"]) == (LONG, "Of drill.")
    assert "Nothing waits here." in text(client, "/my/unsent/")


def test_a_word_of_a_thread_whose_address_has_no_page_is_kept_too(society):
    proposal = sent(society.ada, society.one, {"date": "1962"})
    client = signed_in("Ben")
    address = f"/proposals/{proposal.pk}/words/"
    form = form_on(client, f"/proposals/{proposal.pk}/", address)
    end_sessions(client)

    client.post(address, form | {"text": LONG})
    sign_in(client, "Ben", "/my/unsent/")
    again = form_on(client, "/my/unsent/", address)
    client.post(address, again)

    assert ProposalWord.objects.get().text.replace("\r\n", "\n") == LONG


def test_what_fails_when_it_is_sent_again_stands_in_its_own_form_with_all_that_was_typed(society):
    proposal = drafted(society.ada, society.one, {"note": "Of poplin."})
    client = signed_in("Ada")
    address = f"/proposals/{proposal.pk}/edit/"
    form = form_on(client, address, address)
    end_sessions(client)
    client.post(address, form | {"grounds": LONG, "date": "some day"})
    sign_in(client, "Ada", "/my/unsent/")

    again = form_on(client, "/my/unsent/", address)
    page = client.post(address, again).content.decode()
    assert "What you typed is kept." in page
    assert 'value="some day"' in page
    assert "Three labels of 1962" in page


def test_fields_are_called_what_they_were_called_on_the_page_on_which_they_were_filled_in(society):
    proposal = sent(society.ada, society.one, {"date": "1962"})
    client, page = signed_in("Ben"), f"/proposals/{proposal.pk}/"
    address = f"{page}words/"
    form = form_on(client, page, address)
    label = re.search(r'<label for="id_text">([^<]+)', client.get(page).content.decode()).group(1).strip()
    end_sessions(client)
    client.post(address, form | {"text": LONG}, headers={"Referer": f"http://testserver{page}"})
    sign_in(client, "Ben", "/my/unsent/")

    again = client.get("/my/unsent/").content.decode()
    assert label.lower() != "text"
    assert re.search(rf"<label for=[^>]+>{re.escape(label)}</label>", again)


def test_choices_are_told_in_their_words_and_labels_read_from_the_forms_own_page(society):
    make_member("Tess", role="secretary")
    client = signed_in("Tess")
    address = f"/society/people/{society.ben.pk}/role/"
    form = form_on(client, address, address)
    end_sessions(client)
    client.post(address, form | {"after": "author", "reason": "Knows the looms."})
    sign_in(client, "Tess", "/my/unsent/")

    page = words(re.sub(r"<[^>]+>", " ", client.get("/my/unsent/").content.decode()))
    assert "role Author" in page
    assert "After" not in page


def test_who_only_waits_to_be_admitted_finds_what_was_typed_too(society):
    make_member("Wim", admitted_at=None)
    client = signed_in("Wim")
    form = form_on(client, "/my/waiting/", "/my/waiting/")
    end_sessions(client)
    answer = client.post("/my/waiting/", form | {"words": LONG})
    assert answer["Location"] == "/account/login/?next=%2Fmy%2Funsent%2F"
    sign_in(client, "Wim", "/my/unsent/")
    again = form_on(client, "/my/unsent/", "/my/waiting/")
    client.post("/my/waiting/", again)
    assert JoinRequest.objects.get().words.replace("\r\n", "\n") == LONG
    assert "Nothing waits here." in text(client, "/my/unsent/")


def test_what_was_typed_into_the_back_office_is_kept_too(society):
    make_member("Avi", role="author")
    client = signed_in("Avi")
    address = "/admin/catalogue/source/add/"
    form = form_on(client, address, address)
    end_sessions(client)
    answer = client.post(address, form | {"title": "A ledger of the looms", "code": "S77"})
    assert answer["Location"] == "/account/login/?next=%2Fmy%2Funsent%2F"
    sign_in(client, "Avi", "/my/unsent/")
    assert "A ledger of the looms" in text(client, "/my/unsent/")


def test_a_password_is_never_kept(society):
    client = signed_in("Ben")
    form = form_on(client, "/my/leave/", "/my/leave/")
    end_sessions(client)
    client.post("/my/leave/", form | {"name": "Ben B", "old_password": "secret-typed"})
    assert "secret-typed" not in str([one.get_decoded() for one in Session.objects.all()])


def test_nobody_else_at_the_same_browser_reads_it(society):
    proposal = sent(society.ada, society.one, {"date": "1962"})
    client = signed_in("Ben")
    address = f"/proposals/{proposal.pk}/words/"
    form = form_on(client, f"/proposals/{proposal.pk}/", address)
    end_sessions(client)
    client.post(address, form | {"text": LONG})

    sign_in(client, "Mo", "/my/unsent/")
    assert "Three labels" not in text(client, "/my/unsent/")
    client.post("/account/logout/", {"csrfmiddlewaretoken": client.cookies["csrftoken"].value})
    sign_in(client, "Ben", "/my/unsent/")
    assert "Three labels" not in text(client, "/my/unsent/")


def test_a_form_of_a_stranger_or_a_forged_one_is_not_kept(society):
    proposal = sent(society.ada, society.one, {"date": "1962"})
    address = f"/proposals/{proposal.pk}/words/"
    stranger = Client()
    assert stranger.post(address, {"text": LONG})["Location"] == "/account/login/?next=%2Fmy%2F"
    assert Session.objects.count() == 0

    client = signed_in("Ben")
    end_sessions(client)
    assert client.post(address, {"text": LONG}).status_code == 403
    assert Session.objects.count() == 0


def test_what_is_too_long_or_holds_nothing_typed_is_not_kept(society, monkeypatch):
    proposal = sent(society.ada, society.one, {"date": "1962"})
    address = f"/proposals/{proposal.pk}/words/"
    client = signed_in("Ben")
    form = form_on(client, f"/proposals/{proposal.pk}/", address)
    end_sessions(client)

    for typed in ("", " \n", "x" * (unsent.MOST_SIGNS + 1)):
        answer = client.post(address, form | {"text": typed})
        assert answer["Location"] == "/account/login/?next=%2Fmy%2F"


def test_it_is_thrown_away_on_demand_and_after_a_day(society, monkeypatch):
    proposal = sent(society.ada, society.one, {"date": "1962"})
    address = f"/proposals/{proposal.pk}/words/"
    for how in ("pressed", "waited"):
        client = signed_in("Ben")
        form = form_on(client, f"/proposals/{proposal.pk}/", address)
        end_sessions(client)
        client.post(address, form | {"text": LONG})
        sign_in(client, "Ben", "/my/unsent/")
        page = text(client, "/my/unsent/")
        assert "Three labels" in page
        if how == "pressed":
            client.post("/my/unsent/", form_on(client, "/my/unsent/", "/my/unsent/"))
        else:
            later = timezone.now() + unsent.KEPT_FOR
            monkeypatch.setattr(unsent.timezone, "now", lambda later=later: later)
        assert "Nothing waits here." in words(text(client, "/my/unsent/"))
    assert not ProposalWord.objects.exists()
    assert Proposal.objects.get().state == "open"
