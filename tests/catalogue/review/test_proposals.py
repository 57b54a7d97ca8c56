"""Proposals: written as data, decided by others, approved into records; refused in words, with nothing written."""

from datetime import timedelta

import pytest
from django.core import mail
from django.db import IntegrityError, connection, transaction
from django.utils import timezone

from catalogue.reference.models import Citation, IssueVersion, Maker, ProfileCell, Source, VersionRecord
from catalogue.reference.snapshots import forget_everything, type_facts
from catalogue.review.features.recording import record_features
from catalogue.review.models import Decision, DecisionSeal, MailWish, Notice, Proposal, RecordSeal
from catalogue.review.notices.actions import wish_for_mail
from catalogue.review.notices.telling import send_digests
from catalogue.review.proposals.actions import (
    NotDone,
    begin_change,
    begin_new_version,
    revoke_approval,
    save_draft,
    send_proposal,
    settle_clashes,
    withdraw_proposal,
    write_word_on_proposal,
)
from catalogue.review.proposals.rules import weight_of
from catalogue.review.proposals.standing import rows_of_version
from catalogue.review.records import refusing
from catalogue.review.records.verifying import faults
from tests.catalogue.review.proposing import cell, decide, decide_both, drafted, make_society, merge_sent, sent
from tests.catalogue.review.test_sealed_records import raw
from tests.making import Statements, make_member

ZIP = {"feature:closure": [cell("zip")]}


@pytest.fixture
def society(db):
    return make_society()


def revoke(proposal, decider):
    return revoke_approval(proposal=proposal, decider=decider, reason="It was a slip.", sending=proposal.times_sent)


# ---- approving


def test_a_misprint_needs_one_person_and_becomes_an_approved_sealed_record(society):
    before = society.one.current_record
    made = decide(sent(society.ben, society.one, {"name": "Smock, 1961"}), society.mo)

    society.one.refresh_from_db()
    assert made.kind == "approved"
    assert society.one.name == "Smock, 1961"
    assert society.one.current_record == made.record != before
    assert (made.record.standing, made.record.written_by, made.record.number) == ("approved", society.ben, 2)
    assert made.record.cells.count() == before.cells.count() == 2
    assert '"name":"Smock, 1961"' in RecordSeal.objects.get(record=made.record).body


def test_what_changes_identification_needs_two_people_beside_its_author(society):
    proposal = sent(society.ada, society.one, ZIP)
    first = decide(proposal, society.mo)

    assert (first.kind, first.record, proposal.state) == ("agreed", None, "open")
    assert rows_of_version(society.one)["feature:closure"][0]["state"] == "buttons"
    with pytest.raises(NotDone, match="You have agreed already"):
        decide(proposal, society.mo)

    second = decide(proposal, society.mia)

    assert second.kind == "approved"
    assert rows_of_version(society.one)["feature:closure"] == [cell("zip")]
    assert second.before == {"feature:closure": [cell("buttons")]}


@pytest.mark.parametrize(
    ("rows", "weight"),
    [
        ({"note": "Misprint put right."}, "small"),
        ({"other_names": ["fell smock"]}, "small"),
        ({"sources": ["S1"]}, "small"),
        ({"feature:cuff": [cell("tab", sources=["S1"])]}, "small"),
        ({"date": "1961/1974"}, "weighty"),
        ({"kind": "trial"}, "weighty"),
        ({"feature:cuff": [cell("tab", how_often="usually")]}, "weighty"),
        ({"feature:cuff": []}, "weighty"),
        ({"feature:cuff": [cell("tab", certainty="documented", sources=["S1"])]}, "weighty"),
    ],
)
def test_the_weight_follows_from_the_rows(rows, weight):
    base = {"date": "1961/1975", "kind": "issue", "sources": [], "feature:cuff": [cell("tab")]}

    assert weight_of("change", base, rows) == weight


def test_a_taken_away_citation_is_not_small():
    assert weight_of("change", {"sources": ["S1", "S2"]}, {"sources": ["S2"]}) == "weighty"


