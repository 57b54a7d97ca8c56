"""Joining: by an invitation, or by a request that somebody decides."""

import re
from datetime import timedelta

import pytest
from django.core import mail
from django.db import IntegrityError, transaction
from django.utils import timezone

from catalogue.accounts.actions import (
    admit_invited,
    ask_to_join,
    decide_request,
    invite,
    revoke_invitation,
    take_invitation,
)
from catalogue.accounts.models import Invitation, JoinRequest, Member
from catalogue.accounts.refusals import CannotDo
from catalogue.accounts.rules import INVITATION_LASTS, MOST_INVITATIONS_A_DAY, MOST_OPEN_INVITATIONS
from tests.making import make_member
from tests.reading import text

NOW = timezone.now()
FORM = {"username": "New Bird", "email": "new@example.org", "password1": "ling-moor-and-sea"}


def made(inviter, **fields) -> Invitation:
    return invite(inviter=inviter, now=NOW, **({"email": "", "note": ""} | fields))


def code_in_mail() -> str:
    return re.search(r"^([A-Z0-9-]{6,})$", mail.outbox[-1].body, re.MULTILINE).group(1)


def verify(client):
    return client.post("/account/confirm-email/", {"code": code_in_mail()}, follow=True)


def test_who_is_invited_makes_an_account_verifies_the_address_and_is_a_member(client, cast):
    invitation = made(cast.ada)

    assert "Ada</a> invites you" in text(client, f"/join/{invitation.token}/")
    client.post(f"/join/{invitation.token}/", FORM)
    bird = Member.objects.get(username="New Bird")
    assert (bird.is_admitted, bird.is_active) == (False, True)
    response = verify(client)

    bird.refresh_from_db()
    invitation.refresh_from_db()
    assert bird.is_admitted
    assert (invitation.used_by, invitation.state()) == (bird, "used")
    assert response.redirect_chain[-1][0] == "/my/"
    assert not bird.join_requests.exists()


def test_an_invitation_used_twice_lets_one_in_and_tells_the_other(client, cast):
    invitation = made(cast.ada)
    client.post(f"/join/{invitation.token}/", FORM)
    client.logout()

    again = client.post(f"/join/{invitation.token}/", FORM | {"username": "Second", "email": "second@example.org"})

    assert again.status_code == 410
    assert "It has been used" in again.content.decode()
    assert not Member.objects.filter(username="Second").exists()
    with pytest.raises(CannotDo, match="can no longer be used"):
        take_invitation(invitation=invitation, member=cast.wim, now=NOW)
    cast.wim.refresh_from_db()
    assert not cast.wim.is_admitted


def test_an_invitation_that_is_used_while_the_form_lies_open_makes_no_account(client, cast, monkeypatch):
    """The page was shown while the invitation was open; when the form is saved somebody else has used it."""
    from catalogue.accounts.sign_in_forms import InvitedForm

    invitation = made(cast.ada)
    save = InvitedForm.save

    def after_somebody_else(form, request):
        take_invitation(invitation=invitation, member=cast.wim, now=timezone.now())
        return save(form, request)

    monkeypatch.setattr(InvitedForm, "save", after_somebody_else)
    response = client.post(f"/join/{invitation.token}/", FORM)

    page = response.content.decode()
    assert response.status_code == 200
    assert "This invitation can no longer be used" in page
    assert 'value="New Bird"' in page
    assert not Member.objects.filter(username="New Bird").exists()


@pytest.mark.parametrize(
    ("spoil", "state", "words"),
    [
        ({"revoked_at": NOW}, "revoked", "It was taken back"),
        ({"made_at": NOW - timedelta(days=40), "expires_at": NOW - timedelta(days=10)}, "expired", "thirty days"),
    ],
)
def test_an_invitation_that_is_over_opens_nothing_and_says_why(client, cast, spoil, state, words):
    invitation = made(cast.ada)
    Invitation.objects.filter(pk=invitation.pk).update(**spoil)
    invitation.refresh_from_db()

    response = client.post(f"/join/{invitation.token}/", FORM)

    assert invitation.state() == state
    assert (response.status_code, words in response.content.decode()) == (410, True)
    assert not Member.objects.filter(username="New Bird").exists()


