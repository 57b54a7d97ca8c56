"""Who is told of what waits, how a mail a day comes about, and an accepted piece that is kept as something else."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.core.management import call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from catalogue.accounts.actions.joining import ask_to_join, decide_request
from catalogue.accounts.models import Member
from catalogue.member_examples.queries import evidence_of
from catalogue.reference.models import ReferenceState
from catalogue.review.examples_queue.actions import decide_on_piece, write_word
from catalogue.review.models import Notice
from catalogue.review.notices.actions import read_notices, wish_for_mail
from catalogue.review.notices.telling import send_digests
from tests.catalogue.member_examples.pieces import accepted, make_society, sent
from tests.making import make_member


@pytest.fixture
def society(db):
    return make_society()


def new_to(**about) -> set[str]:
    return set(Notice.objects.filter(read_at__isnull=True, **about).values_list("member__username", flat=True))


def test_a_piece_that_is_sent_is_told_to_every_moderator_but_its_owner_and_is_new_to_none_once_decided(society):
    piece = sent(society, society.mo)
    assert new_to(piece=piece) == {"Mia"}
    second = sent(society, society.ada)
    assert new_to(piece=second) == {"Mia", "Mo"}

    decide_on_piece(example=second, moderator=society.mo, decision="declined", reason="x", sending=1)
    assert new_to(piece=second) == set()
    assert new_to(piece=piece) == {"Mia"}


def test_a_request_to_join_is_told_to_those_who_admit_and_is_new_to_none_once_decided(society):
    make_member("Sue", role="secretary")
    wim = make_member("Wim", admitted_at=None)
    asked = ask_to_join(member=wim, words="hello", now=timezone.now())
    assert new_to(joining=asked) == {"Mo", "Mia", "Sue"}

    decide_request(request=asked, decider=society.mo, admit=True, reason="", now=timezone.now())
    assert new_to(joining=asked) == set()


def test_a_request_by_somebody_whose_address_is_not_verified_is_told_to_nobody(society):
    wim = make_member("Wim", admitted_at=None)
    wim.emailaddress_set.update(verified=False)
    ask_to_join(member=wim, words="hello", now=timezone.now())

    assert not Notice.objects.filter(joining__isnull=False).exists()


def test_one_mail_a_day_holds_what_is_new_since_the_last_and_no_words(society, mailoutbox):
    wish_for_mail(member=society.mo, how="daily")
    pieces = [sent(society, society.ada) for _ in range(2)]
    call_command("send_digests", verbosity=0)
    call_command("send_digests", verbosity=0)

    assert [mail.to for mail in mailoutbox] == [["mo@example.org"]]
    assert all(piece.code in mailoutbox[0].body for piece in pieces)
    Notice.objects.update(made_at=timezone.now() - timedelta(days=1))
    third = sent(society, society.ada)
    call_command("send_digests", verbosity=0)
    assert len(mailoutbox) == 2
    assert third.code in mailoutbox[1].body
    assert pieces[0].code not in mailoutbox[1].body


def test_a_mail_of_several_tells_a_thing_once_says_how_often_and_leads_to_it(society, mailoutbox, settings):
    settings.ADDRESS = "https://catalogue.example.org"
    wish_for_mail(member=society.ada, how="daily")
    piece, other = sent(society, society.ada), sent(society, society.ada)
    for words in ("Which year?", "And which maker?"):
        write_word(example=piece, by=society.mo, text=words, token=uuid4())
    decide_on_piece(example=piece, moderator=society.mo, decision="returned", reason="A secret.", sending=1)
    decide_on_piece(example=other, moderator=society.mo, decision="declined", reason="Another.", sending=1)

    call_command("send_digests", verbosity=0)

    body = mailoutbox[0].body
    assert mailoutbox[0].subject.endswith(": your notices, 2 new")
    assert f"- Piece {piece.code}: A word was written (2 times); Returned with a question\n  https://cat" in body
    assert f"- Piece {other.code}: Declined\n  https://catalogue.example.org/" in body
    assert "“Notices” on your page: https://catalogue.example.org/my/notices/" in body
    assert "one such message a day" in body
    for words in ("Which year?", "A secret.", "Another."):
        assert words not in body


def test_a_site_that_does_not_know_its_address_sends_mails_without_links(society, mailoutbox, settings):
    settings.ADDRESS = ""
    wish_for_mail(member=society.mo, how="daily")
    sent(society, society.ada)
    call_command("send_digests", verbosity=0)

    assert "://" not in mailoutbox[0].body
    assert "“Notices” on your page.\n" in mailoutbox[0].body


def test_a_mail_a_week_waits_until_the_week_is_over(society, mailoutbox):
    wish_for_mail(member=society.mo, how="weekly")
    first = sent(society, society.ada)

    def run(days: float) -> list[str]:
        before = len(mailoutbox)
        send_digests(now=timezone.now() + timedelta(days=days))
        return [one.body for one in mailoutbox[before:]]

    assert run(0) == run(6) == []
    (body,) = run(7)
    assert first.code in body
    assert "one such message a week" in body
    later = sent(society, society.ada)
    Notice.objects.filter(piece=later).update(made_at=timezone.now() + timedelta(days=8))
    assert run(9) == run(13) == []
    (body,) = run(14)
    assert later.code in body
    assert first.code not in body


def test_who_chose_none_or_has_read_it_on_the_page_gets_no_mail(society, mailoutbox):
    wish_for_mail(member=society.mo, how="daily")
    wish_for_mail(member=society.mia, how="daily")
    wish_for_mail(member=society.mia, how="")
    sent(society, society.ada)
    read_notices(member=society.mo, now=timezone.now())
    call_command("send_digests", verbosity=0)

    assert mailoutbox == []


def test_who_moderates_no_more_is_told_of_nothing_that_only_moderators_read(client, society, mailoutbox):
    wish_for_mail(member=society.mo, how="daily")
    piece = sent(society, society.ada)
    Member.objects.filter(pk=society.mo.pk).update(role=Member.Role.MEMBER)
    call_command("send_digests", verbosity=0)
    client.force_login(Member.objects.get(pk=society.mo.pk))

    assert mailoutbox == []
    assert piece.code not in client.get("/my/notices/").content.decode()


@pytest.mark.parametrize("how", ["nonsense", "at_once\0"])
def test_a_wish_that_nobody_offered_changes_nothing(client, society, how):
    client.force_login(society.ada)
    client.post("/my/notices/by-mail/", {"wanted": "daily"})
    client.post("/my/notices/by-mail/", {"wanted": how})

    assert society.ada.mail_wish.how == "daily"


def test_the_menu_says_how_many_notices_are_new_by_one_query_more(client, society):
    client.force_login(society.mo)
    client.get("/cautions/")
    counted = []
    for many in (0, 1, 40):
        for _ in range(many):
            Notice.objects.create(member=society.mo, piece=sent(society), sending=9)
        with CaptureQueriesContext(connection) as asked:
            page = client.get("/cautions/").content.decode()
        counted.append(sum("catalogue_notice" in one["sql"] for one in asked))
        assert ("unread notice" in page) == bool(many)

    assert counted == [1, 1, 1]
    client.logout()
    assert "unread" not in client.get("/cautions/").content.decode()


def counted(version: str) -> dict:
    return evidence_of("SMK", number=ReferenceState.current_number()).counts(version)


def test_an_accepted_piece_is_kept_as_something_else_and_counts_there_at_once(client, society):
    piece = accepted(society, society.old, closure="zip")
    address = f"/pieces-that-wait/{piece.code}/attribute-anew/"
    client.force_login(society.mo)
    assert address in client.get(f"/pieces-that-wait/{piece.code}/").content.decode()
    given = {"version": "SMK-76", "reason": "its zip", "believed": "SMK-61"}
    assert counted("SMK-61") == {"closure": {"zip": 1}}

    assert client.post(address, given).status_code == 302

    piece.refresh_from_db()
    assert piece.held_as == society.new
    assert (counted("SMK-61"), counted("SMK-76")) == ({}, {"closure": {"zip": 1}})
    assert piece.decisions.count() == 2
    assert Notice.objects.filter(member=society.ada, decision__decision="attributed_anew").count() == 1
    again = client.post(address, given).content.decode()
    assert "has just decided" in again
    assert "its zip" in again


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"version": "SMK-61", "reason": "x"}, "kept as this already"),
        ({"version": "", "reason": "x"}, "Choose as what it is kept"),
        ({"version": "SMK-76", "reason": " "}, "A decision needs a reason"),
        ({"version": "BLO-71", "reason": "x"}, "belongs to another garment type"),
    ],
)
def test_what_would_change_nothing_or_has_no_reason_is_refused_in_words(client, society, given, words):
    piece = accepted(society, society.old)
    client.force_login(society.mo)
    answer = client.post(f"/pieces-that-wait/{piece.code}/attribute-anew/", {"believed": "SMK-61", **given})

    assert words in answer.content.decode()
    assert piece.decisions.count() == 1


def test_nobody_keeps_their_own_piece_as_something_else(client, society):
    piece = accepted(society, society.old, society.mo)
    client.force_login(society.mo)
    answer = client.post(
        f"/pieces-that-wait/{piece.code}/attribute-anew/", {"version": "SMK-76", "reason": "x", "believed": "SMK-61"}
    )
    piece.refresh_from_db()

    assert (answer.status_code, piece.held_as) == (302, society.old)