def test_a_new_version_begins_as_a_copy_and_is_there_once_two_have_approved(society):
    draft = begin_new_version(
        by=society.ada, garment_type=society.home, code="SMK-83", name="Smock 83", copy_of=society.other
    )
    draft = save_draft(
        proposal=draft, by=society.ada, revision=draft.revision, wanted=draft.rows | ZIP, grounds="A sheet.", sources=[]
    )
    draft = send_proposal(proposal=draft, by=society.ada)
    decide(draft, society.mo)
    assert not IssueVersion.objects.filter(code="SMK-83").exists()
    decide(draft, society.mia)

    version = IssueVersion.objects.get(code="SMK-83")
    rows = rows_of_version(version)
    assert rows["continues"] == ["SMK-76"]
    assert (rows["feature:closure"], rows["feature:cuff"]) == ([cell("zip")], [cell("plain")])
    forget_everything()
    assert list(type_facts("SMK").versions) == ["SMK-61", "SMK-76", "SMK-83"]


def test_what_is_copied_for_a_new_version_is_cited_by_nobody_for_it(society, client):
    grounds = {"certainty": "documented", "sources": ["S1"]}
    on_record = cell("plain", note="read on it", **grounds)
    sure = sent(society.ada, society.other, {**grounds, "feature:cuff": [on_record]})
    decide(sure, society.mo)
    decide(sure, society.mia)
    society.other.refresh_from_db()

    draft = begin_new_version(
        by=society.ada, garment_type=society.home, code="SMK-83", name="Smock 83", copy_of=society.other
    )

    assert draft.rows["feature:cuff"] == [cell("plain")]
    assert draft.rows["certainty"] == "inferred"
    draft = save_draft(
        proposal=draft, by=society.ada, revision=draft.revision, wanted=draft.rows | ZIP, grounds="A sheet.", sources=[]
    )
    draft = send_proposal(proposal=draft, by=society.ada)
    decide(draft, society.mo)
    decide(draft, society.mia)
    forget_everything()

    made = type_facts("SMK").versions["SMK-83"].cells
    assert (made["cuff"][0].grounds, made["closure"][0].grounds) == ("Carried over", "Asserted")
    assert "SMK-83" not in client.get("/sources/S1/").content.decode()


def test_a_retired_version_is_no_answer_any_more_and_its_addresses_still_answer(society, client):
    draft = begin_change(by=society.ada, version=society.other, retire=True)
    draft = save_draft(
        proposal=draft, by=society.ada, revision=0, wanted=draft.base | {"retired": "It is SMK-61, late."},
        grounds="Three pieces.", sources=[],
    )  # fmt: skip
    draft = send_proposal(proposal=draft, by=society.ada)
    decide(draft, society.mo)
    decide(draft, society.mia)
    forget_everything()

    assert list(type_facts("SMK").versions) == ["SMK-61"]
    page = client.get("/issue-versions/SMK-76/")
    assert page.status_code == 200
    assert "It is SMK-61, late." in page.content.decode()
    for address in ("/issue-versions/SMK-76/history/", "/issue-versions/SMK-76/history/1/"):
        assert client.get(address).status_code == 200
    assert client.get("/mistaken-for/SMK-76/")["Location"] == "/issue-versions/SMK-76/"
    assert "SMK-76" not in client.get("/issue-versions/").content.decode()


def test_a_change_of_a_version_that_is_retired_meanwhile_is_neither_approved_nor_sent_again(society, client):
    waiting, draft = sent(society.ada, society.other, ZIP), drafted(society.ada, society.other, {"note": "Late."})
    retired = begin_change(by=society.ada, version=society.other, retire=True)
    retired = save_draft(
        proposal=retired, by=society.ada, revision=0, wanted=retired.base | {"retired": "It is SMK-61, late."},
        grounds="Three pieces.", sources=[],
    )  # fmt: skip
    retired = send_proposal(proposal=retired, by=society.ada)
    for moderator in (society.mo, society.mia):
        decide(retired, moderator)
    client.force_login(society.mo)

    assert "is retired: what it was stays as it is" in client.get(f"/proposals/{waiting.pk}/").content.decode()
    with pytest.raises(NotDone, match="is retired"):
        decide(waiting, society.mo)
    with pytest.raises(NotDone, match="is retired"):
        send_proposal(proposal=draft, by=society.ada)
    assert decide(waiting, society.mo, "declined", "Retired meanwhile.").kind == "declined"


# ---- returning, declining, withdrawing


