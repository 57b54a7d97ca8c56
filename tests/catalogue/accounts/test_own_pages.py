"""A member's own pages: lists, what others see, taking the data along, leaving."""

import io
import json
import zipfile

import pytest
from django.contrib.sessions.models import Session
from django.db import IntegrityError, transaction
from django.test import Client
from django.utils import timezone

from catalogue.accounts.actions import ask_to_join, change_role, decide_request, invite, leave_society
from catalogue.accounts.models import Holding, Invitation, JoinRequest, Member, RoleChange, Want
from catalogue.accounts.refusals import CannotDo
from catalogue.accounts.sections import MemberPart, parts_of_a_person, register, registered
from tests.making import make_member, make_type, make_version
from tests.reading import text

NOW = timezone.now()


@pytest.fixture
def smock(db):
    return make_version(make_type("SMK", name="Fell smock"), "SMK-76", name="Smock of 1976")


def test_a_piece_is_kept_private_until_it_is_shown(client, cast, smock):
    client.force_login(cast.ada)
    client.post("/my/pieces/add/", {"subject": "version:SMK-76", "number": 2, "note": "one with a label"})
    piece = Holding.objects.get()

    assert (piece.member, piece.version, piece.garment_type, piece.number) == (cast.ada, smock, None, 2)
    assert "Seen by me only" in text(client, "/my/")
    assert "Smock of 1976" not in text(Client(), "/people/Ada/")
    sent = {"subject": "type:SMK", "number": 1, "note": "x", "is_shown": "on"}
    client.post(f"/my/pieces/{piece.pk}/", sent)
    assert "Fell smock" in text(Client(), "/people/Ada/")
    client.post(f"/my/pieces/{piece.pk}/remove/")
    client.post(f"/my/pieces/{piece.pk}/remove/")
    assert not Holding.objects.exists()


def retire(version, *became) -> None:
    """As a decision leaves it."""
    version.retired_why = "One contract."
    version.save()
    for one in became:
        version.successors.create(successor=one)


@pytest.mark.parametrize("kind", ["pieces", "wants"])
def test_a_list_says_what_its_version_became_and_offers_what_stands_now(client, cast, smock, kind):
    one, two = (make_version(smock.garment_type, code, name=code.title()) for code in ("SMK-61", "SMK-90"))
    between = make_version(smock.garment_type, "SMK-80")
    rows = {"pieces": cast.ada.holdings, "wants": cast.ada.wants}[kind]
    row = rows.create(version=smock, note="bought in May", is_shown=True)
    client.force_login(cast.ada)
    plain = text(client, "/my/")
    retire(smock, one, between)
    retire(between, two, one)

    mine, shown = text(client, "/my/"), text(Client(), "/people/Ada/")

    assert "no version of its own any more" not in plain
    for page in (mine, shown):
        assert "Held to be no version of its own any more; in its place stand" in page
        assert page.count('href="/issue-versions/SMK-61/"') == page.count('href="/issue-versions/SMK-90/"') == 1
        assert "/issue-versions/SMK-80/" not in page
    assert "Which of them is yours?" in mine
    assert "Make it" not in shown
    offered = f"/my/{kind}/{row.pk}/?version=SMK-90"
    assert f'href="{offered}"' in mine
    form = text(client, offered)
    assert '<option value="version:SMK-90" selected>' in form
    assert 'value="version:SMK-76"' in form, "what the row names can be kept"
    assert 'value="version:SMK-80"' not in form
    assert "SMK-76" not in text(client, f"/my/{kind}/add/")
    client.post(offered, {"subject": "version:SMK-90", "number": 1, "note": "bought in May"})
    row.refresh_from_db()
    assert (row.version, row.note) == (two, "bought in May")


