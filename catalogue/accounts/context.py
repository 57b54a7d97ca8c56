"""Who is asking, for the head of every page."""

from django.conf import settings
from django.contrib.messages import get_messages
from django.urls import reverse
from django.utils.functional import SimpleLazyObject
from django.utils.http import urlencode

from catalogue.accounts.roles import (
    ADMIT_MEMBERS,
    MAINTAIN_REFERENCE,
    MANAGE_MEMBERS,
    PROPOSE_CHANGES,
    REVIEW_EXAMPLES,
    may,
)

MESSAGES_COOKIE = "messages"
LONGEST_WAY_BACK = 400
WITHOUT_WAY_BACK = ("/account/", "/join/")


def whoever_asks(request) -> dict:
    """`person` (None for who is not signed in), `person_may`, `notices`, and the address of the sign-in.

    Without a session cookie nothing is read and the session is not touched, so that such pages are the same for all.
    """
    known = {"sign_in_address": sign_in_address(request), "SECOND_FACTOR_ASKED": settings.SECOND_FACTOR == "required"}
    if settings.SESSION_COOKIE_NAME in request.COOKIES:
        return known | {
            "person": SimpleLazyObject(lambda: request.user if request.user.is_authenticated else None),
            "person_may": SimpleLazyObject(lambda: doors_open_to(request.user)),
            "notices": get_messages(request),
        }
    notices = get_messages(request) if MESSAGES_COOKIE in request.COOKIES else []
    return known | {"person": None, "person_may": {}, "notices": notices}


def sign_in_address(request) -> str:
    """The sign-in, and from there back to this page."""
    address = request.get_full_path()
    if len(address) > LONGEST_WAY_BACK:
        address = request.path
    if address.startswith(WITHOUT_WAY_BACK) or address == "/" or len(address) > LONGEST_WAY_BACK:
        return reverse("account_login")
    return f"{reverse('account_login')}?{urlencode({'next': address})}"


def doors_open_to(person) -> dict[str, bool]:
    """What the menu of a page offers."""
    return {
        action: may(person, action)
        for action in (ADMIT_MEMBERS, MANAGE_MEMBERS, MAINTAIN_REFERENCE, REVIEW_EXAMPLES, PROPOSE_CHANGES)
    }
