"""Spreadsheets under review: what they change of versions becomes proposals, everything else is written at once."""

import pytest
from django.core.management import CommandError, call_command
from django.test import override_settings

from catalogue.member_examples.actions import NotDone
from catalogue.reference.models import Correction, Feature, IssueVersion, OpenQuestion, Source, VersionRecord
from catalogue.reference.review_state import review_is_on
from catalogue.reference.spreadsheets.exporting import export_reference
from catalogue.review.importing.actions import propose_import
from catalogue.review.models import Notice, Proposal, ReferenceImport
from catalogue.review.proposals.actions import withdraw_proposal
from catalogue.review.unreviewed.actions import pass_records
from tests.catalogue.review.bringing_in import BECAUSE, brought_in, edited, row, zip_and_date
from tests.catalogue.review.proposing import decide, make_society, piece_of, sent
from tests.making import make_feature, make_type, make_version


@pytest.fixture
def society(db):
    """A reference under review: one of its records was looked through."""
    made = make_society()
    pass_records(records=[made.one.current_record_id], by=made.mo, reason="Held against the sheets.")
    return made


@pytest.fixture
def folder(society, tmp_path):
    export_reference(tmp_path)
    return tmp_path


def state_of_versions() -> list:
    records = VersionRecord.objects.order_by("pk").values_list("version__code", "number", "standing")
    return [*IssueVersion.objects.order_by("code").values_list("code", "name", "date", "current_record"), *records]


def test_each_changed_version_becomes_one_proposal_that_was_sent_and_no_version_is_written(society, folder):
    zip_and_date(folder)
    before = state_of_versions()

    told = brought_in(folder)

    assert state_of_versions() == before
    first, second = Proposal.objects.order_by("pk")
    assert first.version == society.one
    assert set(first.rows) == {"date", "feature:closure"}
    assert first.rows["date"] == "1962/1975"
    assert [cell["state"] for cell in first.rows["feature:closure"]] == ["zip"]
    assert second.rows == {"name": "Smock of 1976"}
    assert {(one.state, one.by, one.grounds) for one in (first, second)} == {("open", society.ada, BECAUSE)}
    assert (first.weight, second.weight) == ("weighty", "small")
    assert (first.sources, second.sources) == (["S1"], [])
    assert first.brought_in == second.brought_in == ReferenceImport.objects.get()
    assert "2 proposals written" in told
    assert "0 left, 0 refused" in told


def test_a_proposal_of_an_import_is_decided_as_any_other(society, folder):
    zip_and_date(folder)
    brought_in(folder)
    proposal = Proposal.objects.get(version=society.one)

    decide(proposal, society.mo)
    proposal.refresh_from_db()
    decide(proposal, society.mia)

    society.one.refresh_from_db()
    assert society.one.date == "1962/1975"
    assert society.one.current_record.standing == "approved"
    closure = society.one.current_record.cells.filter(state__feature__code="closure")
    assert [cell.state.code for cell in closure] == ["zip"]


def other_columns(rows) -> None:
    row(rows, version="SMK-61").update(cut="D", passes_for="CAP", contradicting_sources="S2")


def with_cut_and_cap(folder) -> None:
    edited(folder, "cuts", lambda rows: rows.append({"cut": "D", "name": "Desert"}))
    edited(folder, "types", lambda rows: rows.append({"type": "CAP", "name": "Cap"}))
    edited(folder, "versions", other_columns)


