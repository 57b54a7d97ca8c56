"""A moderator who is away: who stands in, what they decide, what they do not, and who is told."""

from datetime import timedelta

import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from catalogue.accounts.actions import leave_society
from catalogue.review.deputies.actions import come_back, go_on_leave
from catalogue.review.deputies.standing_in import may_decide
from catalogue.review.deputies.urls import urlpatterns
from catalogue.review.models import Decision, Leave, Notice, Proposal
from catalogue.review.proposals.actions import NotDone, write_word_on_proposal
from tests.catalogue.member_examples import pieces
from tests.catalogue.review.proposing import cell, decide, make_society, revoke, sent
from tests.making import make_member

ZIP = {"feature:closure": [cell("zip")]}
TODAY = timezone.localdate()


@pytest.fixture
def society(db):
    return make_society()


def away(moderator, deputy, first: int = -1, last: int = 7) -> Leave:
    """On leave from so many days before or after today to so many after."""
    begins, ends = (timezone.localdate() + timedelta(days=one) for one in (first, last))
    return go_on_leave(moderator=moderator, deputy=deputy, begins=begins, ends=ends)


# ---- deciding


def test_a_deputy_decides_in_the_place_of_who_is_away_and_the_decision_says_so(society):
    away(society.mia, society.sue)
    proposal = sent(society.ada, society.one, ZIP)
    decide(proposal, society.mo)

    made = decide(proposal, society.sue)

    assert (made.kind, made.by, made.in_place_of) == ("approved", society.sue, society.mia)
    assert made.decider == "Sue in the place of Mia"
    assert revoke(proposal, society.sue).in_place_of == society.mia


def test_without_a_leave_or_before_and_after_it_the_same_person_decides_nothing(society):
    proposal = sent(society.ben, society.one, {"name": "Smock, 1961"})
    for first, last in ((1, 5), (0, 0)):
        away(society.mia, society.sue, first, last)
        Leave.objects.filter(begins=timezone.localdate()).update(
            begins=timezone.localdate() - timedelta(days=9), ends=timezone.localdate() - timedelta(days=1)
        )
        with pytest.raises(NotDone, match="Only moderators decide"):
            decide(proposal, society.sue)
    assert not Decision.objects.exists()


def test_a_deputy_never_decides_on_their_own_proposal_nor_on_that_of_who_is_away(society):
    away(society.mia, society.ada)
    with pytest.raises(NotDone, match="somebody else than its author"):
        decide(sent(society.ada, society.one, ZIP), society.ada)
    with pytest.raises(NotDone, match="You stand in for Mia, whose proposal this is"):
        decide(sent(society.mia, society.other, ZIP), society.ada)


def test_a_deputy_and_who_is_away_count_as_one_person_whoever_comes_first(society):
    away(society.mia, society.sue)
    first, second = sent(society.ada, society.one, ZIP), sent(society.ada, society.other, ZIP)
    decide(first, society.mia)
    with pytest.raises(NotDone, match="Mia has agreed already, and you stand in for them"):
        decide(first, society.sue)
    decide(second, society.sue)
    with pytest.raises(NotDone, match="or somebody in your place"):
        decide(second, society.mia)

    assert [one.state for one in Proposal.objects.order_by("pk")] == ["open", "open"]


def test_who_stands_in_for_two_is_still_one_person(society):
    away(society.mia, society.sue)
    away(society.max, society.sue)
    proposal = sent(society.ada, society.one, ZIP)
    decide(proposal, society.sue)

    with pytest.raises(NotDone, match="You have agreed already"):
        decide(proposal, society.sue)


def test_a_moderator_who_stands_in_decides_in_their_own_place_once(society):
    away(society.mia, society.mo)
    proposal = sent(society.ada, society.one, ZIP)

    assert decide(proposal, society.mo).in_place_of is None
    with pytest.raises(NotDone, match="You have agreed already"):
        decide(proposal, society.mo)


