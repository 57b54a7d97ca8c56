"""One step open in two places: what each of them changed is kept, and what both changed is asked about."""

import pytest

from tests.catalogue.member_examples.submitting.forms_sent import begun
from tests.forms import Sent

QUIETLY = {"X-Saves-Quietly": "yes"}


@pytest.fixture
def piece(ada):
    return begun(ada, "SMK")


def tab(client, piece, name: str) -> dict:
    """Everything that the step's form sends when nothing in it is touched."""
    return form_in(client.get(f"/my-pieces/{piece.code}/{name}/").content.decode())


def form_in(page: str) -> dict:
    """A browser reads no line end that begins a text."""
    return {name: value.removeprefix("\n") for name, value in Sent(page).sent.items()}


def save(client, piece, name: str, form: dict, **quietly):
    answer = client.post(f"/my-pieces/{piece.code}/{name}/", form, **quietly)
    piece.refresh_from_db()
    return answer


def test_fields_that_a_tab_did_not_touch_take_what_the_other_saved(ada, piece):
    first, second = (tab(ada, piece, "condition") for _ in range(2))
    save(ada, piece, "condition", first | {"repairs": "patched elbow", "complete": "yes"})

    answer = save(ada, piece, "condition", second | {"note": "smells of hay"})

    assert answer.status_code == 302
    assert (piece.repairs, piece.complete, piece.note) == ("patched elbow", True, "smells of hay")


def test_a_field_that_both_changed_shows_both_and_is_kept_when_saved_again(ada, piece):
    first, second = (tab(ada, piece, "condition") for _ in range(2))
    save(ada, piece, "condition", first | {"repairs": "patched elbow", "provenance": "a market"})

    answer = save(ada, piece, "condition", second | {"repairs": "darned", "note": "smells of hay"})
    page = answer.content.decode()
    assert "Saved elsewhere meanwhile: “patched elbow”" in page
    assert ">\ndarned</textarea>" in page
    assert ">\na market</textarea>" in page
    assert (piece.repairs, piece.provenance, piece.note) == ("patched elbow", "a market", "smells of hay")

    again = form_in(page)
    assert save(ada, piece, "condition", again).status_code == 302
    assert (piece.repairs, piece.provenance, piece.note) == ("darned", "a market", "smells of hay")


def test_what_both_typed_alike_is_no_question(ada, piece):
    first, second = (tab(ada, piece, "garment") for _ in range(2))
    save(ada, piece, "garment", first | {"sold_as": "a smock", "venue": "market"})

    assert save(ada, piece, "garment", second | {"sold_as": "a smock"}).status_code == 302
    assert (piece.sold_as, piece.venue) == ("a smock", "market")


def test_a_tab_that_saves_itself_goes_on_without_undoing_the_other(ada, piece):
    first, second = (tab(ada, piece, "condition") for _ in range(2))
    save(ada, piece, "condition", first | {"repairs": "patched elbow"})
    for note in ("smells", "smells of", "smells of hay"):
        second["note"] = note
        said = save(ada, piece, "condition", second, headers=QUIETLY)
        assert said.status_code == 200
        second |= {name: said.json()[name] for name in ("revision", "shown")}

    assert (piece.repairs, piece.note) == ("patched elbow", "smells of hay")


def test_a_tab_that_saves_itself_is_told_what_stands_there_and_the_next_saving_is_its_word(ada, piece):
    first, second = (tab(ada, piece, "condition") for _ in range(2))
    save(ada, piece, "condition", first | {"repairs": "patched elbow"})
    second["repairs"] = "darned"

    said = save(ada, piece, "condition", second, headers=QUIETLY)
    assert said.status_code == 400
    assert "“patched elbow”" in said.json()["fault"]
    assert piece.repairs == "patched elbow"

    second |= {name: said.json()[name] for name in ("revision", "shown")} | {"repairs": "darned twice"}
    assert save(ada, piece, "condition", second, headers=QUIETLY).status_code == 200
    assert piece.repairs == "darned twice"


def test_lengths_of_two_tabs_are_both_kept_and_none_is_read_in_the_others_unit(ada, piece):
    first, second, third = (tab(ada, piece, "size") for _ in range(3))
    save(ada, piece, "size", first | {"pit_to_pit": "55"})
    save(ada, piece, "size", second | {"back_length": "70"})
    assert lengths(piece) == {"pit_to_pit": 550, "back_length": 700}

    answer = save(ada, piece, "size", third | {"unit": "in", "pit_to_pit": "22"})
    assert "Saved elsewhere meanwhile: “55”" in answer.content.decode()
    assert lengths(piece) == {"pit_to_pit": 550, "back_length": 700}


def lengths(piece) -> dict[str, int]:
    return {row.what: row.mm for row in piece.measurements.all()}
