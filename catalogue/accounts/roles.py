"""Who may do what: the one place where it is said.

`may(person, action)` answers for templates, gates and actions alike; the decorators below guard views with it. A
person is whoever asks: a `Member`, or Django's anonymous user. Rules look only at the person's own attributes
(`is_authenticated`, `is_active`, `is_admitted`, `role`, `lacks_second_factor`), so they can be tried on plain values.
"""

from collections.abc import Callable
from enum import StrEnum
from functools import wraps

from django.core.exceptions import PermissionDenied
from django.shortcuts import redirect, resolve_url
from django.utils.cache import patch_cache_control
from django.utils.http import urlencode

from catalogue.accounts.unsent import forget_once_sent, keep

READING = ("GET", "HEAD")


class Role(StrEnum):
    """What a person is to the society. A visitor has no account, or waits to be admitted."""

    VISITOR = "visitor"
    MEMBER = "member"
    AUTHOR = "author"
    MODERATOR = "moderator"
    SECRETARY = "secretary"


# Actions.
HAVE_OWN_PAGE = "have_own_page"
INVITE = "invite"
SUBMIT_EXAMPLES = "submit_examples"
REPORT_PRICES = "report_prices"
PROPOSE_CHANGES = "propose_changes"
MAINTAIN_REFERENCE = "maintain_reference"
REVIEW_EXAMPLES = "review_examples"
REVIEW_REFERENCE = "review_reference"
ADMIT_MEMBERS = "admit_members"
MANAGE_MEMBERS = "manage_members"

EVERY_MEMBER = frozenset({Role.MEMBER, Role.AUTHOR, Role.MODERATOR, Role.SECRETARY})
ROLES_THAT_MAY: dict[str, frozenset[Role]] = {
    HAVE_OWN_PAGE: EVERY_MEMBER,
    INVITE: EVERY_MEMBER,
    SUBMIT_EXAMPLES: EVERY_MEMBER,
    REPORT_PRICES: EVERY_MEMBER,
    PROPOSE_CHANGES: EVERY_MEMBER,
    MAINTAIN_REFERENCE: frozenset({Role.AUTHOR, Role.MODERATOR, Role.SECRETARY}),
    REVIEW_EXAMPLES: frozenset({Role.MODERATOR}),
    REVIEW_REFERENCE: frozenset({Role.MODERATOR}),
    ADMIT_MEMBERS: frozenset({Role.MODERATOR, Role.SECRETARY}),
    MANAGE_MEMBERS: frozenset({Role.SECRETARY}),
}
# The roles that decide over others: the society may ask a second factor of them.
DECIDING_ROLES = frozenset({Role.MODERATOR, Role.SECRETARY})
WHO_MAY = {
    HAVE_OWN_PAGE: "members of the society",
    MAINTAIN_REFERENCE: "authors, moderators and the secretary",
    ADMIT_MEMBERS: "moderators and the secretary",
    REVIEW_EXAMPLES: "moderators",
    REVIEW_REFERENCE: "moderators",
    MANAGE_MEMBERS: "the secretary",
}


def role_of(person) -> Role:
    """The role that counts now: visitor for whoever is not signed in, not admitted, or has left."""
    if not person.is_authenticated or not person.is_active or not person.is_admitted:
        return Role.VISITOR
    return Role(person.role)


def may(person, action: str) -> bool:
    """Whether the person may do it now. `action` is one of the constants above; any other raises KeyError.

    What takes more than a member's role stays shut to a moderator or secretary of whom the society asks a second
    factor, until there is one.
    """
    role, allowed = role_of(person), ROLES_THAT_MAY[action]
    if role not in allowed:
        return False
    return not needs_second_factor_first(person, action)


def needs_second_factor_first(person, action: str) -> bool:
    """Whether only the second factor is missing: the role would do."""
    role, allowed = role_of(person), ROLES_THAT_MAY[action]
    return role in allowed and allowed != EVERY_MEMBER and role in DECIDING_ROLES and person.lacks_second_factor


def required(action: str) -> Callable:
    """A decorator that lets a view be seen only by those who may do `action`.

    A visitor is sent to the sign-in and back; who waits to be admitted, to the page that says what for; who lacks the
    second factor, to where it is set up. Everybody else is told in words, with status 403. What the view answers is
    kept by no cache that others share.
    """

    def guard(view):
        @wraps(view)
        def guarded(request, *args, **kwargs):
            person = request.user
            if may(person, action):
                forget_once_sent(request)
                response = view(request, *args, **kwargs)
                patch_cache_control(response, private=True, no_cache=True)
                return response
            if not person.is_authenticated:
                return to_sign_in(request)
            if request.method in READING and not person.is_admitted:
                return redirect("accounts:waiting")
            if needs_second_factor_first(person, action):
                return redirect("accounts:second_factor_first")
            raise PermissionDenied(words_of_refusal(person, action))

        guarded.required_action = action
        return guarded

    return guard


def signed_in_required(view):
    """Lets a view be seen by whoever is signed in, admitted or not. In place of Django's own decorator, so that what a
    visitor's form says is kept as everywhere."""

    @wraps(view)
    def guarded(request, *args, **kwargs):
        if not request.user.is_authenticated:
            return to_sign_in(request)
        forget_once_sent(request)
        return view(request, *args, **kwargs)

    return guarded


def to_sign_in(request):
    """To the sign-in, and back again afterwards to a page that was read; or to what was typed into a form that was
    sent, which is not sent twice without being looked at."""
    if request.method in READING:
        address = request.get_full_path()
    else:
        address = resolve_url("accounts:unsent" if keep(request) else "accounts:my_page")
    return redirect(f"{resolve_url('account_login')}?{urlencode({'next': address})}")


def words_of_refusal(person, action: str) -> str:
    """Why not, for the page that says so."""
    if not person.is_admitted:
        return "Your request to join the society has not been decided yet."
    return f"This is open to {WHO_MAY.get(action, WHO_MAY[HAVE_OWN_PAGE])} only; you are signed in as {person}."


member_required = required(HAVE_OWN_PAGE)
author_required = required(MAINTAIN_REFERENCE)
moderator_required = required(REVIEW_EXAMPLES)
secretary_required = required(MANAGE_MEMBERS)
admitting_required = required(ADMIT_MEMBERS)
