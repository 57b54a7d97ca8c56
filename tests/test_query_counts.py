"""How often a page asks the database: seldom, and no oftener when there is many times as much to say."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import get_resolver

from catalogue.reference.snapshots import forget_everything
from tests.demo_pages import ADDRESSES, BEHIND_THE_CAUTION, NOT_PAGES, PAGES, WALK, WITH_FACETS, every_record
from tests.making import multiply_reference
from tests.reading import KEPT_FIGURES, read_caution

MOST, MOST_WITH_FACETS = 12, 15
# The first page after a change reads the reference anew; one of each sort that stands on it.
# A union stands in brackets; PostgreSQL reads much by a cursor.
READS = ("SELECT", "(SELECT", "DECLARE")
READING = ["/", "/garment-types/BLO/", "/search/?q=smock", WALK, "/which/any-garment/"]
MOST_AT_FIRST = 60
TIMES = 20


def queries(client, address: str) -> int:
    with CaptureQueriesContext(connection) as asked:
        response = client.get(address)
    assert response.status_code == 200, f"{address} answered {response.status_code}"
    return len(asked)


def later_visits(client, addresses: list[str]) -> dict[str, int]:
    """Queries of each page once it has been visited since the reference last changed."""
    for address in addresses:
        client.get(address)
    return {address: queries(client, address) for address in addresses}


def first_visits(client, addresses: list[str]) -> dict[str, int]:
    """Queries of each page when nothing at all has been read yet."""
    counted = {}
    for address in addresses:
        forget_everything()
        counted[address] = queries(client, address)
    return counted


def most(address: str) -> int:
    return MOST_WITH_FACETS if f"{address.partition('?')[0]}?" == WITH_FACETS else MOST


def test_every_public_address_stands_in_the_table_of_pages():
    assert set(names_of(get_resolver())) - NOT_PAGES == set(PAGES)


def names_of(resolver, space: str = "") -> list[str]:
    """Names of all addresses below a resolver but the back office's."""
    found = []
    for pattern in resolver.url_patterns:
        if hasattr(pattern, "url_patterns"):
            inner = f"{space}{pattern.namespace}:" if pattern.namespace else space
            found += [] if inner == "admin:" else names_of(pattern, inner)
        else:
            found.append(f"{space}{pattern.name}")
    return found


def test_no_page_asks_the_database_more_than_a_few_times(client, demo):
    read_caution(client, *BEHIND_THE_CAUTION)
    counted = later_visits(client, ADDRESSES + every_record())

    assert {address: number for address, number in counted.items() if number > most(address)} == {}


def test_no_page_writes_to_the_database(client, demo):
    read_caution(client, *BEHIND_THE_CAUTION)
    with CaptureQueriesContext(connection) as asked:
        for address in ADDRESSES:
            client.get(address)

    written = [query["sql"] for query in asked if not query["sql"].startswith(READS)]
    # Kept figures are put away at the first visit after a change; a row lost loses nothing.
    assert [sql for sql in written if not any(table in sql for table in KEPT_FIGURES)] == []


@pytest.mark.once
def test_many_times_the_reference_takes_no_more_queries(client, demo):
    read_caution(client, *BEHIND_THE_CAUTION)
    small = later_visits(client, ADDRESSES)
    small_at_first = first_visits(client, READING)

    multiply_reference(TIMES)

    assert first_visits(client, READING) == small_at_first
    assert later_visits(client, ADDRESSES) == small
    assert max(small_at_first.values()) <= MOST_AT_FIRST
