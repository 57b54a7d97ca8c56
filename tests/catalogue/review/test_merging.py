"""Two versions become one by proposal: what is written, which pieces follow, what is refused, and how it is undone."""

import re
from html import unescape

import pytest
from django.db import IntegrityError, connection, transaction
from django.test.utils import CaptureQueriesContext

from catalogue.member_examples.actions import accept_example, add_attribution
from catalogue.member_examples.models import Example, ExampleDecision
from catalogue.member_examples.taken_for import read_anew
from catalogue.reference.models import Source
from catalogue.reference.snapshots import forget_everything, type_facts
from catalogue.review.examples_queue.actions import keep_as_something_else
from catalogue.review.examples_queue.doubts import keep_as_it_is, open_doubts
from catalogue.review.models import FurtherRecord, Notice, Proposal
from catalogue.review.proposals.actions import NotDone, begin_merge, save_draft, send_proposal, settle_clashes
from catalogue.review.proposals.merged import cells_of_both, date_of_both
from catalogue.review.proposals.standing import rows_of_version
from catalogue.review.records.verifying import faults
from tests.catalogue.member_examples import pieces
from tests.catalogue.review.proposing import cell, decide, make_society, merge_sent, piece_of, revoke, sent
from tests.forms import Sent
from tests.making import make_member, make_type, make_version
from tests.reading import text


@pytest.fixture
def society(db):
    return make_society()


def words(client, address: str) -> str:
    """What stands on the page, as it is read."""
    return " ".join(re.sub(r"<[^>]+>", " ", text(client, address)).split())


def merged(society, rows=None):
    """SMK-76 became part of SMK-61."""
    proposal = merge_sent(society, rows)
    decide(proposal, society.mo)
    decide(proposal, society.mia)
    forget_everything()
    return proposal


def standing(example) -> list[str]:
    """Versions that the society held a piece to be, the last one standing."""
    return list(example.attributions.filter(by="society").order_by("pk").values_list("version__code", flat=True))


# ---- addresses


def test_the_drawing_of_a_version_that_was_merged_still_answers_as_its_last_record_says(society, client):
    before = client.get("/figures/SMK-76/front.svg").content
    merged(society)
    response = client.get("/figures/SMK-76/front.svg")

    assert before.startswith(b"<svg")
    assert (response.status_code, response.content) == (200, before)
    assert client.get("/figures/SMK-75/front.svg").status_code == 404


# ---- what a merge begins with


def test_the_draft_begins_with_every_state_name_and_source_of_both(society):
    society.other.citations.create(source=Source.objects.get(code="S2"), stance="supports")
    society.other.other_names.create(name="late smock", used_by="members")
    society.other.date = "1976/1981"
    society.other.save()

    rows = begin_merge(by=society.ada, stays=society.one, goes=society.other).rows

    assert rows == {
        "other_names": ["Smock 76", "late smock"],
        "date": "1961/1981",
        "sources": ["S2"],
        "feature:cuff": [cell("tab", how_often="sometimes"), cell("plain", how_often="sometimes")],
    }


@pytest.mark.parametrize(
    ("one", "other", "both"),
    [
        ("1961/1975", "1970/1981", "1961/1981"),
        ("1961/1975", "1963/1970", "1961/1975"),
        ("1961/1975", "", "1961/1975"),
        ("", "1970", "1970"),
        ("1961/..", "1970/1981", "1961/.."),
        ("1961~", "1961~", "1961~"),
    ],
)
def test_the_dates_of_both_are_covered_where_they_are_known(one, other, both):
    assert date_of_both(one, other) == both


def test_what_was_always_so_on_one_alone_is_no_longer():
    both = cells_of_both([cell("tab")], [cell("tab", how_often="usually"), cell("plain", how_often="seldom")])

    assert {one["state"]: one["how_often"] for one in both} == {"tab": "usually", "plain": "seldom"}
    assert cells_of_both([], [cell("tab")]) == [cell("tab")]


