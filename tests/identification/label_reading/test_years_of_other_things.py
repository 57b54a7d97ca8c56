"""A year that stands in a contract of another time, or in a specification, and a range of sizes: none is a date."""

import pytest

from identification.label_reading import Context, read_label

NOW = Context(2026)
OTHER_YEARS = {
    "DLA100-66-C-1234": 1966,
    "DSA100-84-C-1234": 1984,
    "SP0100-85-D-1234": 1985,
    "SPM1C1-88-D-1234": 1988,
    "SPE1C1-05-D-1234": 2005,
}


@pytest.mark.parametrize(("number", "year"), OTHER_YEARS.items(), ids=str)
def test_an_office_that_had_not_that_name_in_the_contract_s_year_is_said_and_gives_no_year(number, year):
    contract = read_label(number, NOW)["contract"]

    assert (contract["status"], contract["reason"]) == ("unconfirmed", "office_of_other_years")
    assert (contract["value"], contract["fiscal_year"], contract["candidates"]) == (number, None, [year])
    assert "award_from" not in contract


def test_a_contract_whose_year_is_doubtful_contradicts_no_date():
    answer = read_label("DSA100-84-C-1234\nMFD 1972", NOW)

    assert (answer["date"]["status"], answer["date"]["edtf"]) == ("read", "1972")
    assert answer["consistency"]["status"] == "read"


@pytest.mark.parametrize(
    ("number", "year"),
    {
        # The agency changed its name on 1 January 1977, within fiscal 1977, which began in October 1976.
        "DSA100-77-C-0001": 1977,
        "DLA100-77-C-0001": 1977,
        "DSA400-62-C-0001": 1962,
        # When letters gave way to others is known from memory only: some years on each side are let pass.
        "DLA100-96-C-0001": 1996,
        "SPM100-01-D-0001": 2001,
        "SPE100-12-D-0001": 2012,
        "SPM100-14-D-0001": 2014,
    }.items(),
    ids=str,
)
def test_a_contract_at_the_turn_from_one_name_to_the_next_is_read(number, year):
    contract = read_label(number, NOW)["contract"]

    assert (contract["status"], contract["fiscal_year"]) == ("read", year)


@pytest.mark.parametrize(
    ("text", "date"),
    {
        "SPECIFICATION MIL-C-43455 1957": "1957",
        "SPECIFICATION FOR COATS 1957": "1957",
        "SPECIFICATION U.S.A. 1957": "1957",
        "SPEC. DATED 1957": "1957",
        "SPECIFICATION 31, 12 MARCH 1957": "1957-03-12",
        "DATED 12 MARCH 1957 MIL-C-43455": "1957-03-12",
        "DATED 1957 MIL-C-43455J": "1957",
        "DATED MIL-C-43455 1957": "1957",
        "MIL-C-43455J 1957": "1957",
        "PATTERN OF THE COMMISSION 1957": None,
        "DATED 1957, SPECIFICATION 31": None,
    }.items(),
    ids=str,
)
def test_the_year_of_a_specification_is_no_date_of_making(text, date):
    answer = read_label(f"{text}\nSIZE 4", NOW)

    assert answer["date"]["status"] == "absent"
    assert answer["specification"].get("date") == date


@pytest.mark.parametrize(
    "text",
    [
        "SPECIFICATION MIL-C-43455 MFD 1957",
        "MIL-C-43455J\n1957",
        "MIL-C-43455J MADE 1957",
        "DATED 1957\nDSA100-56-C-1234",
        "SPECIFICATION 31\nDATE OF MANUFACTURE 1957",
    ],
)
def test_a_date_of_making_beside_a_specification_is_read(text):
    assert read_label(text, NOW)["date"]["edtf"] == "1957"


def test_a_specification_s_year_does_not_stand_in_for_the_date_of_making_and_keeps_its_own_reading():
    answer = read_label("SPECIFICATION MIL-C-43455 1957\nMFD 1962", NOW)

    assert answer["specification"]["date"] == "1957"
    assert answer["date"]["edtf"] == "1962"


@pytest.mark.parametrize("text", ["38-40", "SIZE 38-40", "SIZE: 38/40", "SIZE 38 - 40", "BLOUSE\n38-40\nDUNSALLOW"])
def test_a_range_of_sizes_is_kept_whole_and_is_no_date(text):
    answer = read_label(text, NOW)

    assert answer["date"]["status"] == "absent"
    assert (answer["size"]["status"], answer["size"]["reason"]) == ("unconfirmed", "size_not_in_table")
    assert answer["size"]["mark"] in ("38-40", "38/40", "38 - 40")
    assert not any(piece.strip("-/ ") in ("38", "40") for piece in answer["label"]["unread"])


@pytest.mark.parametrize("text", ["13/85", "DATE 38-40", "40-38", "3-84"])
def test_figures_that_are_no_range_of_sizes_are_judged_as_a_date_as_before(text):
    assert read_label(text, NOW)["date"]["status"] in ("invalid", "ambiguous")
    assert read_label(text, NOW)["size"]["status"] == "absent"
