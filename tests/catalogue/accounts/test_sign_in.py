"""Signing in and out, a forgotten password, throttling, and what is told to whom."""

import re

import pytest
from django.conf import settings
from django.core import mail
from django.template import engines
from django.test import Client

from catalogue.accounts.models import Member
from tests.making import make_member
from tests.reading import text, words

PASSWORD = "a-long-password"


def sign_in(client, login, password=PASSWORD, **more):
    return client.post("/account/login/", {"login": login, "password": password} | more)


@pytest.mark.parametrize("login", ["Ada", "ada", "ada@example.org", "ADA@Example.org"])
def test_a_member_signs_in_by_name_or_address(client, cast, login):
    assert sign_in(client, login)["Location"] == "/my/"
    assert "Ada" in text(client, "/my/")


def test_a_wrong_password_an_unknown_name_and_an_unknown_address_are_answered_alike(client, cast):
    pages = [
        re.sub(r'value="[^"]*"', "", sign_in(client, login, "wrong").content.decode())
        for login in ("Ada", "ada@example.org", "Nobody", "nobody@example.org")
    ]

    assert "do not belong together" in pages[0]
    assert len(set(pages)) == 1


def test_asking_to_join_with_an_address_that_has_an_account_looks_the_same_and_tells_only_the_mail(client, cast):
    form = {"username": "Fresh", "password1": "ling-moor-and-sea", "words": ""}
    new = client.post("/join/", form | {"email": "fresh@example.org"}, follow=True)
    other = Client().post("/join/", form | {"username": "Crisp", "email": "ada@example.org"}, follow=True)

    def bare(response):
        page = re.sub(r'name="csrfmiddlewaretoken" value="[^"]+"', "", response.content.decode())
        # Only somebody who has an account can still change the address it was made with.
        page = re.sub(r"<details class=\"fold\".*?</details>", "", page, flags=re.DOTALL)
        return page.replace("fresh@", "x@").replace("ada@", "x@")

    assert [r.redirect_chain for r in (new, other)] == [[("/account/confirm-email/", 302)]] * 2
    assert bare(new) == bare(other)
    assert ["code" in one.subject for one in mail.outbox] == [True, False]
    assert "has an account already" in mail.outbox[1].body
    assert not Member.objects.filter(username="Crisp").exists()


def test_a_forgotten_password_is_answered_alike_for_known_and_unknown_addresses(client, cast):
    known = client.post("/account/password/reset/", {"email": "ada@example.org"}, follow=True)
    unknown = client.post("/account/password/reset/", {"email": "nobody@example.org"}, follow=True)

    assert known.content == unknown.content
    assert "If an account has that address" in known.content.decode()


def test_a_forgotten_password_is_set_anew_once_by_the_link(client, cast):
    client.post("/account/password/reset/", {"email": "ada@example.org"})
    link = re.search(r"http://testserver(/account/password/reset/key/\S+)", mail.outbox[-1].body).group(1)
    form = client.get(link, follow=True)
    where = form.redirect_chain[-1][0]
    new = {"password1": "new-moor-and-sea", "password2": "new-moor-and-sea"}

    client.post(where, new | {"password2": "other"})
    assert Member.objects.get(username="Ada").check_password(PASSWORD)
    client.post(where, new)

    assert Member.objects.get(username="Ada").check_password("new-moor-and-sea")
    assert "has been used already" in text(Client(), link)


def test_after_five_wrong_passwords_even_the_right_one_waits(client, cast):
    for _ in range(5):
        assert "do not belong together" in sign_in(client, "Ada", "wrong").content.decode()

    page = sign_in(client, "Ada").content.decode()
    assert "Too many attempts" in page
    assert sign_in(client, "Bo")["Location"] == "/my/"