@pytest.mark.parametrize("by", ["ada@example.org", "mo@example.org"])
def test_cut_what_it_passes_for_and_what_contradicts_it_are_proposed_whoever_brings_them(society, folder, by):
    with_cut_and_cap(folder)

    brought_in(folder, by=by)

    society.one.refresh_from_db()
    assert (society.one.cut, society.one.passes_for.count(), society.one.citations.count()) == (None, 0, 0)
    proposal = Proposal.objects.get()
    assert proposal.rows == {"cut": "D", "passes_for": ["CAP"], "contradicting_sources": ["S2"]}
    assert (proposal.weight, proposal.sources) == ("weighty", ["S2"])
    for decider in (society.max, society.mia):
        proposal.refresh_from_db()
        decide(proposal, decider)
    society.one.refresh_from_db()
    assert (society.one.cut.code, society.one.passes_for.get().code) == ("D", "CAP")
    assert society.one.citations.get().stance == "contradicts"
    assert "0 proposals written, 0 left, 0 refused" in brought_in(folder, by=by)


def test_a_stock_number_by_spreadsheet_is_proposed_and_those_that_are_left_out_stay(society, folder):
    held = society.one.stock_numbers.create(number="8415-60", first_year=1970)
    held.citations.create(source=Source.objects.get(code="S2"), stance="contradicts")
    number = {"number": "8415-61", "version": "SMK-61", "first_year": "1971", "sources": "S1"}
    edited(folder, "stock_numbers", lambda rows: rows.append(number))

    brought_in(folder, by="mo@example.org")

    assert society.one.stock_numbers.get() == held
    proposal = Proposal.objects.get()
    assert [one["number"] for one in proposal.rows["stock_numbers"]] == ["8415-60", "8415-61"]
    assert proposal.weight == "weighty"
    for decider in (society.max, society.mia):
        proposal.refresh_from_db()
        decide(proposal, decider)
    assert society.one.stock_numbers.count() == 2
    assert held.citations.get().stance == "contradicts"
    edited(folder, "stock_numbers", lambda rows: row(rows, number="8415-61").update(first_year="1950"))
    brought_in(folder, by="mo@example.org")
    assert society.one.stock_numbers.get(number="8415-61").first_year == 1971
    assert Proposal.objects.latest("pk").rows["stock_numbers"][0]["first_year"] == 1950
    export_reference(folder)
    assert "0 proposals written, 0 left" in brought_in(folder)


def test_a_size_table_by_spreadsheet_becomes_a_proposal_and_lengths_left_out_stay(society, folder):
    society.one.size_lengths.create(mark="4", what="sleeve", mm=600, source=Source.objects.get(code="S1"))
    length = {"version": "SMK-61", "mark": "4", "length": "back_length", "mm": "700", "source": "S2"}
    edited(folder, "sizes", lambda rows: rows.append(length))

    brought_in(folder)

    assert society.one.size_lengths.count() == 1
    proposal = Proposal.objects.get()
    assert {(one["what"], one["mm"]) for one in proposal.rows["sizes"]} == {("sleeve", 600), ("back_length", 700)}
    assert (set(proposal.rows), proposal.sources) == ({"sizes"}, ["S1", "S2"])
    decide(proposal, society.mo)
    assert society.one.size_lengths.count() == 2
    assert "0 proposals written, 0 left" in brought_in(folder)


def test_a_view_that_is_there_is_not_rewritten_by_spreadsheet_and_a_new_one_says_who_brought_it_in(society, folder):
    question = OpenQuestion.objects.create(code="D1", question="Two patterns?")
    held = question.views.create(letter="A", holder="Ben", text="Two", by=society.ben)
    export_reference(folder)
    edited(folder, "question_views", lambda rows: row(rows, letter="A").update(text="It never existed", holder="Ada"))
    new = {"question": "D1", "letter": "B", "holder": "Ada", "text": "One"}
    edited(folder, "question_views", lambda rows: rows.append(new))

    told = brought_in(folder)

    assert "Left: D1: view A is left as it stands: who wrote it down changes it, on its page" in told
    held.refresh_from_db()
    assert (held.holder, held.text, held.by) == ("Ben", "Two", society.ben)
    assert question.views.get(letter="B").by == society.ada


