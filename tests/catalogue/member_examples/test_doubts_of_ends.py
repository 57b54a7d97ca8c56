"""How far an estimated end of a version may lie from its record: as far as labels tell, else as far as "about" goes."""

from dataclasses import replace
from math import ceil

import pytest

from catalogue.member_examples.dated import ABOUT, MOST_DOUBT, doubts_of, doubts_of_ends
from catalogue.reference.models import ReferenceState
from catalogue.reference.snapshots import all_types
from identification.dating.spans import Documented, date_version

pytestmark = pytest.mark.django_db


@pytest.fixture
def version(demo):
    facts = {facts.code: facts for facts in all_types()}["BLO"]
    return facts.versions["BLO-57"]


def with_date(version, date: str, begin: int, end: int):
    return replace(version, date=date, from_year=begin, to_year=end)


def test_ends_that_are_sure_have_no_doubt(version):
    assert doubts_of(with_date(version, "1957/1966", 1957, 1966), None) == (0, 0)


def test_an_end_about_a_year_without_labels_may_be_off_by_a_few_years(version):
    assert doubts_of(with_date(version, "1957/1966~", 1957, 1966), None) == (0, ABOUT)
    assert doubts_of(with_date(version, "1957?/1966", 1957, 1966), None) == (ABOUT, 0)


def test_labels_say_how_far_an_end_may_lie_and_fewer_of_them_leave_it_farther(version):
    estimated = with_date(version, "1957/1966~", 1957, 1966)
    many = date_version(range(1957, 1967), Documented(first=1957))
    few = date_version([1957, 1961, 1966], Documented(first=1957))

    assert doubts_of(estimated, many) == (0, ceil((many.high - 1966) / 2))
    assert 1 <= doubts_of(estimated, many)[1] < doubts_of(estimated, few)[1] <= MOST_DOUBT


def test_two_years_tell_no_interval(version):
    assert doubts_of(with_date(version, "1957/1966~", 1957, 1966), date_version([1957, 1958])) == (0, ABOUT)


def test_of_the_demo_those_with_an_estimated_end_are_told_and_the_rest_left_out(demo):
    types = all_types()
    found = doubts_of_ends(types, number=ReferenceState.current_number())
    dates = {code: version.date for facts in types for code, version in facts.versions.items()}

    assert found
    assert all(any(mark in dates[code] for mark in "~?%") or ".." in dates[code] for code in found)
    assert all(max(doubts) <= MOST_DOUBT for doubts in found.values())
