"""Dates as historians write them: what is none is told, as the EDTF library tells it."""

import pytest
from edtf import parse_edtf
from edtf.parser.edtf_exceptions import EDTFParseException

from catalogue.reference.uncertain_dates import fault_in_date

LAST_DAYS = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
NEAR_THE_END = [f"1964-{m:02d}-{day:02d}" for m, last in enumerate(LAST_DAYS, 1) for day in (last, last + 1)]


def library_takes(text: str) -> bool:
    try:
        parse_edtf(text)
    except EDTFParseException:
        return False
    return True


@pytest.mark.parametrize("mark", ["", "~", "?", "%"])
def test_a_date_is_refused_where_the_library_refuses_it(mark):
    written = [*NEAR_THE_END, "1964-00", "1964-13"] if not mark else ["1964", "1964-04-30", "1964-04-31", "1964-13"]

    assert {text: fault_in_date(text + mark) is None for text in written} == {
        text: library_takes(text + mark) for text in written
    }


def test_a_leap_day_stands_in_leap_years_only():
    """ISO 8601-1: a calendar date is one of the Gregorian calendar. The library takes 29 February in every year."""
    assert [fault_in_date(f"{year}-02-29") is None for year in (1964, 1966, 1900, 2000)] == [True, False, False, True]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("1966-13", "no such day or month"),
        ("1966-00-01", "no such day or month"),
        ("1966/1960", "ends before it begins"),
        ("66", "a date is written 1966"),
        ("../..", "a date is written 1966"),
        ("1966/../1970", "a date is written 1966"),
    ],
)
def test_what_is_no_date_is_told_in_words(text, words):
    assert words in fault_in_date(text)


@pytest.mark.parametrize("text", ["1966", "1966-03", "1957-09/1966~", "../1966", "1989~/..", "1964?", "1971/1986%"])
def test_what_historians_write_is_taken(text):
    assert fault_in_date(text) is None
