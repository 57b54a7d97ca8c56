"""What versions rest on, makers, services, sources and number forms: what identification or dating reads of it is
changed by two people."""

from html import unescape

import pytest
from django.db import connection
from django.test import override_settings
from django.test.utils import CaptureQueriesContext
from django.utils.html import strip_tags

from catalogue.member_examples.actions import NotDone
from catalogue.reference.backing_rows import BACKINGS
from catalogue.reference.models import Correction, Issuer, Maker, NumberForm, ReferenceState, Source
from catalogue.reference.spreadsheets.exporting import export_reference
from catalogue.review.backing.standing import rows_of
from catalogue.review.models import Decision, Proposal
from catalogue.review.proposals.actions import begin_on_backing, save_draft, send_proposal
from catalogue.review.records.decisions import faults_of_decisions
from catalogue.review.unreviewed.actions import pass_records
from tests.catalogue.review.bringing_in import brought_in, edited, row
from tests.catalogue.review.proposing import decide, decide_both, make_society, revoke
from tests.forms import Sent, fields_of, send

WANTED = {
    "issuer": {"date": "1950/1990", "predecessor": "OLD"},
    "maker": {"first_year": 1960, "mark": "M&Co"},
    "source": {"grade": "B", "date": "1962"},
    "numberform": {"pattern": "9999-99", "years": "1960/1980", "year_group": ""},
}
CODES = {"issuer": "SVC", "maker": "M1", "source": "S1", "numberform": "NUM"}


@pytest.fixture
def society(db):
    made = make_society()
    Issuer.objects.create(code="OLD", name="The Old Service")
    Issuer.objects.create(code="SVC", name="The Service", date="1955/1990")
    Maker.objects.create(code="M1", name="Maker & Co", first_year=1955, last_year=1980)
    NumberForm.objects.create(code="NUM", name="Number", pattern="(99)-999", year_group=1, years="1960~")
    pass_records(records=[made.one.current_record_id], by=made.mo, reason="Held against the sheets.")
    return made


def on_backing(society, table: str, rows: dict, *, by=None, **new) -> Proposal:
    by = by or society.ada
    made = begin_on_backing(by=by, table=table, code=new.pop("code", CODES[table]), **new)
    wanted = {**made.base, **made.rows, **rows}
    save_draft(proposal=made, by=by, revision=made.revision, wanted=wanted, grounds="A list says so.", sources=["S2"])
    return send_proposal(proposal=made, by=by)


@pytest.mark.parametrize("table", list(BACKINGS))
def test_each_takes_two_people_is_written_noted_and_brought_back(society, table):
    was, state = rows_of(table, CODES[table]), ReferenceState.current_number()
    proposal = on_backing(society, table, WANTED[table])
    assert proposal.weight == "weighty"

    decide(proposal, society.mo)
    assert rows_of(table, CODES[table]) == was
    proposal.refresh_from_db()
    decide(proposal, society.mia)

    assert rows_of(table, CODES[table]) == was | WANTED[table]
    assert ReferenceState.current_number() > state
    noted = Correction.objects.get(table=table)
    assert (noted.member, noted.why, len(noted.lines)) == (society.ada, "A list says so.", len(proposal.rows))
    made = Decision.objects.get(kind="approved")
    assert (made.backing, made.after) == (f"{table}:{CODES[table]}", proposal.rows)
    for person in (society.max, society.mia):
        proposal.refresh_from_db()
        revoke(proposal, person)
    assert rows_of(table, CODES[table]) == was
    assert list(faults_of_decisions()) == []


def test_a_change_of_the_same_row_meanwhile_is_a_clash(society):
    mine, other = (on_backing(society, "maker", {"last_year": year}) for year in (1985, 1990))
    decide_both(society, other)
    with pytest.raises(NotDone, match="The maker changed since this was written: choose row by row"):
        decide(mine, society.mo)


@pytest.mark.parametrize(
    ("table", "rows", "words"),
    [
        ("numberform", {"pattern": "(99"}, "Pattern: "),
        ("numberform", {"year_group": 7}, "Group that holds the year: "),
        ("issuer", {"predecessor": "X"}, "The predecessor X, which this names, is not there"),
        ("issuer", {"date": "some day"}, "Dates: Not a date that can be read"),
        ("maker", {"first_year": 1990}, "a maker begins before it ends"),
        ("source", {"grade": "Z"}, "Grade: "),
    ],
)
def test_what_cannot_be_is_refused_in_words(society, table, rows, words):
    with pytest.raises(NotDone, match=words):
        on_backing(society, table, rows)