def test_the_same_import_twice_writes_no_second_proposal_whatever_was_decided(society, folder):
    zip_and_date(folder)
    brought_in(folder)
    told = brought_in(folder)
    assert "0 proposals written, 2 left, 0 refused" in told
    decide(Proposal.objects.get(version=society.other), society.mo, "declined", "Nobody calls it so.")

    told = brought_in(folder, by="mia@example.org")

    assert "declined, says the same" in told
    assert Proposal.objects.count() == 2
    assert ReferenceImport.objects.count() == 1


def test_what_is_part_of_no_version_is_written_at_once(society, folder):
    edited(folder, "sources", lambda rows: rows.append(row(rows, source="S1") | {"source": "S9", "title": "Sheet S9"}))
    edited(folder, "sources", lambda rows: row(rows, source="S1").update(title="Sheet of 1962"))
    edited(folder, "profiles", lambda rows: row(rows, version="SMK-61", feature="cuff").update(sources="S9"))

    told = brought_in(folder)

    assert Source.objects.get(code="S9").title == "Sheet S9"
    assert Source.objects.get(code="S1").title == "Sheet of 1962"
    proposal = Proposal.objects.get()
    assert proposal.sources == ["S9"]
    assert "sources: 1 added, 1 changed, 1 as before" in told


def test_what_is_written_at_once_is_kept_with_who_when_why_and_what_stood_and_is_brought_back(
    society, folder, tmp_path_factory, client
):
    as_it_was = tmp_path_factory.mktemp("before")
    export_reference(as_it_was)
    pair = {"version": "SMK-61", "other": "SMK-76", "goes_with": "worn_with", "sources": "S1"}
    edited(folder, "issuers", lambda rows: rows.append({"issuer": "SVC", "name": "The Service", "sources": "S1"}))
    edited(folder, "makers", lambda rows: rows.append({"maker": "M1", "name": "Maker", "place": "Fell"}))
    edited(folder, "sources", lambda rows: row(rows, source="S1").update(title="Sheet of 1962"))
    edited(folder, "versions", lambda rows: row(rows, version="SMK-61").update(sellers_names="Fell parka"))
    edited(folder, "companions", lambda rows: rows.append(pair))
    brought_in(folder)

    kept = {one.table: one for one in Correction.objects.all()}
    assert {table: (one.deed, one.lines) for table, one in kept.items()} == {
        "issuer": ("added", [["Name", "", "The Service"], ["Issuer", "", "SVC"], ["Sources", "", "S1"]]),
        "maker": ("added", [["Name", "", "Maker"], ["Place", "", "Fell"], ["Maker", "", "M1"]]),
        "source": ("changed", [["Title", "Sheet S1", "Sheet of 1962"]]),
        "issueversion": ("changed", [["Sellers names", "", "Fell parka"]]),
        "companion": (
            "added",
            [["Goes with", "", "worn_with"], ["Version", "", "SMK-61"], ["Other", "", "SMK-76"], ["Sources", "", "S1"]],
        ),
    }
    assert {(one.member, one.why) for one in kept.values()} == {(society.ada, BECAUSE)}
    client.force_login(society.mo)
    history = client.get(f"/admin/catalogue/issueversion/{society.one.pk}/history/").content.decode()
    assert "Fell parka" in history
    assert BECAUSE in history

    brought_in(folder)
    assert Correction.objects.count() == 5
    brought_in(as_it_was, because="It was another sheet.")
    back = Correction.objects.get(table="source", why="It was another sheet.")
    assert back.lines == [["Title", "Sheet of 1962", "Sheet S1"]]
    assert Source.objects.get(code="S1").title == "Sheet S1"


def test_an_import_that_is_refused_keeps_no_change(society, folder):
    edited(folder, "sources", lambda rows: row(rows, source="S1").update(title=""))
    with pytest.raises(CommandError):
        brought_in(folder)

    assert not Correction.objects.exists()


def test_an_import_that_changes_nothing_writes_nothing(society, folder):
    told = brought_in(folder)

    assert "0 proposals written, 0 left, 0 refused" in told
    assert not Proposal.objects.exists()
    assert not ReferenceImport.objects.exists()
    assert not Correction.objects.exists()