@pytest.mark.parametrize(
    ("one", "other", "both"),
    [
        ({}, {"certainty": "documented", "sources": ["S1"]}, {"certainty": "documented", "sources": ["S1"]}),
        ({"sources": ["S2"]}, {"sources": ["S1", "S2"]}, {"sources": ["S2", "S1"]}),
        ({"certainty": "inferred"}, {"certainty": "observed"}, {"certainty": "observed"}),
        ({"certainty": "documented"}, {"certainty": "observed"}, {"certainty": "documented"}),
        ({"note": "On the sheet."}, {"note": "Seen on two."}, {"note": "On the sheet. Seen on two."}),
        ({}, {"note": "Seen on two."}, {"note": "Seen on two."}),
    ],
)
def test_what_a_state_rests_on_in_either_record_it_rests_on_in_the_merged_one(one, other, both):
    assert cells_of_both([cell("tab", **one)], [cell("tab", **other)]) == [cell("tab", **both)]
    apart = cells_of_both([cell("tab", **one)], [cell("tab", **other), cell("plain", sources=["S1"])])
    assert apart[0] == cell("tab", how_often="usually", **both)
    assert apart[1] == cell("plain", how_often="sometimes", sources=["S1"])


def test_one_that_continued_the_other_continues_what_that_did(society):
    first = make_version(society.home, "SMK-52", {}, name="Smock 52")
    society.one.ancestors.create(ancestor=first, role="continues")
    society.other.ancestors.create(ancestor=society.one, role="continues")

    assert begin_merge(by=society.ada, stays=society.other, goes=society.one).rows["continues"] == ["SMK-52"]


# ---- approving


def test_two_moderators_merge_and_all_of_it_is_written_at_once(society):
    follows = piece_of(society, society.other, cuff="plain")
    proposal = merge_sent(society)
    decide(proposal, society.mo)
    assert FurtherRecord.objects.count() == 0
    assert standing(follows) == ["SMK-76"]

    made = decide(proposal, society.mia)

    stays, goes = rows_of_version(society.one), rows_of_version(society.other)
    assert [c["state"] for c in stays["feature:cuff"]] == ["tab", "plain"]
    assert (goes["retired"], goes["became"]) == (proposal.grounds, ["SMK-61"])
    further = FurtherRecord.objects.get()
    assert (further.decision, further.record.version) == (made, society.other)
    assert (further.before["retired"], further.after["became"]) == ("", ["SMK-61"])
    assert {r.standing for r in (made.record, further.record)} == {"approved"}
    assert all(r.seal for r in (made.record, further.record))
    assert list(faults()) == []
    # The piece followed with a dated note; what it was held to be stays readable.
    follows.refresh_from_db()
    assert (follows.held_as, standing(follows)) == (society.one, ["SMK-76", "SMK-61"])
    note = follows.attributions.last()
    assert note.grounds.startswith(f"SMK-76 was merged into SMK-61: proposal {proposal.pk}.")
    assert follows.decisions.last().decision == "attributed_anew"
    assert Notice.objects.filter(member=society.ben, decision=follows.decisions.last()).count() == 1
    assert list(open_doubts()) == []


def test_the_old_address_says_what_became_of_it_and_leads_on(society, client):
    society.other.stock_numbers.create(number="27-114-06")
    merged(society)

    page = client.get("/issue-versions/SMK-76/")
    assert page.status_code == 200
    assert "Retired: merged into Smock 61 SMK-61" in words(client, "/issue-versions/SMK-76/")
    assert 'href="/issue-versions/SMK-61/"' in page.content.decode()
    history = words(client, "/issue-versions/SMK-76/history/")
    assert "Became: SMK-61 (before: nothing)" in history
    assert "decided by Mo and Mia, proposal" in history
    assert client.get("/issue-versions/SMK-76/history/1/").status_code == 200
    assert client.get("/mistaken-for/SMK-76/")["Location"] == "/issue-versions/SMK-76/"
    assert list(type_facts("SMK").versions) == ["SMK-61"]
    assert [number.note for number in type_facts("SMK").versions["SMK-61"].stock_numbers] == ["of SMK-76"]
    for asked in ("SMK-76", "27 114 06"):
        assert "/issue-versions/SMK-61/" in text(client, f"/search/?q={asked}")
    assert [one.code for one in type_facts("SMK").in_force("SMK-76")] == ["SMK-61"]


