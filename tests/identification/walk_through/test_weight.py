"""What a question costs over a slow line: within one first round trip, drawings and all."""

import gzip

import pytest

from catalogue.reference.snapshots import type_facts
from tests.demo_pages import codes
from tests.reading import read_caution

pytestmark = pytest.mark.django_db
MOST_BYTES = 14_000  # ten segments of about 1,400 bytes: the initial window of RFC 6928 (from memory)


@pytest.mark.parametrize("type_code", codes("type"))
def test_every_question_of_a_type_with_all_its_drawings_fits_the_first_round_trip(client, demo, type_code):
    facts = type_facts(type_code)
    answered = "&".join(f"{code}={feature.states[0].code}" for code, feature in list(facts.features.items())[:12])
    read_caution(client, type_code)
    heavy = {}
    for code in facts.features:
        page = client.get(f"/which/{type_code}/?{answered}&_ask={code}").content
        weight = len(gzip.compress(page, 6))
        if weight > MOST_BYTES:
            heavy[code] = weight
    assert heavy == {}
