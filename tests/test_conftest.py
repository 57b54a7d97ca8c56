"""What tests stand on: the demo is there for those that ask for it, whole, and for nobody else."""

import pytest

from catalogue.reference.models import GarmentType, IssueVersion, Maker

pytestmark = pytest.mark.django_db


def test_a_test_that_asks_for_nothing_finds_an_empty_reference():
    assert not GarmentType.objects.exists()


@pytest.mark.parametrize("time", ["first", "second"])
def test_what_a_test_changes_in_the_demo_is_taken_back(demo, time):
    assert IssueVersion.objects.count() == 60

    Maker.objects.update(name="spoilt")
    IssueVersion.objects.update(current_record=None)


def test_the_demo_has_not_been_spoilt(demo):
    assert not Maker.objects.filter(name="spoilt").exists()


@pytest.mark.django_db(transaction=True)
def test_a_transactional_test_finds_an_empty_reference_too():
    assert not GarmentType.objects.exists()