def test_pieces_that_contradict_the_merged_record_wait_as_doubtful(society, client):
    narrow = {"feature:cuff": [cell("tab")]}
    agrees = piece_of(society, society.one, cuff="tab")
    stood_against_it_before = piece_of(society, society.one, cuff="plain")
    contradicts = piece_of(society, society.other, cuff="plain")
    unseen = piece_of(society, society.other, closure="buttons")
    own = piece_of(society, society.other, owner=society.max, cuff="plain")
    merged(society, narrow)

    assert [one.example for one in open_doubts().order_by("pk")] == [contradicts, own]
    assert "Feature cuff: Plain" in open_doubts().first().doubt
    for piece in (agrees, stood_against_it_before, unseen, contradicts):
        piece.refresh_from_db()
        assert piece.held_as == society.one
    client.force_login(society.mo)
    listed = words(client, "/pieces-that-wait/?state=doubtful")
    assert contradicts.code in listed
    assert agrees.code not in listed
    assert "Feature cuff: Plain" in listed
    address = f"/pieces-that-wait/{contradicts.code}/"
    assert "It is doubtful" in words(client, address)
    empty = client.post(f"{address}keep/", {"reason": "", "believed": "SMK-61"})
    stale = client.post(f"{address}keep/", {"reason": "A cuff of SMK-61.", "believed": "SMK-76"}).content.decode()
    assert (empty.status_code, "fault" in empty.content.decode()) == (200, True)
    assert "A cuff of SMK-61.</textarea>" in stale
    assert open_doubts().count() == 2
    client.post(f"{address}keep/", {"reason": "The cuff was replaced.", "believed": "SMK-61"})

    assert [one.example for one in open_doubts()] == [own]
    assert standing(contradicts) == ["SMK-76", "SMK-61", "SMK-61"]
    stays = contradicts.decisions.last()
    assert (stays.held_as, stays.reason) == (society.one, "The cuff was replaced.")
    assert Notice.objects.filter(member=contradicts.owner, decision=stays).count() == 1
    with pytest.raises(NotDone, match="needs a reason"):
        keep_as_it_is(example=own, moderator=society.mo, reason=" ", believed="SMK-61")
    with pytest.raises(NotDone, match="Nothing about it is doubtful"):
        keep_as_it_is(example=contradicts, moderator=society.mo, reason="again", believed="SMK-61")
    with pytest.raises(NotDone, match="other than its owner"):
        keep_as_it_is(example=own, moderator=society.max, reason="mine", believed="SMK-61")
    own.refresh_from_db()
    keep_as_something_else(
        example=own, moderator=society.mo, reason="None.", held_as=None, held="not_in_reference", believed="SMK-61"
    )
    assert list(open_doubts()) == []


def test_a_piece_of_a_moderator_follows_by_the_other_one(society):
    own = piece_of(society, society.other, owner=society.mia, cuff="plain")
    merged(society)

    assert own.decisions.last().moderator == society.mo


def test_a_merged_version_takes_no_piece_any_more(society):
    waiting = pieces.draft(society, society.ben, cuff="plain")
    waiting = pieces.submit_example(example=waiting, member=society.ben, token="6ecd8c99-4036-403d-bf84-cf8400f67836")
    merged(society)

    with pytest.raises(NotDone, match="no version any more"):
        accept_example(example=waiting, moderator=society.mo, reason="it is", sending=1, held_as=society.other)


