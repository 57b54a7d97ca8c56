"""How often a page asks the database: seldom, and no oftener when there is twenty times as much to say."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import get_resolver

from catalogue.reference.snapshots import forget_everything
from identification.walk_through.packs import forget_packs
from tests.demo_pages import ADDRESSES, NOT_PAGES, PAGES, WALK, WITH_FACETS, every_record
from tests.making import multiply_reference

MOST, MOST_WITH_FACETS = 12, 15
# One garment type is read for these, however many there are.
OF_ONE_TYPE = ["/garment-types/BLO/", "/issue-versions/BLO-86/", "/compare/?v=BLO-71&v=BLO-86", f"{WALK}?_accepted=yes"]


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
        forget_packs()
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
    counted = later_visits(client, ADDRESSES + every_record())

    assert {address: number for address, number in counted.items() if number > most(address)} == {}


def test_no_page_writes_to_the_database(client, demo):
    with CaptureQueriesContext(connection) as asked:
        for address in ADDRESSES:
            client.get(address)

    assert [query["sql"] for query in asked if not query["sql"].startswith("SELECT")] == []


def test_twenty_times_the_reference_takes_no_more_queries(client, demo):
    small = later_visits(client, ADDRESSES)
    small_at_first = first_visits(client, OF_ONE_TYPE)

    multiply_reference(20)

    assert first_visits(client, OF_ONE_TYPE) == small_at_first
    assert later_visits(client, ADDRESSES) == small


@pytest.mark.parametrize("how_many", [1, 3])
def test_the_first_visit_of_a_walk_reads_one_type_however_many_there_are(client, demo, how_many):
    multiply_reference(how_many)

    assert first_visits(client, OF_ONE_TYPE)["/garment-types/BLO/"] <= 40
