"""Moderators work through waiting pieces: who decides, what follows, who is told."""

import re
from uuid import uuid4

import pytest

from catalogue.member_examples.actions import NotDone, add_attribution, submit_example, withdraw_example
from catalogue.member_examples.models import Example, ExampleDecision
from catalogue.member_examples.queries import evidence_of
from catalogue.reference.models import ReferenceState
from catalogue.review.examples_queue.actions import decide_on_piece, open_again, write_word
from catalogue.review.models import Notice, PieceWord
from tests.catalogue.member_examples.pieces import draft, in_state, make_society, sent

QUEUE = "/pieces-that-wait/"


@pytest.fixture
def society(db):
    return make_society()


def claimed(society, version, owner=None, **seen) -> Example:
    """A piece that waits, which its owner holds to be this version."""
    piece = draft(society, owner, **seen)
    add_attribution(example=piece, member=piece.owner, version=version, grounds="its closure")
    return submit_example(example=piece, member=piece.owner, token=uuid4())


def address(piece: Example) -> str:
    return f"{QUEUE}{piece.code}/"


def decision(piece: Example, what: str = "accepted", **other) -> dict:
    version = "SMK-76" if what == "accepted" else ""
    return {"decision": what, "version": version, "reason": "because", "sending": piece.times_sent} | other


def counted(version: str) -> dict:
    return evidence_of("SMK", number=ReferenceState.current_number()).counts(version)


def test_accepting_counts_as_evidence_at_once_leads_to_the_next_and_tells_the_owner(client, society):
    first, second = (claimed(society, society.new, closure="zip") for _ in range(2))
    client.force_login(society.mo)

    answer = client.post(address(first), decision(first))

    assert answer.url == f"{address(second)}#main"
    first.refresh_from_db()
    assert (first.state, first.held_as) == ("accepted", society.new)
    assert counted("SMK-76") == {"closure": {"zip": 1}}
    told = Notice.objects.get(piece__isnull=True)
    assert (told.member, told.decision.decision) == (society.ada, "accepted")
    client.force_login(society.ada)
    page = client.get("/my/").content.decode()
    assert "Notices" in page
    assert first.code in page
    assert "because" in page

    withdraw_example(example=first, member=society.ada)
    assert counted("SMK-76") == {}


@pytest.mark.parametrize("what", ["returned", "declined"])
def test_a_piece_is_returned_or_declined_with_a_reason_that_its_owner_reads(client, society, what):
    piece = claimed(society, society.new, closure="zip")
    client.force_login(society.mo)

    assert client.post(address(piece), decision(piece, what, reason="Is the zip the first one?")).url == f"{QUEUE}#main"

    piece.refresh_from_db()
    assert piece.state == what
    client.force_login(society.ada)
    assert "Is the zip the first one?" in client.get("/my/notices/").content.decode()


def test_without_a_reason_nothing_is_decided_and_what_was_chosen_is_kept(client, society):
    piece = claimed(society, society.new)
    client.force_login(society.mo)

    page = client.post(address(piece), decision(piece, "returned", reason="  ")).content.decode()

    assert "A decision needs a reason" in page
    assert re.search(r'value="returned"[^>]* checked', page)
    assert not ExampleDecision.objects.exists()
    assert not Notice.objects.filter(piece__isnull=True).exists()


def test_nobody_decides_on_their_own_piece_not_even_by_a_forged_form(client, society):
    piece = claimed(society, society.new, society.mo, closure="zip")
    client.force_login(society.mo)

    assert "data-decides" not in client.get(address(piece)).content.decode()
    assert "somebody other than its owner" in client.post(address(piece), decision(piece)).content.decode()
    with pytest.raises(NotDone):
        decide_on_piece(example=piece, moderator=society.mo, decision="declined", reason="x", sending=1)
    assert not ExampleDecision.objects.exists()
    assert not Notice.objects.filter(piece__isnull=True).exists()

    client.force_login(society.mia)
    assert client.post(address(piece), decision(piece)).status_code == 302


def test_the_second_moderator_is_told_and_nothing_is_written_twice(client, society):
    piece = claimed(society, society.new, closure="zip")
    form = decision(piece)
    decide_on_piece(example=piece, moderator=society.mia, decision="returned", reason="look again", sending=1)
    client.force_login(society.mo)

    page = client.post(address(piece), form).content.decode()

    assert "Look again before you decide" in page
    assert "look again" in page
    assert list(ExampleDecision.objects.values_list("decision", flat=True)) == ["returned"]
    assert Notice.objects.filter(piece__isnull=True).count() == 1