def test_an_invitation_of_somebody_who_has_left_or_is_shut_out_opens_nothing(client, cast):
    invitation = made(cast.ada)
    Member.objects.filter(pk=cast.ada.pk).update(is_active=False)

    assert client.get(f"/join/{invitation.token}/").status_code == 410


@pytest.mark.parametrize(
    "spoil", [lambda t: t[:-1] + ("A" if t[-1] != "A" else "B"), lambda t: "x" + t, lambda t: t.replace("~", "")]
)
def test_an_address_that_this_site_did_not_make_is_no_invitation(client, cast, spoil):
    assert client.get(f"/join/{spoil(made(cast.ada).token)}/").status_code == 404


def test_the_database_keeps_nothing_that_opens_the_door(cast):
    invitation = made(cast.ada)
    kept = [str(value) for value in Invitation.objects.filter(pk=invitation.pk).values().get().values()]

    signature = invitation.token.partition("~")[2]
    assert len(signature) > 20
    assert all(signature not in value for value in kept)


def test_who_waits_is_admitted_at_once_by_an_invitation_and_the_request_is_withdrawn(client, cast):
    asked = ask_to_join(member=cast.wim, words="please", now=NOW)
    invitation = made(cast.ada)
    client.force_login(cast.wim)

    assert "Use the invitation" in text(client, f"/join/{invitation.token}/")
    client.post(f"/join/{invitation.token}/")

    cast.wim.refresh_from_db()
    asked.refresh_from_db()
    assert (cast.wim.is_admitted, asked.state) == (True, "withdrawn")


def test_a_member_who_opens_an_invitation_does_not_use_it_up(client, cast):
    invitation = made(cast.ada)
    client.force_login(cast.bo)

    assert client.post(f"/join/{invitation.token}/")["Location"] == "/my/"
    invitation.refresh_from_db()
    assert invitation.state() == "open"


def test_an_invitation_is_sent_with_its_address_or_shown_to_the_inviter(client, cast):
    client.force_login(cast.ada)

    response = client.post("/my/invitations/new/", {"email": "friend@example.org", "note": "Friend"}, follow=True)

    invitation = Invitation.objects.get()
    assert invitation.token in mail.outbox[0].body
    assert (mail.outbox[0].to, invitation.expires_at - invitation.made_at) == (["friend@example.org"], INVITATION_LASTS)
    assert invitation.token in response.content.decode()


def test_only_the_inviter_sees_the_address_and_only_the_inviter_or_the_secretary_takes_it_back(client, cast):
    invitation = made(cast.ada)
    where = f"/my/invitations/{invitation.pk}/"

    client.force_login(cast.bo)
    assert client.get(where).status_code == 404
    assert client.post(f"{where}revoke/").status_code == 404
    client.force_login(cast.sue)
    assert invitation.token not in text(client, where)
    with pytest.raises(CannotDo, match="Only the inviter or the secretary"):
        revoke_invitation(invitation=invitation, by=cast.bo, now=NOW)
    client.post(f"{where}revoke/")
    client.post(f"{where}revoke/")

    invitation.refresh_from_db()
    assert invitation.state() == "revoked"


def test_a_used_invitation_is_not_taken_back(cast):
    invitation = made(cast.ada)
    take_invitation(invitation=invitation, member=cast.wim, now=NOW)

    with pytest.raises(CannotDo, match="used already"):
        revoke_invitation(invitation=invitation, by=cast.ada, now=NOW)


