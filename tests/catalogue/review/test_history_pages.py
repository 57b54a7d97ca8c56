"""The pages of a version's history: the list, a record as it was, two records compared."""

from datetime import UTC, datetime

import pytest

from catalogue.reference.models import FeatureState, IssueVersion, ReferenceState, TypeFeature, VersionRecord
from catalogue.review.models import RecordSeal
from tests.catalogue.review import proposing
from tests.catalogue.review.test_sealed_records import Society, raw
from tests.making import lift_the_guards, record
from tests.reading import text, words

HISTORY = "/issue-versions/SMK-1/history/"


@pytest.fixture
def society(db):
    """The older version has three records: buttons; then a zip and a cuff, cited; then the zip alone."""
    made = Society()
    buttons, zip_ = made.state(made.closure, "buttons"), made.state(made.closure, "zip")
    tab = made.state(made.cuff, "tab")
    made.write(made.old, buttons, why="as the first sheet says")
    made.write(made.old, zip_, tab, author=made.mo, why="three pieces <b>seen</b>", sources=[made.source.pk])
    made.write(made.old, zip_, author=made.ada, why="the cuff was another version's", sources=[made.source.pk])
    return made


def test_the_history_says_who_when_why_on_what_and_what_changed_newest_first(client, society):
    page = text(client, HISTORY)
    said = words(page)

    places = [said.index(f"Record {number} ,".replace(" ,", ",")) for number in (3, 2, 1)]
    assert places == sorted(places)
    second = said[places[1] : places[2]]
    assert "Written by Mo, not reviewed." in second
    assert "three pieces seen" in second
    assert "Zip instead of buttons".lower() in second.lower()
    assert "On what: S1" in second
    assert RecordSeal.objects.get(number=2).digest[:12] in second
    assert "On what: no source is named in it" in said[places[2] :]
    assert said.count("2026 stands") == 1


def test_what_people_wrote_is_escaped(client, society):
    for address in (HISTORY, f"{HISTORY}2/", f"{HISTORY}2/?with=1"):
        assert "<b>seen" not in client.get(address).content.decode()


def test_an_older_record_shows_the_state_of_its_time_and_says_that_it_is_older(client, society):
    page = words(text(client, f"{HISTORY}2/"))

    assert "An older record." in page
    assert "Cuff" not in page.split("Not recorded")[0] or "Tab" in page
    assert "Tab" in page
    assert "Zip" in page
    assert "Buttons" not in page
    assert RecordSeal.objects.get(number=2).digest in page
    assert f"http://testserver{HISTORY}2/" in page
    assert "An older record." not in words(text(client, f"{HISTORY}3/"))


def test_the_date_of_a_record_is_in_its_heading(client, society):
    """Written past the actions, which write the present moment: such a record has no seal, and the page says so."""
    made = record(society.new, {society.closure: "zip"})
    lift_the_guards()
    VersionRecord.objects.filter(pk=made.pk).update(made_at=datetime(2026, 5, 14, 12, tzinfo=UTC))

    page = words(text(client, "/issue-versions/SMK-2/history/1/"))
    assert "as of 14 May 2026" in page
    assert "This record has no seal" in page


def test_a_record_is_read_in_the_words_of_its_time(client, society):
    FeatureState.objects.filter(feature=society.closure, code="zip").update(label="Slide fastener")
    IssueVersion.objects.filter(pk=society.old.pk).update(name="Smock, renamed")
    ReferenceState.mark_changed()

    page = words(text(client, f"{HISTORY}2/"))
    assert "Slide fastener" not in page
    assert "Version SMK-1 SMK-1 as of" in page
    assert "Slide fastener" in text(client, "/issue-versions/SMK-1/")


def test_a_feature_that_is_not_asked_any_more_stays_readable(client, society):
    TypeFeature.objects.filter(feature=society.cuff).delete()
    ReferenceState.mark_changed()

    assert f"No longer asked of this garment type {society.cuff.name}: Tab" in words(text(client, f"{HISTORY}2/"))
    assert client.get(f"{HISTORY}2/?with=1").status_code == 200


@pytest.mark.parametrize("address", [f"{HISTORY}1/?with=3", f"{HISTORY}3/?with=1"])
def test_two_records_are_compared_from_the_earlier_to_the_later(client, society, address):
    page = words(text(client, address))

    assert "Records 1 and 3 of" in page
    assert f"{society.closure.name.lower()}: zip instead of buttons" in page.lower()
    assert "These differ (1)" in page


