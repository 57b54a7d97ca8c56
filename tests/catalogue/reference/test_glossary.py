"""What the features mean: a list of all, and a page for each group, light enough for a weak signal."""

import gzip

import pytest

from catalogue.reference.models import Feature
from tests.making import make_feature
from tests.reading import text

pytestmark = pytest.mark.django_db
LIGHT = 14_000


def pages(client) -> dict[str, str]:
    addresses = [group["address"] for group in client.get("/features/").context["groups"]]
    return {address: text(client, address) for address in ("/features/", *addresses)}


def test_every_page_of_the_glossary_fits_the_first_round_trip(client, demo):
    """Ten segments of 1,460 bytes: RFC 6928, the initial window."""
    weights = {address: len(gzip.compress(page.encode(), 6)) for address, page in pages(client).items()}

    assert {address: weight for address, weight in weights.items() if weight > LIGHT} == {}


def test_every_feature_has_its_old_place_on_the_list_and_its_new_one_in_its_group(client, demo):
    found = pages(client)

    for feature in Feature.objects.all():
        assert f'id="{feature.code}"' in found["/features/"]
        assert [a for a, page in found.items() if f'id="{feature.code}"' in page and a != "/features/"] == [
            f"/features/{feature.group.replace(' ', '%20')}/"
        ]
        assert feature.question in "".join(found.values()).replace("&#x27;", "'")


def test_the_groups_keep_their_old_places_too(client, demo):
    page = text(client, "/features/")

    assert all(f'id="group-{n}"' in page for n in range(1, 13))


def test_the_code_of_a_feature_leads_to_its_place(client, demo):
    assert client.get("/features/front_closure/")["Location"] == "/features/closure/#front_closure"


def test_what_is_no_group_is_helped_with_the_nearest(client, demo):
    response = client.get("/features/front_closur/")

    assert response.status_code == 404
    assert "front_closure: Front closure" in response.content.decode()


def test_a_feature_without_a_group_and_a_group_with_odd_signs_have_pages(client, db):
    make_feature("alone")
    make_feature("rim", group="hem / edge & “rim” ?#%")

    found = pages(client)

    assert len(found) == 3
    assert sum('id="rim"' in page for page in found.values()) == 2