def test_the_eleventh_open_invitation_is_refused(cast):
    for _ in range(MOST_OPEN_INVITATIONS):
        last = made(cast.ada)
    with pytest.raises(CannotDo, match="the most there may be"):
        made(cast.ada)

    revoke_invitation(invitation=last, by=cast.ada, now=NOW)
    made(cast.ada)


def test_the_twenty_first_invitation_of_a_day_is_refused_though_all_were_taken_back(cast):
    for _ in range(MOST_INVITATIONS_A_DAY):
        revoke_invitation(invitation=made(cast.ada), by=cast.ada, now=NOW)

    with pytest.raises(CannotDo, match="within a day"):
        made(cast.ada)
    invite(inviter=cast.ada, email="", note="", now=NOW + timedelta(days=1, seconds=1))


def test_who_is_not_admitted_invites_nobody(cast):
    with pytest.raises(CannotDo, match="Only members invite"):
        made(cast.wim)


def test_an_invited_person_is_admitted_only_with_a_verified_address(cast):
    pip = make_member("Pip", admitted_at=None)
    pip.emailaddress_set.update(verified=False)
    take_invitation(invitation=made(cast.ada), member=pip, now=NOW)
    pip.refresh_from_db()
    assert not pip.is_admitted

    pip.emailaddress_set.update(verified=True)
    assert admit_invited(member=pip, now=NOW) is True
    assert admit_invited(member=pip, now=NOW) is False


def test_who_asks_waits_with_a_verified_address_and_is_admitted_by_a_moderator(client, cast):
    client.post("/join/", FORM | {"words": "I keep smocks."})
    bird = Member.objects.get(username="New Bird")
    asked = bird.join_requests.get()
    assert list(JoinRequest.objects.waiting()) == []
    verify(client)
    assert list(JoinRequest.objects.waiting()) == [asked]
    assert "Your request is waiting" in text(client, "/my/waiting/")
    assert client.get("/my/")["Location"] == "/my/waiting/"

    client.force_login(cast.mo)
    assert "I keep smocks." in text(client, f"/society/requests/{asked.pk}/")
    client.post(f"/society/requests/{asked.pk}/", {"decision": "admit", "reason": ""})

    bird.refresh_from_db()
    asked.refresh_from_db()
    assert bird.is_admitted
    assert (asked.state, asked.decided_by) == ("admitted", cast.mo)
    assert (mail.outbox[-1].to, "You are a member" in mail.outbox[-1].subject) == (["new@example.org"], True)


def test_who_admits_is_told_that_the_mailbox_is_that_of_a_member(client, cast):
    cast.wim.email = cast.mo.email.upper().replace("@", "+third@")
    cast.wim.save()
    asked = ask_to_join(member=cast.wim, words="", now=NOW)
    where = f"/society/requests/{asked.pk}/"
    client.force_login(cast.sue)

    assert f"The same mailbox as that of {cast.mo.username}</strong>, who is a member already" in text(client, where)

    cast.wim.email = "wim.of.his.own@example.org"
    cast.wim.save()
    assert "same mailbox" not in text(client, where)
    cast.wim.emailaddress_set.create(email=cast.mo.email, verified=False)
    assert "The same mailbox as that of" in text(client, where)


def test_a_refusal_needs_a_reason_keeps_what_was_typed_and_is_told(client, cast):
    asked = ask_to_join(member=cast.wim, words="", now=NOW)
    client.force_login(cast.sue)
    where = f"/society/requests/{asked.pk}/"

    assert "Say why" in client.post(where, {"decision": "decline", "reason": "  "}).content.decode()
    assert "Press “Admit” or “Decline”" in client.post(where, {"reason": "typed words"}).content.decode()
    assert "typed words" in client.post(where, {"reason": "typed words"}).content.decode()
    client.post(where, {"decision": "decline", "reason": "Nobody knows you yet."})

    client.force_login(cast.wim)
    page = text(client, "/my/waiting/")
    assert "Your request was declined" in page
    assert "Nobody knows you yet." in page
    assert "Nobody knows you yet." in mail.outbox[-1].body
    client.post("/my/waiting/", {"words": "Ada knows me."})
    assert [one.state for one in cast.wim.join_requests.all()] == ["waiting", "declined"]
    assert "Your request is waiting" in client.post("/my/waiting/", {"words": "Twice."}).content.decode()
    assert cast.wim.join_requests.filter(words="Twice.").count() == 0