def test_the_same_account_is_counted_once_by_name_and_by_address_and_a_reset_begins_anew(client, cast):
    for login in ("Ada", "ada@example.org", "ADA", "Ada@example.org", "ada"):
        assert "do not belong together" in sign_in(client, login, "wrong").content.decode()
    assert "Too many attempts" in sign_in(client, "ada@example.org").content.decode()

    client.post("/account/password/reset/", {"email": "ada@example.org"})
    link = re.search(r"http://testserver(/account/password/reset/key/\S+)", mail.outbox[-1].body).group(1)
    where = client.get(link, follow=True).redirect_chain[-1][0]
    client.post(where, {"password1": "new-moor-and-sea", "password2": "new-moor-and-sea"})
    assert sign_in(client, "Ada", "new-moor-and-sea")["Location"] == "/my/"


def test_many_wrong_passwords_at_one_address_lock_nobody_else_out_there(client, cast):
    for n in range(12):
        sign_in(client, f"Nobody {n % 4}", "wrong")
    assert sign_in(client, "Bo")["Location"] == "/my/"


def test_beyond_thirty_wrong_ones_at_one_address_each_account_has_one_attempt_a_minute_from_there(client, cast):
    for n in range(30):
        sign_in(client, f"Nobody {n}", "wrong")
    assert sign_in(client, "Bo")["Location"] == "/my/"
    client.post("/account/logout/")

    assert "do not belong together" in sign_in(client, "Ada", "wrong").content.decode()
    page = words(sign_in(client, "Ada").content.decode())
    assert "each name has one attempt a minute from there" in page
    assert sign_in(Client(REMOTE_ADDR="203.0.113.9"), "Ada")["Location"] == "/my/"


def test_an_account_is_guessed_at_thirty_times_an_hour_at_most_from_however_many_addresses(client, cast):
    pages = [
        sign_in(Client(REMOTE_ADDR=f"203.0.113.{n}"), "Ada", "wrong").content.decode()
        for n in range(1, 12)
        for _ in range(3)
    ]
    assert ["do not belong together" in page for page in pages] == [True] * 30 + [False] * 3
    assert "Too many attempts" in sign_in(Client(REMOTE_ADDR="203.0.113.99"), "Ada").content.decode()
    assert sign_in(Client(REMOTE_ADDR="203.0.113.99"), "Bo")["Location"] == "/my/"


def test_the_back_office_has_no_sign_in_of_its_own(client, cast):
    for _ in range(40):
        response = client.post("/admin/login/?next=/admin/", {"username": "Sue", "password": PASSWORD})
        assert response.status_code == 302
        assert response["Location"].startswith("/account/login/")
    assert client.get("/admin/").status_code == 302


@pytest.mark.parametrize("role", ["ann", "mo", "sue"])
def test_whoever_maintains_the_reference_gets_from_the_sign_in_to_the_back_office(client, cast, role):
    response = sign_in(client, getattr(cast, role).username, next="/admin/")

    assert response["Location"] == "/admin/"
    assert client.get("/admin/").status_code == 200


@pytest.mark.parametrize(
    "away",
    [
        "https://elsewhere.example/",
        "//elsewhere.example/",
        "\\\\elsewhere.example",
        "/\\elsewhere.example",
        "http://localhost:9/",
        "javascript:alert(1)",
        "https:elsewhere.example",
        "http:///elsewhere.example",
    ],
)
def test_no_address_leads_away_from_the_site(client, cast, away):
    assert sign_in(client, "Ada", next=away)["Location"] == "/my/"
    assert client.post("/account/logout/", {"next": away})["Location"] == "/"
    client.force_login(cast.sue)
    assert client.get("/admin/login/", {"next": away})["Location"] == "/admin/"


def test_the_way_back_is_kept_through_the_sign_in(client, cast):
    assert client.get("/my/invitations/new/")["Location"] == "/account/login/?next=%2Fmy%2Finvitations%2Fnew%2F"
    assert sign_in(client, "Ada", next="/my/invitations/new/")["Location"] == "/my/invitations/new/"


def test_a_closed_account_does_not_open(client, cast):
    Member.objects.filter(pk=cast.ada.pk).update(is_active=False)

    assert sign_in(client, "Ada")["Location"] == "/account/inactive/"
    assert client.get("/my/").status_code == 302


def test_who_has_not_verified_the_address_does_not_get_in(client, cast):
    cast.ada.emailaddress_set.update(verified=False)

    assert sign_in(client, "Ada")["Location"].startswith("/account/confirm-email/")
    assert client.get("/my/").status_code == 302
    assert "code" in mail.outbox[-1].subject


