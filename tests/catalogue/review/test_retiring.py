"""A version is retired by proposal: no accepted piece is left nowhere, and what it became takes them."""

import pytest

from catalogue.member_examples.models import Example
from catalogue.reference.models import IssueVersion
from catalogue.reference.snapshots import forget_everything
from catalogue.review.examples_queue.doubts import open_doubts
from catalogue.review.models import Notice
from catalogue.review.proposals.actions import NotDone, begin_change, begin_new_version, save_draft, send_proposal
from catalogue.review.records.verifying import faults
from tests.catalogue.review.proposing import cell, decide, decide_both, make_society, piece_of, revoke
from tests.catalogue.review.test_merging import standing, words
from tests.forms import Sent
from tests.making import make_type, make_version


@pytest.fixture
def society(db):
    return make_society()


def drafted(society, **rows):
    made = begin_change(by=society.ada, version=society.other, retire=True)
    wanted = made.base | {"retired": "A dealer's word."} | rows
    grounds = "Both are of one contract."
    return save_draft(proposal=made, by=society.ada, revision=made.revision, wanted=wanted, grounds=grounds, sources=[])


def sent(society, **rows):
    return send_proposal(proposal=drafted(society, **rows), by=society.ada)


def test_a_version_with_accepted_pieces_is_not_retired_without_what_it_became(society, client):
    piece = piece_of(society, society.other, cuff="plain")
    draft = drafted(society)

    with pytest.raises(NotDone, match=f"{piece.code} is accepted as SMK-76 and would be nowhere. Name the version"):
        send_proposal(proposal=draft, by=society.ada)
    client.force_login(society.ada)
    page = words(client, f"/proposals/{draft.pk}/")
    assert "1 piece would be nowhere" in page
    assert piece.code in page
    draft.refresh_from_db()
    assert draft.state == "draft"


def test_a_piece_accepted_meanwhile_keeps_the_version_in_force(society):
    proposal = sent(society)
    decide(proposal, society.mo)
    piece = piece_of(society, society.other, cuff="plain")

    with pytest.raises(NotDone, match="would be nowhere"):
        decide(proposal, society.mia)

    society.other.refresh_from_db()
    assert (society.other.retired_why, Example.objects.get(pk=piece.pk).held_as) == ("", society.other)


def test_once_each_piece_is_attributed_anew_it_is_retired_without_a_successor(society):
    piece = piece_of(society, society.other, cuff="plain")
    Example.objects.filter(pk=piece.pk).update(held_as=society.one)

    decide_both(society, sent(society))

    society.other.refresh_from_db()
    assert society.other.retired_why == "A dealer's word."


def test_its_pieces_go_to_what_it_became_with_a_dated_note_their_owners_are_told_and_the_doubtful_wait(society, client):
    piece = piece_of(society, society.other, closure="buttons")
    doubtful = piece_of(society, society.other, closure="buttons", cuff="plain")
    proposal = sent(society, became=["SMK-61"])
    client.force_login(society.mo)
    page = words(client, f"/proposals/{proposal.pk}/")
    assert "2 pieces of SMK-76 would go to SMK-61" in page
    assert piece.code in page
    assert "1 would be doubtful" in page
    before = Notice.objects.filter(member=society.ben).count()

    decide_both(society, proposal)
    forget_everything()

    for one in (piece, doubtful):
        assert Example.objects.get(pk=one.pk).held_as == society.one
        assert standing(one) == ["SMK-76", "SMK-61"]
        note = one.attributions.filter(by="society").latest("pk")
        assert note.made_at
        assert f"SMK-76 was retired and became SMK-61: proposal {proposal.pk}." in words(
            client, f"/examples/{one.code}/"
        )
    assert Notice.objects.filter(member=society.ben).count() == before + 2
    assert [one.example for one in open_doubts()] == [doubtful]
    assert "2 pieces of SMK-76 went to SMK-61" in words(client, f"/proposals/{proposal.pk}/")
    old = client.get("/issue-versions/SMK-76/").content.decode()
    assert "Retired: it became" in old
    assert 'href="/issue-versions/SMK-61/"' in old
    assert list(faults()) == []


def test_a_retirement_that_is_revoked_brings_its_pieces_back(society):
    piece = piece_of(society, society.other, cuff="plain")
    proposal = sent(society, became=["SMK-61"])
    decide_both(society, proposal)
    proposal.refresh_from_db()

    revoke(proposal, society.mo)
    revoke(proposal, society.mia)

    society.other.refresh_from_db()
    assert (society.other.retired_why, society.other.successors.count()) == ("", 0)
    assert Example.objects.get(pk=piece.pk).held_as == society.other
    assert standing(piece) == ["SMK-76", "SMK-61", "SMK-76"]
    assert list(open_doubts()) == []


def test_what_it_became_is_another_version_of_its_type_in_force(society):
    make_version(make_type("CAP"), "CAP-61", {})
    gone = make_version(society.home, "SMK-50", {society.cuff: "tab"})
    IssueVersion.objects.filter(pk=gone.pk).update(retired_why="No such smock.")
    for became, refusal in (
        (["SMK-76"], "SMK-76 cannot become itself"),
        (["CAP-61"], "CAP-61 is a version of another garment type"),
        (["SMK-50"], "SMK-50 is retired itself"),
        (["SMK-61", "SMK-50"], "Name one version that SMK-76 became"),
    ):
        with pytest.raises(NotDone, match=refusal):
            sent(society, became=became)


def test_the_form_of_a_retirement_asks_what_it_became(society, client):
    client.force_login(society.ada)
    made = begin_change(by=society.ada, version=society.other, retire=True)
    address = f"/proposals/{made.pk}/edit/"
    typed = Sent(client.get(address).content.decode()).sent

    answer = client.post(address, typed | {"retired": "One contract.", "became": "SMK-99", "grounds": "So."})
    assert "There is no code “SMK-99”" in answer.content.decode()
    client.post(address, typed | {"retired": "One contract.", "became": "SMK-61", "grounds": "So."})

    made.refresh_from_db()
    assert made.rows == {"retired": "One contract.", "became": ["SMK-61"]}


def test_the_approval_of_a_new_version_is_not_revoked_while_pieces_are_held_as_it(society):
    made = begin_new_version(by=society.ada, garment_type=society.home, code="SMK-90", name="Smock 90")
    made = save_draft(
        proposal=made, by=society.ada, revision=made.revision, grounds="A sheet.", sources=[],
        wanted=made.rows | {"feature:cuff": [cell("plain")]},
    )  # fmt: skip
    decide_both(society, send_proposal(proposal=made, by=society.ada))
    made.refresh_from_db()
    piece_of(society, IssueVersion.objects.get(code="SMK-90"), cuff="plain")

    with pytest.raises(NotDone, match="accepted as SMK-90 and would be nowhere"):
        revoke(made, society.mo)
