"""A change that was approved names its sources wherever it is read, and each source names the changes it was cited
for."""

import pytest

from catalogue.reference.models import ReferenceState, Source
from catalogue.reference.snapshots import forget_everything
from catalogue.review.features.recording import record_features
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import begin_change, begin_feature, save_draft, send_proposal
from tests.catalogue.review.proposing import (
    decide,
    decide_both,
    make_society,
    make_society_to_split,
    revoke,
    sent,
    split_sent,
)
from tests.reading import text, words

HISTORY = "/issue-versions/SMK-61/history/"


@pytest.fixture
def society(db):
    return make_society()


def read(client, address: str) -> str:
    forget_everything()
    return words(text(client, address))


def cited_by_nobody(client, code: str) -> bool:
    return f'href="/sources/{code}/"' in text(client, "/sources/?cited=no")


def test_a_history_and_a_record_name_the_sources_that_the_change_was_decided_on(society, client):
    decide(sent(society.ben, society.one, {"note": "Of drill."}, sources=["S1"]), society.mo)

    row = read(client, HISTORY).split("Record 1")[0]
    assert "The change was decided on: S1" in row
    assert "Sources in the record: no source is named in it" in row
    page = text(client, f"{HISTORY}2/")
    assert "The change was decided on: S1" in words(page)
    assert "Sheet S1" in words(page).split("Sources of the change")[1]
    assert "S1" in words(text(client, f"{HISTORY}1/?with=2")).split("Decided on")[1].split("Seal")[0]


def test_a_change_without_sources_says_so_and_a_record_that_nobody_decided_on_does_not(society, client):
    decide(sent(society.ben, society.one, {"note": "Of drill."}), society.mo)

    newer, older = read(client, HISTORY).split("Record 1 , ".replace(" ,", ","))
    assert "The change was decided on: no source was cited for it" in newer
    assert "decided on:" not in older


def test_every_record_that_a_split_writes_names_its_sources_and_so_does_the_revocation(client, db):
    society = make_society_to_split()
    proposal = split_sent(society)
    decide_both(society, proposal)

    for code in ("SMK-76", "SMK-76A", "SMK-76B"):
        assert "The change was decided on: S1" in read(client, f"/issue-versions/{code}/history/")
    revoke(proposal, society.mo)
    revoke(proposal, society.mia)
    for code in ("SMK-76", "SMK-76A", "SMK-76B"):
        assert "What it takes back was proposed on: S1" in read(client, f"/issue-versions/{code}/history/")


def test_a_retirement_names_its_sources(society, client):
    made = begin_change(by=society.ada, version=society.one, retire=True)
    made = save_draft(
        proposal=made, by=society.ada, revision=made.revision, wanted=made.base | {"retired": "A misreading."},
        grounds="A misreading.", sources=["S2"],
    )  # fmt: skip
    decide_both(society, send_proposal(proposal=made, by=society.ada))

    assert "The change was decided on: S2" in read(client, HISTORY)
    assert "Retire SMK-61: Smock 61" in read(client, "/sources/S2/")


def test_a_source_lists_the_changes_it_was_cited_for_each_with_the_record_it_led_to(society, client):
    proposal = sent(society.ben, society.one, {"note": "Of drill."}, sources=["S1"])
    decide(proposal, society.mo)

    page = text(client, "/sources/S1/")
    assert "Changes that were approved on it" in page
    assert f'<a href="{HISTORY}2/">Change of SMK-61: note</a>' in page
    assert "No claim in force cites it yet" not in page
    assert "No claim in force cites it yet" in text(client, "/sources/S2/")

    revoke(proposal, society.mo)
    page = read(client, "/sources/S1/")
    assert "No claim in force cites it yet" in page
    revoked = page.split("Changes that were approved on it and revoked since")[1]
    assert "Change of SMK-61: note" in revoked
    assert "; revoked on" in revoked


def test_a_proposal_that_waits_or_was_declined_is_no_claim_of_its_source(society, client):
    waiting = sent(society.ben, society.one, {"note": "Of drill."}, sources=["S1"])
    assert "Change of" not in read(client, "/sources/S1/")
    decide(waiting, society.mo, decision="declined")

    assert "Change of" not in read(client, "/sources/S1/")
    assert cited_by_nobody(client, "S1")


def test_a_source_that_a_standing_change_alone_rests_on_is_not_called_cited_by_nobody(society, client):
    assert cited_by_nobody(client, "S1")
    proposal = sent(society.ben, society.one, {"note": "Of drill."}, sources=["S1"])
    decide(proposal, society.mo)

    assert not cited_by_nobody(client, "S1")
    assert [one.code for one in Source.objects.uncited()] == ["S2"]
    assert 'href="/sources/S2/"' in text(client, "/health/")
    assert 'href="/sources/S1/"' not in text(client, "/health/")
    revoke(proposal, society.mo)
    assert cited_by_nobody(client, "S1")


def approved_note_of_the_cuff(society) -> Proposal:
    """A note on how people err at the cuff, approved on source S1."""
    record_features(by=None, why="")
    ReferenceState.mark_changed()
    made = begin_feature(by=society.ada, feature=society.cuff)
    made = save_draft(
        proposal=made, by=society.ada, revision=made.revision, wanted=made.base | {"error_note": "Often folded."},
        grounds="Seen so.", sources=["S1"],
    )  # fmt: skip
    proposal = send_proposal(proposal=made, by=society.ada)
    decide(proposal, society.mo)
    return proposal


def test_a_record_of_a_feature_names_its_sources_and_they_name_it(society, client):
    approved_note_of_the_cuff(society)

    for address in ("/features/cuff/history/", "/features/cuff/history/2/"):
        assert "The change was decided on: S1" in read(client, address)
    assert '<a href="/features/cuff/history/2/">Change of feature' in text(client, "/sources/S1/")


def test_a_record_of_a_feature_that_was_revoked_and_the_one_that_takes_it_back_say_so(society, client):
    proposal = approved_note_of_the_cuff(society)
    revoke(proposal, society.mo)

    page = read(client, "/features/cuff/history/")
    newest, before, first = (page.split(f"Record {number}, ")[1].split(" Seal")[0] for number in (3, 2, 1))
    assert "stands takes a change back" in newest
    assert "What it takes back was proposed on: S1" in newest
    assert "revoked since" in before.split("Written by")[0]
    assert "revoked" not in first
    assert f"It takes back what proposal {proposal.pk} had changed." in read(client, "/features/cuff/history/3/")
    assert f"Revoked since: proposal {proposal.pk} says when and why." in read(client, "/features/cuff/history/2/")
    compared = read(client, "/features/cuff/history/2/?with=3")
    assert compared.index("revoked since") < compared.index("takes a change back")


def test_the_page_of_a_source_asks_as_often_for_ten_changes_as_for_one(society, client, django_assert_max_num_queries):
    for number in range(10):
        decide(sent(society.ben, society.one, {"note": f"Of drill {number}."}, sources=["S1", "S2"]), society.mo)
    client.get("/sources/S2/")
    forget_everything()

    with django_assert_max_num_queries(14):
        client.get("/sources/S1/")