def with_a_new_version(folder) -> None:
    def version(rows):
        rows.append(row(rows, version="SMK-76") | {"version": "SMK-90", "name": "Smock 90", "continues": "SMK-76"})
        rows.append(row(rows, version="SMK-76") | {"version": "SMK-95", "name": "Smock 95", "continues": "SMK-90"})

    def profile(rows):
        rows += [one | {"version": "SMK-90"} for one in rows if one["version"] == "SMK-76"]

    edited(folder, "versions", version)
    edited(folder, "profiles", profile)
    edited(folder, "stock_numbers", lambda rows: rows.append({"number": "8415-99", "version": "SMK-90"}))
    length = {"version": "SMK-90", "mark": "4", "length": "sleeve", "mm": "600", "source": "S1"}
    edited(folder, "sizes", lambda rows: rows.append(length))


def test_a_new_version_is_proposed_and_what_names_it_waits_until_it_stands(society, folder):
    with_a_new_version(folder)

    told = brought_in(folder)

    proposal = Proposal.objects.get()
    assert (proposal.kind, proposal.new_code) == ("new", "SMK-90")
    assert proposal.rows["continues"] == ["SMK-76"]
    assert set(proposal.rows) >= {"feature:closure", "feature:cuff"}
    assert "Refused: SMK-95: it continues SMK-90: import this again once that is approved" in told
    assert [one["number"] for one in proposal.rows["stock_numbers"]] == ["8415-99"]
    assert proposal.rows["sizes"] == [{"mark": "4", "what": "sleeve", "mm": 600, "source": "S1"}]
    assert "0 proposals written, 1 left, 1 refused" in brought_in(folder)

    decide(proposal, society.mo)
    proposal.refresh_from_db()
    decide(proposal, society.mia)
    brought_in(folder)

    assert IssueVersion.objects.get(code="SMK-90").stock_numbers.get().number == "8415-99"
    assert IssueVersion.objects.get(code="SMK-90").size_lengths.get().mm == 600
    assert Proposal.objects.latest("pk").new_code == "SMK-95"


def retired_into(folder, code: str, *became: str) -> None:
    words = {"retired": "One contract.", "became": " ".join(became)}
    edited(folder, "versions", lambda rows: row(rows, version=code).update(words))


def approve(society, code: str) -> None:
    for decider in (society.mo, society.mia):
        decide(Proposal.objects.filter(version__code=code).latest("pk"), decider)


def test_what_a_version_became_is_proposed_with_its_retirement_and_leads_on_once_approved(client, society, folder):
    retired_into(folder, "SMK-76", "SMK-61")

    brought_in(folder)
    proposal = Proposal.objects.get()
    assert (proposal.rows, proposal.weight) == ({"retired": "One contract.", "became": ["SMK-61"]}, "weighty")
    client.force_login(society.mo)
    assert "SMK-61" in client.get(f"/proposals/{proposal.pk}/").content.decode()
    assert not society.other.successors.exists()
    approve(society, "SMK-76")

    assert [one.successor.code for one in society.other.successors.all()] == ["SMK-61"]
    page = client.get("/issue-versions/SMK-76/").content.decode()
    assert "Retired: it became" in page
    assert 'href="/issue-versions/SMK-61/"' in page
    assert "0 proposals written" in brought_in(folder)
    again = {"retired": "", "became": ""}
    edited(folder, "versions", lambda rows: row(rows, version="SMK-76").update(again))
    brought_in(folder)
    approve(society, "SMK-76")
    society.other.refresh_from_db()
    assert (society.other.retired_why, society.other.successors.count()) == ("", 0)


