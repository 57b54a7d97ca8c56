"""What was guessed, or stands twice on a label, founds no conclusion until a person has confirmed it."""

from identification.label_reading import read_label
from tests.identification.label_reading.test_demo_labels import demo_context

GUESSED_YEAR = "BLOUSE WORKING\n27-114-06\nT/8S/220\nDUNSALLOW 1984"


def read(text: str, **said) -> dict:
    return read_label(text, demo_context(), **said)


def test_a_guessed_contract_year_contradicts_no_date_until_it_is_confirmed():
    at = GUESSED_YEAR.index("T/8S")

    unsaid = read(GUESSED_YEAR)
    contract = next(one for one in unsaid["numbers"] if one["role"] == "contract")
    assert (contract["status"], contract["value"], contract["year"]) == ("ambiguous", None, None)
    assert contract["candidates"] == ["T/85/220"]
    assert (unsaid["date"]["status"], unsaid["consistency"]["status"]) == ("read", "read")
    assert read(GUESSED_YEAR, said={at: False})["consistency"]["status"] == "read"
    confirmed = read(GUESSED_YEAR, said={at: True})
    assert confirmed["consistency"]["reason"] == "before_contract_year"
    assert confirmed["date"]["status"] == "conflict"


def test_a_repaired_contract_that_a_person_set_aside_contradicts_nothing():
    text = "T/8O/220\nDUNSALLOW 1974"

    assert read(text)["consistency"]["reason"] == "before_contract_year"
    assert read(text, said={0: False})["consistency"]["status"] == "read"
    text = "SPO100-95-D-0457\nMFD 1984"
    assert read(text)["consistency"]["reason"] == "before_contract_year"
    assert read(text, said={0: False})["consistency"]["status"] == "read"


def test_what_a_person_said_holds_for_the_labels_of_a_text_together():
    text = "DUNSALLOW 1984\n---\nT/8S/220"
    at = text.index("T/8S")

    assert read(text)["consistency"]["status"] == "read"
    assert read(text, said={at: True})["consistency"]["reason"] == "before_contract_year"


def test_two_different_numbers_of_one_form_are_open_and_each_names_all():
    numbers = read("27-114-06\n27-114-10\nDUNSALLOW 1974")["numbers"]

    assert [(one["status"], one["reason"], one["value"]) for one in numbers] == [("ambiguous", "two_numbers", None)] * 2
    assert [one["values"] for one in numbers] == [["27-114-06", "27-114-10"]] * 2
    assert [one["candidates"] for one in numbers] == [["27-114-06"], ["27-114-10"]]
    contracts = read("CON 94-12\nCON 95-13\n1990")
    assert {one["reason"] for one in contracts["numbers"]} == {"two_numbers"}
    assert [one["year"] for one in contracts["numbers"]] == [None, None]
    assert contracts["consistency"]["status"] == "read"


def test_the_same_number_twice_and_numbers_of_two_forms_are_read():
    for text in ("27-114-06\n27-114-06", "27-114-06\nC/14/61", "27-114-06\n---\n27-114-10"):
        assert {one["status"] for one in read(text)["numbers"]} == {"read"}, text


def test_two_sizes_of_the_society_on_one_label_are_open():
    size = read("SIZE 3\nSIZE 5\n27-114-06")["size"]

    assert (size["status"], size["reason"], size["value"]) == ("ambiguous", "two_numbers", None)