def test_a_difference_in_grounds_alone_is_told(client, society):
    zip_ = society.state(society.closure, "zip")
    society.write(society.old, zip_, how_often="usually", certainty="observed", why="counted")

    page = words(text(client, f"{HISTORY}4/?with=3")).split("In words")[1]
    assert "zip (usually); observed on pieces (before: zip (always); recorded; S1)" in page


def test_notes_and_names_of_a_time_are_read_and_compared_too(client, db):
    people = proposing.make_society()
    for note in ("Of poplin.", "Of drill."):
        proposing.decide(proposing.sent(people.ben, people.one, {"note": note}), people.mo)

    there = "/issue-versions/SMK-61/history/"
    assert "Note: Of drill. (before: Of poplin.)" in words(text(client, f"{there}3/?with=2"))
    assert "Note: Of drill. (before: nothing)" in words(text(client, f"{there}1/?with=3"))
    for number, note in ((1, "nothing then"), (2, "Of poplin.")):
        assert f"Note {note}" in words(text(client, f"{there}{number}/")).split("Otherwise today")[1]
    assert "Otherwise today" not in text(client, f"{there}3/")


@pytest.mark.parametrize(
    ("asked", "answer"),
    [
        ("9", "There is no record “9” of this version to compare with."),
        ("<i>", "There is no record “<i>” of this version to compare with."),
        ("2", "That is this record itself"),
    ],
)
def test_a_comparison_that_cannot_be_made_says_why_and_shows_the_record(client, society, asked, answer):
    page = text(client, f"{HISTORY}2/?with={asked}")

    assert answer in page
    assert "<i>" not in client.get(f"{HISTORY}2/?with={asked}").content.decode()


def test_what_is_not_there_is_a_404_in_words(client, society):
    assert "has no record 4" in client.get(f"{HISTORY}4/").content.decode()
    assert client.get(f"{HISTORY}4/").status_code == 404
    assert client.get(f"{HISTORY}99999999999999999999/").status_code == 404
    missing = client.get("/issue-versions/SMK-11/history/")
    assert missing.status_code == 404
    assert "SMK-1" in missing.content.decode()


def test_a_version_without_records_has_a_history_that_teaches(client, society):
    assert "No record of its features has been written yet." in text(client, "/issue-versions/SMK-2/history/")


def test_a_broken_seal_is_said_on_the_page_and_breaks_nothing(client, society):
    lift_the_guards()
    raw("UPDATE catalogue_recordseal SET body = 'nothing' WHERE number = 2")

    for address in (HISTORY, f"{HISTORY}2/", f"{HISTORY}2/?with=1"):
        assert text(client, address).count("The seal of this record is broken.") == 1


def test_the_version_page_leads_to_the_history(client, society):
    assert f'href="{HISTORY}"' in text(client, "/issue-versions/SMK-1/")


def test_only_reading_is_answered(client, society):
    assert client.post(HISTORY).status_code == 405
    assert client.post(f"{HISTORY}1/").status_code == 405


@pytest.mark.parametrize("more", [0, 17])
def test_a_history_asks_the_database_as_often_for_twenty_records_as_for_three(
    client, society, more, django_assert_num_queries
):
    states = [society.state(society.closure, name) for name in ("buttons", "zip")]
    for turn in range(more):
        society.write(society.old, states[turn % 2], why=f"turn {turn}")
    addresses = {HISTORY: 5, f"{HISTORY}2/": 4, f"{HISTORY}2/?with=1": 5}
    for address in addresses:
        client.get(address)

    for address, number in addresses.items():
        with django_assert_num_queries(number):
            client.get(address)


def test_a_long_history_comes_in_pages_and_each_row_knows_the_one_before(client, society):
    states = [society.state(society.closure, name) for name in ("buttons", "zip")]
    for turn in range(20):
        society.write(society.old, states[turn % 2], why=f"turn {turn}")

    first, second = words(text(client, HISTORY)), words(text(client, f"{HISTORY}?page=2"))
    assert "Page 1 of 2" in first
    assert "Changed from record 3:" in first
    assert "Changed from record 2:" in second
    assert "There is no page “9” of this list." in text(client, f"{HISTORY}?page=9")