def test_a_comparison_takes_what_a_merged_version_became(client, society):
    """The address was public, with the version that went."""
    third = make_version(society.home, "SMK-90", {})
    merged(society)

    page = words(client, f"/compare/?v=SMK-76&v={third.code}")
    assert "SMK-76 is no version any more. In its place stands SMK-61 , which is taken." in page
    assert "SMK-61 and SMK-90 compared" in page
    assert "There is no version" not in page


# ---- refused in words


def test_the_second_of_two_merges_that_make_a_circle_is_refused_as_one(society):
    """Both were sound when they were sent, each decision is the other's undoing."""
    back = begin_merge(by=society.ada, stays=society.other, goes=society.one)
    back = save_draft(
        proposal=back, by=society.ada, revision=0, wanted={**back.base, **back.rows}, grounds="One.", sources=[]
    )
    back = send_proposal(proposal=back, by=society.ada)
    merged(society)

    with pytest.raises(NotDone, match="SMK-76 itself became SMK-61: this would be a circle"):
        decide(back, society.mo)


def test_a_merge_with_itself_of_another_type_or_in_a_circle_is_refused(society):
    elsewhere = make_version(make_type("CAP"), "CAP-61", {})
    with pytest.raises(NotDone, match="not merged with itself"):
        begin_merge(by=society.ada, stays=society.one, goes=society.one)
    with pytest.raises(NotDone, match="one garment type"):
        begin_merge(by=society.ada, stays=society.one, goes=elsewhere)
    with pytest.raises(NotDone, match="proposed by authors"):
        begin_merge(by=society.ben, stays=society.one, goes=society.other)
    third = make_version(society.home, "SMK-90", {})
    late = begin_merge(by=society.ada, stays=society.other, goes=third)
    late = save_draft(
        proposal=late, by=society.ada, revision=0, wanted={**late.base, **late.rows}, grounds="One.", sources=[]
    )
    late = send_proposal(proposal=late, by=society.ada)
    merged(society)

    with pytest.raises(NotDone, match="SMK-76 itself became SMK-61: this would be a circle"):
        begin_merge(by=society.ada, stays=society.other, goes=society.one)
    with pytest.raises(NotDone, match="SMK-76 is retired already"):
        decide(late, society.mo)
    assert Proposal.objects.count() == 2
    with pytest.raises(IntegrityError), transaction.atomic():
        society.one.successors.create(successor=society.one)
    with pytest.raises(IntegrityError), transaction.atomic():
        Proposal.objects.filter(pk=late.pk).update(other=society.other)
    with pytest.raises(IntegrityError), transaction.atomic():
        FurtherRecord.objects.update(after={})


def test_what_was_changed_of_the_one_that_goes_is_looked_at_again(society):
    proposal = merge_sent(society)
    decide(proposal, society.mo)
    decide(sent(society.ben, society.other, {"note": "Seen twice."}), society.mo)

    with pytest.raises(NotDone, match="that goes was changed"):
        decide(proposal, society.mia)
    proposal.refresh_from_db()
    settled = settle_clashes(proposal=proposal, by=society.mia, choices={}, revision=proposal.revision)
    assert settled.other_base["note"] == "Seen twice."
    assert decide(settled, society.mia).kind == "agreed"
    assert decide(settled, society.max).kind == "approved"


# ---- revoking


