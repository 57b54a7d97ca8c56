"""The demo society's labels: every number that a person read is found, and none is invented."""

import csv
import re
from dataclasses import replace

import pytest

from identification.label_reading import context_from, read_label
from identification.label_reading.two_labels import second_label_begins
from tests.benchmarks.label_reading import demo_context
from tests.identification.label_reading.check_rows import DATA

GARMENTS = {
    "BLO": "blouse", "SMK": "smock", "COA": "coat", "LIN": "liner", "SHI": "shirt", "TRO": "trousers",
    "OVT": "trousers", "CAP": "cap", "HAT": "hat", "VES": "vest", "HOO": "hood",
}  # fmt: skip
NUMBERS = re.compile(r"(?<!\d)(?:C/\d\d/\d\d|\d\d-\d{3}-\d\d|\d{8})(?!\d)")


def pieces() -> list[dict]:
    with (DATA / "demo_label_texts.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def text_of(written: str) -> str:
    """A label text as it stands on the piece: remarks left out, new lines and further labels made such."""
    text = re.sub(r" ?\([^)]*\)", "", written).replace(" // ", "\n---\n")
    return (text if text.startswith("TRIAL") else text.replace(" / ", "\n")).strip()


def read(piece: dict) -> tuple[str, dict]:
    text = text_of(piece["label_text"])
    return text, read_text(piece, text)


def read_text(piece: dict, text: str) -> dict:
    return read_label(text, replace(demo_context(), garment=GARMENTS[piece["type"]]))


@pytest.mark.parametrize("piece", pieces(), ids=lambda piece: piece["example"])
def test_a_label_gives_what_a_person_read_and_no_more(piece):
    text, answer = read(piece)
    by_role: dict[str, list] = {}
    for number in answer["numbers"]:
        by_role.setdefault(number["role"], []).append(number["value"])

    assert by_role.get("stock number", []) == NUMBERS.findall(text)
    assert by_role.get("contract", []) == (
        [piece["contract"]] if piece["contract"] in text and piece["contract"] else []
    )
    assert answer["stock_number"]["status"] == answer["contract"]["status"] == "absent"
    assert answer["fibres"]["status"] == answer["care"]["status"] == "absent"
    if piece["size_mark"] and re.search(rf"(?m)(?<![\d/]){re.escape(piece['size_mark'])}$", text):
        assert answer["size"]["as_printed"] == piece["size_mark"]
    else:
        assert answer["size"]["status"] == "absent"
    year = piece["label_year"]
    printed_year = year if year and re.search(rf"(?m)(?<!\d)(?:{year}|{year[2:]})$", text) else None
    assert (answer["date"]["edtf"] or None) == printed_year
    if piece["maker"] and text:
        assert piece["maker"] in (answer["maker"].get("codes") or [answer["maker"].get("code")])
    assert answer["consistency"]["status"] == "read"


def test_every_number_keeps_its_place():
    for piece in pieces():
        text, answer = read(piece)
        for number in answer["numbers"]:
            start, end = number["span"]
            assert text[start:end] == number["as_printed"]


def test_the_copied_bar_number_breaks_its_check_rule_and_the_true_ones_keep_it():
    broken = {
        number["value"]
        for piece in pieces()
        for number in read(piece)[1]["numbers"]
        if number.get("reason") == "check_rule_broken"
    }

    assert broken == {"27131068"}


def test_the_mark_of_a_depot_s_repair_is_no_maker():
    """Depot work is marked HALLINSCAR REP. (the demo's makers.csv has the depot as such)."""
    answer = read_label("SHIRT WARM STN\n27-150-01\nDUNSALLOW 1977\n---\nHALLINSCAR REP. (stamp)", demo_context())
    alone = read_label("27-150-01\nDUNSALLOW 1977\nHALLINSCAR REP.", demo_context())

    assert (answer["maker"]["code"], answer["maker"]["status"]) == ("DUN", "read")
    assert [label["maker"].get("code") for label in answer["labels"]] == ["DUN", None]
    assert [(one["code"], one["as_printed"], one["label_no"]) for one in answer["repairs"]] == [
        ("HAL", "HALLINSCAR REP.", 2)
    ]
    assert (alone["maker"]["code"], [one["code"] for one in alone["repairs"]]) == ("DUN", ["HAL"])


@pytest.mark.parametrize("mark", ["GARRADINE REPAIRED 1980", "GARRADINE (REP.)", "GARRADINE: ALTERED"])
def test_a_maker_that_says_it_repaired_did_not_make_the_piece(mark):
    answer = read_label(f"27-150-01\nDUNSALLOW 1977\n{mark}", demo_context())

    assert answer["maker"]["code"] == "DUN"
    assert [one["code"] for one in answer["repairs"]] == ["GAR"]
    assert read_label("27-150-01\nGARRADINE REPORTED", demo_context())["maker"]["code"] == "GAR"


FIRST = "BLOUSE WORKING\n27-114-06\n4\nT/74/208\nDUNSALLOW 1974\n"
SECOND = "COAT STRAND\n27-131-04\n164/88\nT/88/127\nEDDLEMUIR\n"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (FIRST + SECOND, "COAT STRAND"),
        (FIRST + "\n" + SECOND, "COAT STRAND"),
        ("27-114-06\nDUNSALLOW\n1974\n27-131-04\nEDDLEMUIR", "27-131-04"),
        (FIRST + "HALLINSCAR REP.\n", None),
        (FIRST + "---\n" + SECOND, None),
        (FIRST + FIRST, None),
        ("27-114-06 C/14/61\nDUNSALLOW 1974", None),
        ("27-114-06\nDUNSALLOW for GARRADINE 1974", None),
        ("27-114-06 DUNSALLOW 27-131-04 EDDLEMUIR", None),
        ("8415-12-345-6789\nDUNSALLOW\n8415-14-543-2109\nGARRADINE", "8415-14-543-2109"),
        ("", None),
        ("NOTHING OF THE KIND", None),
    ],
)
def test_a_text_with_two_makers_and_two_numbers_in_turn_is_that_of_two_labels(text, line):
    known = demo_context()
    begins = second_label_begins(text, read_label(text, known), known)

    assert (None if begins is None else text[begins:].split("\n")[0]) == line