def test_a_request_is_decided_once(cast):
    asked = ask_to_join(member=cast.wim, words="", now=NOW)
    decide_request(request=asked, decider=cast.mo, admit=False, reason="no", now=NOW)

    with pytest.raises(CannotDo, match="decided already: declined"):
        decide_request(request=JoinRequest.objects.get(), decider=cast.sue, admit=True, reason="", now=NOW)
    cast.wim.refresh_from_db()
    assert not cast.wim.is_admitted


def test_of_two_moderators_with_the_same_page_open_the_second_is_told_and_nothing_is_written(client, cast):
    asked = ask_to_join(member=cast.wim, words="", now=NOW)
    where = f"/society/requests/{asked.pk}/"
    client.force_login(cast.mo)
    client.post(where, {"decision": "decline", "reason": "first"})
    client.force_login(cast.sue)

    page = client.post(where, {"decision": "admit", "reason": "second"}).content.decode()

    cast.wim.refresh_from_db()
    asked.refresh_from_db()
    assert "decided already: declined" in page
    assert (asked.state, asked.reason, asked.decided_by, cast.wim.is_admitted) == ("declined", "first", cast.mo, False)


@pytest.mark.parametrize("decider", ["ada", "ann", "wim"])
def test_nobody_else_decides(cast, decider):
    asked = ask_to_join(member=cast.wim, words="", now=NOW)

    with pytest.raises(CannotDo, match="Only moderators and the secretary"):
        decide_request(request=asked, decider=getattr(cast, decider), admit=True, reason="", now=NOW)


@pytest.mark.parametrize(
    "spoiled",
    [
        {"state": "declined", "reason": "no"},
        {"state": "declined", "reason": "", "decided_at": NOW, "decided_by": "mo"},
        {"state": "admitted", "decided_at": NOW, "decided_by": "wim"},
        {"state": "anything"},
    ],
)
def test_the_database_refuses_a_decision_that_nobody_took(cast, spoiled):
    asked = ask_to_join(member=cast.wim, words="", now=NOW)
    if "decided_by" in spoiled:
        spoiled = spoiled | {"decided_by": getattr(cast, spoiled["decided_by"])}

    with pytest.raises(IntegrityError), transaction.atomic():
        JoinRequest.objects.filter(pk=asked.pk).update(**spoiled)


def test_a_forged_role_or_admission_in_the_form_is_not_taken(client, cast):
    forged = {
        "role": "secretary",
        "is_superuser": "on",
        "is_staff": "on",
        "admitted_at": "2020-01-01",
        "is_active": "on",
    }
    client.post("/join/", FORM | forged)
    bird = Member.objects.get(username="New Bird")

    assert (bird.role, bird.is_superuser, bird.is_staff, bird.is_admitted) == ("member", False, False, False)


@pytest.mark.parametrize("name", ["Ada", "ＡＤＡ", "x" * 300, "Ada\u202e", "Secretary"])
def test_a_name_that_will_not_do_is_refused_and_what_was_typed_is_kept(client, cast, name):
    response = client.post("/join/", FORM | {"username": name, "words": "kept words"})

    page = response.content.decode()
    assert response.status_code == 200
    assert "kept words" in page
    assert 'aria-invalid="true"' in page
    assert not Member.objects.filter(email="new@example.org").exists()


def test_no_name_is_made_from_the_address(client, cast):
    response = client.post("/join/", {"email": "new@example.org", "password1": FORM["password1"]})

    assert response.status_code == 200
    assert not Member.objects.filter(email="new@example.org").exists()