def test_a_decision_is_undone_by_a_newer_one_and_both_stay_readable(client, society):
    for state in ("accepted", "returned", "declined"):
        piece = in_state(society, state, closure="zip")
        client.force_login(society.mia)

        answer = client.post(f"{address(piece)}open-again/", {"reason": "too hasty"})

        assert answer.url == address(piece)
        piece.refresh_from_db()
        assert (piece.state, piece.held_as, piece.times_sent) == ("submitted", None, 2)
        assert list(piece.decisions.values_list("decision", flat=True)) == [state, "reopened"]
        assert "too hasty" in client.get(address(piece)).content.decode()
    assert counted("SMK-61") == {}


def test_a_piece_that_waits_is_not_opened_again(society):
    with pytest.raises(NotDone):
        open_again(example=sent(society), moderator=society.mo, reason="x")


def test_an_unknown_version_and_another_type_are_refused_in_words(client, society):
    piece = claimed(society, society.new)
    client.force_login(society.mo)

    for version in ("NOPE", ""):
        assert client.post(address(piece), decision(piece, version=version)).status_code == 200
    assert not ExampleDecision.objects.exists()


def test_the_list_says_once_that_nobody_says_which_version_a_piece_is(client, society):
    sent(society, closure="zip")
    client.force_login(society.mo)
    page = client.get(QUEUE).content.decode()

    assert page.lower().count("nobody says which version it is") == 1


def test_owner_and_moderators_write_to_each_other_and_the_other_side_is_told(client, society):
    piece = in_state(society, "returned", closure="zip")
    token = uuid4()

    for _ in range(2):  # a second tap is the same word
        client.force_login(society.ada)
        answer = client.post(f"/my/notices/{piece.code}/", {"text": "The zip is the first one.", "token": token})
        assert answer.status_code == 302

    assert PieceWord.objects.count() == 1
    assert [one.member for one in Notice.objects.filter(piece__isnull=True)] == [society.mo]
    client.force_login(society.mo)
    assert "The zip is the first one." in client.get(address(piece)).content.decode()
    write_word(example=piece, by=society.mo, text="Thank you", token=uuid4())
    assert Notice.objects.filter(member=society.ada).count() == 1


def test_a_stranger_neither_reads_nor_writes_in_a_thread(client, society):
    piece = in_state(society, "returned")
    client.force_login(society.ben)

    assert client.get(f"/my/notices/{piece.code}/").status_code == 404
    assert client.post(f"/my/notices/{piece.code}/", {"text": "x", "token": uuid4()}).status_code == 404
    with pytest.raises(NotDone):
        write_word(example=piece, by=society.ben, text="x", token=uuid4())
    assert not PieceWord.objects.exists()


def test_who_wants_it_is_told_by_mail_too_which_names_the_piece_and_not_the_reason(
    client, society, mailoutbox, django_capture_on_commit_callbacks
):
    first, second = claimed(society, society.new), claimed(society, society.new, society.ben)
    client.force_login(society.ada)
    client.post("/my/notices/by-mail/", {"wanted": "at_once"})

    with django_capture_on_commit_callbacks(execute=True):
        for piece in (first, second):
            decide_on_piece(example=piece, moderator=society.mo, decision="declined", reason="a secret", sending=1)

    assert [mail.to for mail in mailoutbox] == [["ada@example.org"]]
    assert first.code in mailoutbox[0].subject
    assert "a secret" not in mailoutbox[0].body
    client.post("/my/notices/by-mail/", {"wanted": ""})
    with django_capture_on_commit_callbacks(execute=True):
        open_again(example=first, moderator=society.mo, reason="x")
    assert len(mailoutbox) == 1


def test_notices_that_were_read_are_new_no_longer_and_only_ones_own_are(client, society):
    for owner in (society.ada, society.ben):
        in_queue = claimed(society, society.new, owner)
        decide_on_piece(example=in_queue, moderator=society.mo, decision="declined", reason="x", sending=1)
    client.force_login(society.ada)
    assert "New." in client.get("/my/").content.decode()

    client.post("/my/notices/read/")

    assert "New." not in client.get("/my/").content.decode()
    assert list(Notice.objects.filter(read_at__isnull=True).values_list("member__username", flat=True)) == ["Ben"]


def test_a_members_own_page_lists_their_pieces(client, society):
    piece = sent(society)
    client.force_login(society.ada)

    assert piece.code in client.get("/my/").content.decode()
