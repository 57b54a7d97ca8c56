"""The form of a feature in the back office: a place chosen by its picture, states shown as they are drawn."""

import re

import pytest

from catalogue.accounts.models import Member
from catalogue.reference.models import Correction, Feature, FeaturePlace
from tests.forms import fields_of, refused, send, with_row

pytestmark = pytest.mark.django_db


@pytest.fixture
def office(demo, client):
    client.force_login(Member.objects.get(username="Plover"))
    return client


def form_of(code: str) -> str:
    return f"/admin/catalogue/feature/{Feature.objects.get(code=code).pk}/change/"


def places_of(code: str) -> set[tuple[str, str]]:
    return set(FeaturePlace.objects.filter(feature__code=code).values_list("view", "region"))


def test_every_place_of_the_garment_is_a_radio_button_with_its_picture_and_its_words(office):
    page = office.get(form_of("collar")).content.decode()
    [row] = re.findall(r'<label><input type="radio" name="places-0-picked" value="back:yoke">(.*?)</label>', page)

    assert '<use href="#outline-jacket-back"' in row
    assert 'class="spot"' in row
    assert re.search(r"<span>[^<]+</span>", row)
    assert page.count('<symbol id="outline-jacket-back"') == 1
    other = office.get(form_of("collar") + "?outline=coat").content.decode()
    assert '<use href="#outline-coat-back"' in other
    assert office.get(form_of("collar") + "?outline=no-such").status_code == 200


def test_a_place_that_is_picked_is_written_and_counts_before_what_is_typed(office):
    before = places_of("collar")
    sent = with_row(
        fields_of(office, form_of("collar")), "places", picked="back:yoke", view="front", region="", position="7"
    )

    send(office, form_of("collar"), sent)

    assert places_of("collar") == before | {("back", "yoke")}
    last = Correction.objects.order_by("-pk").first()
    assert "yoke" in str(last.lines)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"view": "front"}, "Type a region, or choose a place by its picture."),
        ({"picked": "back:nowhere"}, "is not one of the choices here"),
        ({"picked": "palm:palm"}, "is no view of a"),
    ],
)
def test_a_place_that_there_is_not_is_refused_in_words(office, typed, said):
    before = places_of("collar")

    assert said in refused(
        office, form_of("collar"), with_row(fields_of(office, form_of("collar")), "places", position="7", **typed)
    )
    assert places_of("collar") == before


def test_each_state_shows_how_answers_draw_it(office):
    page = office.get(form_of("collar")).content.decode()

    assert page.count('<svg class="part"') == Feature.objects.get(code="collar").states.count()
