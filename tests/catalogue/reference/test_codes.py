"""Codes stand in addresses: what would collide with an address of the site's own is refused, with words."""

import pytest

from catalogue.reference.codes import FEATURE, TYPE, fault_in_code
from catalogue.reference.models import GarmentType
from catalogue.reference.spreadsheets.columns import Unreadable
from catalogue.reference.spreadsheets.layout import SHEET_BY_NAME
from tests.forms import fields_of, refused
from tests.making import make_feature, make_member, make_type, make_version
from tests.reading import text

TYPES = ["claim", "any-garment", "Any-Garment", "SMK/key", "claim/KEY"]
FEATURES = ["v", "main", "group-3"]


@pytest.mark.parametrize("code", TYPES)
def test_a_garment_type_is_not_called_as_a_page_of_the_walk(code):
    assert "the site" in fault_in_code(code, TYPE)
    assert fault_in_code(code) is None, "another record may be"


@pytest.mark.parametrize("code", FEATURES)
def test_a_feature_is_not_called_as_a_parameter_or_a_place_of_a_page(code):
    assert "the site's own" in fault_in_code(code, FEATURE)
    assert fault_in_code(code) is None


@pytest.mark.parametrize("code", ["/", "/a", "a/", "a//b", "a/../b", "./a"])
def test_no_code_has_steps_that_a_browser_would_walk(code):
    """RFC 3986, section 5.2.4: dot segments are taken out of an address before it is asked for."""
    assert "dots" in fault_in_code(code)


def test_other_strokes_and_dots_stay(db, client):
    for code in ("key", "claims", "a/b", "keys/a", "a.b", "SMK.json", "group"):
        assert fault_in_code(code, TYPE) is None
        assert fault_in_code(code, FEATURE) is None
        home = make_type(code)
        feature = make_feature(types=[home])
        make_version(home, f"{code}-1", {feature: "yes"})
        assert f"Type {code}" in text(client, f"/garment-types/{code}/")
        assert f"Type {code}" in text(client, f"/which/{code}/")


@pytest.mark.parametrize(
    ("sheet", "code"), [*(("types", code) for code in TYPES), *(("features", c) for c in FEATURES)]
)
def test_the_import_refuses_such_a_code_with_words(sheet, code):
    with pytest.raises(Unreadable, match="a usable code: .*the site"):
        SHEET_BY_NAME[sheet].columns[0].read(code)


@pytest.mark.parametrize("code", TYPES)
@pytest.mark.django_db
def test_the_back_office_refuses_such_a_code_with_words(client, code):
    client.force_login(make_member("root", is_staff=True, is_superuser=True))
    where = "/admin/catalogue/garmenttype/add/"

    assert "Not a usable code: " in refused(client, where, fields_of(client, where) | {"code": code, "name": "x"})
    assert not GarmentType.objects.exists()


@pytest.mark.parametrize("code", ["A/history", "A/History", "A/history/3", "A/front.svg", "A/outline.svg"])
def test_no_code_ends_as_the_address_of_a_page_or_drawing_does(code):
    """Its own page would be the history of another record, or a drawing."""
    assert "where the site has a page" in fault_in_code(code)
    assert fault_in_code(f"{code}-1") is None