def test_a_returned_proposal_is_put_right_and_sent_again(society):
    proposal = sent(society.ada, society.one, ZIP)
    decide(proposal, society.mo)
    decide(proposal, society.mia, "returned", "Which label?")
    save_draft(
        proposal=proposal, by=society.ada, revision=proposal.revision, wanted=proposal.base | ZIP,
        grounds="The label of E1.", sources=["S1"],
    )  # fmt: skip
    again = send_proposal(proposal=proposal, by=society.ada)

    # What was agreed to before was another wording, so both are asked again.
    assert decide(again, society.mo).kind == "agreed"
    assert decide(again, society.mia).kind == "approved"


def test_a_declined_proposal_changes_nothing_and_stays_readable(society):
    decide(sent(society.ada, society.one, ZIP), society.mo, "declined", "The label belongs to another piece.")

    assert Proposal.objects.get().state == "declined"
    assert VersionRecord.objects.filter(version=society.one).count() == 1


def test_a_withdrawn_proposal_is_decided_by_nobody(society):
    proposal = withdraw_proposal(proposal=sent(society.ada, society.one, ZIP), by=society.ada)

    with pytest.raises(NotDone, match="withdrawn"):
        decide(proposal, society.mo)


# ---- revoking


def test_a_revoked_approval_writes_a_record_back_and_both_stay(society):
    proposal = sent(society.ada, society.one, ZIP)
    decide(proposal, society.mo)
    decide(proposal, society.mia)

    assert revoke(proposal, society.mo).kind == "undo_agreed"
    assert rows_of_version(society.one)["feature:closure"] == [cell("zip")]
    made = revoke(proposal, society.mia)

    assert rows_of_version(society.one)["feature:closure"] == [cell("buttons")]
    assert [r.number for r in society.one.records.order_by("number")] == [1, 2, 3]
    assert (made.record.number, proposal.state) == (3, "revoked")
    with pytest.raises(NotDone, match="revoked already"):
        revoke(proposal, society.max)


def test_what_was_changed_again_since_is_not_revoked(society):
    proposal = sent(society.ben, society.one, {"name": "Smock, 1961"})
    decide(proposal, society.mo)
    decide(sent(society.ben, society.one, {"name": "Fell smock"}), society.mo)

    with pytest.raises(NotDone, match="Changed again since it was approved: name"):
        revoke(proposal, society.mo)
    society.one.refresh_from_db()
    assert society.one.name == "Fell smock"


# ---- a stale base


def test_what_others_changed_meanwhile_is_settled_row_by_row_and_never_overwritten(society):
    mine = sent(society.ada, society.one, ZIP | {"date": "1961/1974"})
    theirs = sent(society.ada, society.one, {"feature:closure": [cell("none")]})
    decide(theirs, society.mo)
    decide(theirs, society.mia)

    with pytest.raises(NotDone, match="row by row"):
        decide(mine, society.mo)
    with pytest.raises(NotDone, match="1 left"):
        settle_clashes(proposal=mine, by=society.mo, choices={}, revision=mine.revision)
    settled = settle_clashes(
        proposal=mine, by=society.mo, choices={"feature:closure": "theirs"}, revision=mine.revision
    )
    assert list(settled.rows) == ["date"]
    decide(settled, society.mo)
    decide(settled, society.mia)

    rows = rows_of_version(society.one)
    assert (rows["feature:closure"], rows["date"]) == ([cell("none")], "1961/1974")


def test_settling_voids_what_was_agreed_to_before(society):
    mine = sent(society.ada, society.one, {"note": "x", "date": "1961/1974"})
    decide(mine, society.max)
    decide(sent(society.ben, society.one, {"note": "y"}), society.mo)
    settled = settle_clashes(proposal=mine, by=society.ada, choices={"note": "ours"}, revision=mine.revision)

    assert decide(settled, society.mo).kind == "agreed"
    assert settled.words.get().text == "The version had changed. Chosen row by row: Note: as proposed."


# ---- refused in words, nothing written