def test_a_contract_year_dates_a_label_without_a_year():
    answer = read_label("COAT STRAND\n27-131-04\n164/88\nT/88/127\nEDDLEMUIR", demo_context())

    assert [number.get("year") for number in answer["numbers"]] == [None, None, 1988]
    assert answer["date"] == {"status": "absent", "edtf": None}


def test_a_contract_from_outside_the_years_of_its_form_says_so_and_gives_no_year():
    """Trial contracts were given from 1957 to 1991 (the demo's number_forms.csv)."""
    number = read_label("T/93/14\n29-301-03", demo_context())["numbers"][0]

    assert (number["year"], number["years"], number["reason"]) == (None, [], "outside_years_in_use")


def test_a_date_before_its_contract_is_a_conflict_and_both_stay():
    answer = read_label("T/87/139\nDUNSALLOW 1985", demo_context())

    assert answer["date"]["status"] == "conflict"
    assert answer["date"]["edtf"] == "1985"
    assert answer["consistency"]["between"] == ["date", "numbers"]


def test_a_date_outside_the_years_of_the_maker_is_a_conflict():
    answer = read_label("VESSENHOLT 1975", demo_context())

    assert answer["consistency"]["reason"] == "outside_years_of_maker"
    assert answer["date"]["edtf"] == "1975"


@pytest.mark.parametrize("written", [
    "BLOUSE WORKING / SIZE 4 / C/14/61 / DUNSALLOW 1961",
    "BLOUSE WORKING SIZE 4 C/14/61 DUNSALLOW 1961",
    "BLOUSE / 27-114-06 / 4 / T/74/208 / EDDLEMUIR",
    "SIZE 4 27-114-06",
    "SIZE NO. 4 / DUNSALLOW 1961",
])  # fmt: skip
def test_a_size_is_read_on_a_label_written_in_one_line(written):
    size = read_label(written, demo_context())["size"]

    assert (size["status"], size["system"], size["value"]) == ("read", "society", "4")


@pytest.mark.parametrize("written", ["SIZE 21 1/2", "SIZE 4/5", "SIZE 4 5", "SIZE 4 / 5", "ARTICLE 4 / 61"])
def test_a_figure_that_goes_on_is_no_size_number(written):
    assert read_label(written, demo_context())["size"].get("system") != "society"


@pytest.mark.parametrize("piece", pieces(), ids=lambda piece: piece["example"])
def test_a_label_in_one_line_has_the_numbers_and_sizes_of_the_label_on_its_lines(piece):
    text, answer = read(piece)
    in_one = read_text(piece, "\n---\n".join(part.replace("\n", " / ") for part in text.split("\n---\n")))

    assert [one["value"] for one in in_one["numbers"]] == [one["value"] for one in answer["numbers"]]
    assert in_one["size"].get("as_printed") == answer["size"].get("as_printed")
    assert in_one["near_numbers"] == answer["near_numbers"] == []


def test_a_maker_in_a_street_of_a_town_is_in_the_country_of_that_town():
    """The demo's makers.csv: `Gullhavne Road, Dunsallow` beside `Dunsallow, Oskervane`; Fennarquil is only overseas."""
    countries = {maker.code: maker.country for maker in demo_context().makers}

    assert countries["DUN"] == countries["GAR"] == "Oskervane"
    assert countries["VSK"] == countries["LUM"] == countries["TAR"] == "Ostrevald"
    assert countries["FEN"] == ""


def test_places_that_lead_in_a_circle_end():
    rows = [{"maker": "A", "name": "Alpha", "place": "X, Y"}, {"maker": "B", "name": "Beta", "place": "Y, X"}]

    assert {maker.country for maker in context_from({"makers": rows}, 2026).makers} <= {"X", "Y"}


@pytest.mark.parametrize(("text", "status", "value"), [
    ("MADE IN OSTREVALD", "read", "Ostrevald"),
    ("COAT\nMADE IN THE U.S.A.", "read", "United States"),
    ("MADE IN ENGLAND BY GARRADINE 1974", "read", "United Kingdom"),
    ("Fabriqué en France", "read", "France"),
    ("Made in Nowhereland", "unconfirmed", "Nowhereland"),
    ("MADE IN OSKERVANE\nMADE IN FRANCE", "ambiguous", None),
    ("TAILOR MADE IN 1960", "absent", None),
])  # fmt: skip
def test_the_country_of_making_is_read_and_left_among_the_words(text, status, value):
    answer = read_label(text, demo_context())

    assert (answer["made_in"]["status"], answer["made_in"].get("value")) == (status, value)
    assert status == "absent" or any(
        "IN " in piece.upper() or "EN " in piece.upper() for piece in answer["label"]["unread"]
    )
