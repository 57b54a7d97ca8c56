"""The cast: Ada is a member, Bo another, Wim waits to be admitted, Ann maintains the reference, Mo moderates, Sue is
the secretary."""

from dataclasses import dataclass

import pytest
from django.core.cache import cache

from catalogue.accounts.models import Member
from tests.making import make_member


@dataclass
class Cast:
    ada: Member
    bo: Member
    wim: Member
    ann: Member
    mo: Member
    sue: Member


@pytest.fixture
def cast(db) -> Cast:
    return Cast(
        ada=make_member("Ada"),
        bo=make_member("Bo"),
        wim=make_member("Wim", admitted_at=None),
        ann=make_member("Ann", role="author"),
        mo=make_member("Mo", role="moderator"),
        sue=make_member("Sue", role="secretary"),
    )


@pytest.fixture(autouse=True)
def nothing_counted(request):
    """No failed attempt of another test counts in this one."""
    if "db" in request.fixturenames or request.node.get_closest_marker("django_db"):
        request.getfixturevalue("db")
        cache.clear()


@pytest.fixture
def reauthenticated(client):
    """Sign somebody in who has just typed the password once more."""

    def sign_in(person: Member, password: str = "a-long-password"):
        client.force_login(person)
        response = client.post("/account/reauthenticate/", {"password": password, "next": "/my/"})
        assert response.status_code == 302, response.content.decode()
        return client

    return sign_in