def refusals(society):
    """What somebody tries, each with the words that they get."""
    open_ = sent(society.ada, society.one, ZIP)
    own = sent(society.mo, society.one, {"note": "by a moderator"})
    twin = make_member("Twin", role="moderator", email="ADA+second@example.org")
    cites = sent(society.ben, society.other, {"sources": ["S2"]})
    decided = sent(society.ben, society.other, {"note": "done"})
    decide(decided, society.mo)
    Source.objects.get(code="S2").delete()
    moved = Proposal.objects.get(pk=open_.pk)
    moved.times_sent = 9
    return {
        "approving one's own": (lambda: decide(own, society.mo), "somebody else than its author"),
        "by a second account with the same address": (lambda: decide(open_, twin), "same e-mail address"),
        "approving twice": (lambda: decide(decided, society.mia), "approved: there is nothing to decide"),
        "a member decides": (lambda: decide(open_, society.ben), "Only moderators"),
        "the secretary decides": (lambda: decide(open_, society.sue), "Only moderators"),
        "without a reason": (lambda: decide(open_, society.mo, reason=" "), "needs a reason"),
        "an unknown decision": (lambda: decide(open_, society.mo, "agreed"), "Choose what you decide"),
        "a source that is gone": (lambda: decide(cites, society.mo), "source S2, which this names, is not there"),
        "another sending": (lambda: decide(moved, society.mo), "changed since you looked"),
        "a hand-made edit of a sent one": (
            lambda: save_draft(
                proposal=open_, by=society.ada, revision=open_.revision, wanted={}, grounds="", sources=[]
            ),
            "waits for a decision",
        ),
        "somebody else's edit": (
            lambda: save_draft(
                proposal=open_, by=society.mo, revision=open_.revision, wanted={}, grounds="", sources=[]
            ),
            "not your proposal",
        ),
        "a member on dates": (lambda: drafted(society.ben, society.one, {"date": "1960"}), "proposed by authors"),
        "a member retires": (
            lambda: begin_change(by=society.ben, version=society.one, retire=True),
            "proposed by authors",
        ),
        "a date that is none": (lambda: drafted(society.ada, society.one, {"date": "soon"}), "cannot be read"),
        "a state that is none": (
            lambda: drafted(society.ada, society.one, {"feature:cuff": [cell("velvet")]}),
            "no state velvet",
        ),
        "a code that is taken": (
            lambda: begin_new_version(by=society.ada, garment_type=society.home, code="smk-61", name="x"),
            "There is a version smk-61 already",
        ),
        "nothing changed": (lambda: sent(society.ada, society.one, {}), "Nothing would be changed"),
        "withdrawn by another": (lambda: withdraw_proposal(proposal=open_, by=society.mo), "not your proposal"),
        "revoked though open": (lambda: revoke(open_, society.mo), "not approved"),
    }


def test_everything_that_may_not_be_is_refused_in_words_and_writes_nothing(society):
    def written():
        return (
            list(Decision.objects.values_list("pk", flat=True)),
            list(VersionRecord.objects.values_list("pk", flat=True)),
            list(Proposal.objects.order_by("pk").values_list("pk", "state", "revision", "times_sent")),
            Notice.objects.count(),
            [rows_of_version(one) for one in (society.one, society.other)],
        )

    table = refusals(society)
    before = written()
    for what, (attempt, words) in table.items():
        with pytest.raises(NotDone, match=words), transaction.atomic():
            attempt()
        assert written() == before, what


def test_a_decision_is_never_changed_whoever_asks(society):
    decide(sent(society.ben, society.one, {"note": "x"}), society.mo)

    with pytest.raises(IntegrityError), transaction.atomic():
        Decision.objects.update(reason="another")
    with pytest.raises(IntegrityError), transaction.atomic():
        Decision.objects.bulk_create([Decision(proposal=Proposal.objects.get(), by=society.mia, kind="approved",
                                               sending=1, reason="twice")])  # fmt: skip


DEEDS_REFUSED = {
    "a record's reason": (lambda: VersionRecord.objects.update(why="another"), "record is never changed"),
    "who wrote it": (lambda: raw("UPDATE catalogue_versionrecord SET number = number + 9"), "record is never changed"),
    "a record": (lambda: raw("DELETE FROM catalogue_versionrecord"), "record is never changed nor deleted"),
    "a cell": (lambda: ProfileCell.objects.update(how_often="seldom"), "cell of a record is never changed"),
    "the cells": (lambda: ProfileCell.objects.all().delete(), "never changed nor deleted"),
    "a decision": (lambda: raw("DELETE FROM catalogue_decision"), "decision is never deleted"),
    "an approved proposal's grounds": (
        lambda: Proposal.objects.update(grounds="another"),
        "approved proposal is never changed",
    ),
    "an approved proposal's rows": (lambda: Proposal.objects.update(rows={}), "approved proposal is never changed"),
    "an approved proposal": (lambda: raw("DELETE FROM catalogue_proposal"), "approved proposal is never changed"),
}


