"""A garment that must stay closed says so on every page of its walk, also to those who open a shared link."""

import pytest

from tests.reading import text

pytestmark = pytest.mark.django_db
WALK = "/which/HOO/?_accepted=yes&chin_strap=self"


@pytest.mark.parametrize("address", [WALK, f"{WALK}&_stop=yes"])
def test_the_warning_stands_on_questions_and_on_the_verdict(client, demo, address):
    assert "Do not open, shake or brush it." in text(client, address)


def test_a_shared_link_begins_with_the_caution(client, demo):
    page = text(client, f"{WALK}&_stop=yes")
    shared = page.split('class="address" href="')[1].split('"')[0]

    assert "_accepted" not in shared
    assert "<h1>" in text(client, shared)
    assert "Do not open" in text(client, shared)


def test_a_verdict_without_a_name_shows_what_remains_in_the_open(client, demo):
    page = text(client, f"{WALK}&_stop=yes")

    assert page.index('id="likely"' if 'id="likely"' in page else "Still possible") < page.index(
        "The numbers behind this"
    )