def test_accounts_of_one_mailbox_are_one_person_for_deputies_too(society):
    ada_too = make_member("Ada Too", role="author", email="ada+two@example.org")
    society.ada.email = "Ada@example.org"
    society.ada.save()
    away(society.mia, ada_too)
    with pytest.raises(NotDone, match="same e-mail address as the author"):
        decide(sent(society.ada, society.one, ZIP), ada_too)

    mo_too = make_member("Mo Too", role="author", email=society.mo.email.replace("@", "+x@"))
    with pytest.raises(NotDone, match="A deputy is somebody else"):
        away(society.mo, mo_too)


def test_the_database_itself_refuses_a_place_taken_twice_and_a_deputy_of_oneself(society):
    proposal = sent(society.ada, society.one, ZIP)
    row = {"proposal": proposal, "kind": "agreed", "sending": 1, "reason": "x", "in_place_of": society.mia}
    Decision.objects.create(by=society.sue, **row)
    for by in (society.ben, society.mia):
        with pytest.raises(IntegrityError), transaction.atomic():
            Decision.objects.create(by=by, **row)
    with pytest.raises(IntegrityError), transaction.atomic():
        Decision.objects.filter(by=society.sue).update(reason="y")
    with pytest.raises(IntegrityError), transaction.atomic():
        Leave.objects.create(moderator=society.mia, deputy=society.mia, begins=TODAY, ends=TODAY)


def test_where_the_society_asks_a_second_factor_a_deputy_needs_one(society, settings):
    away(society.mia, society.sue)
    assert may_decide(society.sue)
    settings.SECOND_FACTOR = "required"

    assert not may_decide(type(society.sue).objects.get(pk=society.sue.pk))


# ---- going and coming back


@pytest.mark.parametrize(
    ("who", "deputy", "days", "words"),
    [
        ("ada", "sue", (0, 5), "Only moderators name a deputy"),
        ("mia", "mia", (0, 5), "A deputy is somebody else"),
        ("mia", "ben", (0, 5), "An author, a moderator or the secretary"),
        ("mia", "sue", (5, 4), "lies before the first"),
        ("mia", "sue", (-5, -1), "has gone by"),
        ("mia", "sue", (0, 366), "a year at most"),
        ("mia", "mo", (0, 5), "Your deputy is away in that time too"),
    ],
)
def test_a_leave_that_cannot_be_is_refused_in_words(society, who, deputy, days, words):
    away(society.mo, society.sue, 5, 9)

    with pytest.raises(NotDone, match=words):
        away(getattr(society, who), getattr(society, deputy), *days)
    assert Leave.objects.count() == 1


def test_a_leave_is_set_changed_and_ended_on_ones_own_page(society, client):
    client.force_login(society.mia)
    day = timezone.localdate().isoformat()
    assert "Name who stands in" in client.get("/my/").content.decode()
    wrong = client.post("/my/away/", {"deputy": society.sue.pk, "begins": "soon", "ends": day}).content.decode()
    assert "Write the day as 2026-05-14." in wrong
    assert 'value="soon"' in wrong
    for deputy in (society.sue, society.ada):
        sent_form = {"deputy": deputy.pk, "begins": day, "ends": day}
        page = client.post("/my/away/", sent_form, follow=True).content.decode()
        assert f"<strong>{deputy.username}</strong> stands in for you" in page
    assert Leave.objects.get(moderator=society.mia).deputy == society.ada
    # Who was to stand in first is told no more of it, who stands in now is.
    assert list(Notice.objects.values_list("member__username", flat=True)) == ["Ada"]

    client.force_login(society.ada)
    assert "You stand in for <strong>Mia</strong>" in client.get("/my/").content.decode()
    client.force_login(society.mia)
    assert "Nobody stands in for you any more" in client.post("/my/away/back/", follow=True).content.decode()
    with pytest.raises(NotDone, match="You are not on leave"):
        come_back(moderator=society.mia)


SIGN_IN, OK, NO, METHOD = 302, 200, 403, 405
TABLE = {
    "away": ("/my/away/", (SIGN_IN, NO, NO, NO, OK)),
    "back": ("/my/away/back/", (METHOD,) * 5),
}