CITED = "(SELECT id FROM catalogue_citation WHERE cell_id IS NOT NULL)"
DEEDS_REFUSED |= {
    "what a cell rests on": (
        lambda: raw(f"UPDATE catalogue_citation SET stance = 'contradicts' WHERE id IN {CITED}"),
        "what a cell of a record rests on is never changed",
    ),
    "a citation of a cell": (lambda: Citation.objects.filter(cell__isnull=False).delete(), "rests on is never changed"),
    "a citation that becomes one of a cell": (
        lambda: Citation.objects.filter(version__isnull=False).update(
            version=None, cell=ProfileCell.objects.exclude(citations__source__code="S2").first()
        ),
        "rests on is never changed",
    ),
    "the makers of a cell": (
        lambda: raw("UPDATE catalogue_profilecell_makers SET maker_id = maker_id"),
        "makers of a cell of a record are never changed",
    ),
    "a maker of a cell": (lambda: ProfileCell.makers.through.objects.all().delete(), "makers of a cell of a record"),
    "what a version became": (
        lambda: raw("UPDATE catalogue_versionsuccessor SET successor_id = successor_id"),
        "what a version became is never changed",
    ),
    "the seal of a decision": (lambda: DecisionSeal.objects.update(body="{}"), "seal is never changed nor deleted"),
    "the seals of decisions": (lambda: raw("DELETE FROM catalogue_decisionseal"), "seal is never changed nor deleted"),
}


def approved_of_every_sort(society) -> None:
    """A small change, a cell that a source is cited for and that is limited to a maker, and a merge."""
    decide(sent(society.ben, society.one, {"note": "x"}), society.mo)
    Maker.objects.create(code="M1", name="North Works", kind="works")
    society.one.citations.create(source=Source.objects.get(code="S2"))
    limited = {"feature:cuff": [cell("tab", sources=["S1"], makers=["M1"])]}
    decide_both(society, sent(society.ada, society.one, limited))
    decide_both(society, merge_sent(society))


@pytest.mark.parametrize("what", DEEDS_REFUSED)
def test_the_database_itself_keeps_what_was_approved_as_it_was(society, what):
    approved_of_every_sort(society)
    deed, words = DEEDS_REFUSED[what]

    with pytest.raises(IntegrityError, match=words), transaction.atomic():
        deed()


GUARDED = [table for table in refusing.REFUSALS if table not in ("catalogue_recordlook", refusing.VIEWS)]


@pytest.mark.parametrize("table", GUARDED)
def test_sqlite_puts_no_row_in_the_place_of_one_that_is_kept(society, table):
    """`REPLACE` deletes without the triggers for deleting (SQLite, "ON CONFLICT clause")."""
    if connection.vendor != "sqlite":
        pytest.skip("PostgreSQL has no REPLACE")
    approved_of_every_sort(society)
    record_features(by=society.ada, why="first")
    kept = refusing.REFUSALS[table].rows.format(row=table) or "1"
    with connection.cursor() as cursor:
        cursor.execute(f"SELECT count(*) FROM {table} WHERE {kept}")  # noqa: S608 - ours
        assert cursor.fetchone()[0] > 0

    with pytest.raises(IntegrityError, match=refusing.REFUSALS[table].words), transaction.atomic():
        raw(f"REPLACE INTO {table} SELECT * FROM {table} WHERE {kept} LIMIT 1")  # noqa: S608 - ours


def test_the_guards_know_every_key_of_their_tables(db):
    """One that was put up before the keys were made would miss them."""
    if connection.vendor != "sqlite":
        pytest.skip("PostgreSQL has no REPLACE")
    stand = guards_there()

    refusing.guard_everything(None, Statements)

    assert guards_there() == stand
    assert len(stand) > len(refusing.REFUSALS)


def guards_there() -> dict[str, str]:
    with connection.cursor() as cursor:
        cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
        return dict(cursor.fetchall())