def test_a_new_number_form_is_proposed_and_goes_when_that_is_revoked_unless_a_number_is_written_so(society):
    new = {"code": "CAT", "new": True, "name": "Catalogue number"}
    proposal = on_backing(society, "numberform", {"pattern": "A 999"}, **new)
    decide_both(society, proposal)
    assert NumberForm.objects.get(code="CAT").pattern == "A 999"
    number = society.one.stock_numbers.create(number="C 123", form=NumberForm.objects.get(code="CAT"))
    proposal.refresh_from_db()

    with pytest.raises(NotDone, match="CAT is named by 1 stock number already"):
        revoke(proposal, society.max)
    number.delete()
    for person in (society.max, society.mia):
        proposal.refresh_from_db()
        revoke(proposal, person)
    assert not NumberForm.objects.filter(code="CAT").exists()
    with pytest.raises(NotDone, match="There is a number form NUM already"):
        on_backing(society, "numberform", {"pattern": "9"}, code="num", new=True, name="Again")


def test_it_is_written_sent_and_decided_on_the_pages(client, society):
    client.force_login(society.ada)
    begin = "/proposals/rests-on/issuer/?code=SVC"
    assert "needs two moderators beside you" in client.get(begin).content.decode()
    edit = client.post(begin)["Location"]
    form = Sent(client.get(edit).content.decode()).sent
    assert form["date"] == "1955/1990"
    page = unescape(client.post(edit, form | {"date": "some day", "grounds": "typed long"}).content.decode())
    assert "Not a date that can be read" in page
    assert "typed long" in page

    there = client.post(edit, form | {"date": "1950/1990", "predecessor": "OLD", "grounds": "A list."})["Location"]
    shown = unescape(client.get(there).content.decode())
    assert "Service SVC: dates, predecessor" in shown
    assert "1955–90" in shown
    assert "selected" in client.get(edit).content.decode().partition('value="OLD"')[2][:10]
    client.post(f"{there}send/")
    for who in (society.mo, society.mia):
        client.force_login(who)
        sent = Sent(client.get(there).content.decode()).sent
        client.post(there, sent | {"decision": "approved", "reason": "Seen.", "sending": 1})
    assert Issuer.objects.get(code="SVC").date == "1950/1990"
    assert "It stands again as it stood before" in client.get(there).content.decode()
    client.force_login(society.ben)
    assert client.get(begin).status_code == 403


@pytest.mark.parametrize("table", list(BACKINGS))
def test_under_review_the_back_office_reads_it_leads_to_a_proposal_and_writes_the_rest(client, society, table):
    model = BACKINGS[table].model
    held = model.objects.get(code=CODES[table])
    address = f"/admin/catalogue/{table}/{held.pk}/change/"
    words = "habits" if table == "maker" else "note"
    client.force_login(society.mo)

    page = client.get(address).content.decode()
    assert f'href="/proposals/rests-on/{table}/?code={CODES[table]}">Propose a change</a>' in page
    for name in BACKINGS[table].fields:
        assert f'name="{name}"' not in page
    was = rows_of(table, CODES[table])
    send(client, address, fields_of(client, address) | WANTED[table] | {words: "A word.", "why": "Misprint."})
    assert rows_of(table, CODES[table]) == was
    held.refresh_from_db()
    assert getattr(held, words) == "A word."
    assert (client.get(f"/admin/catalogue/{table}/add/").status_code == 403) == BACKINGS[table].made
    with override_settings(REVIEW="no"):
        for name in BACKINGS[table].fields:
            assert f'name="{name}"' in client.get(address).content.decode()


def test_by_spreadsheet_it_is_proposed_and_words_beside_it_are_written(society, tmp_path):
    export_reference(tmp_path)
    edited(tmp_path, "makers", lambda rows: row(rows, maker="M1").update(last_year="1985", habits="Zigzag"))
    edited(tmp_path, "sources", lambda rows: row(rows, source="S1").update(grade="B", title="Sheet of 1962"))
    edited(tmp_path, "number_forms", lambda rows: rows.append({"form": "CAT", "name": "Catalogue", "pattern": "A 999"}))
    edited(tmp_path, "makers", lambda rows: rows.append({"maker": "M2", "name": "Second"}))

    told = brought_in(tmp_path)

    assert "3 proposals written" in told
    assert {(one.backing_code, *one.rows) for one in Proposal.objects.all()} == {
        ("M1", "last_year"), ("S1", "grade"), ("CAT", "name", "pattern"),
    }  # fmt: skip
    maker, source = Maker.objects.get(code="M1"), Source.objects.get(code="S1")
    assert (maker.last_year, maker.habits, source.grade, source.title) == (1980, "Zigzag", "A", "Sheet of 1962")
    assert Maker.objects.filter(code="M2").exists()
    assert not NumberForm.objects.filter(code="CAT").exists()
    assert "0 proposals written, 3 left, 0 refused" in brought_in(tmp_path)
    for proposal in Proposal.objects.all():
        decide_both(society, proposal)
    assert "0 proposals written, 0 left, 0 refused" in brought_in(tmp_path)
    assert NumberForm.objects.get(code="CAT").pattern == "A 999"


