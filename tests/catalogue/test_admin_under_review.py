"""The back office does not write past review: what is proposed elsewhere is only read there."""

import pytest
from django.test import override_settings

from catalogue.reference.models import IssueVersion, OpenQuestion, Source, VersionRecord
from catalogue.review.unreviewed.actions import pass_records
from tests.catalogue.review.proposing import decide, make_society, sent
from tests.forms import fields_of, send

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
    assert 'name="cut"' in page
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
    for refused in ("/admin/catalogue/feature/add/", f"/admin/catalogue/feature/{society.cuff.pk}/delete/"):
        assert office.get(refused).status_code == 403
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
    forged = {"settled": "on", "moderator_note": "Forged", "views-0-stands": "on", "question": "One or two?"}
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
