"""Nothing of a version that identification, dates or grounds read is changed but by a proposal."""

from dataclasses import fields, replace
from html import unescape

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.member_examples.actions import NotDone
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.models import (
    Citation,
    Colourway,
    Cut,
    GarmentType,
    Issuer,
    IssueVersion,
    Maker,
    NumberForm,
    ReferenceState,
    StockNumber,
)
from catalogue.reference.snapshots import forget_everything, type_facts
from catalogue.reference.spreadsheets.layout import SHEETS
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import begin_new_version, save_draft, send_proposal
from catalogue.review.proposals.composing import bare_version, number_in_words, row_in_words, with_rows
from catalogue.review.proposals.number_lines import NotUnderstood, as_lines, from_lines
from catalogue.review.proposals.rules import row_of, weight_of
from catalogue.review.proposals.standing import rows_of_version
from catalogue.review.proposals.words import FIELD_WORDS
from tests.catalogue.review.proposing import cell, decide, decide_both, drafted, make_society, revoke, sent
from tests.forms import Sent

# What of a version no proposal changes, and why that is as it should be.
NOT_PROPOSED = {
    "version": "its code, which stands in addresses for ever",
    "code": "its code, which stands in addresses for ever",
    "type": "no version goes to another garment type",
    "sellers_names": "what sellers call it is no claim of the society; nothing is told apart or dated by it",
    "companions": "a record of two versions; nothing is told apart or dated by it",
    "open_questions": "a record of its own, decided on its own page",
    "from_year": "worked out from its dates",
    "to_year": "worked out from its dates",
    "issuer_date": "that of its issuer",
    "record_number": "worked out from its records",
    "standing": "worked out from its records and the looks at them",
}
# What proposals call otherwise than a column of the spreadsheets or a field of the facts.
CALLED = {
    "names": "other_names", "ancestors": "continues", "citations": "sources", "retired_why": "retired",
    "profiles": "feature:", "cells": "feature:",
}  # fmt: skip


def of_a_version() -> dict[str, str]:
    """Every field of a version: columns and sheets of the export, and the facts that pages and packs read."""
    columns = {column.name: "column" for sheet in SHEETS if sheet.name == "versions" for column in sheet.columns}
    sheets = {
        sheet.name: "sheet" for sheet in SHEETS if any(one.name == "version" for one in sheet.columns)
        if sheet.name != "versions"
    }  # fmt: skip
    facts = {field.name: "fact" for field in fields(VersionFacts)}
    return columns | sheets | facts


@pytest.mark.parametrize("name", sorted(of_a_version()))
def test_every_field_of_a_version_can_be_proposed_or_is_named_as_none_to_be(name):
    proposed = CALLED.get(name, name) in {*FIELD_WORDS, "feature:"}

    assert proposed != (name in NOT_PROPOSED)


def test_what_is_named_as_no_row_of_proposals_is_there():
    assert set(NOT_PROPOSED) <= set(of_a_version())
    assert set(CALLED) <= set(of_a_version())


NUMBER = {
    "number": "8415-61-002", "form": "NUM", "first_year": 1971, "last_year": 1979, "misprint_of": "",
    "note": "on the second contract", "sources": ["S1"], "against": ["S2"],
}  # fmt: skip
SLIP = NUMBER | {"number": "8415-16-002", "misprint_of": "8415-61-002", "first_year": None, "last_year": None,
                 "note": "", "sources": [], "against": [], "form": ""}  # fmt: skip
LENGTH = {"mark": "4", "what": "sleeve", "mm": 600, "source": "S1"}
WANTED = {
    "name": "Fell smock", "other_names": ["The old smock"], "kind": "trial", "cut": "D", "colourway": "SAND",
    "issuer": "SVC", "date": "1962/1970", "certainty": "inferred", "continues": ["SMK-76"], "made_from": ["SMK-76"],
    "makers": ["M1"], "stock_numbers": [SLIP, NUMBER], "passes_for": ["CAP"], "rarity": 5, "abundance": 2.5,
    "piece_seen": False, "hazard_kind": "treated", "hazard": "Treated", "restrictions": ["export", "wearing"],
    "reason": "Cold", "note": "A note", "sources": ["S1"], "contradicting_sources": ["S2"], "sizes": [LENGTH],
    "retired": "It is another.", "became": ["SMK-76"], "feature:cuff": [cell("plain")],
}  # fmt: skip


