"""Sets are written in the back office; pieces are not, so that nobody reads a draft there."""

import pytest
from django.contrib import admin

from catalogue.member_examples import models
from catalogue.member_examples.models import ExampleSet
from tests.catalogue.member_examples.pieces import accepted, in_state, make_society
from tests.making import make_member

pytestmark = pytest.mark.django_db


@pytest.fixture
def office(client):
    client.force_login(make_member("Kay", is_staff=True, is_superuser=True, role="secretary"))
    return client


def test_only_sets_are_in_the_back_office():
    registered = {model for model in admin.site._registry if model.__module__.startswith(models.__name__)}

    assert registered == {ExampleSet}


def test_a_set_is_made_of_accepted_pieces_in_the_order_typed(office):
    society = make_society()
    first, second = accepted(society, society.old), accepted(society, society.new, owner=society.ben)
    given = {"code": "G1", "name": "Two smocks", "together": "unknown", "fasten": "unknown", "grounds": ""}
    response = office.post("/admin/catalogue/exampleset/add/", given | {"codes": f"{second.code} {first.code}"})

    assert response.status_code == 302
    found = ExampleSet.objects.get()
    assert [place.example for place in found.places.all()] == [second, first]
    assert found.made_by.username == "Kay"
    page = office.get(f"/admin/catalogue/exampleset/{found.pk}/change/").content.decode()
    assert f'value="{second.code} {first.code}"' in page


@pytest.mark.parametrize("state", ["draft", "submitted", "declined"])
def test_a_set_tells_nothing_of_pieces_that_were_not_accepted(office, state):
    society = make_society()
    kept, other = accepted(society, society.old), in_state(society, state, owner=society.ben)
    given = {"code": "G1", "name": "Two", "together": "unknown", "fasten": "unknown", "grounds": ""}
    for codes in (f"{kept.code} {other.code}", f"{kept.code} E999", kept.code, ""):
        response = office.post("/admin/catalogue/exampleset/add/", given | {"codes": codes})
        assert response.status_code == 200, codes
    assert (
        f"No accepted example has the code {other.code}."
        in office.post(
            "/admin/catalogue/exampleset/add/", given | {"codes": f"{kept.code} {other.code}"}
        ).content.decode()
    )
    assert not ExampleSet.objects.exists()


def test_a_stated_origin_needs_grounds(office):
    society = make_society()
    codes = " ".join(accepted(society, society.old, owner=owner).code for owner in (society.ada, society.ben))
    given = {"code": "G1", "name": "Two", "together": "no", "fasten": "unknown", "grounds": "", "codes": codes}

    assert office.post("/admin/catalogue/exampleset/add/", given).status_code == 200
    assert not ExampleSet.objects.exists()