def test_three_wrong_codes_end_the_verification(client, cast):
    cast.ada.emailaddress_set.update(verified=False)
    sign_in(client, "Ada")

    answers = [client.post("/account/confirm-email/", {"code": "XXXXXX"}).status_code for _ in range(3)]

    assert answers == [200, 200, 302]
    assert not cast.ada.emailaddress_set.filter(verified=True).exists()


def test_a_secretary_made_at_the_terminal_signs_in_at_once(client, db):
    Member.objects.create_superuser("Root", "Root@example.org", PASSWORD)

    assert sign_in(client, "Root")["Location"] == "/my/"
    assert client.get("/society/").status_code == 200


def test_passwords_are_never_written_into_a_page(client, cast):
    assert "secret-typed" not in sign_in(client, "Ada", "secret-typed").content.decode()
    form = {"username": "Ada", "email": "x@example.org", "password1": "secret-typed"}
    assert "secret-typed" not in client.post("/join/", form).content.decode()


def test_fields_let_password_managers_work(client, db):
    page = text(client, "/account/login/") + text(client, "/join/")

    for wanted in ('autocomplete="current-password"', 'autocomplete="new-password"', "username webauthn"):
        assert wanted in page
    assert 'autocomplete="off"' not in page


def test_changing_the_password_signs_other_devices_out(client, cast):
    other = Client()
    sign_in(other, "Ada")
    sign_in(client, "Ada")
    new = {"oldpassword": PASSWORD, "password1": "new-moor-and-sea", "password2": "new-moor-and-sea"}
    client.post("/account/password/change/", new)

    assert client.get("/my/").status_code == 200
    assert other.get("/my/").status_code == 302


def test_a_mail_server_that_fails_stops_no_page(client, cast, settings):
    settings.EMAIL_BACKEND = "django.core.mail.backends.smtp.EmailBackend"
    settings.EMAIL_HOST, settings.EMAIL_PORT = "127.0.0.1", 9  # nobody listens there

    response = client.post("/account/password/reset/", {"email": "ada@example.org"}, follow=True)

    assert response.status_code == 200
    assert "could not be sent just now" in response.content.decode()


PUBLIC = ["/", "/garment-types/", "/cautions/", "/issue-versions/", "/people/Ada/"]


@pytest.mark.parametrize("address", PUBLIC)
def test_a_reader_without_a_cookie_gets_none_and_pages_do_not_differ_by_cookie(client, cast, address):
    response = client.get(address)

    assert response.status_code == 200
    assert response.cookies == {}
    assert "cookie" not in response.get("Vary", "").lower()
    assert ">Sign in</a>" in response.content.decode()


@pytest.mark.parametrize("address", PUBLIC[:4])
def test_a_cookie_that_belongs_to_no_session_does_no_harm(client, cast, address):
    client.cookies[settings.SESSION_COOKIE_NAME] = "nothing-of-the-kind"

    assert ">Sign in</a>" in text(client, address)


def test_the_menu_says_who_is_signed_in_and_differs_by_cookie(client, cast):
    client.force_login(cast.sue)
    response = client.get("/")
    page = response.content.decode()

    assert "<summary>Sue</summary>" in page
    assert "/society/" in page
    assert "cookie" in response["Vary"].lower()
    client.force_login(cast.ada)
    assert "/society/" not in text(client, "/")


def test_the_page_of_a_stranger_is_not_there_and_a_name_written_otherwise_leads_to_the_right_page(client, cast):
    make_member("Jack Snipe")

    assert client.get("/people/Wim/").status_code == 404
    assert client.get("/people/Nobody/").status_code == 404
    assert client.get("/people/jack%20SNIPE/")["Location"] == "/people/Jack%20Snipe/"


def test_a_template_asks_what_somebody_may(client, cast):
    asked = engines["django"].from_string('{% load catalogue_parts %}{{ person|may:"review_examples" }}')

    assert [asked.render({"person": who}) for who in (cast.mo, cast.ada, cast.wim, None)] == [
        "True",
        "False",
        "False",
        "False",
    ]
