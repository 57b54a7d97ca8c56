"""What stood on a day has an address of its own, of versions and of features; days on which nothing stood say so."""

from datetime import UTC, date, datetime, timedelta

import pytest
from django.utils import timezone
from django.utils.formats import date_format

from catalogue.reference.models import VersionRecord
from catalogue.reference.snapshots import forget_everything
from catalogue.review.features.recording import record_features
from catalogue.review.models import FeatureRecord
from catalogue.review.proposals.actions import begin_change, save_draft, send_proposal
from tests.catalogue.review.proposing import decide, decide_both, make_society, sent
from tests.making import lift_the_guards
from tests.reading import text, words

HISTORY = "/issue-versions/SMK-61/history/"


@pytest.fixture
def society(db):
    """Records 1, 2 and 3 of SMK-61 were written on 3 May, twice on 14 May 2026."""
    made = make_society()
    for note in ("Of poplin.", "Of drill."):
        decide(sent(made.ben, made.one, {"note": note}), made.mo)
    written_on(VersionRecord, made.one.records.all(), [(5, 3, 9), (5, 14, 8), (5, 14, 17)])
    forget_everything()
    return made


def written_on(table, rows, moments) -> None:
    lift_the_guards()
    for row, (month, day, hour) in zip(rows.order_by("number"), moments, strict=True):
        table.objects.filter(pk=row.pk).update(made_at=datetime(2026, month, day, hour, tzinfo=UTC))


@pytest.mark.parametrize(("day", "number"), [("05-03", 1), ("05-13", 1), ("05-14", 3), ("09-30", 3)])
def test_the_record_that_stood_at_the_end_of_a_day_is_shown_and_cited_by_the_day(client, society, day, number):
    page = words(text(client, f"{HISTORY}?on=2026-{day}"))

    asked = date_format(date.fromisoformat(f"2026-{day}"), "j F Y")
    assert f"Smock 61 SMK-61 as of {asked}" in page
    assert f"On {asked} record {number} stood" in page
    cite = page.split("Cite what stood that day")[1]
    assert f"as of {asked} (record {number}," in cite
    assert f"http://testserver{HISTORY}?on=2026-{day}" in cite
    assert "This address shows for ever what stood that day." in cite


def test_a_day_with_several_records_says_which_stood_before(client, society):
    page = words(text(client, f"{HISTORY}?on=2026-05-14"))

    assert "record 3 stood, written that day; earlier that day record 2 did." in page
    assert "Note Of drill." not in page.split("Otherwise today")[-1]


def test_what_is_written_later_changes_nothing_of_a_day_that_is_over(client, society):
    before = words(text(client, f"{HISTORY}?on=2026-05-14")).split("Cite what stood")[1]
    decide(sent(society.ben, society.one, {"note": "Of sateen."}), society.mo)
    forget_everything()

    assert words(text(client, f"{HISTORY}?on=2026-05-14")).split("Cite what stood")[1] == before


def test_the_history_has_a_field_for_a_day(client, society):
    assert 'type="date" value=""' in text(client, HISTORY)
    assert "As it stood on" in words(text(client, HISTORY))


@pytest.mark.parametrize("typed", ["14 May 2026", "14 may 2026 "])
def test_a_day_that_is_written_out_leads_to_its_one_address(client, society, typed):
    answer = client.get(HISTORY, {"on": typed})

    assert answer.status_code == 302
    assert answer["Location"] == f"{HISTORY}?on=2026-05-14"


@pytest.mark.parametrize(
    "typed", ["31 February 2026", "2026-02-31", "May", "14/05/2026", "<b>", "0000-00-00", "9" * 400]
)
def test_what_is_no_day_is_said_and_kept_as_it_was_typed(client, society, typed):
    page = text(client, f"{HISTORY}?on={typed}")

    assert f"“{typed[:30]}” is no day: write it as 2026-05-14 or 14 May 2026." in page
    assert f'type="text" value="{typed[:30]}"' in page or typed == "<b>"
    assert "<b>" not in client.get(f"{HISTORY}?on={typed}").content.decode()
    assert "Record 3" in page


def test_a_day_before_the_first_record_and_one_to_come_say_so(client, society):
    assert "On 2 May 2026 nothing was recorded yet of SMK-61: its first record is of 3 May 2026." in words(
        text(client, f"{HISTORY}?on=2026-05-02")
    )
    to_come = timezone.localdate() + timedelta(days=1)
    assert "is still to come: nobody knows what will stand then. Today it is record 3, of 14 May 2026." in words(
        text(client, f"{HISTORY}?on={to_come}")
    )


def test_today_is_not_over(client, society):
    page = words(text(client, f"{HISTORY}?on={timezone.localdate()}"))

    assert "The day is not over: another record may take its place." in page
    assert "Until then cite record 3." in page


def test_a_day_before_a_retirement_shows_the_version_and_one_after_it_that_it_was_retired(client, society):
    made = begin_change(by=society.ada, version=society.other, retire=True)
    wanted = made.base | {"retired": "A misreading."}
    made = save_draft(
        proposal=made, by=society.ada, revision=made.revision, wanted=wanted, grounds="A slip.", sources=[]
    )
    decide_both(society, send_proposal(proposal=made, by=society.ada))
    written_on(VersionRecord, society.other.records.all(), [(5, 3, 9), (6, 1, 9)])
    forget_everything()

    there = "/issue-versions/SMK-76/history/"
    assert "Retired: held to be no version any more" not in words(text(client, f"{there}?on=2026-05-31"))
    assert "Retired: held to be no version any more" in words(text(client, f"{there}?on=2026-06-01"))


def test_a_feature_can_be_read_as_of_a_day_too(client, society):
    record_features(by=None, why="")
    society.cuff.question = "How does it end?"
    society.cuff.save()
    record_features(by=society.mo, why="Clearer.", standing="written")
    written_on(FeatureRecord, FeatureRecord.objects.filter(code="cuff"), [(5, 3, 9), (5, 14, 9)])

    there = "/features/cuff/history/"
    assert "How does it end?" not in text(client, f"{there}?on=2026-05-13")
    page = words(text(client, f"{there}?on=2026-05-14"))
    assert "How does it end?" in page
    assert f"as of 14 May 2026 (record 2, not reviewed). http://testserver{there}?on=2026-05-14" in page
    assert "nothing was recorded yet of the feature cuff" in words(text(client, f"{there}?on=2026-05-02"))
    assert "is no day" in text(client, f"{there}?on=soon")
    assert client.get(there, {"on": "14 May 2026"})["Location"] == f"{there}?on=2026-05-14"
