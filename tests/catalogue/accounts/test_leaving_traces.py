"""Who leaves is to be found nowhere: neither the e-mail address nor the display name, in any table, on any page."""

import pytest
from django.contrib.sessions.models import Session
from django.db import connection
from django.test import Client
from django.utils import timezone

from catalogue.accounts.actions import ask_to_join, change_role, decide_request, invite, leave_society
from catalogue.accounts.models import Invitation, Member
from tests.catalogue.accounts.test_joining import FORM, verify
from tests.making import make_member
from tests.reading import text

NAME, ADDRESS = FORM["username"], FORM["email"]
NOTE = "Nora from the fair"


def everything_kept() -> str:
    """What stands in any table, sessions read as the site reads them."""
    found = []
    with connection.cursor() as cursor:
        for table in connection.introspection.table_names(cursor):
            cursor.execute(f'SELECT * FROM "{table}"')  # noqa: S608 - names from the database itself
            found += [f"{table}: {row}" for row in cursor.fetchall()]
    found += [f"session: {one.get_decoded()}" for one in Session.objects.all()]
    return "\n".join(found)


def lines_with(*words: str) -> list[str]:
    return [line for line in everything_kept().splitlines() if any(word.lower() in line.lower() for word in words)]


def joined_by(inviter: Member, client: Client) -> Invitation:
    """Invited by mail and admitted, as a browser does it."""
    invitation = invite(inviter=inviter, email=ADDRESS, note=NOTE, now=timezone.now())
    client.post(f"/join/{invitation.token}/", FORM)
    verify(client)
    invitation.refresh_from_db()
    return invitation


def test_who_leaves_is_in_no_table_by_address_or_name(client, cast):
    joined_by(cast.ada, client)
    bird = Member.objects.get(username=NAME)
    invite(inviter=cast.bo, email="New+fair@Example.org", note=NOTE, now=timezone.now())
    change_role(member=bird, after="moderator", by=cast.sue, reason="willing", now=timezone.now())
    asked = ask_to_join(member=cast.wim, words="please", now=timezone.now())
    decide_request(
        request=asked, decider=Member.objects.get(pk=bird.pk), admit=False, reason="not yet", now=timezone.now()
    )
    elsewhere = Client()
    elsewhere.post("/account/password/reset/", {"email": ADDRESS})
    Client().post("/account/login/", {"login": ADDRESS, "password": "wrong-one"})
    assert len(lines_with(ADDRESS)) > 2, "otherwise nothing was looked for"

    leave_society(member=bird, now=timezone.now())

    assert lines_with(ADDRESS, NAME, NOTE, "new+fair@") == []


def test_the_inviter_sees_a_former_member_and_no_address(client, cast):
    invitation = joined_by(cast.ada, client)
    client.force_login(cast.ada)
    page = f"/my/invitations/{invitation.pk}/"
    assert ADDRESS in text(client, page)

    leave_society(member=Member.objects.get(username=NAME), now=timezone.now())

    for address in (page, "/my/"):
        shown = text(client, address)
        assert "former member 1" in shown
        assert ADDRESS not in shown
        assert NOTE not in shown


def test_invitations_to_others_keep_their_addresses(client, cast):
    joined_by(cast.ada, client)
    other = invite(inviter=cast.ada, email="newer@example.org", note="Nils", now=timezone.now())

    leave_society(member=Member.objects.get(username=NAME), now=timezone.now())

    other.refresh_from_db()
    assert (other.email, other.note, other.state()) == ("newer@example.org", "Nils", "open")


@pytest.mark.parametrize("typed", [ADDRESS, ADDRESS.upper()])
def test_an_account_that_asked_to_join_and_is_closed_takes_invitations_to_its_address_along(db, typed):
    asker, inviter = make_member("Asker", admitted_at=None, email=ADDRESS), make_member("Inviter")
    sent = invite(inviter=inviter, email=typed, note=NOTE, now=timezone.now())

    leave_society(member=asker, now=timezone.now())

    sent.refresh_from_db()
    assert (sent.email, sent.note) == ("", "")
