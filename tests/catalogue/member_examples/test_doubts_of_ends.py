"""How far an estimated end of a version may lie from its record: as far as labels tell, else as far as "about" goes."""

from dataclasses import replace
from math import ceil

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.member_examples.dated import ABOUT, MOST_DOUBT, doubts_of, doubts_of_ends
from catalogue.reference.models import ReferenceState
from catalogue.reference.snapshots import all_types, forget_everything
from identification.dating.spans import Documented, date_version
from tests.reading import read_caution

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


def asked_at_first(ask) -> list[str]:
    """What is asked of the database when nothing has been read yet."""
    forget_everything()
    with CaptureQueriesContext(connection) as asked:
        ask()
    return [query["sql"] for query in asked]


def test_the_labels_of_all_types_are_read_in_one_query_and_then_in_none(demo_pieces):
    number = ReferenceState.current_number()
    types = all_types()
    asked = asked_at_first(lambda: doubts_of_ends(types, number=number))

    assert len(asked) == 1
    with CaptureQueriesContext(connection) as again:
        doubts_of_ends(types, number=number)
    assert len(again) == 0


def test_a_label_costs_the_first_visit_to_a_walk_two_queries_more_and_its_year_is_one_of_them(client, demo_pieces):
    """One for the numbers on record, one for the years on labels, however many versions there are."""
    read_caution(client, "BLO")
    walk = "/which/BLO/?weave=herringbone"
    plain, numbered, dated = (
        asked_at_first(lambda address=address: client.get(address))
        for address in (walk, f"{walk}&_label_number=27-114-06", f"{walk}&_label_number=27-114-06&_label_year=1972")
    )

    assert len(numbered) <= len(plain) + 1, "\n".join(sql[:200] for sql in numbered if sql not in plain)
    assert len(dated) <= len(numbered) + 1, "\n".join(sql[:200] for sql in dated if sql not in numbered)
