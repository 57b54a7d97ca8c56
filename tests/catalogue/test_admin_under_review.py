"""The back office does not write past review: what is proposed elsewhere is only read there."""

import pytest
from django.test import override_settings

from catalogue.reference.models import (
    Colourway,
    Cut,
    IssueVersion,
    OpenQuestion,
    Source,
    StockNumber,
    VersionName,
    VersionRecord,
)
from catalogue.review.unreviewed.actions import pass_records
from tests.catalogue.review.proposing import decide, make_society, sent
from tests.forms import fields_of, send
from tests.making import make_type

PROPOSE = "/proposals/new/?version=SMK-61"


@pytest.fixture
def society(db):
    return make_society()


@pytest.fixture
def office(client, society):
    client.force_login(society.ada)
    return client


def begin_review(society) -> None:
    pass_records(records=[society.one.current_record_id], by=society.mo, reason="Held against the sheets.")


def test_under_review_name_kind_and_dates_are_read_only_and_the_page_leads_to_a_proposal(office, society):
    address = f"/admin/catalogue/issueversion/{society.one.pk}/change/"
    begin_review(society)

    page = office.get(address).content.decode()

    assert f'<a href="{PROPOSE}">Propose a change</a>' in page
    for name in ("name", "kind", "date", "rarity", "makers", "hazard_kind", "ancestors-0-ancestor"):
        assert f'name="{name}"' not in page
    assert 'name="wearing_restricted"' not in page
    assert 'name="position"' in page
    forged = {"name": "Forged", "date": "1900", "kind": "trial", "rarity": "5", "position": "7"}
    send(office, address, fields_of(office, address) | forged)
    society.one.refresh_from_db()
    assert (society.one.name, society.one.date, society.one.kind) == ("Smock 61", "1961/1975", "issue")
    assert (society.one.rarity, society.one.position) == (3, 7)


def test_before_review_has_begun_or_without_it_they_are_written_as_ever(office, society):
    address = f"/admin/catalogue/issueversion/{society.one.pk}/change/"
    assert 'name="date"' in office.get(address).content.decode()
    begin_review(society)
    with override_settings(REVIEW="no"):
        page = office.get(address).content.decode()
    assert 'name="date"' in page
    assert "Propose a change" not in page


def test_under_review_a_profile_is_proposed_and_one_that_was_begun_before_is_not_written(office, society):
    add = f"/admin/catalogue/versionrecord/add/?version={society.one.pk}"
    before = VersionRecord.objects.count()
    states = society.one.current_record.cells.values_list("state_id", flat=True)
    typed = {f"s{one}-how_often": "usually" for one in states}
    typed |= {"_save": "Save", "begins_with": "1", "why": "Typed before."}
    begin_review(society)

    assert office.get(add)["Location"] == PROPOSE
    page = office.post(add, typed).content.decode()

    assert "changed by a proposal now" in page
    assert "Typed before." in page
    assert VersionRecord.objects.count() == before


def test_under_review_no_version_is_added_past_it(office, society):
    assert office.get("/admin/catalogue/issueversion/add/").status_code == 200
    begin_review(society)

    assert office.get("/admin/catalogue/issueversion/add/").status_code == 403
    assert IssueVersion.objects.count() == 2


def test_under_review_what_a_feature_asks_is_read_only_and_its_notes_and_drawings_are_written(office, society):
    address = f"/admin/catalogue/feature/{society.cuff.pk}/change/"
    assert 'name="question"' in office.get(address).content.decode()
    begin_review(society)

    page = office.get(address).content.decode()
    assert '<a href="/proposals/feature/?feature=cuff">Propose a change</a>' in page
    for name in ("name", "question", "error", "states-0-label", "places-0-view"):
        assert f'name="{name}"' not in page
    forged = {"question": "Forged?", "error": "0.9", "states-0-label": "Forged", "error_note": "Wear looks alike."}
    send(office, address, fields_of(office, address) | forged)
    society.cuff.refresh_from_db()
    assert (society.cuff.question, society.cuff.error_note) == ("cuff?", "Wear looks alike.")
    assert society.cuff.error != 0.9
    assert society.cuff.states.get(code="tab").label == "Tab"
    for shut in ("/admin/catalogue/feature/add/", f"/admin/catalogue/feature/{society.cuff.pk}/delete/"):
        assert office.get(shut).status_code == 403
    home = office.get(f"/admin/catalogue/garmenttype/{society.home.pk}/change/").content.decode()
    assert "type_features" not in home