PAGES = {"issuer": "/issuers/SVC/", "maker": "/makers/M1/", "source": "/sources/S1/"}


def text_of(client, address: str) -> str:
    page = client.get(address).content.decode().replace("<br>", " ")
    return " ".join(unescape(strip_tags(page)).split())


@pytest.mark.parametrize("table", list(PAGES))
def test_its_public_page_leads_authors_to_a_proposal_and_members_to_what_waits(client, society, table):
    link = f"/proposals/rests-on/{table}/?code={CODES[table]}"
    proposal = on_backing(society, table, WANTED[table])
    waits = f"Proposal {proposal.pk} by Ada waits for a decision."

    assert "Changes of this" not in text_of(client, PAGES[table])
    for person, proposes in ((society.ben, False), (society.ada, True), (society.mo, True)):
        client.force_login(person)
        assert (link in client.get(PAGES[table]).content.decode()) == proposes
        assert waits in text_of(client, PAGES[table])
    decide(proposal, society.mo, "declined", reason="No.")
    assert f"Proposal {proposal.pk} by Ada was declined." in text_of(client, PAGES[table])


def test_its_public_page_tells_everybody_what_was_changed_by_whom_why_and_what_was_taken_back(client, society):
    proposal = on_backing(society, "maker", {"last_year": 1985, "mark": "M&Co"})
    decide_both(society, proposal)
    told = (
        "Last year: 1985 (before: 1980); What stands on its labels: M&Co (before: nothing). "
        "Proposed by Ada, decided by Mo and Mia. Why: A list says so. On: S2"
    )
    assert told in text_of(client, "/makers/M1/")
    assert f"Proposal {proposal.pk}" not in text_of(client, "/makers/M1/")
    for person in (society.max, society.mia):
        proposal.refresh_from_db()
        revoke(proposal, person)

    page = text_of(client, "/makers/M1/")
    assert "Taken back, " in page
    assert "Last year: 1980 (before: 1985)" in page
    assert "decided by Max and Mia. Why: It was a slip." in page
    assert "revoked since" in page
    client.force_login(society.ben)
    assert f"Proposal {proposal.pk}" in text_of(client, "/makers/M1/")


def test_a_number_form_has_no_page_and_its_changes_stand_where_one_is_proposed(client, society):
    decide_both(society, on_backing(society, "numberform", {"years": "1960/1980"}))
    client.force_login(society.ada)

    assert "Years in use: 1960–80 (before: " in text_of(client, "/proposals/rests-on/numberform/?code=NUM")


def test_its_page_asks_as_often_for_many_changes_as_for_one(client, society):
    def queries() -> int:
        with CaptureQueriesContext(connection) as asked:
            client.get("/makers/M1/")
        return len(asked)

    client.force_login(society.ada)
    decide_both(society, on_backing(society, "maker", {"last_year": 1985}))
    on_backing(society, "maker", {"mark": "One"})
    queries()
    few = queries()
    for year in range(1986, 1991):
        decide_both(society, on_backing(society, "maker", {"last_year": year}))
        on_backing(society, "maker", {"mark": str(year)})
    queries()

    assert queries() == few <= 12


def test_a_number_is_tried_in_the_proposal_of_a_number_form_as_it_is_typed_and_nothing_is_saved(client, society):
    client.force_login(society.ada)
    edit = client.post("/proposals/rests-on/numberform/?code=NUM")["Location"]
    form = Sent(client.get(edit).content.decode()).sent

    def answered(**typed) -> str:
        page = client.post(edit, form | typed | {"_try": "yes"}).content.decode()
        assert {name: Sent(page).sent[name].strip() for name in typed} == typed
        return " ".join(unescape(strip_tags(page)).split())

    right = {"pattern": "(A)/(99)/(999)", "year_group": "2", "years": "1960/1990"}
    said = answered(**right, tried_number="A/74/208", grounds="A typed word.")
    assert "How “A/74/208” is read “A/74/208” is read as A/74/208." in said
    assert "The year is 1974." in said
    assert "nothing is saved yet" in said
    assert "is not read as a number of this form" in answered(**right, tried_number="B")
    for wrong in ({"pattern": "A/(99", "tried_number": "A/74/208"}, {"tried_number": ""}):
        assert "It cannot be tried yet" in answered(**wrong)
    draft = Proposal.objects.get()
    assert (draft.rows, draft.grounds, draft.revision) == ({}, "", 0)
    client.post("/proposals/rests-on/maker/?code=M1")
    other = f"/proposals/{Proposal.objects.get(backing='maker').pk}/edit/rests-on/"
    assert "A number to try" not in client.get(other).content.decode()
