"""The page that says what a version is mistaken for."""

import re

from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.reference.models import ReferenceState
from catalogue.reference.snapshots import keep_for_state
from tests.making import make_type, make_version


def text_of(client, code: str) -> str:
    response = client.get(f"/mistaken-for/{code}/")
    assert response.status_code == 200
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", response.content.decode()))


def parts(text: str) -> tuple[str, str]:
    """What is said of a look from outside, and of every question."""
    outside, _, all_questions = text.partition("After every question worth asking")
    return outside, all_questions


def test_a_reproduction_passes_from_outside_and_is_found_by_handling(client, demo):
    outside, all_questions = parts(text_of(client, "SMK-61"))

    assert re.search(r"4\d of 100: Reproduction of Pattern 61", outside)
    assert "by handling or opening it: strain points" in outside
    assert re.search(r"Rightly named: 9\d of 100", all_questions)


def test_a_changeover_smock_is_taken_for_the_one_before_it(client, demo):
    assert re.search(r"1\d of 100: Smock, fell, Pattern 74, Ling print", parts(text_of(client, "SMK-76T"))[1])


def test_what_only_the_label_tells_leads_to_the_comparison(client, demo):
    page = client.get("/mistaken-for/COA-85R/").content.decode()

    assert "/compare/?v=COA-85R&amp;v=COA-85" in page
    assert "by the label only" in page


def test_a_garment_that_must_stay_closed_is_judged_from_outside_only(client, demo):
    text = text_of(client, "HOO-60")

    assert "By a look from outside" in text
    assert "After every question" not in text


def test_what_passes_for_another_garment_is_tried_among_its_versions(client, demo):
    text = text_of(client, "VES-80")

    assert "takes it for a working blouse" in text
    assert "Asked only what both garments have" in text


def test_of_what_nobody_has_seen_it_is_said_that_it_is_never_named(client, demo):
    text = text_of(client, "VES-66G")

    assert "No member has seen a piece" in text
    assert "Rightly named: 0 of 100" in text


def test_nothing_is_said_of_counts_that_do_not_exist(client, demo):
    text = text_of(client, "BLO-57").lower()

    assert "predicted, not counted" in text
    assert "offered as" not in text
    assert "attributed" not in text


def test_a_version_without_a_profile_says_what_would_begin_one(client, db):
    make_version(make_type("PON"), "PON-1")

    assert "No feature of Version PON-1 is recorded yet" in text_of(client, "PON-1")


def test_a_code_that_does_not_exist_leads_to_those_spelled_nearly_so(client, demo):
    response = client.get("/mistaken-for/SMK-62/")

    assert response.status_code == 404
    assert "SMK-61" in response.content.decode()


def test_it_is_worked_out_once_for_each_state_of_the_reference(client, demo):
    first = client.get("/mistaken-for/LIN-63/").content
    kept = keep_for_state.kept["mistakes", "LIN-63"]
    assert client.get("/mistaken-for/LIN-63/").content == first
    assert keep_for_state.kept["mistakes", "LIN-63"] is kept

    ReferenceState.mark_changed()
    assert client.get("/mistaken-for/LIN-63/").content == first
    assert keep_for_state.kept["mistakes", "LIN-63"][0] == kept[0] + 1


def test_the_page_of_the_version_leads_there_without_working_it_out(client, demo):
    assert 'href="/mistaken-for/OVT-73/"' in client.get("/issue-versions/OVT-73/").content.decode()
    assert ("mistakes", "OVT-73") not in keep_for_state.kept


def test_a_later_visit_asks_the_database_next_to_nothing(client, demo):
    client.get("/mistaken-for/BLO-CV/")

    with CaptureQueriesContext(connection) as asked:
        client.get("/mistaken-for/BLO-CV/")

    assert len(asked) <= 2
