"""What somebody typed becomes a sentence with one end."""

import pytest

from catalogue.templatetags.catalogue_parts import full_stop


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("A hoax", "A hoax."),
        ("A hoax. ", "A hoax."),
        ("Is it?", "Is it?"),
        ("He said “no”", "He said “no”."),
        ("He said “no.”", "He said “no.”"),
        ("(See S1.)", "(See S1.)"),
        ("", ""),
    ],
)
def test_words_end_once(typed, shown):
    assert full_stop(typed) == shown


@pytest.mark.django_db
def test_a_view_that_ends_with_a_full_stop_has_one(client, demo):
    from catalogue.reference.models import OpenQuestion, ReferenceState

    question = OpenQuestion.objects.get(code="D1")
    question.views.update(text="It is a hoax.")
    ReferenceState.mark_changed()
    page = client.get("/open-questions/D1/").content.decode()

    assert "It is a hoax." in page
    assert "hoax.." not in page