def test_under_review_how_a_question_stands_is_read_only_and_the_page_leads_to_a_proposal(office, society):
    question = OpenQuestion.objects.create(code="D1", question="Two patterns?")
    question.views.create(letter="A", holder="Ada", text="Two")
    address = f"/admin/catalogue/openquestion/{question.pk}/change/"
    assert 'name="settled"' in office.get(address).content.decode()
    begin_review(society)

    page = office.get(address).content.decode()

    assert "/proposals/open-question/?question=D1" in page
    for name in ("settled", "moderator_note", "views-0-stands"):
        assert f'name="{name}"' not in page
    forged = {"settled": "on", "moderator_note": "Forged", "question": "One or two?"}
    send(office, address, fields_of(office, address) | forged)
    question.refresh_from_db()
    assert (question.settled, question.moderator_note, question.question) == (False, "", "One or two?")
    assert not question.views.get().stands


def test_a_source_on_which_a_decision_or_a_view_rests_stays(office, society):
    cited = Source.objects.create(code="S77", title="Sheet of 1977", kind="specification", grade="A")
    proposal = sent(society.ben, society.one, {"note": "x"}, sources=["S77"])
    decide(proposal, society.mo)
    held = Source.objects.create(code="S78", title="Letter of 1978", kind="testimony", grade="C")
    asked = OpenQuestion.objects.create(code="D1", question="Is there a smock of 1977?")
    asked.views.create(letter="A", holder="Ada", text="There is").sources.add(held)

    for source, words in ((cited, f"<li>Proposal {proposal.pk}</li>"), (held, "View A of “Is there a smock of 1977?”")):
        address = f"/admin/catalogue/source/{source.pk}/delete/"
        assert words in office.get(address).content.decode()
        office.post(address, {"post": "yes"})
        assert Source.objects.filter(pk=source.pk).exists()


def address_of(version) -> str:
    return f"/admin/catalogue/issueversion/{version.pk}/change/"


def said(response) -> list[str]:
    return [str(one) for one in response.context["messages"]]


def test_under_review_nobody_alone_takes_a_version_to_another_type_cut_or_colourway_nor_changes_its_grounds(
    office, society
):
    cap, sand, dun = make_type("CAP"), Colourway.objects.create(code="S"), Colourway.objects.create(code="D")
    desert, temperate = Cut.objects.create(code="D", name="Desert"), Cut.objects.create(code="T", name="Temperate")
    IssueVersion.objects.filter(pk=society.one.pk).update(cut=temperate, colourway=dun)
    society.one.citations.create(source=Source.objects.get(code="S1"))
    begin_review(society)
    before = whole(society.one)

    for person in (society.ada, society.mo):
        office.force_login(person)
        page = office.get(address_of(society.one)).content.decode()
        for name in ("garment_type", "cut", "colourway", "passes_for", "stock_numbers-0-number", "size_lengths-0-mark",
                     "citations-0-source"):  # fmt: skip
            assert f'name="{name}"' not in page
        typed = {"garment_type": cap.pk, "cut": desert.pk, "colourway": sand.pk, "passes_for": [cap.pk]}
        typed |= {"citations-TOTAL_FORMS": "1", "citations-INITIAL_FORMS": "1", "citations-0-DELETE": "on"}
        send(office, address_of(society.one), fields_of(office, address_of(society.one)) | typed)
        assert whole(society.one) == before


def whole(version) -> tuple:
    version.refresh_from_db()
    cited = list(version.citations.values_list("source__code", flat=True))
    return version.garment_type_id, version.cut_id, version.colourway_id, list(version.passes_for.all()), cited


def test_a_version_that_has_a_record_keeps_its_garment_type_with_or_without_review(office, society):
    cap = make_type("CAP")

    assert 'name="garment_type"' not in office.get(address_of(society.one)).content.decode()
    send(office, address_of(society.one), fields_of(office, address_of(society.one)) | {"garment_type": cap.pk})

    society.one.refresh_from_db()
    assert society.one.garment_type == society.home


def test_under_review_no_moderator_fills_in_what_a_version_lacks(office, society):
    desert = Cut.objects.create(code="D", name="Desert")
    begin_review(society)
    office.force_login(society.mo)

    assert 'name="cut"' not in office.get(address_of(society.one)).content.decode()
    send(office, address_of(society.one), fields_of(office, address_of(society.one)) | {"cut": desert.pk})

    society.one.refresh_from_db()
    assert society.one.cut is None