def test_two_imports_that_are_sound_alone_make_no_circle_together(society, folder):
    retired_into(folder, "SMK-76", "SMK-61")
    brought_in(folder)
    edited(folder, "versions", lambda rows: row(rows, version="SMK-76").update(retired="", became=""))
    retired_into(folder, "SMK-61", "SMK-76")
    brought_in(folder)
    approve(society, "SMK-76")

    with pytest.raises(NotDone, match="SMK-61 would become itself by way of SMK-76"):
        approve(society, "SMK-61")

    society.one.refresh_from_db()
    assert (society.one.retired_why, society.one.successors.count()) == ("", 0)
    assert Proposal.objects.get(version=society.one).state == "open"


def test_a_version_that_became_another_is_not_in_force_again_while_it_still_leads_there(society, folder):
    retired_into(folder, "SMK-76", "SMK-61")
    brought_in(folder)
    approve(society, "SMK-76")
    sent(society.ada, society.other, {"retired": ""})

    with pytest.raises(NotDone, match="SMK-76 became SMK-61: it is in force again once that is taken back too"):
        approve(society, "SMK-76")
    assert society.other.successors.count() == 1


def test_what_becomes_a_version_that_is_only_proposed_waits_until_it_stands(society, folder):
    with_a_new_version(folder)
    retired_into(folder, "SMK-76", "SMK-90")

    assert "Refused: SMK-76: it became SMK-90: import this again once that is approved" in brought_in(folder)
    assert not Proposal.objects.filter(version=society.other).exists()


def test_a_version_with_accepted_pieces_becomes_no_other_by_an_import(society, folder):
    """Only a merge or a split takes the pieces along; else they would be pieces of no version."""
    piece_of(society, society.other, cuff="plain")
    retired_into(folder, "SMK-76", "SMK-61")

    assert "Refused: SMK-76: 1 accepted piece is held as SMK-76: propose a merge or a split" in brought_in(folder)
    assert not Proposal.objects.exists()


def test_a_piece_accepted_meanwhile_keeps_a_version_from_becoming_another(society, folder):
    retired_into(folder, "SMK-76", "SMK-61")
    brought_in(folder)
    piece_of(society, society.other, cuff="plain")

    with pytest.raises(NotDone, match="held as SMK-76: propose a merge or a split"):
        approve(society, "SMK-76")
    society.other.refresh_from_db()
    assert (society.other.retired_why, society.other.successors.count()) == ("", 0)


def test_a_version_becomes_none_of_another_garment_type_by_an_import(society, folder):
    make_version(make_type("CAP"), "CAP-61", {})
    retired_into(folder, "SMK-76", "CAP-61")

    assert "Refused: SMK-76: CAP-61 is a version of another garment type" in brought_in(folder)


def test_a_version_does_not_change_its_garment_type_by_an_import(society, folder):
    edited(folder, "types", lambda rows: rows.append(row(rows, type="SMK") | {"type": "COA", "name": "Coat"}))
    edited(folder, "versions", lambda rows: row(rows, version="SMK-76").update(type="COA"))

    assert "Refused: SMK-76: a version does not go to another garment type" in brought_in(folder)
    assert not Proposal.objects.exists()


@pytest.mark.parametrize(
    ("by", "because", "words"),
    [
        ("", BECAUSE, "--by EMAIL --because TEXT"),
        ("ada@example.org", " ", "--by EMAIL --because TEXT"),
        ("nobody@example.org", BECAUSE, "no member has the verified e-mail address"),
        ("ben@example.org", BECAUSE, "Authors, moderators and the secretary"),
    ],
)
def test_an_import_without_who_and_why_is_refused_and_writes_nothing(society, folder, by, because, words):
    zip_and_date(folder)
    before = state_of_versions()

    with pytest.raises(CommandError, match=words):
        brought_in(folder, by=by, because=because)
    assert state_of_versions() == before
    assert not Proposal.objects.exists()


def test_a_faulty_folder_writes_neither_proposals_nor_anything_else(society, folder):
    zip_and_date(folder)
    edited(folder, "sources", lambda rows: row(rows, source="S1").update(title="Sheet of 1962", grade="Z"))

    with pytest.raises(CommandError, match="1 fault"):
        brought_in(folder)
    assert not Proposal.objects.exists()
    assert Source.objects.get(code="S1").title == "Sheet S1"