def test_a_revoked_merge_brings_the_version_and_its_pieces_back(society, client):
    follows = piece_of(society, society.other, cuff="plain")
    decided_since = piece_of(society, society.other, cuff="plain")
    proposal = merged(society)
    decided_since.refresh_from_db()
    keep_as_something_else(
        example=decided_since, moderator=society.mo, reason="It is none.", held_as=None, held="not_in_reference",
        believed="SMK-61",
    )  # fmt: skip
    come_since = piece_of(society, society.one, cuff="plain")

    assert revoke(proposal, society.max).kind == "undo_agreed"
    made = revoke(proposal, society.mo)
    forget_everything()

    society.other.refresh_from_db()
    assert (society.other.retired_why, society.other.successors.count()) == ("", 0)
    assert [c["state"] for c in rows_of_version(society.one)["feature:cuff"]] == ["tab"]
    for piece in (follows, decided_since, come_since):
        piece.refresh_from_db()
    assert (follows.held_as, decided_since.held_as, come_since.held_as) == (society.other, None, society.one)
    assert standing(follows) == ["SMK-76", "SMK-61", "SMK-76"]
    # What came since was accepted by the wider record, which the older one contradicts.
    assert [one.example for one in open_doubts()] == [come_since]
    assert made.further.get().after == {"retired": "", "became": []}
    assert list(faults()) == []
    assert client.get("/issue-versions/SMK-76/").status_code == 200
    assert list(type_facts("SMK").versions) == ["SMK-61", "SMK-76"]


def test_a_merge_is_not_revoked_once_the_one_that_stayed_went_on(society):
    third = make_version(society.home, "SMK-90", {}, name="Smock 90")
    proposal = merged(society)
    later = begin_merge(by=society.ada, stays=third, goes=society.one)
    later = save_draft(
        proposal=later, by=society.ada, revision=0, wanted={**later.base, **later.rows}, grounds="One.", sources=[]
    )
    later = send_proposal(proposal=later, by=society.ada)
    decide(later, society.mo)
    decide(later, society.mia)
    forget_everything()

    assert [one.code for one in type_facts("SMK").in_force("SMK-76")] == ["SMK-90"]
    with pytest.raises(NotDone, match="SMK-61 was retired since: revoke that first"):
        revoke(proposal, society.mo)


def test_a_merge_and_its_revoking_are_nobodys_mistaking_one_version_for_the_other(society):
    """A member once took a piece of SMK-76 for SMK-61; that the society moved others there and back is no such view."""
    moved, mistaken = piece_of(society, society.other, cuff="plain"), piece_of(society, society.one, cuff="plain")
    add_attribution(example=mistaken, member=society.ben, version=society.one, grounds="Its cuff.")
    keep_as_something_else(
        example=mistaken, moderator=society.mo, reason="The cuff.", held_as=society.other, held="", believed="SMK-61"
    )
    proposal = merged(society)
    revoke(proposal, society.max)
    revoke(proposal, society.mo)
    moved.refresh_from_db()

    assert standing(moved) == ["SMK-76", "SMK-61", "SMK-76"]
    assert read_anew().wrongly == {"SMK-76": {"SMK-61": (mistaken.code,)}}


# ---- the pages


def test_an_author_merges_on_the_pages_and_both_records_stand_beside_the_merged_one(society, client):
    doubtful = piece_of(society, society.other, cuff="plain")
    client.force_login(society.ada)
    assert "/proposals/merge/?version=SMK-76" in client.get("/proposals/new/?version=SMK-76").content.decode()
    chosen = client.get("/proposals/merge/?version=SMK-76")
    assert "SMK-76" not in [value for value, _ in chosen.context["form"].fields["other"].choices]
    refused = client.post("/proposals/merge/?version=SMK-76", {"other": "SMK-76", "stays": "this"})
    assert "A version is not merged with itself: choose another." in refused.content.decode()
    begun = client.post("/proposals/merge/?version=SMK-76", {"other": "SMK-61", "stays": "other"})
    proposal = Proposal.objects.get()
    assert begun.url == f"/proposals/{proposal.pk}/edit/"
    page = words(client, begun.url)
    assert "Today, SMK-61:" in page
    assert "Today, SMK-76:" in page
    fields = Sent(client.get(begun.url).content.decode()).sent | {"grounds": "The same contract.", "to_page": "1"}
    assert client.post(begun.url, fields).status_code == 302
    assert "Today, SMK-76:" in words(client, f"/proposals/{proposal.pk}/edit/profile/")
    client.post(f"/proposals/{proposal.pk}/send/")

    page = words(client, f"/proposals/{proposal.pk}/")
    assert "Merge SMK-76 into SMK-61: Smock 61" in page
    assert "SMK-61, today Tab (always) SMK-76, today Plain (always) Merged" in page
    assert "1 piece of SMK-76 would follow" in page
    client.force_login(society.mo)
    for who in (society.mo, society.mia):
        client.force_login(who)
        client.post(f"/proposals/{proposal.pk}/", {"decision": "approved", "reason": "Yes.", "sending": 1})
    page = words(client, f"/proposals/{proposal.pk}/")
    assert "1 piece of SMK-76 followed" in page
    assert Example.objects.get(pk=doubtful.pk).held_as == society.one
    assert ExampleDecision.objects.filter(example=doubtful).count() == 2