def test_a_want_says_what_for_and_what_is_offered(client, cast, smock):
    client.force_login(cast.ada)
    sent = {
        "subject": "type:SMK",
        "condition_at_least": "good",
        "offers": "exchange",
        "spare": smock.pk,
        "is_shown": "on",
    }
    assert client.post("/my/wants/add/", sent).status_code == 302

    page = text(Client(), "/people/Ada/")
    assert "any version" in page
    assert "good or better; offers exchange; could give Smock of 1976" in page
    assert "through the society’s secretary" in page


def test_the_address_of_a_form_chooses_the_version(client, cast, smock):
    client.force_login(cast.ada)

    assert '<option value="version:SMK-76" selected>' in text(client, "/my/pieces/add/?version=SMK-76")
    assert "selected" not in text(client, "/my/pieces/add/?version=NONE").split("id_subject")[1].split("</select>")[
        0
    ].replace('value="" selected', "")


@pytest.mark.parametrize(
    "spoiled",
    [
        {"subject": ""},
        {"subject": "version:NONE"},
        {"subject": "rubbish"},
        {"number": 0},
        {"number": -3},
        {"number": 10**9},
        {"number": "many"},
    ],
)
def test_a_piece_that_cannot_be_is_refused_and_what_was_typed_is_kept(client, cast, smock, spoiled):
    client.force_login(cast.ada)
    sent = {"subject": "version:SMK-76", "number": 1, "note": "typed words"} | spoiled

    response = client.post("/my/pieces/add/", sent)

    assert response.status_code == 200
    assert "typed words" in response.content.decode()
    assert "This is not done yet" in response.content.decode()
    assert not Holding.objects.exists()


@pytest.mark.parametrize("kind", ["pieces", "wants"])
def test_nobody_reaches_the_lists_of_others(client, cast, smock, kind):
    model = Holding if kind == "pieces" else Want
    row = model.objects.create(member=cast.ada, version=smock, note="mine")
    client.force_login(cast.bo)
    where = f"/my/{kind}/{row.pk}/"

    assert client.get(where).status_code == 404
    assert client.post(where, {"subject": "type:SMK", "number": 1, "note": "stolen"}).status_code == 404
    client.post(f"{where}remove/")
    client.post(f"/my/{kind}/add/", {"subject": "type:SMK", "number": 1, "member": cast.ada.pk})
    row.refresh_from_db()
    assert (row.note, row.member) == ("mine", cast.ada)
    assert model.objects.filter(member=cast.ada).count() == 1


def test_the_database_refuses_a_piece_of_nothing_and_of_two_things(cast, smock):
    for fields in ({}, {"version": smock, "garment_type": smock.garment_type}):
        for model in (Holding, Want):
            with pytest.raises(IntegrityError), transaction.atomic():
                model.objects.create(member=cast.ada, **fields)


def test_what_others_see_is_changed_and_a_forged_role_is_not_taken(client, cast):
    client.force_login(cast.ada)
    sent = {
        "username": "Ada Crake",
        "joined_year": 2009,
        "about": "<b>Smocks</b>",
        "role": "secretary",
        "is_superuser": "on",
    }
    client.post("/my/shown/", sent)

    cast.ada.refresh_from_db()
    assert (cast.ada.username, cast.ada.name_key, cast.ada.role, cast.ada.is_superuser) == (
        "Ada Crake",
        "adacrake",
        "member",
        False,
    )
    page = Client().get("/people/Ada%20Crake/").content.decode()
    assert "in the society since 2009" in page
    assert "&lt;b&gt;Smocks&lt;/b&gt;" in page


@pytest.mark.parametrize("name", ["Bo", "ｂｏ", "x" * 300, "Ada\u202e", "Moderator", "former member 1"])
def test_a_name_that_will_not_do_is_refused_on_the_own_page_too(client, cast, name):
    client.force_login(cast.ada)

    response = client.post("/my/shown/", {"username": name, "about": "kept words"})

    assert response.status_code == 200
    assert "kept words" in response.content.decode()
    assert "<summary>Ada</summary>" in response.content.decode()
    cast.ada.refresh_from_db()
    assert cast.ada.username == "Ada"