@pytest.fixture
def society(db):
    made = make_society()
    IssueVersion.objects.filter(pk=made.one.pk).update(from_year=1961, to_year=1975)
    Cut.objects.create(code="D", name="Desert")
    Colourway.objects.create(code="SAND", name="Sand")
    Issuer.objects.create(code="SVC", name="The Service", date="1950/1990")
    GarmentType.objects.create(code="CAP", name="Cap")
    Maker.objects.create(code="M1", name="Maker")
    NumberForm.objects.create(code="NUM", name="Number of the Service", pattern="9999-99-999")
    ReferenceState.mark_changed()
    return made


def facts(code: str = "SMK-61") -> tuple[TypeFacts, VersionFacts]:
    forget_everything()
    home = type_facts("SMK")
    return home, home.known(code)


@pytest.mark.parametrize("key", [*FIELD_WORDS, "feature:cuff"])
def test_each_row_is_wanted_shown_approved_read_and_brought_back(society, key):
    """Also: what is shown of a version before it is decided is what stands afterwards."""
    value = WANTED[key]
    rows = {key: value} | ({"retired": WANTED["retired"]} if key == "became" else {})
    was = rows_of_version(society.one)
    home, before = facts()
    assert row_of(was, key) != value
    proposal = sent(society.ada, society.one, rows)
    assert row_in_words(key, value, home)
    decide_both(society, proposal) if proposal.weight == "weighty" else decide(proposal, society.mo)

    society.one.refresh_from_db()
    assert rows_of_version(society.one) == was | rows
    _, after = facts()
    if key not in ("retired", "became"):
        shown = replace(with_rows(home, before, rows), record_number=2, standing="approved")
        assert shown == after
    assert after != before
    for person in (society.max, society.mia) if proposal.weight == "weighty" else (society.max,):
        proposal.refresh_from_db()
        revoke(proposal, person)
    assert rows_of_version(society.one) == was
    assert facts()[1] == replace(before, record_number=3, standing="approved")


@pytest.mark.parametrize(
    ("before", "after", "weight"),
    [
        ({}, {"cut": "D"}, "weighty"),
        ({}, {"colourway": "SAND"}, "weighty"),
        ({}, {"issuer": "SVC"}, "weighty"),
        ({}, {"passes_for": ["CAP"]}, "weighty"),
        ({}, {"stock_numbers": [SLIP]}, "weighty"),
        ({"stock_numbers": [NUMBER]}, {"stock_numbers": []}, "weighty"),
        ({"stock_numbers": [NUMBER]}, {"stock_numbers": [NUMBER | {"last_year": 1980}]}, "weighty"),
        ({"stock_numbers": [NUMBER]}, {"stock_numbers": [NUMBER | {"sources": []}]}, "weighty"),
        ({"stock_numbers": [NUMBER]}, {"stock_numbers": [NUMBER | {"note": "", "sources": ["S1", "S2"]}]}, "small"),
        ({}, {"contradicting_sources": ["S2"]}, "small"),
        ({"contradicting_sources": ["S2"]}, {"contradicting_sources": []}, "weighty"),
        ({}, {"restrictions": ["export"]}, "small"),
        ({"restrictions": ["export"]}, {"restrictions": ["wearing"]}, "weighty"),
    ],
)
def test_what_finds_or_dates_a_version_takes_two_people_and_what_comes_to_its_grounds_one(before, after, weight):
    assert weight_of("change", before, after) == weight


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ({"cut": "X"}, "The cut X, which this names, is not there any more"),
        ({"colourway": "X"}, "The colourway X"),
        ({"issuer": "X"}, "The issuer X"),
        ({"passes_for": ["X"]}, "The type X"),
        ({"passes_for": ["SMK"]}, "SMK is its own garment type"),
        ({"restrictions": ["sleeping"]}, "what the law may restrict"),
        ({"sources": ["S1"], "contradicting_sources": ["S1"]}, "S1 contradicts this version: it cannot support it"),
        ({"stock_numbers": [NUMBER | {"form": "X"}]}, "The form X"),
        ({"stock_numbers": [NUMBER | {"sources": ["S9"]}]}, "The source S9"),
        ({"stock_numbers": [NUMBER | {"against": ["S1"]}]}, "S1 contradicts the number 8415-61-002"),
        ({"stock_numbers": [NUMBER | {"number": "--"}]}, "has a letter or figure"),
        ({"stock_numbers": [NUMBER | {"number": "8" * 81}]}, "up to 80 signs"),
        ({"stock_numbers": [NUMBER | {"number": "84-61"}]}, "84-61 is not written as 9999-99-999"),
        ({"stock_numbers": [NUMBER, NUMBER]}, "8415-61-002 stands here twice"),
        ({"stock_numbers": [NUMBER | {"last_year": 1970}]}, "the last year on labels lies before the first"),
        ({"stock_numbers": [NUMBER | {"first_year": 71}]}, "a year has four figures"),
        ({"stock_numbers": [SLIP | {"misprint_of": "8415 16 002"}]}, "is no misprint of itself"),
    ],
)
def test_what_cannot_be_is_refused_in_words_and_nothing_is_kept_of_it(society, rows, words):
    with pytest.raises(NotDone, match=words):
        drafted(society.ada, society.one, rows)
    assert not Proposal.objects.exclude(rows={}).exists()