def test_review_is_on_once_anything_was_reviewed_or_as_the_setting_says(db):
    for setting in ("begun", "yes", "no"):
        with override_settings(REVIEW=setting):
            assert not review_is_on(), "the first load has nothing to be held against"
    made = make_society()
    found = {}
    for stage in ("loaded", "reviewed"):
        for setting in ("begun", "yes", "no"):
            with override_settings(REVIEW=setting):
                found[stage, setting] = review_is_on()
        pass_records(records=[made.one.current_record_id], by=made.mo, reason=stage) if stage == "loaded" else None

    assert [setting for stage, setting in found if found[stage, setting] and stage == "loaded"] == ["yes"]
    assert [setting for stage, setting in found if found[stage, setting] and stage == "reviewed"] == ["begun", "yes"]


def test_a_first_load_says_who_brought_it_in_so_that_they_do_not_pass_it(db, tmp_path):
    made = make_society()
    export_reference(tmp_path)
    edited(tmp_path, "profiles", lambda rows: row(rows, version="SMK-61", feature="closure").update(state="zip"))

    told = brought_in(tmp_path, by="MO@example.org")

    assert "Imported." in told
    made.one.refresh_from_db()
    record = made.one.current_record
    assert (record.number, record.standing, record.written_by, record.why) == (2, "imported", made.mo, BECAUSE)


def test_a_bare_table_does_not_overwrite_versions_under_review(society, tmp_path):
    with pytest.raises(CommandError, match="under review"):
        call_command("import_matrix", str(tmp_path / "features.csv"), str(tmp_path / "matrix.csv"), type_code="SMK")


# ---- decided together


def features_in(tmp_path, **files: str):
    for name, text in files.items():
        (tmp_path / f"{name}.csv").write_text(text, encoding="utf-8")
    return tmp_path


CUFF = "feature,name,question,kind,seen,service_change,error\ncuff,Feature cuff,{},choice,outside,no,{}\n"


def test_what_changes_a_feature_that_stands_is_proposed_and_what_is_new_is_written_at_once(tmp_path, db):
    society = make_society()
    folder = features_in(
        tmp_path,
        features=CUFF.format("How does it end?", 0.05) + "yoke,Yoke,Is there a yoke?,choice,outside,no,0.05\n",
        states="feature,state,label\ncuff,tab,Strap\ncuff,elastic,Elastic\nyoke,yes,Yes\nyoke,no,No\n",
    )
    outcome = propose_import(folder=folder, by=society.ada, because="Card index.")

    proposal = Proposal.objects.get()
    assert outcome.written == [proposal.pk]
    assert (proposal.kind, proposal.feature, proposal.weight) == ("feature", society.cuff, "weighty")
    assert set(proposal.rows) == {"question", "state:tab"}
    society.cuff.refresh_from_db()
    assert society.cuff.question == "cuff?"
    assert [s.label for s in society.cuff.states.all()] == ["Tab", "Plain", "Elastic"]
    assert Feature.objects.get(code="yoke").states.count() == 2
    again = propose_import(folder=folder, by=society.ada, because="Card index.")
    assert again.left == [f"cuff: proposal {proposal.pk}, waiting, says the same"]
    for one in (society.mo, society.mia):
        decide(proposal, one)
    society.cuff.refresh_from_db()
    assert society.cuff.question == "How does it end?"
    assert propose_import(folder=folder, by=society.ada, because="Card index.").written == []


