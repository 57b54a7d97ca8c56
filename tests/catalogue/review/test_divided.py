"""One version as two: which of its pieces would go to which, by what was seen on them and by the year of the label."""

import pytest

from catalogue.member_examples.evidence import PieceSeen
from catalogue.review.proposals.divided import after_split
from tests.catalogue.review.proposing import cell


def gone(piece: PieceSeen, *, before, first, second, years=()):
    """What becomes of one piece of X that is divided into A and B."""
    found = after_split(
        [piece], code="X", before=before, both=("A", "B"), rows=(first, second), years=dict(years)
    )  # fmt: skip
    return found.nowhere[0] if found.nowhere else found.followers[0]


BEFORE = {"feature:cuff": [cell("tab"), cell("plain")]}
TAB, PLAIN = {"feature:cuff": [cell("tab")]}, {"feature:cuff": [cell("plain")]}


@pytest.mark.parametrize(
    ("seen", "to", "against", "or_as_well"),
    [
        ({"cuff": "tab"}, "A", (), ""),
        ({"cuff": "plain"}, "B", (), ""),
        ({}, "A", (), "B"),
        ({"hem": "cord"}, "A", (), "B"),
        # It stood against the divided version already: it is no worse placed than it was.
        ({"cuff": "elastic"}, "A", ("cuff",), "B"),
    ],
)
def test_a_piece_goes_where_its_observations_lead(seen, to, against, or_as_well):
    found = gone(PieceSeen("E1", "X", seen), before=BEFORE, first=TAB, second=PLAIN)

    assert (found.to, found.against, found.or_as_well) == (to, against, or_as_well)


def test_what_a_piece_shows_otherwise_in_a_feature_that_the_split_leaves_makes_it_no_more_doubtful():
    hem = {"feature:hem": [cell("cord")]}
    piece = PieceSeen("E1", "X", {"cuff": "plain", "hem": "hem"})
    found = gone(piece, before=BEFORE | hem, first=TAB | hem, second=PLAIN | hem)

    assert (found.to, found.is_doubtful) == ("B", False)


def test_a_piece_that_stood_against_the_divided_version_goes_to_the_one_that_takes_it_in():
    wider = {"feature:cuff": [cell("plain"), cell("elastic")]}
    found = gone(PieceSeen("E1", "X", {"cuff": "elastic"}), before=BEFORE, first=TAB, second=wider)

    assert (found.to, found.is_doubtful) == ("B", False)


def test_a_piece_against_which_something_new_speaks_in_both_is_nowhere():
    before = BEFORE | {"feature:hem": [cell("cord"), cell("hem")]}
    first, second = TAB | {"feature:hem": [cell("cord")]}, PLAIN | {"feature:hem": [cell("hem")]}
    found = gone(PieceSeen("E1", "X", {"cuff": "tab", "hem": "hem"}), before=before, first=first, second=second)

    assert found.seen == ("hem", "cuff")


@pytest.mark.parametrize(
    ("year", "to", "or_as_well"),
    [(1965, "A", ""), (1972, "B", ""), (1970, "A", "B"), (1990, "A", "B"), (None, "A", "B")],
)
def test_where_nothing_seen_tells_the_year_on_the_label_may(year, to, or_as_well):
    found = dated(year, BEFORE | ISSUED | {"date": "1961/1981"}, TAB, PLAIN)

    assert (found.to, found.or_as_well) == (to, or_as_well)
    assert found.led_by == (None if or_as_well else year)
    assert found.outside is None


@pytest.mark.parametrize(("date", "year"), [("", 1990), ("", 1940), ("1950/1995", 1985), ("1950/1995", 1955)])
def test_a_piece_whose_label_was_within_the_dates_and_is_within_those_of_neither_is_nowhere(date, year):
    for seen in ({}, {"cuff": "tab"}):
        found = dated(year, BEFORE | ISSUED | {"date": date}, TAB, PLAIN, seen)

        assert (found.year, found.seen) == (year, ())


def test_a_piece_that_shows_what_only_one_takes_in_goes_there_and_is_doubtful_where_its_label_says_the_other():
    found = dated(1975, BEFORE | ISSUED | {"date": "1961/1981"}, TAB, PLAIN, {"cuff": "tab"})

    assert (found.to, found.or_as_well, found.led_by, found.outside) == ("A", "", None, 1975)
    assert found.is_doubtful


def test_the_label_of_what_was_altered_may_be_of_long_before():
    altered = {"kind": "conversion"}
    found = dated(1950, BEFORE | altered | {"date": "1961/1981"}, TAB | altered, PLAIN | altered)

    assert (found.to, found.or_as_well) == ("A", "B")


ISSUED = {"kind": "issue"}


def dated(year, before, first, second, seen=()):
    """What becomes of a piece with this year on its label, where A is of 1961 to 1970 and B of 1970 to 1981."""
    first, second = (ISSUED | one | {"date": date} for one, date in ((first, "1961/1970"), (second, "1970/1981")))
    years = {} if year is None else {"E1": year}
    return gone(PieceSeen("E1", "X", dict(seen)), before=before, first=first, second=second, years=years.items())


def test_pieces_of_other_versions_stay_where_they_are():
    found = after_split(
        [PieceSeen("E1", "Y", {"cuff": "tab"})], code="X", before=BEFORE, both=("A", "B"), rows=(TAB, PLAIN), years={}
    )

    assert (found.followers, found.nowhere) == ((), ())