def test_a_number_that_stays_keeps_its_row_when_another_comes(society):
    decide_both(society, sent(society.ada, society.one, {"stock_numbers": [NUMBER]}))
    row = StockNumber.objects.get()
    decide_both(society, sent(society.ada, society.one, {"stock_numbers": [SLIP, NUMBER | {"last_year": 1980}]}))

    assert StockNumber.objects.count() == 2
    row.refresh_from_db()
    assert (row.last_year, row.bare, row.version) == (1980, "841561002", society.one)
    assert list(row.citations.values_list("source__code", "stance")) == [("S1", "supports"), ("S2", "contradicts")]


def test_a_source_goes_from_one_side_to_the_other(society):
    decide(sent(society.ada, society.one, {"sources": ["S1", "S2"]}), society.mo)
    decide_both(society, sent(society.ada, society.one, {"sources": ["S2"], "contradicting_sources": ["S1"]}))

    held = Citation.objects.filter(version=society.one).values_list("source__code", "stance")
    assert list(held) == [("S2", "supports"), ("S1", "contradicts")]


def test_a_new_version_comes_with_its_numbers_cut_and_service(society):
    made = begin_new_version(by=society.ada, garment_type=society.home, code="SMK-90", name="Smock 90")
    rows = {key: WANTED[key] for key in ("cut", "colourway", "issuer", "stock_numbers", "contradicting_sources")}
    save_draft(proposal=made, by=society.ada, revision=0, wanted={**made.rows, **rows}, grounds="A label.", sources=[])
    decide_both(society, send_proposal(proposal=made, by=society.ada))

    home, stands = facts("SMK-90")
    assert rows_of_version(IssueVersion.objects.get(code="SMK-90")) | rows == rows_of_version(
        IssueVersion.objects.get(code="SMK-90")
    )
    assert stands.stock_numbers == with_rows(home, bare_version("SMK-90"), rows).stock_numbers
    assert (stands.cut, stands.issuer, stands.issuer_date) == ("Desert", "The Service", "1950/1990")


def test_a_number_that_others_changed_meanwhile_is_a_clash_to_be_settled_by_row(society, client):
    other = sent(society.mo, society.one, {"stock_numbers": [SLIP], "cut": "D"})
    mine = sent(society.ada, society.one, {"stock_numbers": [NUMBER]})
    decide(other, society.mia)
    other.refresh_from_db()
    decide(other, society.max)

    with pytest.raises(NotDone, match="choose row by row"):
        decide(mine, society.mo)
    client.force_login(society.ada)
    page = unescape(client.get(f"/proposals/{mine.pk}/").content.decode())
    assert "8415-16-002 (misprint of 8415-61-002)" in page
    assert "8415-61-002 (Number of the Service; 1971–1979; on S1; against it: S2; note: on the second contract)" in page


# ---- the form

PLAIN = st.text(st.characters(min_codepoint=33, max_codepoint=382, exclude_characters="\\\x85"), min_size=1, max_size=9)
CODES = st.lists(st.sampled_from(["S1", "S2", "S3"]), unique=True)
YEAR = st.one_of(st.none(), st.integers(1000, 2100))
NOTES = st.lists(PLAIN, max_size=3).map(" ".join) | st.just("one\ntwo; three")


