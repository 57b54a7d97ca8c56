"""Every status and reason that an answer may hold stands in DEVELOPERS.md, in the order in which it is reported."""

import re
from pathlib import Path

import pytest

from identification.label_reading import REASONS, STATUSES, Context, read_label
from tests.benchmarks.label_reading import TRUE_LABEL, demo_context

GUIDE = (Path(__file__).resolve().parents[3] / "DEVELOPERS.md").read_text(encoding="utf-8")
SECTION = GUIDE.split("## What the label reader returns")[1].split("\n## ")[0]


def first_cells(title: str) -> list[str]:
    """The words in code of the first column of the table below a title."""
    table = SECTION.split(title)[1].split("\n\n")[1]
    return re.findall(r"^\| `(\w+)`", table, re.MULTILINE)


def test_the_statuses_stand_in_the_guide_in_their_order():
    assert tuple(first_cells("**Statuses**")) == STATUSES


def test_the_reasons_stand_in_the_guide_in_their_order():
    assert tuple(first_cells("**Reasons**")) == tuple(REASONS)
    assert {status for statuses in REASONS.values() for status in statuses} <= set(STATUSES)


def test_every_key_of_an_answer_stands_in_the_guide():
    texts = [
        TRUE_LABEL, "8415-1B-345-6789", "8415-01-394-021", "4210-196-5439", "SPM1C1-1B-D-1074", "DSA100-76-C-1000",
        "QM-36-030-55-203", "2/79", "40 R", "LARGE", "60% COTTON 37% WOOL", "B0% WOOL 20% SILK", "100% ASBESTOS",
        "LINE DRY IN SHADE", "IRON LOW WITHOUT STEAM", "180/104\n170/96", "X" * 4001, "00-394-0215 01-394-0215",
        "DUNSALLOW 1961\n---\nPELLOWRIGG 1962", "NAME: J. SMITH", "DRY CLEAN P", "C/14/61\nDUNSALLOW 1991", "58",
    ]  # fmt: skip
    named = set(re.findall(r"`(\w+)`", SECTION))

    for text in texts:
        for context in (Context(2026, garment="jacket"), Context(2026, garment="cap"), demo_context()):
            assert keys_of(read_label(text, context)) - named == set(), text


def keys_of(answer) -> set[str]:
    if isinstance(answer, dict):
        return set(answer) | {key for value in answer.values() for key in keys_of(value)}
    if isinstance(answer, list):
        return {key for value in answer for key in keys_of(value)}
    return set()


PERSONS = {
    "NAME R. Hargreaves": "R. Hargreaves",
    "NAME\nJOHN SMITH": "JOHN SMITH",
    "Sgt J. Smith": "J. Smith",
    "W/O K. Petersen": "K. Petersen",
    "Lt. P. Ashe": "P. Ashe",
    "Property of John Smith": "John Smith",
    "NAME: J. SMITH 123456": "J. SMITH 123456",
    "SMOCK\nSIZE 4\nNAME R. HARGREAVES\nC/14/61": "R. HARGREAVES",
}


@pytest.mark.parametrize("written", PERSONS)
def test_a_name_is_flagged_however_it_is_written(written):
    """Common practice, no source: names are inked on labels with and without a colon, or below the word."""
    assert [one["as_printed"] for one in read_label(written, demo_context())["persons"]] == [PERSONS[written]]


@pytest.mark.parametrize(
    "written",
    ["NAME ...... NO ......", "NAME: ____", "Name .... Rank .... Unit ....", "RANK\n40 R", "Col Olive", "Lt Green"],
)
def test_a_form_that_nobody_filled_in_names_no_person(written):
    assert read_label(written, demo_context())["persons"] == []


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("100% puuvilla 50 % bawełna", ["100% puuvilla", "50 % bawełna"]),
        ("60% COTTON 30% xyzzy 10% plover", ["30% xyzzy", "10% plover"]),
        ("S0% COTTON 50% plover", ["50% plover"]),
    ],
)
def test_a_fibre_that_no_list_has_is_shown_wherever_it_stands(written, shown):
    fibres = read_label(written, demo_context())["fibres"]

    places = [fibres["as_printed"], *(other["as_printed"] for other in fibres.get("others", ()))]
    assert all(any(word in place for place in places) for word in shown)


@pytest.mark.parametrize("written", ["1944 PATTERN", "1944 PATT.", "TEL 1984", "P.O. BOX 1984", "PATENT 1984"])
def test_a_year_beside_another_thing_s_word_is_no_date_of_making(written):
    assert read_label(written, demo_context())["date"]["status"] == "absent"
    assert read_label(f"DUNSALLOW 1961\n{written}", demo_context())["date"]["edtf"] == "1961"
    assert read_label("DUNSALLOW 1961 PATTERN 57", demo_context())["date"]["edtf"] == "1961"
