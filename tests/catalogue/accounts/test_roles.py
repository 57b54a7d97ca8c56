"""Who may do what, on plain values: no database, no pages."""

from dataclasses import dataclass

import pytest
from django.contrib.auth.models import AnonymousUser

from catalogue.accounts import roles
from catalogue.accounts.roles import ROLES_THAT_MAY, Role, may, role_of


@dataclass
class Person:
    role: str = "member"
    is_authenticated: bool = True
    is_active: bool = True
    is_admitted: bool = True
    lacks_second_factor: bool = False


# Which actions each role may do: the whole table, written a second time by hand.
MEMBERS = {
    roles.HAVE_OWN_PAGE,
    roles.INVITE,
    roles.SUBMIT_EXAMPLES,
    roles.REPORT_PRICES,
    roles.PROPOSE_CHANGES,
}
TABLE = {
    "member": MEMBERS,
    "author": MEMBERS | {roles.MAINTAIN_REFERENCE},
    "moderator": MEMBERS
    | {roles.MAINTAIN_REFERENCE, roles.REVIEW_EXAMPLES, roles.REVIEW_REFERENCE, roles.ADMIT_MEMBERS},
    "secretary": MEMBERS | {roles.MAINTAIN_REFERENCE, roles.ADMIT_MEMBERS, roles.MANAGE_MEMBERS},
}


@pytest.mark.parametrize("role", TABLE)
def test_each_role_may_do_what_the_table_says_and_nothing_else(role):
    assert {action for action in ROLES_THAT_MAY if may(Person(role), action)} == TABLE[role]


@pytest.mark.parametrize("role", TABLE)
@pytest.mark.parametrize("missing", ["is_authenticated", "is_active", "is_admitted"])
def test_without_an_open_and_admitted_account_every_role_is_a_visitor(role, missing):
    person = Person(role, **{missing: False})

    assert role_of(person) == Role.VISITOR
    assert not any(may(person, action) for action in ROLES_THAT_MAY)


def test_somebody_not_signed_in_may_do_nothing():
    assert not any(may(AnonymousUser(), action) for action in ROLES_THAT_MAY)


@pytest.mark.parametrize("role", TABLE)
def test_without_the_second_factor_that_is_asked_for_those_who_decide_may_do_what_members_may(role):
    asked = Person(role, lacks_second_factor=True)
    expected = MEMBERS if role in ("moderator", "secretary") else TABLE[role]

    assert {action for action in ROLES_THAT_MAY if may(asked, action)} == expected


def test_an_action_that_is_not_in_the_table_is_a_fault_and_not_a_no():
    with pytest.raises(KeyError):
        may(Person("secretary"), "reveiw_examples")


def test_a_role_that_does_not_exist_is_a_fault_and_not_a_yes():
    with pytest.raises(ValueError, match="is not a valid Role"):
        may(Person("emperor"), roles.HAVE_OWN_PAGE)


@pytest.mark.parametrize("action", [a for a, who in ROLES_THAT_MAY.items() if who != roles.EVERY_MEMBER])
def test_who_is_refused_is_told_who_may(action):
    words = roles.words_of_refusal(Person("member"), action)

    assert roles.WHO_MAY[action] in words
