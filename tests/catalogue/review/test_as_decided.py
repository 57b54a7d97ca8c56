"""A version, or what it rests on, that stands otherwise than the decisions on it gave it is named when records are
verified."""

import pytest
from django.utils import timezone

from catalogue.reference.models import (
    Citation,
    Correction,
    Cut,
    Issuer,
    IssueVersion,
    Maker,
    NumberForm,
    SizeLength,
    Source,
    StockNumber,
    VersionName,
)
from tests.catalogue.review.proposing import decide_both, make_society_to_split, merge_sent, revoke, sent, split_sent
from tests.catalogue.review.test_backing_proposals import WANTED as WANTED_OF_BACKING
from tests.catalogue.review.test_backing_proposals import on_backing
from tests.catalogue.review.test_backing_proposals import society as backed  # noqa: F401
from tests.catalogue.review.test_every_field_is_proposed import WANTED, society  # noqa: F401
from tests.catalogue.review.test_sealed_records import verified


def of_version(**fields):
    return lambda: IssueVersion.objects.filter(code="SMK-61").update(**fields)


def against_gone():
    Citation.objects.filter(version__code="SMK-61", stance="contradicts").delete()


TAMPERED = {
    "cut": of_version(cut=None),
    "colourway": of_version(colourway=None),
    "given out by": of_version(issuer=None),
    "stock numbers": lambda: StockNumber.objects.update(misprint_of="", note="Forged"),
    "may be taken for": lambda: IssueVersion.objects.get(code="SMK-61").passes_for.clear(),
    "sources against the version": against_gone,
    "what the law may restrict": of_version(wearing_restricted=False),
    "makers": lambda: IssueVersion.objects.get(code="SMK-61").makers.clear(),
    "names used by members": lambda: VersionName.objects.update(name="Forged"),
    "size table": lambda: SizeLength.objects.update(mm=601),
    "kind of hazard": of_version(hazard_kind=""),
    "how rare": of_version(rarity=1),
    "a member has seen a piece": of_version(piece_seen=True),
    "why it was made or changed": of_version(reason="Forged"),
}


@pytest.mark.parametrize("called", list(TAMPERED))
def test_a_field_of_a_version_that_was_changed_past_its_decision_is_named(society, called):  # noqa: F811
    wanted = {key: value for key, value in WANTED.items() if key not in ("retired", "became")}
    decide_both(society, sent(society.ada, society.one, wanted))
    assert verified()[1] == ""

    TAMPERED[called]()

    err = verified()[1]
    assert f"SMK-61 stands otherwise than the decision behind its record 2 says: {called}\n" in err
    assert "1 fault" in err


def test_what_a_newer_decision_gave_is_held_against_that_and_not_against_the_older(society):  # noqa: F811
    first = sent(society.ada, society.one, {"issuer": "SVC", "rarity": 5})
    decide_both(society, first)
    decide_both(society, sent(society.ada, society.one, {"rarity": 2}))
    assert verified()[1] == ""
    of_version(rarity=5)()

    assert "SMK-61 stands otherwise than the decision behind its record 3 says: how rare\n" in verified()[1]


def test_a_change_that_was_revoked_is_held_against_what_was_brought_back(society):  # noqa: F811
    made = sent(society.ada, society.one, {"cut": "D"})
    decide_both(society, made)
    for person in (society.max, society.mia):
        made.refresh_from_db()
        revoke(made, person)
    assert verified()[1] == ""
    of_version(cut=Cut.objects.get(code="D"))()

    assert "SMK-61 stands otherwise than the decision behind its record 3 says: cut\n" in verified()[1]


def test_a_split_stands_as_it_was_decided(db):
    to_split = make_society_to_split()
    decide_both(to_split, split_sent(to_split))
    assert verified()[1] == ""


def test_a_merge_stands_as_it_was_decided(society):  # noqa: F811
    decide_both(society, merge_sent(society))
    assert verified()[1] == ""


TABLES = {
    "issuer": (lambda: Issuer.objects.filter(code="SVC").update(predecessor=None), "service SVC", "predecessor"),
    "maker": (lambda: Maker.objects.filter(code="M1").update(mark="Forged"), "maker M1", "what stands on its labels"),
    "source": (lambda: Source.objects.filter(code="S1").update(grade="A"), "source S1", "grade"),
    "numberform": (lambda: NumberForm.objects.update(pattern="9"), "number form NUM", "pattern"),
}


@pytest.mark.parametrize("table", list(TABLES))
def test_what_versions_rest_on_that_was_changed_past_its_decision_is_named(backed, table):  # noqa: F811
    tamper, title, field = TABLES[table]
    proposal = on_backing(backed, table, WANTED_OF_BACKING[table])
    decide_both(backed, proposal)
    assert verified()[1] == ""

    tamper()

    assert verified()[1] == (
        f"the {title} stands otherwise than the decision on proposal {proposal.pk} says: {field}\n1 fault found."
    )


def test_words_beside_what_a_decision_gave_may_be_written_without_one(backed):  # noqa: F811
    decide_both(backed, on_backing(backed, "maker", {"first_year": 1960}))
    Maker.objects.filter(code="M1").update(habits="sews twice", mark="another")

    assert verified()[1] == ""


def test_what_was_taken_away_in_the_back_office_is_no_fault_and_what_went_otherwise_is(backed):  # noqa: F811
    decide_both(backed, on_backing(backed, "maker", {"first_year": 1960}))
    held = Maker.objects.get(code="M1")
    Maker.objects.filter(code="M1").delete()
    assert "the maker M1 is gone, and no decision or correction took it away\n" in verified()[1]

    Correction.objects.create(
        table="maker", row=held.pk, title=f"{held} (M1)", deed="deleted", member=backed.ada, made_at=timezone.now()
    )
    assert verified()[1] == ""
    Maker.objects.create(code="M1", name="Another", first_year=1900)
    assert verified()[1] == ""


def test_a_new_number_form_that_was_revoked_is_held_against_nothing(backed):  # noqa: F811
    proposal = on_backing(backed, "numberform", {"pattern": "A 999"}, code="CAT", new=True, name="Catalogue number")
    decide_both(backed, proposal)
    assert verified()[1] == ""
    for person in (backed.max, backed.mia):
        proposal.refresh_from_db()
        revoke(proposal, person)

    assert verified()[1] == ""
