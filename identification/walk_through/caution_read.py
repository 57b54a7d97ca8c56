"""That somebody has read a caution: a cookie of their own browser for twelve hours, and never part of an address.

An address is passed on, and whoever gets it has read nothing yet. Nothing is kept here and no session is touched.
"""

from hashlib import sha256

from django.conf import settings
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.cache import patch_vary_headers

from catalogue.reference.facts import TypeFacts
from identification.walk_through.steps import cautions_of

TWELVE_HOURS = 12 * 60 * 60
# What the cookie holds from the moment the caution is shown: it comes back only from a browser that keeps cookies.
SHOWN = "shown"


def cookie_name(facts: TypeFacts) -> str:
    """One cookie for each garment type; a code may hold signs that the name of a cookie may not."""
    return "caution_" + sha256(facts.code.encode()).hexdigest()[:12]


def cookie_value(facts: TypeFacts) -> str:
    """Stands for the very words that were read: a hazard recorded since then is shown again."""
    return sha256("\n".join(cautions_of(facts)).encode()).hexdigest()[:16]


def is_posted(request) -> bool:
    """Whether this visit says that the caution was read, and was not sent by a page of another site."""
    return request.method == "POST" and request.headers.get("Sec-Fetch-Site") in (None, "same-origin", "none")


def is_read(request, facts: TypeFacts) -> bool:
    """Whether the way past the caution is open: read within twelve hours, or said so with this very visit."""
    return is_posted(request) or request.COOKIES.get(cookie_name(facts)) == cookie_value(facts)


def keeps_no_cookies(request, facts: TypeFacts) -> bool:
    """Whether the caution was read just now in a browser that did not bring back the cookie it was shown with."""
    return is_posted(request) and bool(cautions_of(facts)) and cookie_name(facts) not in request.COOKIES


def noted(request, response, facts: TypeFacts, *, here: str):
    """The answer to a visit of a page behind the caution, with the cookie that belongs to it.

    `here` is the page's own address. Whoever said that they have read it is sent there, so that Back and Reload ask
    for nothing again; without cookies the answer itself must do, or the caution would come round for ever.
    """
    if not cautions_of(facts):
        return response
    if is_posted(request):
        response = response if keeps_no_cookies(request, facts) else redirect(here)
        put(response, facts, cookie_value(facts))
    elif not is_read(request, facts):
        put(response, facts, SHOWN)
    patch_vary_headers(response, ["Cookie"])
    return response


def put(response, facts: TypeFacts, value: str) -> None:
    response.set_cookie(
        cookie_name(facts),
        value,
        max_age=TWELVE_HOURS,
        path=reverse("walk_through:choose"),
        secure=settings.SESSION_COOKIE_SECURE,
        httponly=True,
        samesite="Lax",
    )
