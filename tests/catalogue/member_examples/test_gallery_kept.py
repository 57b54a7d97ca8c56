"""What the gallery keeps between visits is never out of date, and never another person's."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.member_examples.actions import attribute_anew, withdraw_example
from catalogue.member_examples.found import Found
from catalogue.member_examples.models import Photograph
from tests.catalogue.member_examples.pieces import accepted, draft, make_society, sent
from tests.reading import text

pytestmark = pytest.mark.django_db


@pytest.fixture
def society(db):
    return make_society()


def shown(client, address="/examples/") -> list[str]:
    return [row["code"] for row in client.get(address).context["rows"].shown]


def count(client, facet: str, address="/examples/") -> dict[str, int]:
    rows = next(row for row in client.get(address).context["facets"].shown if row["name"] == facet)
    return {one["code"]: one["number"] for one in rows["choices"]}


def test_accepting_keeping_as_another_version_and_withdrawing_are_seen_at_once(client, society):
    one = accepted(society, society.old)
    assert (shown(client), count(client, "version")) == ([one.code], {"SMK-61": 1})
    two = accepted(society, society.old)
    assert (shown(client), count(client, "version")) == ([one.code, two.code], {"SMK-61": 2})

    attribute_anew(example=two, moderator=society.mo, reason="zip", held_as=society.new, believed=society.old)
    assert count(client, "version") == {"SMK-61": 1, "SMK-76": 1}
    assert shown(client, "/examples/?version=SMK-76") == [two.code]
    withdraw_example(example=one, member=society.ada)
    assert (shown(client), count(client, "version")) == ([two.code], {"SMK-76": 1})


def test_a_photograph_that_comes_is_seen_at_once(client, society):
    one = accepted(society, society.old)
    assert "/examples/photographs/" not in text(client, "/examples/")
    files = [{"name": "x", "longer": 320, "width": 320, "height": 240}]
    Photograph.objects.create(example=one, files=files, width=320, height=240, sha256="0" * 64)

    assert "/examples/photographs/" in text(client, "/examples/")


def test_ones_own_and_those_that_wait_come_first_and_are_nobody_elses(client, society):
    everybodys, own, waiting = accepted(society, society.old), draft(society), sent(society, society.ben)
    for person, expected, states in (
        (society.ada, [own, everybodys], {"draft": 1, "accepted": 1}),
        (society.ben, [waiting, everybodys], {"submitted": 1, "accepted": 1}),
        (society.mo, [waiting, everybodys], {"submitted": 1, "accepted": 1}),
        (None, [everybodys], None),
    ):
        client.logout()
        if person:
            client.force_login(person)
        for _ in range(2):
            assert shown(client) == [one.code for one in expected]
            assert states is None or count(client, "state") == states


@pytest.mark.parametrize("size", [1, 2, 3, 4, 20])
def test_pages_go_on_where_the_last_ended(size):
    found = Found([1, 2, 3], [4, 5, 6, 7, 8])
    pages = [found[begin : begin + size] for begin in range(0, len(found), size)]

    assert [number for page in pages for number in page] == [1, 2, 3, 4, 5, 6, 7, 8]
    assert all(len(page) == size for page in pages[:-1])


@pytest.mark.parametrize("query", ["", "?page=3", "?maker=X&size=4", "?looked=more", "?q=27-114-06", "?year_from=1970"])
def test_a_later_visit_asks_little_of_the_database(client, society, query):
    for _ in range(3):
        accepted(society, society.old, closure="buttons")
    client.get(f"/examples/{query}")
    with CaptureQueriesContext(connection) as asked:
        client.get(f"/examples/{query}")

    assert len(asked) <= 3
