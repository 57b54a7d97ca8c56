"""Every fibre name of the table, in each of the eight languages, reads as its fibre. The table's English names are
those of Regulation (EU) No 1007/2011, Annex I; where the others come from stands in its columns."""

import csv
from pathlib import Path

import pytest

from identification.label_reading import Context, read_label

TABLE = Path(__file__).resolve().parents[3] / "fixtures" / "reference_lists" / "fibres.csv"
LANGUAGES = ("en", "de", "fr", "it", "es", "nl", "sv", "da")
CONTEXT = Context(2026)


def names_in(language: str) -> list[tuple[str, str]]:
    """Each printed name with the fibre's English name."""
    with TABLE.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return [(name, row["name_en"].split("|")[0]) for row in rows for name in row[f"name_{language}"].split("|") if name]


def fibres_of(text: str) -> tuple[str, list[str]]:
    reading = read_label(text, CONTEXT)["fibres"]
    return reading["status"], [one["name"] for part in reading["components"] for one in part["fibres"]]


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_name_reads_as_its_fibre_in_small_letters_and_in_capitals(language):
    names = names_in(language)
    wrong = [
        (printed, fibres_of(printed))
        for name, fibre in names
        for printed in (f"100% {name}", f"100 % {name.upper()}")
        if fibres_of(printed) != ("read", [fibre])
    ]

    assert len({fibre for _, fibre in names}) >= 60
    assert wrong == []


def cloths(text: str) -> list[tuple[list[tuple[str, float]], float]]:
    reading = read_label(text, Context(2026))["fibres"]
    said = [[(one["name"], one["percent"]) for one in part["fibres"]] for part in reading["components"]]
    return list(zip(said, reading["totals"], strict=True))


@pytest.mark.parametrize("between", ["\nDATE 1984\n", "\n03/84\n", " 1984 ", "\n"])
def test_two_compositions_are_two_cloths_also_where_the_first_is_no_hundred(between):
    assert cloths(f"60% COTTON 35% POLYESTER{between}100% NYLON") == [
        ([("cotton", 60), ("polyester", 35)], 95),
        ([("polyamide", 100)], 100),
    ]
    assert cloths(f"95% COTTON{between}60% WOOL 40% NYLON")[0] == ([("cotton", 95)], 95)
    assert read_label(f"95% COTTON{between}100% NYLON", Context(2026))["fibres"]["reason"] == "sum_not_100"


def test_one_cloth_with_a_wrong_figure_stays_one_and_a_date_parts_none_that_makes_a_hundred():
    assert cloths("80% COTTON 30% WOOL") == [([("cotton", 80), ("wool", 30)], 110)]
    assert cloths("95% COTTON\nDATE 1984\n5% ELASTANE") == [([("cotton", 95), ("elastane", 5)], 100)]
