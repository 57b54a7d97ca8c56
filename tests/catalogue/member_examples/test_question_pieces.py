"""What the page of an open question says of the pieces today: counted from them, never written by hand."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.member_examples.models import Example
from catalogue.reference.models import OpenQuestion, ReferenceState
from tests.catalogue.member_examples.pieces import accepted, draft, make_society
from tests.reading import text


@pytest.fixture
def society(db):
    society = make_society()
    question = OpenQuestion.objects.create(code="D1", question="One smock or two?")
    question.versions.add(society.old, society.new)
    return society


def dated(example, year):
    Example.objects.filter(pk=example.pk).update(label_year=year)
    ReferenceState.mark_changed()


def test_accepted_pieces_are_counted_with_their_label_years_and_others_are_not(client, society):
    dated(accepted(society, society.old), 1962)
    dated(accepted(society, society.old), 1965)
    accepted(society, society.old)
    dated(draft(society), 1999)
    shown = text(client, "/open-questions/D1/")

    assert "3 accepted pieces" in shown
    assert "Label years seen: 1962–65 (2 dated labels)." in shown
    assert "No accepted piece yet." in shown
    assert "1999" not in shown


def test_a_piece_that_is_accepted_later_changes_what_the_page_says(client, society):
    dated(accepted(society, society.old), 1962)
    assert "Label years seen: 1962 (1 dated label)." in text(client, "/open-questions/D1/")
    dated(accepted(society, society.old), 1970)
    assert "Label years seen: 1962–70 (2 dated labels)." in text(client, "/open-questions/D1/")


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("conversion", "The label is that of the garment it was made from."),
        ("transitional", "The label may be that of the older body."),
        ("commercial_copy", "label dates no issue."),
    ],
)
def test_a_label_that_need_not_be_of_the_piece_s_own_year_says_so(client, society, kind, words):
    society.old.kind = kind
    society.old.save()
    accepted(society, society.old)
    assert "None with a dated label." in text(client, "/open-questions/D1/")
    assert words not in text(client, "/open-questions/D1/")

    dated(accepted(society, society.old), 1962)

    assert f"Label years seen: 1962 (1 dated label). {words}" in text(client, "/open-questions/D1/").replace(
        "A copy’s ", ""
    )


def test_a_question_that_touches_no_version_says_that_no_piece_speaks(client, society):
    OpenQuestion.objects.create(code="D2", question="Was there a blue one?")

    assert "touches no version on record" in text(client, "/open-questions/D2/")


def test_the_page_asks_as_often_for_one_piece_as_for_six(client, society):
    asked = []
    for many in (1, 6):
        while Example.objects.count() < many:
            dated(accepted(society, society.old), 1962)
        client.get("/open-questions/D1/")
        with CaptureQueriesContext(connection) as found:
            client.get("/open-questions/D1/")
        asked.append(len(found))
    assert asked[0] == asked[1]