@pytest.mark.parametrize("name", TABLE)
def test_every_address_is_open_to_moderators_only(society, client, name):
    address, expected = TABLE[name]
    found = []
    for person in (None, society.ben, society.ada, society.sue, society.mia):
        client.logout()
        if person:
            client.force_login(person)
        found.append(client.get(address).status_code)

    assert tuple(found) == expected
    assert {pattern.name for pattern in urlpatterns} == set(TABLE)


def test_a_leave_goes_with_either_of_the_two_when_they_leave_society(society):
    away(society.mia, society.sue)
    away(society.max, society.ada)
    leave_society(member=society.mia, now=timezone.now())
    leave_society(member=society.ada, now=timezone.now())

    assert not Leave.objects.exists()


# ---- who is told, and what pages say


def test_a_deputy_is_told_what_who_is_away_would_be_told_of_a_proposal(society):
    proposal = sent(society.ben, society.one, {"name": "Smock, 1961"})
    decide(proposal, society.mia, "returned", "On how many?")
    away(society.mia, society.sue)
    Notice.objects.all().delete()
    write_word_on_proposal(proposal=proposal, by=society.ben, text="On three.", token="0" * 31 + "1")

    assert set(Notice.objects.values_list("member__username", flat=True)) == {"Mia", "Sue"}


def test_a_word_about_a_piece_goes_to_a_deputy_who_may_open_it_and_to_no_other(db):
    from catalogue.review.examples_queue.actions import decide_on_piece, write_word

    society = pieces.make_society()
    piece = pieces.sent(society, closure="zip")
    decide_on_piece(example=piece, moderator=society.mo, decision="returned", reason="Which year?", sending=1)
    for deputy, told in ((make_member("Ann", role="author"), {"Mo"}), (society.mia, {"Mo", "Mia"})):
        away(society.mo, deputy)
        Notice.objects.all().delete()
        write_word(example=piece, by=society.ada, text="1966.", token=f"{len(told):032d}")
        assert set(Notice.objects.values_list("member__username", flat=True)) == told


def test_lists_say_who_is_away_and_how_long_each_proposal_waits_the_oldest_first(society, client):
    old, new = sent(society.ada, society.one, ZIP), sent(society.ben, society.other, {"note": "x"})
    Proposal.objects.filter(pk=old.pk).update(sent_at=timezone.now() - timedelta(days=75))
    Proposal.objects.filter(pk=new.pk).update(sent_at=timezone.now() - timedelta(days=12))
    away(society.mia, society.sue)
    client.force_login(society.mo)
    page = client.get("/proposals/").content.decode()

    assert "<strong>Mia is away</strong> until" in page
    assert "<strong>Sue stands in</strong>" in page
    assert page.index("<strong>waiting 75 days: too long</strong>") < page.index("waiting 12 days")
    assert "waiting 12 days: too long" not in page
    assert "waiting 75 days: too long" in client.get(f"/proposals/{old.pk}/").content.decode()
    assert "for proposals only" in client.get("/pieces-that-wait/").content.decode()
    for person, decides in ((society.mo, True), (society.sue, True), (society.ben, False)):
        client.force_login(person)
        mine = client.get("/my/").content.decode()
        assert ("the oldest <strong>waiting 75 days: too long</strong>" in mine) == decides


def test_a_deputy_decides_on_the_page_and_members_still_cannot(society, client):
    proposal = sent(society.ada, society.one, ZIP)
    form = {"decision": "approved", "reason": "Seen.", "sending": 1}
    client.force_login(society.sue)
    assert client.post(f"/proposals/{proposal.pk}/", form).status_code == 403
    away(society.mia, society.sue)
    assert "You stand in for Mia." in client.get(f"/proposals/{proposal.pk}/").content.decode()

    page = client.post(f"/proposals/{proposal.pk}/", form, follow=True).content.decode()

    assert "Sue in the place of Mia" in page
    client.force_login(society.ben)
    assert client.post(f"/proposals/{proposal.pk}/", form).status_code == 403
