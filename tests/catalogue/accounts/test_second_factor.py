"""The second factor: codes of an app, recovery codes, and when the society asks for one."""

import base64
import re
import time

import pytest
from allauth.mfa.models import Authenticator
from allauth.mfa.recovery_codes.internal.auth import RecoveryCodes
from allauth.mfa.totp.internal import auth as totp
from django.test import Client

from catalogue.accounts.models import Member
from tests.reading import text

ACTIVATE = "/account/second-factor/totp/activate/"
# RFC 6238, Appendix B: the rows for SHA-1; the secret is the ASCII text 12345678901234567890, codes have eight figures.
RFC_SECRET = base64.b32encode(b"12345678901234567890").decode()
RFC_6238 = [
    (59, "94287082"),
    (1111111109, "07081804"),
    (1111111111, "14050471"),
    (1234567890, "89005924"),
    (2000000000, "69279037"),
    (20000000000, "65353130"),
]


@pytest.mark.parametrize(("at", "code"), RFC_6238)
def test_codes_are_those_of_rfc_6238(settings, at, code):
    settings.MFA_TOTP_DIGITS = 8

    assert totp.format_hotp_value(totp.hotp_value(RFC_SECRET, at // 30)) == code


@pytest.mark.parametrize(("at", "code"), RFC_6238)
def test_the_six_figures_of_rfc_6238_are_taken_for_half_a_minute_more_or_less_and_no_longer(monkeypatch, at, code):
    offsets = {0: True, -30: True, 30: True, -90: False, 90: False}
    for offset, taken in [pair for pair in offsets.items() if at + pair[0] >= 30]:
        monkeypatch.setattr(totp.time, "time", lambda offset=offset: at + offset)
        assert totp.validate_totp_code(RFC_SECRET, code[2:]) is taken, offset


def now_code(secret: str, steps: int = 0) -> str:
    return totp.format_hotp_value(totp.hotp_value(secret, int(time.time()) // 30 + steps))


def with_app(member: Member) -> str:
    """Give somebody an app and recovery codes; returns the app's key."""
    secret = totp.generate_totp_secret()
    totp.TOTP.activate(member, secret)
    RecoveryCodes.activate(member)
    return secret


def test_a_member_adds_an_app_and_is_asked_for_its_code_from_then_on(reauthenticated, cast):
    client = reauthenticated(cast.ada)
    page = text(client, ACTIVATE)
    secret = re.search(r'<code class="secret">(\w+)</code>', page).group(1)
    assert 'src="data:image/svg+xml;base64,' in page
    assert "img-src 'self' data:" in client.get(ACTIVATE)["Content-Security-Policy"]

    client.post(ACTIVATE, {"code": "000000"})
    secret = re.search(r'<code class="secret">(\w+)</code>', text(client, ACTIVATE)).group(1)
    response = client.post(ACTIVATE, {"code": now_code(secret)}, follow=True)

    assert "Recovery codes" in response.content.decode()
    assert sorted(cast.ada.authenticator_set.values_list("type", flat=True)) == ["recovery_codes", "totp"]
    other = Client()
    first = other.post("/account/login/", {"login": "Ada", "password": "a-long-password", "next": "/my/shown/"})
    assert first["Location"].startswith("/account/second-factor/authenticate/")
    assert other.get("/my/").status_code == 302
    wrong = other.post("/account/second-factor/authenticate/", {"code": "000000"}).content.decode()
    assert "That code is not right" in wrong
    second = other.post("/account/second-factor/authenticate/", {"code": now_code(secret, 1)})
    assert second["Location"] == "/my/shown/"
    assert other.get("/my/").status_code == 200


@pytest.mark.django_db(transaction=True)
def test_the_code_with_which_an_app_was_set_up_opens_nothing_afterwards(reauthenticated, cast):
    client = reauthenticated(cast.ada)
    secret = re.search(r'<code class="secret">(\w+)</code>', text(client, ACTIVATE)).group(1)
    code = now_code(secret)
    client.post(ACTIVATE, {"code": code})

    other = Client()
    other.post("/account/login/", {"login": "Ada", "password": "a-long-password"})
    assert "That code is not right" in text_of_post(other, code)  # RFC 6238, 5.2: no code is taken twice
    other.post("/account/second-factor/authenticate/", {"code": now_code(secret, 1)})
    assert other.get("/my/").status_code == 200


def text_of_post(client, code: str) -> str:
    return client.post("/account/second-factor/authenticate/", {"code": code}).content.decode()


def test_a_code_opens_once_and_so_does_a_recovery_code(client, cast):
    secret = with_app(cast.ada)
    recovery = cast.ada.authenticator_set.get(type="recovery_codes").wrap().get_unused_codes()[0]

    def tried(code):
        visitor = Client()
        visitor.post("/account/login/", {"login": "Ada", "password": "a-long-password"})
        visitor.post("/account/second-factor/authenticate/", {"code": code})
        return visitor.get("/my/").status_code == 200

    code = now_code(secret)
    assert [tried(code), tried(code), tried(recovery), tried(recovery)] == [True, False, True, False]


def test_guessing_codes_is_stopped(client, cast):
    with_app(cast.ada)
    client.post("/account/login/", {"login": "Ada", "password": "a-long-password"})

    pages = [
        client.post("/account/second-factor/authenticate/", {"code": f"00000{number}"}).content.decode()
        for number in range(7)
    ]

    assert "That code is not right" in pages[0]
    assert "Too many attempts" in pages[-1]


def test_the_key_of_an_app_is_shown_to_nobody_later(reauthenticated, cast):
    secret = with_app(cast.ada)
    client = reauthenticated(cast.ada)

    assert secret not in text(client, "/account/second-factor/")
    assert client.get(ACTIVATE).status_code == 302
    client.force_login(cast.sue)
    assert client.get("/admin/mfa/authenticator/").status_code == 404


ASKED = ["/society/requests/", "/admin/"]


@pytest.mark.parametrize("who", ["mo", "sue"])
def test_where_the_society_asks_for_it_who_decides_sets_it_up_first(client, cast, settings, who):
    person = getattr(cast, who)
    client.force_login(person)
    assert [client.get(address).status_code for address in ASKED] == [200, 200]

    settings.SECOND_FACTOR = "required"
    assert client.get("/society/requests/")["Location"] == "/my/second-factor-first/"
    assert client.get("/admin/").status_code == 302
    assert client.get("/admin/login/")["Location"] == "/my/second-factor-first/"
    assert "Set one up" in text(client, "/my/")
    assert client.get("/account/second-factor/").status_code == 200

    with_app(person)
    assert [client.get(address).status_code for address in ASKED] == [200, 200]


@pytest.mark.parametrize("who", ["ada", "ann"])
def test_members_and_authors_are_not_asked_for_it(client, cast, settings, who):
    settings.SECOND_FACTOR = "required"
    client.force_login(getattr(cast, who))

    assert client.get("/my/").status_code == 200
    assert client.get("/admin/").status_code == (200 if who == "ann" else 302)


def test_without_the_last_factor_the_doors_are_shut_again(client, cast, settings):
    settings.SECOND_FACTOR = "required"
    with_app(cast.mo)
    client.force_login(cast.mo)
    assert client.get("/society/requests/").status_code == 200

    Authenticator.objects.filter(user=cast.mo).delete()
    assert client.get("/society/requests/").status_code == 302


def test_what_an_app_calls_the_site_is_the_societys_name(reauthenticated, cast):
    page = text(reauthenticated(cast.ada), ACTIVATE)

    assert "otpauth://totp/ada%40example.org?secret=" in page
    assert "issuer=Strandfell%20Clothing%20Circle" in page


@pytest.mark.parametrize("credential", ["", "{}", "[]", "1", '"x"', "null", '{"id": 1}', '{"response": {}}', "rubbish"])
@pytest.mark.parametrize("signing_in", [True, False])
def test_a_passkey_that_is_rubbish_is_refused_and_no_fault_of_the_site(reauthenticated, cast, credential, signing_in):
    client = Client() if signing_in else reauthenticated(cast.ada)
    where = "/account/second-factor/webauthn/" + ("login/" if signing_in else "add/")
    client.get(where)

    response = client.post(where, {"credential": credential, "name": "x"})

    assert response.status_code in (200, 302)
    assert not Authenticator.objects.exists()
    assert Client().get("/my/").status_code == 302