@pytest.mark.parametrize("address", ["/my/data/", "/my/leave/"])
def test_what_matters_asks_for_the_password_once_more(client, cast, address):
    client.force_login(cast.ada)

    assert client.get(address)["Location"].startswith("/account/reauthenticate/?next=")
    assert client.post(address, {"name": "Ada"})["Location"].startswith("/account/reauthenticate/")
    cast.ada.refresh_from_db()
    assert not cast.ada.has_left
    wrong = client.post("/account/reauthenticate/", {"password": "wrong"})
    assert "That is not your password" in wrong.content.decode()


def test_the_export_holds_everything_of_this_member_and_nothing_of_another(reauthenticated, cast, smock):
    Holding.objects.create(member=cast.mo, version=smock, note="a private note")
    Want.objects.create(member=cast.mo, garment_type=smock.garment_type, note="any size")
    Holding.objects.create(member=cast.bo, version=smock, note="note of Bo")
    invite(inviter=cast.mo, email="friend@example.org", note="Friend", now=NOW)
    decide_request(
        request=ask_to_join(member=cast.wim, words="words of Wim", now=NOW),
        decider=cast.mo, admit=False, reason="not yet", now=NOW,
    )  # fmt: skip
    client = reauthenticated(cast.mo)

    response = client.post("/my/data/")
    packed = zipfile.ZipFile(io.BytesIO(response.getvalue()))
    data, words = json.loads(packed.read("my-data.json")), packed.read("my-data.txt").decode()

    assert response["Content-Type"] == "application/zip"
    assert data["account"]["e-mail addresses"] == [{"address": "mo@example.org", "verified": True}]
    assert data["holdings"][0]["note"] == "a private note"
    assert data["wants"][0]["garment type"] == "SMK"
    assert data["joining"]["invitations"][0]["for"] == "friend@example.org"
    assert data["joining"]["requests I decided"][0]["reason"] == "not yet"
    assert "note: a private note" in words
    assert "Pieces I look for" in words
    both = words + packed.read("my-data.json").decode()
    assert not [one for one in ("note of Bo", "bo@example.org", "words of Wim", "pbkdf2", "md5$") if one in both]


def test_who_waits_takes_the_data_along_and_closes_the_account(reauthenticated, cast):
    ask_to_join(member=cast.wim, words="private words", now=NOW)
    client = reauthenticated(cast.wim)

    packed = zipfile.ZipFile(io.BytesIO(client.post("/my/data/").getvalue()))
    assert json.loads(packed.read("my-data.json"))["joining"]["requests"][0]["my words"] == "private words"
    client.post("/my/leave/", {"name": "Wim"})
    asked = JoinRequest.objects.get()
    assert (asked.words, asked.state, asked.member.username) == ("", "withdrawn", "former member 1")


def test_a_later_slice_registers_its_own_part_of_a_person(reauthenticated, cast, monkeypatch):
    forgotten = []
    monkeypatch.setattr("catalogue.accounts.sections.registered", dict(registered))
    register(
        MemberPart(
            name="submissions",
            heading="What I have submitted",
            template="accounts/own_holdings.html",
            own=lambda member: {"rows": []},
            export=lambda member: [{"piece": "E001", "of": member.username}],
            files=lambda member: [("E001.txt", b"front view")],
            forget=forgotten.append,
        )
    )
    with pytest.raises(ValueError, match="a part 'submissions' already"):
        register(MemberPart(name="submissions", heading="again"))
    client = reauthenticated(cast.ada)

    assert "What I have submitted" in text(client, "/my/")
    packed = zipfile.ZipFile(io.BytesIO(client.post("/my/data/").getvalue()))
    assert json.loads(packed.read("my-data.json"))["submissions"] == [{"piece": "E001", "of": "Ada"}]
    assert packed.read("submissions/E001.txt") == b"front view"
    leave_society(member=cast.ada, now=NOW)
    assert forgotten == [cast.ada]
    assert "submissions" not in {part.name for part in parts_of_a_person()} or "submissions" not in registered


