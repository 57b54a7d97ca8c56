"""Names of persons on labels: what is told as one, what is perhaps one, and what is none."""

from dataclasses import replace

import pytest

from identification.label_reading import read_label
from identification.label_reading.context import words_in
from tests.identification.label_reading.test_demo_labels import demo_context, pieces, read

SOCIETY = words_in(["Peat-fire hood", "Fell smock", "Strand coat", "Hill cap", "Signal vest", "warm stn", "storm"])


def persons(text: str) -> list[tuple[str, bool]]:
    known = replace(demo_context(), words=SOCIETY)
    return [(one["as_printed"], bool(one.get("perhaps"))) for one in read_label(text, known)["persons"]]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("SMOCK FELL\nJOHN MILLER\nSIZE 3", "JOHN MILLER"),
        ("O'BRIEN P. 4471", "O'BRIEN P. 4471"),
        ("SMITH J", "SMITH J"),
        ("4471203 SMITH", "4471203 SMITH"),
        ("MILLER", "MILLER"),
        ("Mary", "Mary"),
        ("SMOCK FELL / MILLER / SIZE 3", "MILLER"),
        ("27-114-06 MILLER", "MILLER"),
        ("Ødegård", "Ødegård"),
        ("MÜLLER-LÜDENSCHEIDT", "MÜLLER-LÜDENSCHEIDT"),
    ],
)
def test_capitalised_words_that_nobody_knows_are_perhaps_a_name(text, name):
    assert persons(text) == [(name, True)]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("This belongs to john smith", "john smith"),
        ("WORN BY: J. Wren", "J. Wren"),
        ("J. SMITH 1234567", "J. SMITH 1234567"),
        ("Sgt WREN 2345678", "WREN 2345678"),
        ("4471203 Pte J. WREN", "J. WREN"),
        ("NAME: WREN 4471203", "WREN 4471203"),
    ],
)
def test_a_name_that_is_told_as_one_takes_its_service_number_along(text, name):
    assert persons(text)[0] == (name, False)


@pytest.mark.parametrize(
    "text",
    [
        "SMOCK FELL", "DRAB OLIVE", "DUNSALLOW 1974", "REPELLENT TREATED", "WASHABLE", "DO NOT BLEACH", "BLACK",
        "BLOUSE, WORKING", "WREN & SONS LTD", "MARCH 1974", "100% COTTON", "XL", "[bar code]", "made for field use",
        "STRAND", "HOOD PEAT FIRE", "NAME ...... NO ......",
    ],
)  # fmt: skip
def test_words_of_labels_makers_garments_and_colours_name_nobody(text):
    assert persons(text) == []


def test_no_label_of_the_demo_society_names_anybody():
    found = {}
    for piece in pieces():
        text, answer = read(piece)
        known = replace(demo_context(), words=SOCIETY)
        if named := read_label(text, known)["persons"] and answer["persons"]:
            found[text] = named
    assert found == {}
