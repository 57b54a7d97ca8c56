"""What weighs a version, who made it, and what to be careful of: proposed like its dates, written past nobody."""

from html import unescape

import pytest

from catalogue.member_examples.actions import NotDone
from catalogue.reference.models import IssueVersion, Maker
from catalogue.reference.snapshots import forget_everything, type_facts
from catalogue.review.importing.actions import propose_import
from catalogue.review.models import Proposal
from catalogue.review.proposals.merged import merged_rows
from catalogue.review.proposals.rules import weight_of
from catalogue.review.proposals.standing import rows_of_version
from tests.catalogue.review.proposing import decide, drafted, make_society, revoke, sent


@pytest.fixture
def society(db):
    for code in ("M1", "M2"):
        Maker.objects.create(code=code, name=f"Works {code}", kind="works")
    return make_society()


SIZES = [
    {"mark": "2", "what": "sleeve", "mm": 590, "source": "S1"},
    {"mark": "10", "what": "sleeve", "mm": 630, "source": "S2"},
]


WANTED = {
    "makers": ["M2"], "rarity": 5, "abundance": 12.5, "piece_seen": False, "hazard_kind": "treated",
    "hazard": "Old finish.", "made_from": ["SMK-76"],
}  # fmt: skip


def test_two_people_approve_them_and_a_revocation_brings_them_back(society):
    proposal = sent(society.ada, society.one, WANTED)
    decide(proposal, society.mo)
    assert IssueVersion.objects.get(code="SMK-61").rarity == 3
    decide(proposal, society.mia)

    rows = rows_of_version(society.one)
    assert {key: rows[key] for key in WANTED} == WANTED
    forget_everything()
    facts = type_facts("SMK").versions["SMK-61"]
    assert (facts.rarity, facts.abundance, facts.piece_seen, facts.hazard_kind) == (5, 12.5, False, "treated")
    for one in (society.mo, society.mia):
        revoke(proposal, one)
    assert rows_of_version(society.one)["makers"] == []
    assert rows_of_version(society.one)["rarity"] == 3


@pytest.mark.parametrize(
    ("before", "after", "weight"),
    [
        ({}, {"hazard_kind": "do_not_open", "hazard": "Sealed."}, "small"),
        ({"hazard": "Sealed."}, {"hazard": ""}, "weighty"),
        ({"hazard_kind": "treated"}, {"hazard_kind": "sticky"}, "weighty"),
        ({}, {"rarity": 4}, "weighty"),
        ({}, {"makers": ["M1"]}, "weighty"),
    ],
)
def test_one_person_gives_a_caution_and_two_take_it_away(before, after, weight):
    assert weight_of("change", before, after) == weight


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ({"makers": ["M9"]}, "The maker M9"),
        ({"rarity": 9}, "from 1, common, to 5, rare"),
        ({"abundance": -1}, "a number from 0"),
        ({"hazard_kind": "fire"}, "a kind of hazard"),
        ({"made_from": ["SMK-99"]}, "The version SMK-99"),
        ({"sizes": [SIZES[0] | {"source": "S9"}]}, "The source S9"),
        ({"sizes": [SIZES[0] | {"mm": 0}]}, "A length is from 1"),
        ({"sizes": [SIZES[0] | {"what": "arm"}]}, "no such length"),
        ({"sizes": [SIZES[0], SIZES[0] | {"mark": " 2"}]}, "a length twice"),
    ],
)
def test_what_cannot_be_is_refused_in_words(society, rows, words):
    with pytest.raises(NotDone, match=words):
        drafted(society.ada, society.one, rows)


def test_a_size_table_is_changed_by_one_person_and_brought_back_by_a_revocation(society):
    proposal = sent(society.ada, society.one, {"sizes": SIZES})
    assert proposal.weight == "small"
    decide(proposal, society.mo)

    forget_everything()
    facts = type_facts("SMK").versions["SMK-61"]
    assert [(one.mark, one.what, one.mm, one.source.source) for one in facts.sizes] == [
        ("2", "sleeve", 590, "S1"),
        ("10", "sleeve", 630, "S2"),
    ]
    assert rows_of_version(society.one)["sizes"] == SIZES
    revoke(proposal, society.mia)
    assert rows_of_version(society.one)["sizes"] == []


def test_a_merge_keeps_the_lengths_of_both_size_tables(society):
    more = {"mark": "2", "what": "sleeve", "mm": 600, "source": "S2"}
    found = merged_rows(
        {"name": "A", "date": "", "sizes": SIZES[:1]},
        {"name": "B", "date": "", "sizes": [more, SIZES[1]]},
        goes_code="B",
        order={},
    )

    assert found["sizes"] == SIZES


def test_the_form_takes_a_size_table_line_by_line_and_says_what_it_cannot_read(society, client):
    client.force_login(society.ada)
    page = client.post("/proposals/new/?version=SMK-61", {"kind": "fields"}, follow=True)
    form, where = page.context["form"], page.request["PATH_INFO"]
    given = {name: form[name].value() for name in form.fields if form[name].value() is not None}

    def answer(text: str) -> str:
        return unescape(client.post(where, given | {"sizes": text}).content.decode())

    assert "“4 sleeve 590” is not a mark, a length" in answer("4 sleeve 590")
    assert "“arm” is no length: one of pit to pit" in answer("4; arm; 590; S1")
    assert "“long” is not a length in millimetres" in answer("4; sleeve; long; S1")
    assert "There is no source “S9”" in answer("4; sleeve; 590; S9")
    assert "4; sleeve; 9999; S1" in answer("4; sleeve; 9999; S1")
    assert Proposal.objects.get().rows == {}
    client.post(where, given | {"sizes": "10; Sleeve; 630; S2\n2; sleeve; 590; S1"})
    assert Proposal.objects.get().rows == {"sizes": SIZES}
    told = client.get(f"/proposals/{Proposal.objects.get().pk}/").content.decode()
    assert "10: sleeve 630 mm (S2)" in told


def test_an_import_under_review_proposes_them_and_overwrites_nothing(society, tmp_path):
    lines = (
        "version,type,name,kind,certainty,rarity,makers,hazard_kind,hazard",
        "SMK-61,SMK,Smock 61,issue,documented,5,M2 M1,treated,Old finish.",
    )
    (tmp_path / "versions.csv").write_text("\n".join(lines), encoding="utf-8")
    outcome = propose_import(folder=tmp_path, by=society.ada, because="Counted again.")

    assert len(outcome.written) == 1
    rows = Proposal.objects.get().rows
    assert rows == {"rarity": 5, "makers": ["M1", "M2"], "hazard_kind": "treated", "hazard": "Old finish."}
    assert rows_of_version(society.one)["rarity"] == 3
    assert propose_import(folder=tmp_path, by=society.ada, because="Again.").left != []


def test_the_form_shows_what_stands_and_takes_codes_and_numbers(society, client):
    client.force_login(society.ada)
    page = client.post("/proposals/new/?version=SMK-61", {"kind": "fields"}, follow=True)
    form, where = page.context["form"], page.request["PATH_INFO"]
    assert "3 (1 common, 5 rare)" in page.content.decode()
    given = {name: form[name].value() for name in form.fields if form[name].value() is not None}

    refused = client.post(where, given | {"makers": "M8", "abundance": "some"}).content.decode()
    assert "There is no code “M8”" in refused
    client.post(where, given | {"makers": "M1", "abundance": "4", "rarity": "2", "piece_seen": "False"})

    assert Proposal.objects.get().rows == {"makers": ["M1"], "abundance": 4.0, "rarity": 2, "piece_seen": False}