@given(
    st.lists(
        st.fixed_dictionaries(
            {"number": PLAIN.map(str.strip).filter(bool), "form": st.sampled_from(["", "NUM"]), "first_year": YEAR,
             "last_year": YEAR, "misprint_of": st.just("") | PLAIN.map(str.strip), "note": NOTES.map(str.strip),
             "sources": CODES, "against": CODES}
        )
    )
)  # fmt: skip
def test_numbers_are_read_as_they_are_written(numbers):
    assert from_lines(as_lines(numbers)) == numbers


def test_a_note_keeps_the_blanks_before_its_semicolons():
    note = from_lines("8415-61; 1971; note on the label ; and on the box ;")[0]["note"]

    assert note == "on the label ; and on the box ;"


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("8415-61; 71", "“71” in the line of 8415-61 is not understood"),
        ("8415-61; form", "“form” in the line"),
        ("8415-61; from 1971–1979", "“from 1971–1979” in the line"),
        ("8415-61; misprint 8415", "“misprint 8415” in the line"),
    ],
)
def test_a_part_of_a_line_that_is_not_understood_is_named(line, words):
    with pytest.raises(NotUnderstood, match=words):
        from_lines(line)


def open_form(client, society, who):
    client.force_login(who)
    page = client.post("/proposals/new/?version=SMK-61", {"kind": "fields"}, follow=True)
    return page.request["PATH_INFO"], Sent(page.content.decode()).sent


def test_an_author_writes_all_of_it_in_the_form_and_what_is_not_understood_is_kept_as_typed(society, client):
    where, form = open_form(client, society, society.ada)
    typed = {"cut": "D", "colourway": "SAND", "issuer": "SVC", "passes_for": "CAP", "contradicting_sources": "S2"}
    typed |= {"stock_numbers": "8415-61-002; form NUM; 1971-1979; whatever"}
    page = unescape(client.post(where, form | typed).content.decode())
    assert "“whatever” in the line of 8415-61-002 is not understood" in page
    assert "8415-61-002; form NUM; 1971-1979; whatever" in page

    lines = (
        "8415-61-002; form NUM; 1971-1979; sources S1; against S2; note on the second contract\r\n"
        "8415-16-002; misprint of 8415-61-002"
    )
    client.post(where, form | typed | {"stock_numbers": lines, "restrictions": ["wearing", "export"]})

    keys = ("cut", "colourway", "issuer", "passes_for", "contradicting_sources", "stock_numbers", "restrictions")
    assert Proposal.objects.get().rows == {key: WANTED[key] for key in keys}
    again = client.get(where).content.decode()
    assert "8415-61-002; form NUM; 1971–1979; sources S1; against S2; note on the second contract" in again
    assert '<option value="D" selected>Desert (D)</option>' in again


def test_a_member_gives_a_source_against_a_version_and_is_not_asked_for_what_takes_two(society, client):
    where, form = open_form(client, society, society.ben)
    assert not {"cut", "colourway", "issuer", "stock_numbers", "passes_for"} & set(form)
    client.post(where, form | {"contradicting_sources": "S2"})
    proposal = Proposal.objects.get()
    assert (proposal.rows, proposal.weight) == ({"contradicting_sources": ["S2"]}, "small")

    decide(sent(society.ben, society.one, {"contradicting_sources": ["S2"]}), society.mo)
    where, form = open_form(client, society, society.ben)
    page = client.post(where, form | {"contradicting_sources": ""}).content.decode()
    assert "What changes identification or dates is proposed by authors" in page


def test_the_history_says_what_a_decision_changed_of_numbers_and_cut(society, client):
    decide_both(society, sent(society.ada, society.one, {"stock_numbers": [SLIP], "cut": "D"}))
    decide_both(society, sent(society.ada, society.one, {"stock_numbers": [NUMBER]}))

    listed = unescape(client.get("/issue-versions/SMK-61/history/").content.decode())
    assert "Cut: Desert (D) (before: nothing)" in listed
    compared = unescape(client.get("/issue-versions/SMK-61/history/3/?with=1").content.decode())
    assert f"Stock numbers: {number_in_words(NUMBER, type_facts('SMK'))} (before: nothing)" in compared
