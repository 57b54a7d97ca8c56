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
        ("SMITH J", "SMITH J"),
        ("4471203 SMITH", "4471203 SMITH"),
        ("MILLER", "MILLER"),
        ("Mary", "Mary"),
        ("SMOCK FELL / MILLER / SIZE 3", "MILLER"),
        ("27-114-06 MILLER", "MILLER"),
        ("Ødegård", "Ødegård"),
        ("S-4521 SMITH", "S-4521 SMITH"),
        ("36 123 456 MILLER", "36 123 456 MILLER"),
        ("ИВАНОВ", "ИВАНОВ"),
        ("Иванов И.И.", "Иванов И.И."),
        ("Παπαδόπουλος", "Παπαδόπουλος"),
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
        ("NAME: WREN 4471203", "WREN 4471203"),
        ("O'BRIEN P. 4471", "O'BRIEN P. 4471"),
        ("NAME JANE DOE SERVICE NO 123456", "JANE DOE SERVICE NO 123456"),
        ("NAME JANE DOE NO 123456", "JANE DOE NO 123456"),
        ("PROPERTY OF J SMITH", "J SMITH"),
        ("PROPERTY OF J K SMITH", "J K SMITH"),
        ("SERVICE NO 123456", "123456"),
        ("Army No. A/123 456", "A/123 456"),
        ("REGTL NUMBER: 4471203", "4471203"),
        ("ASN 36 123 456 MILLER", "36 123 456"),
        ("SMITH JA 12345678 RN", "SMITH JA 12345678 RN"),
        ("SMITH J.A. 123456 RASC", "SMITH J.A. 123456 RASC"),
        ("И.И. Иванов", "И.И. Иванов"),
        ("QUILLFEATHER A. 24567890", "QUILLFEATHER A. 24567890"),
        ("24567890 QUILLFEATHER A", "24567890 QUILLFEATHER A"),
        ("SMOCK FELL\nQUILLFEATHER, A. B. 4711\nSIZE 3", "QUILLFEATHER, A. B. 4711"),
        ("Pte J. K. TARRANDOO 4711", "J. K. TARRANDOO 4711"),
    ],
)
def test_a_name_that_is_told_as_one_takes_its_service_number_along(text, name):
    assert persons(text)[0] == (name, False)


@pytest.mark.parametrize(
    ("text", "flagged"),
    [
        ("4471203 Pte J. WREN", ["4471203", "J. WREN"]),
        ("No 14478965 Dvr Brown", ["14478965", "Brown"]),
        ("27-114-06 Sgt WREN", ["WREN"]),
        ("Pte JANE DOE / No 24123456", ["JANE DOE / No 24123456"]),
        ("Pte JANE DOE\nNo. 24123456", ["JANE DOE\nNo. 24123456"]),
        ("SERVICE NO 24123456", ["24123456"]),
        ("J. SMITH 24123456", ["J. SMITH 24123456"]),
        ("Sgt J. SMITH 24123456", ["J. SMITH 24123456"]),
        ("NAME SMITH NO 24123456", ["SMITH NO 24123456"]),
        ("NAME: SMITH 24123456", ["SMITH 24123456"]),
        ("24123456 Pte SMITH", ["24123456", "SMITH"]),
    ],
)
def test_a_service_number_before_a_rank_is_flagged_beside_the_name(text, flagged):
    assert persons(text) == [(words, False) for words in flagged]
    numbers = [number["as_printed"] for number in read_label(text, demo_context())["numbers"]]
    assert numbers == (["27-114-06"] if text.startswith("27") else [])


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("belonged to Sgt Ann Quillfeather of Hallin.", "Ann Quillfeather"),
        ("belonged to Cpl John Smith", "John Smith"),
        ("the coat of Cpl John Green, they say", "John Green"),
        ("from Mrs Anna Berg", "Anna Berg"),
        ("widow of Lt. Peter Haller", "Peter Haller"),
        ("the estate of Capt. A. B. van der Haller", "A. B. van der Haller"),
        ("Sergeant Ann Mary Quillfeather", "Ann Mary Quillfeather"),
        ("Maj. J.K. O'Rell-Haller wore it", "J.K. O'Rell-Haller"),
        ("Col Ines Haller", "Ines Haller"),
        ("SGT WREN SMOCK FELL", "WREN"),
        ("Dr Ödegård", "Ödegård"),
        ("the Rev. Ann Haller", "Ann Haller"),
    ],
)
def test_behind_a_rank_or_a_title_every_capitalised_word_is_of_the_name(text, name):
    assert persons(text) == [(name, False)]


@pytest.mark.parametrize(
    "text",
    ["Lt Green", "LT BLUE COTTON", "Col. Olive Drab", "COL. BLACK", "Major repairs, private market", "BATCH A 1234",
     "SMOCK M 8415", "captain of the team"],
)  # fmt: skip
def test_shades_and_words_that_are_ranks_too_name_nobody(text):
    assert persons(text) == []


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


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Sgt [name] Quillfeather of Hallin.", ["Quillfeather"]),
        ("Sgt [name] of Hallin", []),
        ("SMOCK FELL\nQUILLFEATHER [name]\nSIZE 3", ["QUILLFEATHER"]),
        ("From [name], by way of the market", []),
        ("[name] [name]", []),
        ("[name] J. Haller and others", ["J. Haller"]),
        ("[name]\nDUNSALLOW 1974", []),
        ("[name] Smock", []),
    ],
)
def test_words_beside_a_masked_name_are_offered_as_the_rest_of_it(text, names):
    assert [name for name, perhaps in persons(text) if not perhaps] == names


def test_no_label_of_the_demo_society_names_anybody():
    found = {}
    for piece in pieces():
        text, answer = read(piece)
        known = replace(demo_context(), words=SOCIETY)
        if named := read_label(text, known)["persons"] and answer["persons"]:
            found[text] = named
    assert found == {}
