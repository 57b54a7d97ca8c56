import pytest

from tests.catalogue.member_examples.pieces import Society, make_society


@pytest.fixture
def society(db) -> Society:
    return make_society()


@pytest.fixture
def ada(client, society):
    """A browser in which Ada is signed in."""
    client.force_login(society.ada)
    return client


@pytest.fixture
def ben(society):
    from django.test import Client

    browser = Client()
    browser.force_login(society.ben)
    return browser
