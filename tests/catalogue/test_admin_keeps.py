"""The back office loses nothing that others rest on, and no address."""

import pytest

from catalogue.reference.models import IssueVersion, Maker, OpenQuestion
from tests.making import make_member

pytestmark = pytest.mark.django_db


@pytest.fixture
def office(client, demo):
    client.force_login(make_member("root", is_staff=True, is_superuser=True))
    return client


def deleted(office, row) -> str:
    address = f"/admin/catalogue/{row._meta.model_name}/{row.pk}/delete/"
    return office.post(address, {"post": "yes"}).content.decode()


def test_a_maker_that_versions_or_states_name_is_not_deleted_and_the_page_says_why(office):
    maker = Maker.objects.get(code="DUN")

    page = deleted(office, maker)

    assert "made by Dunsallow Clothing Works" in page
    assert Maker.objects.filter(pk=maker.pk).exists()


def test_a_question_with_views_is_not_deleted(office):
    question = OpenQuestion.objects.get(code="D1")

    assert "views that members hold" in deleted(office, question)
    assert OpenQuestion.objects.filter(pk=question.pk).exists()


def test_a_maker_that_nothing_names_may_go(office):
    maker = Maker.objects.create(code="NEW", name="Newly typed")

    deleted(office, maker)

    assert not Maker.objects.filter(pk=maker.pk).exists()


def test_a_code_once_given_stays_so_that_its_address_does(office):
    version = IssueVersion.objects.get(code="BLO-94")

    page = office.get(f"/admin/catalogue/issueversion/{version.pk}/change/").content.decode()

    assert 'name="code"' not in page
    assert 'name="code"' in office.get("/admin/catalogue/issueversion/add/").content.decode()
