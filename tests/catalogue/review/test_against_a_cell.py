"""A source may speak against a single state of a profile: proposed, read, kept by spreadsheets and brought back."""

import csv

import pytest
from django.core.management import CommandError

from catalogue.member_examples.actions import NotDone
from catalogue.reference.models import Citation, Source
from catalogue.reference.snapshots import type_facts
from catalogue.reference.spreadsheets.exporting import export_reference
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import begin_change, begin_new_version
from catalogue.review.proposals.composing import cell_in_words
from catalogue.review.proposals.merged import cells_of_both
from catalogue.review.proposals.rules import weight_of
from catalogue.review.proposals.standing import rows_of_version
from catalogue.review.unreviewed.actions import pass_records
from tests.catalogue.review.bringing_in import brought_in, edited, row
from tests.catalogue.review.proposing import cell, decide, decide_both, make_society, revoke, sent
from tests.catalogue.review.test_sealed_records import verified
from tests.forms import Sent
from tests.reading import text

AGAINST = {"feature:cuff": [cell("tab", against=["S2"])]}


@pytest.fixture
def society(db):
    return make_society()


def citations() -> list:
    of_cells = Citation.objects.filter(cell__record__version__code="SMK-61")
    rows = of_cells.filter(cell__record__number__gt=1).order_by("cell__record__number", "position")
    return list(rows.values_list("cell__state__code", "source__code", "stance"))


def test_a_source_against_a_state_comes_by_one_person_is_read_and_taken_back(client, society):
    was = rows_of_version(society.one)
    proposal = sent(society.ben, society.one, AGAINST)
    assert proposal.weight == "small"

    decide(proposal, society.mo)

    assert citations() == [("tab", "S2", "contradicts")]
    assert rows_of_version(society.one)["feature:cuff"] == AGAINST["feature:cuff"]
    page = text(client, "/issue-versions/SMK-61/")
    assert "against:" in page
    assert "It contradicts" in text(client, "/sources/S2/")
    assert "against: S2" in text(client, "/issue-versions/SMK-61/history/")
    assert verified()[1] == ""
    proposal.refresh_from_db()
    revoke(proposal, society.mia)
    assert rows_of_version(society.one) == was


def test_to_take_a_source_against_away_takes_two_and_a_change_elsewhere_leaves_it(society):
    decide(sent(society.ben, society.one, AGAINST), society.mo)
    assert weight_of("change", AGAINST, {"feature:cuff": [cell("tab")]}) == "weighty"

    decide_both(society, sent(society.ada, society.one, {"feature:closure": [cell("zip")]}))

    assert rows_of_version(society.one)["feature:cuff"] == AGAINST["feature:cuff"]


def test_a_source_against_a_state_is_no_ground_for_it_and_what_is_carried_over_keeps_it(society):
    decide(sent(society.ben, society.one, AGAINST), society.mo)
    assert [one.grounds for one in type_facts("SMK").versions["SMK-61"].cells["cuff"]] == ["Asserted"]

    decide_both(society, sent(society.ada, society.one, {"continues": ["SMK-76"]}))
    tab = {"feature:cuff": [cell("tab", sources=["S1"], against=["S3"])]}
    Source.objects.create(code="S3", title="Sheet S3", kind="specification", grade="A")
    decide_both(society, sent(society.ada, society.other, tab))

    [carried] = type_facts("SMK").versions["SMK-61"].cells["cuff"]
    assert (carried.grounds, carried.carried_from) == ("Carried over", "SMK-76")
    assert [(one.source, one.contradicts) for one in carried.citations] == [("S1", False), ("S2", True)]


def test_a_source_is_not_for_a_state_and_against_it(society, client):
    both = {"feature:cuff": [cell("tab", sources=["S1"], against=["S1"])]}
    with pytest.raises(NotDone, match="The source S1 contradicts tab: it cannot support it as well"):
        sent(society.ada, society.one, both)


@pytest.mark.parametrize("who", ["ada", "ben"])
def test_it_is_written_in_the_form_by_authors_and_members_and_what_is_wrong_is_kept(client, society, who):
    person = getattr(society, who)
    client.force_login(person)
    draft = begin_change(by=person, version=society.one)
    address = f"/proposals/{draft.pk}/edit/profile/"
    form = Sent(client.get(address).content.decode()).sent
    name = f"s{society.cuff.states.get(code='tab').pk}-against_codes"
    assert form[name] == ""
    wrong = client.post(address, form | {name: "S2 S9"}).content.decode()
    assert "S9" in wrong
    assert Sent(wrong).sent[name] == "S2 S9"

    client.post(address, form | {name: "S2"})

    assert Proposal.objects.get(pk=draft.pk).rows == AGAINST


def test_spreadsheets_say_it_and_a_sheet_without_the_column_leaves_it(society, tmp_path_factory):
    pass_records(records=[society.one.current_record_id], by=society.mo, reason="Held against the sheets.")
    folder = tmp_path_factory.mktemp("sheets")
    export_reference(folder)
    cuff = {"version": "SMK-61", "feature": "cuff"}
    edited(folder, "profiles", lambda rows: row(rows, **cuff).update(contradicting_sources="S2"))
    brought_in(folder)
    proposal = Proposal.objects.get()
    assert (proposal.rows, proposal.weight, proposal.sources) == (AGAINST, "small", ["S2"])
    decide(proposal, society.mo)

    out = tmp_path_factory.mktemp("out")
    export_reference(out)
    assert (out / "profiles.csv").read_text() == (folder / "profiles.csv").read_text()
    with (out / "profiles.csv").open(newline="") as file:
        rows = [{key: one[key] for key in one if key != "contradicting_sources"} for one in csv.DictReader(file)]
    with (out / "profiles.csv").open("w", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]))
        writer.writeheader()
        writer.writerows(rows)
    assert "0 proposals written" in brought_in(out)


def test_a_sheet_that_has_a_source_on_both_sides_of_a_state_is_refused_by_line(society, tmp_path, capsys):
    export_reference(tmp_path)
    both = {"sources": "S1", "contradicting_sources": "S1"}
    edited(tmp_path, "profiles", lambda rows: row(rows, version="SMK-61", feature="cuff").update(both))
    with pytest.raises(CommandError):
        brought_in(tmp_path)

    told = capsys.readouterr().err
    assert "column contradicting_sources: found “S1”. Accepted: a source that does not support it as well." in told


def test_a_merge_keeps_what_speaks_against_a_state_and_a_new_version_carries_none_of_it_over(society):
    one, other = cell("tab", sources=["S1"], against=["S2"]), cell("tab", sources=["S2"], against=["S3"])
    assert cells_of_both([one], [other]) == [cell("tab", sources=["S1", "S2"], against=["S3"])]
    decide(sent(society.ben, society.one, AGAINST), society.mo)
    society.one.refresh_from_db()

    new = begin_new_version(
        by=society.ada, garment_type=society.home, code="SMK-90", name="Smock 90", copy_of=society.one
    )

    assert new.rows["feature:cuff"] == [cell("tab")]
    assert cell_in_words(None, AGAINST["feature:cuff"][0]) == "tab (always; against it: S2)"
    assert Source.objects.get(code="S2").citations.count() == 1
