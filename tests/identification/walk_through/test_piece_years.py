"""A verdict says when this very piece was probably made within the version it names, or why that cannot be said."""

import pytest

from catalogue.member_examples.models import Example
from catalogue.reference.models import Maker, NumberForm, ReferenceState
from tests.catalogue.member_examples.pieces import accepted, make_society
from tests.reading import text, words

pytestmark = pytest.mark.django_db


@pytest.fixture
def society():
    return make_society()


def dated(society, version, *years: int, **seen: str) -> None:
    for year in years:
        piece = accepted(society, version, **seen)
        Example.objects.filter(pk=piece.pk).update(label_year=year)
    ReferenceState.mark_changed()


def section(client, query: str) -> str:
    """What the verdict says of the piece's year; empty where it says nothing."""
    page = text(client, f"/which/SMK/?{query}&_stop=yes")
    return words(page.partition('<h2 id="year">')[2].partition("</section>")[0])


SEEN = "closure=buttons&cuff=band"


def test_the_year_of_the_piece_in_hand_has_its_interval_and_counts(client, society):
    dated(society, society.old, 1962, 1963, 1964, 1966, 1967, closure="buttons", cuff="band")

    said = section(client, SEEN)
    assert said.startswith("When it was probably made Probably 196")
    assert ", about 1964. It rests on 5 label years of approved examples, not issue dates." in said


def test_its_maker_narrows_the_year(client, society):
    dated(society, society.old, 1962, 1963, 1964, 1966, 1967, closure="buttons", cuff="band")
    Maker.objects.create(code="LATE", name="Late Works", first_year=1966, last_year=1990)

    said = section(client, f"{SEEN}&_label_maker=LATE")
    assert "Probably 1966" in said
    assert "It rests on the years its maker worked and 5 label years" in said


def test_the_contract_on_its_label_bounds_the_year(client, society):
    """A contract year is a lower bound, never a date (common practice, no source)."""
    dated(society, society.old, 1962, 1963, 1964, 1966, 1967, closure="buttons", cuff="band")

    said = section(client, f"{SEEN}&_label_contract=1966")
    assert "Probably 1966" in said
    assert "It rests on the contract on its label" in said


def test_a_piece_is_not_said_to_be_older_than_the_contract_on_its_label(client, society):
    dated(society, society.old, 1962, 1963, 1964, 1966, 1967, closure="buttons", cuff="band")
    NumberForm.objects.create(
        code="contract", name="Contract number", pattern="(CON) (99)-(99)", groups="1 contract; 2 year; 3 number",
        year_group="2", years="1960/1970",
    )  # fmt: skip
    piece = accepted(society, society.old, closure="buttons", cuff="band")
    Example.objects.filter(pk=piece.pk).update(contract="CON 66-30")
    ReferenceState.mark_changed()

    page = words(text(client, f"/examples/{piece.code}/"))
    assert "Its year Probably 1966" in page
    assert "the contract on its label" in page


def test_under_three_different_years_it_says_so_and_which(client, society):
    dated(society, society.old, 1962, 1962, 1964, closure="buttons", cuff="band")

    assert "Too few to say when within its version it was made: 3 other dated labels (1962 and 1964)." in section(
        client, SEEN
    )


def test_without_any_dated_label_it_says_so(client, society):
    assert "no other piece has a dated label" in section(client, SEEN)


def test_a_copy_is_not_dated(client, society):
    dated(society, society.old, 1962, 1963, 1964, closure="buttons", cuff="band")
    society.old.kind = "reproduction"
    society.old.save()
    ReferenceState.mark_changed()

    assert section(client, SEEN) == ""


def test_a_label_year_that_fits_is_said_with_what_it_was_held_against(client, society):
    dated(society, society.old, 1962, 1963, 1964, closure="buttons", cuff="band")

    assert section(client, f"{SEEN}&_label_year=1963").startswith(
        "When it was probably made Its label says 1963. What else is known of it goes with that (3 label years of"
    )


def test_a_label_year_that_nothing_can_be_held_against_is_said_so(client, society):
    said = section(client, f"{SEEN}&_label_year=1963")
    assert "Its label says 1963. The dated labels of other pieces are too few to hold it against." in said


def test_a_label_that_may_be_another_piece_s_dates_nothing(client, society):
    dated(society, society.old, 1962, 1963, 1964, 1966, 1967, closure="buttons", cuff="band")
    label = f"{SEEN}&_label_year=1963"

    assert "Its label says 1963." in section(client, f"{label}&_label_sewn=same")
    assert "It rests on 5 label years" in section(client, f"{label}&_label_sewn=empty_row")