def test_a_large_merge_asks_the_database_no_more_for_its_page(society, client):
    owner = make_member("Owen")
    proposal = merge_sent(society)
    client.force_login(society.mo)
    address = f"/proposals/{proposal.pk}/"
    client.get(address)
    few = queries_of(client, address)
    for _ in range(6):
        piece_of(society, society.other, owner=owner, cuff="plain")
    forget_everything()
    client.get(address)

    assert 0 < queries_of(client, address) <= few


def queries_of(client, address: str) -> int:
    with CaptureQueriesContext(connection) as asked:
        assert client.get(address).status_code == 200
    return len(asked)


@pytest.mark.parametrize(
    ("other", "words_said"),
    [
        ("SMK-61", "A version is not merged with itself: choose another."),
        ("CAP-1", "Only versions of one garment type are merged."),
        ("SMK-70", "SMK-70 is retired already"),
        ("<b>", "There is no version “<b>”."),
        ("", "Choose the other version."),
    ],
)
def test_a_merge_that_cannot_be_is_refused_in_words_as_soon_as_it_is_asked_for(society, client, other, words_said):
    make_version(make_type("CAP"), "CAP-1", {})
    make_version(society.home, "SMK-70", {}, retired_why="A misreading.")
    client.force_login(society.ada)

    answer = client.post("/proposals/merge/?version=SMK-61", {"other": other, "stays": "this"})

    page = answer.content.decode()
    assert words_said in unescape(page)
    assert "<b>" not in page
    assert not Proposal.objects.exists()


@pytest.mark.parametrize("what", ["merge", "split"])
def test_a_retired_version_is_not_offered_a_merge_nor_a_split(society, client, what):
    make_version(society.home, "SMK-70", {}, retired_why="A misreading.")
    client.force_login(society.ada)

    answer = client.get(f"/proposals/{what}/?version=SMK-70", follow=True)

    assert answer.redirect_chain == [("/issue-versions/SMK-70/", 302)]
    said = "merged" if what == "merge" else "split"
    assert f"SMK-70 is retired already: only versions that are in force are {said}." in answer.content.decode()


def test_who_held_a_piece_to_be_the_version_that_went_does_not_dispute_the_one_that_it_became(society, client):
    piece = piece_of(society, society.other, closure="buttons")
    Example.objects.update(sold_as="smock 76", sold_as_version=society.other)
    add_attribution(example=piece, member=society.max, version=society.other, grounds="The cuff.")
    other = piece_of(society, society.one, closure="buttons")
    add_attribution(example=other, member=society.max, version=society.other, grounds="The cuff.")
    assert f"{other.code} is held as SMK-61; Max holds it to be SMK-76" in words(client, "/health/")
    proposal = merged(society)

    assert "Max holds it to be" not in words(client, "/health/")
    assert "the society does not agree" not in words(client, f"/examples/{piece.code}/")

    for who in (society.mo, society.mia):
        revoke(proposal, who)
    forget_everything()
    shown = words(client, "/health/")
    assert f"{other.code} is held as SMK-61; Max holds it to be SMK-76" in shown
    assert f"{piece.code} is held as" not in shown
