"""Sending: once however often it is tapped, with the identification's own opinion beside it."""

from uuid import uuid4

import pytest

from catalogue.member_examples.actions import return_example
from catalogue.member_examples.models import Attribution, Example
from tests.catalogue.member_examples.pieces import draft, in_state
from tests.catalogue.member_examples.submitting.forms_sent import begun, hidden, step


def ready(client, society, **seen) -> Example:
    example = draft(society, **seen)
    step(client, example, "names", name_on_label="none")
    return example


def send(client, example, token=None):
    return client.post(f"/my-pieces/{example.code}/review/", {"token": token or uuid4()})


def test_a_second_tap_sends_nothing_twice(ada, society):
    example = ready(ada, society, closure="zip")
    token = hidden(ada, f"/my-pieces/{example.code}/review/")["token"]
    first, second = send(ada, example, token), send(ada, example, token)
    example.refresh_from_db()

    assert first.url == second.url == f"/my-pieces/{example.code}/"
    assert (example.state, example.times_sent) == ("submitted", 1)
    assert Attribution.objects.filter(by="engine").count() == 1


def test_the_identifications_opinion_is_kept_with_its_reasons(ada, society):
    example = ready(ada, society, closure="zip", cuff="tab")
    send(ada, example)
    opinion = Attribution.objects.get(by="engine")

    assert opinion.version == society.new
    assert 0.5 < opinion.chance <= 1
    assert "Feature closure: Zip" in opinion.grounds


def test_a_piece_without_a_type_is_sent_with_its_label_alone(ada, society):
    example = begun(ada, "")
    step(ada, example, "labels/new", kind="main", text="SMOCK", attachment="sewn", origin="original")
    step(ada, example, "names", name_on_label="none")
    send(ada, example)
    example.refresh_from_db()

    assert (example.state, example.garment_type) == ("submitted", None)
    assert not Attribution.objects.exists()


def test_an_empty_draft_is_not_sent_and_says_what_it_needs(ada, society):
    example = begun(ada, "SMK")
    step(ada, example, "names", name_on_label="none")
    answer = send(ada, example)

    assert answer.status_code == 409
    assert "a photograph, a label or one observation" in answer.content.decode()


def test_the_page_of_a_sent_piece_says_what_happens_next(ada, society):
    example = ready(ada, society, closure="zip")
    page = ada.get(send(ada, example).url).content.decode()

    assert "Waiting for a moderator" in page
    assert "A moderator who is not you" in page
    assert "Withdraw it" in page


def test_a_returned_piece_is_answered_and_sent_again(ada, society):
    example = ready(ada, society, closure="zip")
    send(ada, example)
    return_example(example=example, moderator=society.mo, reason="Which cuff?", sending=1)
    step(ada, example, "seen/cuff", answer="tab")
    page = ada.get(f"/my-pieces/{example.code}/review/").content.decode()
    send(ada, example)
    example.refresh_from_db()

    assert "Send it again" in page
    assert (example.state, example.times_sent) == ("submitted", 2)


@pytest.mark.parametrize(
    ("state", "after"), [("submitted", "withdrawn"), ("accepted", "withdrawn"), ("draft", "draft")]
)
def test_a_piece_is_withdrawn_after_a_question(ada, society, state, after):
    example = in_state(society, state)
    assert ada.get(f"/my-pieces/{example.code}/withdraw/").status_code == 200
    example.refresh_from_db()
    assert example.state == state

    for _ in range(2):
        ada.post(f"/my-pieces/{example.code}/withdraw/")
    example.refresh_from_db()

    assert example.state == after


@pytest.mark.parametrize("token", ["", "nonsense", "x" * 9_000])
def test_a_token_that_cannot_be_read_harms_nothing(ada, society, token):
    example = ready(ada, society, closure="zip")

    assert ada.post(f"/my-pieces/{example.code}/review/", {"token": token}).status_code == 302