def test_sqlite_refuses_a_row_that_would_push_another_out_by_its_other_keys(society):
    if connection.vendor != "sqlite":
        pytest.skip("PostgreSQL has no REPLACE")
    approved_of_every_sort(society)

    with pytest.raises(IntegrityError, match="a decision is never deleted"), transaction.atomic():
        raw(
            "REPLACE INTO catalogue_decision (id, proposal_id, by_id, kind, sending, reason, record_id, before, after, "
            "made_at) SELECT 9999, proposal_id, by_id, kind, sending + 7, reason, NULL, before, after, made_at "
            "FROM catalogue_decision WHERE kind = 'approved'"
        )
    with pytest.raises(IntegrityError, match="a record is never changed"), transaction.atomic():
        raw(
            "REPLACE INTO catalogue_versionrecord (id, version_id, number, standing, made_at, why) "
            "SELECT 9999, version_id, number, 'imported', made_at, '' FROM catalogue_versionrecord LIMIT 1"
        )


def test_a_proposal_that_is_not_approved_yet_is_open_to_its_author(society):
    returned = sent(society.ben, society.one, {"note": "x"})
    decide(returned, society.mo, "returned")

    assert Proposal.objects.update(grounds="Said better.") == 1


def test_the_chain_of_records_holds_after_all_this(society):
    proposal = sent(society.ben, society.one, {"note": "x"})
    decide(proposal, society.mo)
    revoke(proposal, society.mia)

    assert list(faults()) == []
    assert RecordSeal.objects.count() == 4


# ---- telling


def test_the_people_concerned_are_told_and_by_mail_where_they_wish(society, django_capture_on_commit_callbacks):
    MailWish.objects.create(member=society.ada)
    proposal = sent(society.ada, society.one, ZIP)
    with django_capture_on_commit_callbacks(execute=True):
        decide(proposal, society.mo)
        write_word_on_proposal(
            proposal=proposal, by=society.ben, text="I saw one.", token="6ecd8c99-4036-403d-bf84-cf8400f67836"
        )

    told = sorted(
        (n.member.username, n.proposal_decision_id is None) for n in Notice.objects.filter(proposal__isnull=True)
    )
    assert told == [("Ada", False), ("Ada", True), ("Mo", True)]
    assert len(mail.outbox) == 2
    assert f"Proposal {proposal.pk} (SMK-61): Agreed to" in mail.outbox[0].body


def new_to(**about) -> set[str]:
    return set(Notice.objects.filter(read_at__isnull=True, **about).values_list("member__username", flat=True))


def test_moderators_are_told_that_a_proposal_waits_until_it_does_no_more(society):
    proposal = sent(society.mo, society.one, ZIP)
    assert new_to(proposal=proposal) == {"Mia", "Max"}

    decide(proposal, society.mia)
    assert new_to(proposal=proposal) == {"Mia", "Max"}  # another has to agree
    decide(proposal, society.max)
    assert new_to(proposal=proposal) == set()


def test_what_is_sent_again_is_told_again_and_what_is_withdrawn_is_new_to_nobody(society):
    proposal = sent(society.ada, society.one, ZIP)
    decide(proposal, society.mo, "returned")
    assert new_to(proposal=proposal) == set()
    proposal.refresh_from_db()
    send_proposal(proposal=proposal, by=society.ada)
    assert new_to(proposal=proposal, sending=2) == {"Mo", "Mia", "Max"}

    withdraw_proposal(proposal=proposal, by=society.ada)
    assert new_to(proposal=proposal) == set()


def test_a_waiting_proposal_stands_on_a_moderators_page_and_in_their_mail_of_the_day(society, client):
    wish_for_mail(member=society.mo, how="daily")
    MailWish.objects.update(made_at=timezone.now() - timedelta(days=1))
    proposal = sent(society.ada, society.one, ZIP)

    assert send_digests(now=timezone.now() + timedelta(hours=1)) == (1, 0)

    assert f"roposal {proposal.pk} (SMK-61): It was sent and waits for a decision" in mail.outbox[0].body
    client.force_login(society.mo)
    page = client.get("/my/notices/").content.decode()
    assert "Sent, and waits for a decision" in page
    assert f'href="/proposals/{proposal.pk}/"' in page
    withdraw_proposal(proposal=proposal, by=society.ada)
    assert "waits for a decision" not in client.get("/my/notices/").content.decode()
