"""The secretary's pages: people and roles."""

import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from catalogue.accounts.actions import change_role
from catalogue.accounts.models import Member, RoleChange
from catalogue.accounts.refusals import CannotDo
from tests.making import make_member
from tests.reading import text

NOW = timezone.now()


def given(member, after, by, reason="because"):
    return change_role(member=member, after=after, by=by, reason=reason, now=NOW)


def test_a_role_is_given_with_a_reason_and_stands_on_record(client, cast):
    client.force_login(cast.sue)

    response = client.post(
        f"/society/people/{cast.ada.pk}/role/", {"after": "author", "reason": "Knows the smocks."}, follow=True
    )

    cast.ada.refresh_from_db()
    change = RoleChange.objects.get()
    assert cast.ada.role == "author"
    assert (change.member, change.before, change.after, change.by) == (cast.ada, "member", "author", cast.sue)
    assert "Knows the smocks." in response.content.decode()


@pytest.mark.parametrize("by", ["ada", "ann", "mo", "wim"])
def test_nobody_else_gives_roles(cast, by):
    with pytest.raises(CannotDo, match="Only the secretary changes roles"):
        given(cast.bo, "author", getattr(cast, by))


def test_nobody_changes_a_role_of_their_own(client, cast):
    make_member("Sam", role="secretary")
    client.force_login(cast.sue)

    page = client.post(f"/society/people/{cast.sue.pk}/role/", {"after": "member", "reason": "tired"}).content.decode()

    cast.sue.refresh_from_db()
    assert "Nobody changes a role of their own" in page
    assert cast.sue.role == "secretary"


@pytest.mark.parametrize(
    ("after", "reason", "said"),
    [
        ("emperor", "because", "“emperor” is not one of the choices here"),
        ("author", "", "Fill this in."),
        ("author", "   ", "Fill this in."),
        ("member", "because", "The role is member already"),
    ],
)
def test_a_change_that_cannot_be_is_refused_and_kept_in_the_form(client, cast, after, reason, said):
    client.force_login(cast.sue)

    page = text_of(client.post(f"/society/people/{cast.ada.pk}/role/", {"after": after, "reason": reason}))

    assert said in page
    assert not RoleChange.objects.exists()


def text_of(response) -> str:
    assert response.status_code == 200
    return response.content.decode()


def test_the_last_secretary_is_not_lost(cast):
    sam = make_member("Sam", role="secretary")
    given(sam, "member", cast.sue)

    with pytest.raises(CannotDo, match="Only the secretary"):
        given(cast.sue, "member", sam)
    assert Member.objects.secretaries().get() == cast.sue


def test_who_stops_being_secretary_keeps_no_right_of_the_terminal(client, cast):
    root = Member.objects.create_superuser("Root", "root@example.org", "a-long-password")
    given(root, "member", cast.sue)

    root.refresh_from_db()
    assert not root.is_superuser
    client.force_login(root)
    assert client.get("/admin/").status_code == 302
    assert client.get("/admin/login/").status_code == 403


def test_a_role_counts_at_once_and_so_does_its_loss(client, cast):
    client.force_login(cast.ada)
    assert client.get("/admin/catalogue/maker/add/").status_code == 302
    given(cast.ada, "author", cast.sue)
    assert client.get("/admin/catalogue/maker/add/").status_code == 200
    cast.ada.refresh_from_db()
    given(cast.ada, "member", cast.sue)
    assert client.get("/admin/catalogue/maker/add/").status_code == 302


def test_who_waits_has_no_role_to_change(client, cast):
    client.force_login(cast.sue)

    assert client.get(f"/society/people/{cast.wim.pk}/role/").status_code == 404
    with pytest.raises(CannotDo, match="Only a member has a role"):
        given(cast.wim, "moderator", cast.sue)


@pytest.mark.parametrize("spoiled", [{"after": "member"}, {"by_id": None}, {"reason": ""}])
def test_the_database_refuses_a_change_without_somebody_else_and_a_reason(cast, spoiled):
    given(cast.ada, "author", cast.sue)
    spoiled = {"by_id": cast.ada.pk} if "by_id" in spoiled else spoiled

    with pytest.raises(IntegrityError), transaction.atomic():
        RoleChange.objects.update(**spoiled)


def test_people_are_found_by_name_address_and_role(client, cast):
    client.force_login(cast.sue)

    assert '<p class="lead" role="status">1 member</p>' in text(client, "/society/?q=ada")
    assert '<p class="lead" role="status">1 member</p>' in text(client, "/society/?q=mo@example")
    assert '<p class="lead" role="status">1 member</p>' in text(client, "/society/?role=author")
    assert '<p class="lead" role="status">5 members</p>' in text(client, "/society/?role=nonsense")
    assert "Nobody fits" in text(client, "/society/?q=zzz")
    assert "5 members" in text(client, "/society/?q=%00&page=many&role=%00")


@pytest.mark.parametrize("how_many", [1, 40])
def test_the_list_of_people_asks_the_database_as_often_for_forty_as_for_one(
    client, cast, how_many, django_assert_num_queries
):
    for number in range(how_many):
        make_member(f"Bird {number}")
    client.force_login(cast.sue)

    with django_assert_num_queries(9):
        client.get("/society/")
