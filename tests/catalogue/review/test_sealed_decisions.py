"""Decisions are sealed in a chain of their own, and what stands otherwise than they say is named."""

import json

import pytest

from catalogue.reference.models import IssueVersion, VersionSuccessor
from catalogue.review.models import Decision, DecisionSeal, FurtherRecord, Proposal
from catalogue.review.proposals.written_once import unguard
from catalogue.review.records.sealing import digest_of
from tests.catalogue.review.proposing import decide, decide_both, make_society, merge_sent, revoke, sent
from tests.catalogue.review.test_sealed_records import raw, verified
from tests.making import Statements, lift_the_guards


@pytest.fixture
def decided(db):
    """A name was changed and changed back, a merge approved by two, and a change returned."""
    society = make_society()
    named = sent(society.ben, society.one, {"name": "Smock, 1961"})
    decide(named, society.mo)
    revoke(named, society.mia)
    society.merge = merge_sent(society)
    decide_both(society, society.merge)
    decide(sent(society.ben, society.one, {"note": "x"}), society.mo, "returned", reason="Which label?")
    return society


def free_hand() -> None:
    """Somebody with the database in their hands."""
    lift_the_guards()
    unguard(None, Statements)


def test_each_decision_gets_a_seal_that_follows_the_one_before(decided):
    seals = list(DecisionSeal.objects.all())

    assert [one.decision.kind for one in seals] == ["approved", "revoked", "agreed", "approved", "returned"]
    assert [one.number for one in seals] == [1, 2, 3, 4, 5]
    assert [one.previous for one in seals] == ["", *(one.digest for one in seals[:-1])]
    assert [one.digest for one in seals] == [digest_of(one.previous, one.body) for one in seals]
    merged = json.loads(seals[3].body)["decision"]
    assert (merged["by"], merged["asked"]["by"]) == (decided.mia.pk, decided.ada.pk)
    assert [one["after"]["became"] for one in merged["further"]] == [["SMK-61"]]
    for seal in seals:
        assert '"Mo"' not in seal.body
        assert "@" not in seal.body
    out, err = verified()
    assert err == ""
    assert seals[-1].digest in out
    assert verified(seals[0].digest)[1] == ""


def reason_forged(decided):
    Decision.objects.filter(kind="returned").update(reason="Because.")


def decider_forged(decided):
    Decision.objects.filter(kind="agreed").update(by=decided.max)


def rows_forged(decided):
    one = FurtherRecord.objects.get()
    FurtherRecord.objects.update(after=one.after | {"retired": "Forged."})


def grounds_forged(decided):
    Proposal.objects.filter(pk=decided.merge.pk).update(grounds="Forged.")


def decision_without_a_seal(decided):
    raw("DELETE FROM catalogue_decisionseal WHERE number = 5")


def seal_forged(decided):
    raw("UPDATE catalogue_decisionseal SET body = REPLACE(body, 'Which label?', 'No.') WHERE number = 5")


def put_in_force(decided):
    IssueVersion.objects.filter(pk=decided.other.pk).update(retired_why="")


def became_nothing(decided):
    VersionSuccessor.objects.all().delete()


@pytest.mark.parametrize(
    ("tamper", "words"),
    [
        (reason_forged, "(returned) differs from its seal in the reason"),
        (decider_forged, "(agreed) differs from its seal in who decided"),
        (rows_forged, "(approved) differs from its seal in what it wrote further"),
        (grounds_forged, "(approved) differs from its seal in what was proposed, and why"),
        (decision_without_a_seal, "has no seal"),
        (seal_forged, "seal 5 of decisions: the body is not what was sealed, its digest is another"),
        (
            put_in_force,
            "SMK-76 stands otherwise than the decision behind its record 2 says: why it is retired, or whether",
        ),
        (became_nothing, "SMK-76 stands otherwise than the decision behind its record 2 says: what it became"),
    ],
)
def test_a_decision_that_was_changed_by_hand_is_named(decided, tamper, words):
    free_hand()

    tamper(decided)

    assert words in verified()[1]