def test_under_review_a_stock_number_is_read_in_the_back_office_and_proposed_of_its_version(office, society):
    add = "/admin/catalogue/stocknumber/add/"
    made = StockNumber.objects.create(number="27-888-01", version=society.one, first_year=1971)
    typed = {"number": "27-888-02", "version": society.one.pk, "first_year": "1971"}
    typed |= {"citations-TOTAL_FORMS": "0", "citations-INITIAL_FORMS": "0"}
    assert office.get(add).status_code == 200
    begin_review(society)

    there = f"/admin/catalogue/stocknumber/{made.pk}/"
    for person in (society.ada, society.mo):
        office.force_login(person)
        assert office.get(add).status_code == 403
        assert office.post(add, typed).status_code == 403
        page = office.get(f"{there}change/").content.decode()
        assert "27-888-01" in page
        assert f'<a href="{PROPOSE}">Propose a change of SMK-61</a>' in page
        assert 'name="number"' not in page
        assert office.post(f"{there}change/", typed).status_code == 403
        assert office.post(f"{there}delete/", {"post": "yes"}).status_code == 403
    assert StockNumber.objects.get() == made
    with override_settings(REVIEW="no"):
        assert office.get(add).status_code == 200


def test_what_sellers_call_a_version_is_still_written_here_and_what_members_call_it_is_proposed(office, society):
    society.one.other_names.create(name="The old smock")
    begin_review(society)

    page = office.get(address_of(society.one))
    assert "The old smock" not in page.content.decode()
    typed = {"other_names-0-name": "Jump smock", "other_names-0-never_issued": "on"}
    send(office, address_of(society.one), fields_of(office, address_of(society.one)) | typed)

    made = VersionName.objects.get(name="Jump smock")
    assert (made.used_by, made.version) == ("sellers", society.one)
    assert society.one.other_names.count() == 2


def test_a_form_with_what_is_only_read_here_says_that_nothing_was_written_of_it(office, society):
    begin_review(society)
    typed = fields_of(office, address_of(society.one)) | {"name": "HACKED", "date": "1900/1901"}
    typed |= {"citations-TOTAL_FORMS": "1", "citations-INITIAL_FORMS": "0", "citations-0-source": "1"}

    told = said(office.post(address_of(society.one), typed, follow=True))

    assert told == ["Nothing was written of: name, date, citations. That is only read here; the page says how it is "
                    "changed."]  # fmt: skip
    told = said(office.post(address_of(society.one), typed | {"position": "7"}, follow=True))
    assert [one for one in told if "was changed successfully" in one]
    assert [one for one in told if "Nothing was written of: name" in one]
    typed = fields_of(office, address_of(society.one)) | {"position": "8"}
    assert not [one for one in said(office.post(address_of(society.one), typed, follow=True)) if "Nothing" in one]


def test_under_review_a_view_that_is_there_is_only_read_in_the_back_office(office, society):
    question = OpenQuestion.objects.create(code="D1", question="Two patterns?")
    held = question.views.create(letter="A", holder="Ben", text="Two", by=society.ben)
    address = f"/admin/catalogue/openquestion/{question.pk}/change/"
    begin_review(society)

    page = office.get(address).content.decode()
    assert "Two" in page
    assert 'name="views-0-text"' not in page
    assert 'href="/open-questions/D1/"' in page
    typed = {"views-0-text": "It never existed", "views-0-holder": "Ada", "views-0-id": held.pk}
    told = said(office.post(address, fields_of(office, address) | typed, follow=True))

    held.refresh_from_db()
    assert (held.text, held.holder) == ("Two", "Ben")
    assert told[0].startswith("Nothing was written of: question views.")


def test_a_view_written_with_a_new_question_says_who_wrote_it_down(office, society):
    begin_review(society)
    address = "/admin/catalogue/openquestion/add/"
    typed = {"code": "D2", "question": "Two patterns?", "views-TOTAL_FORMS": "1", "views-INITIAL_FORMS": "0"}

    send(office, address, typed | {"views-0-letter": "A", "views-0-holder": "Ben", "views-0-text": "Two"})

    assert OpenQuestion.objects.get(code="D2").views.get().by == society.ada


def test_a_source_that_is_cited_says_for_how_much_and_where_it_is_listed_and_stays(office, society):
    source = Source.objects.get(code="S1")
    for version in (society.one, society.other):
        version.citations.create(source=source)
    society.one.current_record.cells.first().citations.create(source=source)

    page = office.get(f"/admin/catalogue/source/{source.pk}/delete/").content.decode()

    assert "S1 is cited for 2 versions and 1 state in the records of versions" in page
    assert '<a href="/sources/S1/">' in page
    assert "stays, because this rests on it" in page
    assert "supports" not in page
    office.post(f"/admin/catalogue/source/{source.pk}/delete/", {"post": "yes"})
    assert Source.objects.filter(pk=source.pk).exists()
