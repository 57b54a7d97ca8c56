"""Dates as historians write them: what is none is told, as the EDTF library tells it."""

import pytest
from edtf import parse_edtf
from edtf.parser.edtf_exceptions import EDTFParseException

from catalogue.reference.uncertain_dates import as_typed, fault_in_date, in_words

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


@pytest.mark.parametrize(
    ("typed", "date"),
    [
        ("14 May 2020", "2020-05-14"),
        ("14th may  2020", "2020-05-14"),
        ("3. Sept. 1966", "1966-09-03"),
        ("May 2020", "2020-05"),
        ("about 2019", "2019~"),
        ("ca. May 2019", "2019-05~"),
        ("about 1966?", "1966%"),
        ("1952–58", "1952/1958"),
        ("1952-1958", "1952/1958"),
        ("May 1989 to about 1990", "1989-05/1990~"),
        ("since 1989", "1989/.."),
        ("2020-05-14", "2020-05-14"),
    ],
)
def test_a_date_is_taken_as_people_write_it(typed, date):
    assert as_typed(typed) == date


@pytest.mark.parametrize("typed", ["yesterday", "May", "14 Mayday 2020", "31 April 2020", "1966 to 1960", ""])
def test_what_is_no_date_in_words_either_is_refused(typed):
    assert fault_in_date(as_typed(typed)) is not None


@pytest.mark.parametrize("one", ["1966", "1966-03", "1966-03-09"])
@pytest.mark.parametrize("mark", ["", "~", "?", "%"])
@pytest.mark.parametrize("other", ["", "/1971", "/1971-12-31~", "/2004?", "/.."])
def test_every_date_is_taken_as_the_site_writes_it(one, mark, other):
    date = f"{one}{mark}{other}"

    assert as_typed(in_words(date)) == date
    assert as_typed(in_words(f"../{one}{mark}")) == f"../{one}{mark}"
