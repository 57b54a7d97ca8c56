"""Every address of the accounts, tried by everybody: one table, and no address outside it."""

import pytest
from django.urls import get_resolver
from django.utils import timezone

from catalogue.accounts.actions import ask_to_join, invite
from catalogue.accounts.models import Holding
from tests.making import make_type, make_version

LOGIN = "/account/login/"
OK, GONE, NO, NOT_THERE, METHOD = 200, 410, 403, 404, 405
IN, WAIT, MY, CONFIRM = "to the sign-in", "to the waiting page", "to my page", "to the password"
# address: what a visitor, who waits, the owner (Ada), another member, author, moderator and secretary get.
EVERYBODY = ("visitor", "wim", "ada", "bo", "ann", "mo", "sue")
MEMBERS = (IN, WAIT, OK, OK, OK, OK, OK)
OWN = (IN, WAIT, OK, NOT_THERE, NOT_THERE, NOT_THERE, NOT_THERE)
SIGNED_IN = (IN, OK, OK, OK, OK, OK, OK)
FOR_VISITORS = (OK, MY, MY, MY, MY, MY, MY)
ALL = (OK,) * 7
AGAIN = (IN,) + (CONFIRM,) * 6
TABLE = {
    "accounts:invited": ("/join/{token}/", (OK, OK, MY, MY, MY, MY, MY)),
    "accounts:person": ("/people/Ada/", ALL),
    "accounts:my_page": ("/my/", MEMBERS),
    "accounts:waiting": ("/my/waiting/", (IN, OK, MY, MY, MY, MY, MY)),
    "accounts:second_factor_first": ("/my/second-factor-first/", SIGNED_IN),
    "accounts:shown": ("/my/shown/", MEMBERS),
    "accounts:unsent": ("/my/unsent/", SIGNED_IN),
    "accounts:devices": ("/my/devices/", MEMBERS),
    "accounts:my_data": ("/my/data/", AGAIN),
    "accounts:leave": ("/my/leave/", AGAIN),
    "accounts:new_invitation": ("/my/invitations/new/", MEMBERS),
    "accounts:invitation": ("/my/invitations/{invitation}/", (IN, WAIT, OK, NOT_THERE, NOT_THERE, NOT_THERE, OK)),
    "accounts:revoke": ("/my/invitations/{invitation}/revoke/", (IN, WAIT) + (METHOD,) * 5),
    "accounts:add": ("/my/pieces/add/", MEMBERS),
    "accounts:change": ("/my/pieces/{piece}/", OWN),
    "accounts:remove": ("/my/pieces/{piece}/remove/", (IN, WAIT) + (METHOD,) * 5),
    "accounts:society": ("/society/", (IN, WAIT, NO, NO, NO, NO, OK)),
    "accounts:role": ("/society/people/{ada}/role/", (IN, WAIT, NO, NO, NO, NO, OK)),
    "accounts:requests": ("/society/requests/", (IN, WAIT, NO, NO, NO, OK, OK)),
    "accounts:decide": ("/society/requests/{asked}/", (IN, WAIT, NO, NO, NO, OK, OK)),
    "account_signup": ("/join/", FOR_VISITORS),
    "account_login": (LOGIN, FOR_VISITORS),
    "account_logout": ("/account/logout/", ("/",) + (OK,) * 6),
    "account_reauthenticate": ("/account/reauthenticate/", SIGNED_IN),
    "account_email": ("/account/email/", SIGNED_IN),
    "account_change_password": ("/account/password/change/", SIGNED_IN),
    "account_set_password": ("/account/password/set/", (IN,) + ("/account/password/change/",) * 6),
    "account_inactive": ("/account/inactive/", ALL),
    "account_email_verification_sent": ("/account/confirm-email/", (LOGIN,) + ("/account/email/",) * 6),
    "account_reset_password": ("/account/password/reset/", ALL),
    "account_reset_password_done": ("/account/password/reset/done/", ALL),
    "account_reset_password_from_key": ("/account/password/reset/key/1-nothing/", ALL),
    "account_reset_password_from_key_done": ("/account/password/reset/key/done/", ALL),
    "mfa_index": ("/account/second-factor/", SIGNED_IN),
    "mfa_authenticate": ("/account/second-factor/authenticate/", (LOGIN,) + (MY,) * 6),
    "mfa_reauthenticate": ("/account/second-factor/reauthenticate/", (IN,) + (CONFIRM,) * 6),
    "mfa_activate_totp": ("/account/second-factor/totp/activate/", AGAIN),
    "mfa_deactivate_totp": ("/account/second-factor/totp/deactivate/", (IN,) + (NOT_THERE,) * 6),
    "mfa_view_recovery_codes": ("/account/second-factor/recovery-codes/", (IN,) + (NOT_THERE,) * 6),
    "mfa_generate_recovery_codes": ("/account/second-factor/recovery-codes/generate/", AGAIN),
    "mfa_download_recovery_codes": ("/account/second-factor/recovery-codes/download/", (IN,) + (NOT_THERE,) * 6),
    "mfa_list_webauthn": ("/account/second-factor/webauthn/", SIGNED_IN),
    "mfa_add_webauthn": ("/account/second-factor/webauthn/add/", AGAIN),
    "mfa_reauthenticate_webauthn": ("/account/second-factor/webauthn/reauthenticate/", (IN,) + (CONFIRM,) * 6),
    "mfa_remove_webauthn": ("/account/second-factor/webauthn/keys/1/remove/", AGAIN),
    "mfa_edit_webauthn": ("/account/second-factor/webauthn/keys/1/edit/", AGAIN),
    "mfa_login_webauthn": ("/account/second-factor/webauthn/login/", (LOGIN,) + (MY,) * 6),
}
LEADS = {IN: LOGIN + "?next=", WAIT: "/my/waiting/", MY: "/my/", CONFIRM: "/account/reauthenticate/"}