def test_what_a_sheet_says_of_a_trade_word_is_proposed_and_written_as_it_stands_there(tmp_path, db):
    society = make_society()
    states = "feature,state,label,explained,label_says\ncuff,tab,Tab,A short strap.,size:letter\ncuff,plain,Plain,,\n"
    propose_import(folder=features_in(tmp_path, states=states), by=society.ada, because="Card index.")
    proposal = Proposal.objects.get()
    for one in (society.mo, society.mia):
        decide(proposal, one)

    assert set(proposal.rows) == {"state:tab"}
    assert dict(society.cuff.states.values_list("code", "explained")) == {"tab": "A short strap.", "plain": ""}
    assert dict(society.cuff.states.values_list("code", "label_says")) == {"tab": "size:letter", "plain": ""}
    export_reference(tmp_path)
    assert "cuff,tab,Tab,A short strap.,size:letter," in (tmp_path / "states.csv").read_text(encoding="utf-8-sig")
    assert propose_import(folder=tmp_path, by=society.ada, because="Card index.").written == []


def test_a_garment_type_goes_on_asking_and_a_profile_waits_for_a_band_that_is_only_proposed(tmp_path, db):
    society = make_society()
    count = make_feature("buttons", types=[society.home], kind="count", states=())
    for place, (code, low, high) in enumerate((("few", 0, 4), ("many", 4, None))):
        count.states.create(code=code, label=code, low=low, high=high, position=place)
    folder = features_in(
        tmp_path,
        types="type,name,features\nSMK,Smock,closure buttons\n",
        states="feature,state,label,low,high\nbuttons,few,few,0,4\nbuttons,many,many,4,8\nbuttons,most,most,8,\n",
        profiles="version,feature,state,how_often\nSMK-76,closure,buttons,always\nSMK-76,buttons,most,always\n",
    )
    outcome = propose_import(folder=folder, by=society.ada, because="Counted.")

    assert set(Proposal.objects.get().rows) == {"state:many", "state:most"}
    assert any("SMK goes on asking for cuff" in line for line in outcome.left)
    assert outcome.refused == [
        "SMK-76: it names the state most of buttons, which is only proposed: import this again once it stands"
    ]
    assert society.home.features.filter(code="cuff").exists()
    for one in (society.mo, society.mia):
        decide(Proposal.objects.get(), one)
    assert [s.code for s in count.states.all()] == ["few", "many", "most"]
    assert len(propose_import(folder=folder, by=society.ada, because="Counted.").written) == 1


def test_how_a_question_stands_is_not_changed_by_an_import_and_the_rest_of_it_is(society, folder):
    one = OpenQuestion.objects.create(code="D1", question="Two patterns?", settled=True, moderator_note="One")
    one.views.create(letter="A", holder="Ada", text="Two")
    one.views.create(letter="B", holder="Ben", text="One", stands=True)
    export_reference(folder)
    edited(folder, "open_questions", lambda rows: rows[0].update(settled="no", text="Two or one?", moderator_note=""))
    edited(folder, "question_views", lambda rows: [row.update(stands="no", text="As before") for row in rows])

    told = brought_in(folder)

    one.refresh_from_db()
    assert (one.settled, one.moderator_note, one.question) == (True, "One", "Two or one?")
    assert [(view.letter, view.stands, view.text) for view in one.views.all()] == [
        ("A", False, "Two"), ("B", True, "One"),
    ]  # fmt: skip
    assert "D1 stands as it was decided: propose another decision on its page" in told


def test_moderators_are_told_once_of_an_import_until_nothing_of_it_waits(society, folder):
    zip_and_date(folder)
    brought_in(folder)
    first, second = Proposal.objects.order_by("pk")
    new = Notice.objects.filter(read_at__isnull=True)
    told = list(new.values_list("member__username", "reference_import", "proposal"))
    others = [one.username for one in (society.mo, society.mia, society.max) if one.pk != first.by_id]
    assert sorted(told) == [(name, first.brought_in_id, None) for name in sorted(others)]

    withdraw_proposal(proposal=first, by=first.by)
    assert new.count() == len(others)
    withdraw_proposal(proposal=second, by=second.by)

    assert not new.filter(reference_import__isnull=False).exists()