def test_leaving_takes_everything_personal_and_keeps_what_was_decided(reauthenticated, cast, smock):
    Holding.objects.create(member=cast.mo, version=smock, is_shown=True)
    Want.objects.create(member=cast.mo, version=smock, is_shown=True)
    invitation = invite(inviter=cast.mo, email="friend@example.org", note="Friend", now=NOW)
    asked = ask_to_join(member=cast.wim, words="", now=NOW)
    decide_request(request=asked, decider=cast.mo, admit=False, reason="not yet", now=NOW)
    Member.objects.filter(pk=cast.mo.pk).update(about="All about me", joined_year=2009)
    elsewhere = Client()
    elsewhere.force_login(cast.mo)
    client = reauthenticated(cast.mo)

    wrong = client.post("/my/leave/", {"name": "Moo"}).content.decode()
    assert "Nothing was changed" in wrong
    client.post("/my/leave/", {"name": "Mo"})

    gone = Member.objects.get(pk=cast.mo.pk)
    kept = [gone.username, gone.email, gone.about, gone.joined_year, gone.last_login, gone.is_active, gone.role]
    assert kept == ["former member 1", "", "", None, None, False, "member"]
    assert not gone.has_usable_password()
    assert not gone.emailaddress_set.exists()
    assert [*gone.holdings.all(), *gone.wants.all()] == []
    invitation.refresh_from_db()
    assert (invitation.state(), invitation.email, invitation.note) == ("revoked", "", "")
    asked.refresh_from_db()
    assert (asked.decided_by, asked.reason) == (gone, "not yet")
    assert client.get("/my/").status_code == elsewhere.get("/my/").status_code == 302
    assert [s for s in Session.objects.all() if s.get_decoded().get("_auth_user_id") == str(gone.pk)] == []
    assert "has left the society" in text(Client(), "/people/former%20member%201/")
    assert Client().get("/people/Mo/").status_code == 404
    assert (
        "do not belong together"
        in Client().post("/account/login/", {"login": "Mo", "password": "a-long-password"}).content.decode()
    )


def test_a_second_click_on_leaving_changes_nothing_and_numbers_count_up(cast):
    leave_society(member=cast.ada, now=NOW)
    leave_society(member=cast.ada, now=NOW)
    leave_society(member=cast.bo, now=NOW)

    names = Member.objects.filter(left_at__isnull=False).order_by("pk").values_list("username", flat=True)
    assert list(names) == ["former member 1", "former member 2"]


def test_the_only_secretary_stays_until_there_is_another(reauthenticated, cast):
    client = reauthenticated(cast.sue)
    assert "You are the only secretary" in client.post("/my/leave/", {"name": "Sue"}).content.decode()

    change_role(member=cast.ada, after="secretary", by=cast.sue, reason="moving away", now=NOW)
    client.post("/my/leave/", {"name": "Sue"})

    assert Member.objects.secretaries().get() == cast.ada
    change = RoleChange.objects.get()
    assert (change.by.username, change.reason) == ("former member 1", "moving away")


def test_the_database_lets_nobody_leave_and_keep_an_address(cast):
    with pytest.raises(IntegrityError), transaction.atomic():
        Member.objects.filter(pk=cast.ada.pk).update(left_at=NOW, former_number=1, is_active=False)


def test_the_name_of_who_left_is_free_again(cast):
    leave_society(member=cast.ada, now=NOW)

    assert make_member("Ada").pk != cast.ada.pk


def test_an_invitation_of_who_left_opens_nothing(client, cast):
    token = invite(inviter=cast.ada, email="", note="", now=NOW).token
    leave_society(member=cast.ada, now=NOW)

    assert client.get(f"/join/{token}/").status_code == 410
    assert Invitation.objects.get().revoked_at
    with pytest.raises(CannotDo, match="Only members invite"):
        invite(inviter=Member.objects.get(pk=cast.ada.pk), email="", note="", now=NOW)