@pytest.fixture
def filled(cast):
    """What the addresses of the table point to, all of it Ada's."""
    now = timezone.now()
    invitation = invite(inviter=cast.ada, email="", note="", now=now)
    piece = Holding.objects.create(member=cast.ada, version=make_version(make_type()))
    asked = ask_to_join(member=cast.wim, words="", now=now)
    return {
        "token": invitation.token,
        "invitation": invitation.pk,
        "piece": piece.pk,
        "asked": asked.pk,
        "ada": cast.ada.pk,
    }


def account_names() -> set[str]:
    resolver = get_resolver()
    names = {name for name in resolver.reverse_dict if isinstance(name, str)}
    own = {f"accounts:{name}" for name in resolver.namespace_dict["accounts"][1].reverse_dict if isinstance(name, str)}
    return own | {name for name in names if name.startswith(("account_", "mfa_"))}


def test_no_address_is_left_out_of_the_table():
    assert account_names() == set(TABLE)


@pytest.mark.parametrize("name", TABLE)
def test_everybody_gets_what_the_table_says(client, cast, filled, name):
    address, expected = TABLE[name]
    address = address.format(**filled)

    found = []
    for who in EVERYBODY:
        client.logout()
        if who != "visitor":
            client.force_login(getattr(cast, who))
        found.append(met(client.get(address)))

    wanted = [LEADS.get(one, one) for one in expected]
    assert [matches(*pair) for pair in zip(found, wanted, strict=True)] == [True] * 7, f"{address}: {found}"


def met(response):
    return response["Location"] if response.status_code == 302 else response.status_code


def matches(found, wanted) -> bool:
    return found == wanted or (wanted in LEADS.values() and isinstance(found, str) and found.startswith(wanted))


@pytest.mark.parametrize(
    "name",
    [
        n
        for n, (_, who) in TABLE.items()
        if n.startswith("accounts:") and who[0] == IN and who[2] == OK and n != "accounts:second_factor_first"
    ],
)
def test_a_form_sent_by_a_visitor_writes_nothing_and_leads_to_the_sign_in(client, cast, filled, name):
    response = client.post(TABLE[name][0].format(**filled), {"name": "Ada", "after": "secretary", "reason": "x"})

    assert response.status_code == 302
    assert response["Location"].startswith(LOGIN)


@pytest.mark.parametrize("who", ["ada", "ann", "mo"])
def test_a_form_for_the_secretary_is_refused_in_words_when_somebody_else_sends_it(client, cast, filled, who):
    client.force_login(getattr(cast, who))
    response = client.post(f"/society/people/{cast.bo.pk}/role/", {"after": "secretary", "reason": "x"})

    cast.bo.refresh_from_db()
    assert (response.status_code, cast.bo.role) == (403, "member")
    assert "open to the secretary only" in response.content.decode()


@pytest.mark.parametrize(
    "address", ["/my/rubbish/add/", "/my/rubbish/1/", "/my/pieces/999999999999999999999/", "/society/requests/0/"]
)
def test_what_is_not_there_is_no_fault_of_the_site(client, cast, address):
    client.force_login(cast.sue)

    assert client.get(address).status_code == 404


def test_a_code_sent_by_mail_neither_signs_in_nor_confirms_who_is_there(client, cast):
    client.force_login(cast.ada)

    offered = client.get("/account/reauthenticate/", follow=True).content.decode()
    answered = [client.get(f"/account/{page}").status_code for page in ("login/code/", "reauthenticate/code/")]

    assert (answered, "/code/" in offered) == ([404, 404], False)


def test_no_form_is_taken_without_its_token(cast, filled):
    from django.test import Client

    strict = Client(enforce_csrf_checks=True)
    strict.force_login(cast.ada)

    for address in (
        "/my/shown/",
        "/my/pieces/add/",
        "/my/invitations/new/",
        f"/my/invitations/{filled['invitation']}/revoke/",
    ):
        assert strict.post(address, {}).status_code == 403
