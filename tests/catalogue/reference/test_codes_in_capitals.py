"""Codes that differ in capitals only are one code: for the back office and the tables as for the import."""

import pytest
from django.db import IntegrityError, transaction

from catalogue.reference.actions import ForeignType, import_matrix
from catalogue.reference.models import Feature, FeatureState, IssueVersion, Maker, ReferenceState
from catalogue.reference.spreadsheets.code_checks import CODED
from identification.engine.model import Feature as EngineFeature
from identification.engine.model import Version
from tests.forms import fields_of, refused, send, with_row
from tests.making import make_feature, make_member, make_type, make_version

pytestmark = pytest.mark.django_db


@pytest.fixture
def office(client):
    client.force_login(make_member("root", is_staff=True, is_superuser=True))
    return client


def one_of(model) -> object:
    """A record with the code EYES-1, as plain as the tables take it."""
    if model is IssueVersion:
        return make_version(make_type(), "EYES-1")
    fields = {"title": "x", "kind": "publication", "grade": "A"} if hasattr(model, "title") else {"name": "x"}
    fields = {"question": "x?"} if model.__name__ == "OpenQuestion" else fields
    return model.objects.create(code="EYES-1", **fields)


@pytest.mark.parametrize("model", CODED.values(), ids=lambda model: model.__name__)
def test_a_code_in_other_capitals_is_refused_by_the_form_and_by_the_table(office, model):
    held = one_of(model)
    where, before = f"/admin/catalogue/{model._meta.model_name}/add/", ReferenceState.current_number()
    sent = fields_of(office, where) | {"code": "eyes-1", "name": "Typed with care"}

    assert "There is EYES-1 already; a code stands once, whatever its capitals." in refused(office, where, sent)

    if hasattr(model, "name"):
        assert "Typed with care" in office.post(where, sent).content.decode(), "what was typed stays"
    assert (list(model.objects.all()), ReferenceState.current_number()) == ([held], before)
    held.pk, held.code = None, "Eyes-1"
    with pytest.raises(IntegrityError), transaction.atomic():
        held.save(force_insert=True)


def test_letters_beyond_a_to_z_are_held_to_the_same(office):
    Maker.objects.create(code="ÅS", name="A works")
    where = "/admin/catalogue/maker/add/"

    assert "There is ÅS already" in refused(office, where, fields_of(office, where) | {"code": "ås", "name": "B"})


def test_states_of_one_feature_are_held_to_it_and_those_of_two_features_are_not(office):
    front, back = make_feature("front", ["zip", "none"]), make_feature("back", ["ZIP", "none"])
    where = f"/admin/catalogue/feature/{front.pk}/change/"
    sent = fields_of(office, where)

    said = refused(office, where, with_row(sent, "states", code="Zip", label="Another", position=9))
    both = with_row(
        with_row(sent, "states", code="hook", label="H", position=8), "states", code="HOOK", label="H", position=9
    )
    one = with_row(sent, "states", code="hook", label="Hook", position=8)

    assert "There is zip already; a code stands once" in said
    assert "hook and HOOK are one code" in refused(office, where, both)
    send(office, where, one)
    assert [state.code for state in front.states.all()] == ["zip", "none", "hook"]
    with pytest.raises(IntegrityError), transaction.atomic():
        FeatureState.objects.create(feature=back, code="zip", label="x")


def test_a_bare_table_whose_code_stands_there_in_other_capitals_is_refused_with_both():
    make_feature("t-Vents")
    rows = [EngineFeature("vents", ("none", "two"))], [Version("a", {}, 1.0)]

    with pytest.raises(ForeignType, match="its code T-vents is in the reference already, as t-Vents"):
        import_matrix(type_code="T", name="T", features=rows[0], versions=rows[1])

    assert list(Feature.objects.values_list("code", flat=True)) == ["t-Vents"]
