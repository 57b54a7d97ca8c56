"""What somebody had typed when their session was over before they sent it: kept for whoever signs in again as the same
member, and shown to be sent anew.

It lies in the session of the browser it came from, never in a file, and only what a form of ours sent: the token
against forged forms was looked at before any view was asked. It goes with a press of a button, as a form of its own,
so nothing is sent that nobody has looked at. A signed cookie says which member was here, so that strangers fill no
sessions and the next person at the same computer reads nothing. Pictures and files are not kept.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.conf import settings
from django.contrib.auth import SESSION_KEY
from django.utils import timezone

from catalogue.accounts.seen_labels import page_filled_in_at

COOKIE = "who_was_here"
COOKIE_LASTS = timedelta(seconds=settings.SESSION_COOKIE_AGE)
KEPT_IN = "unsent"
KEPT_FOR = timedelta(days=1)
# All names and texts of a form together. The longest form of the site, a whole profile, has some twenty thousand signs.
MOST_SIGNS = 100_000
TOKEN = "csrfmiddlewaretoken"  # noqa: S105 - the name of a field
# Written into a form by the site: without anything else nothing was typed.
OF_THE_SITE = frozenset({TOKEN, "revision", "shown", "sending", "token", "seen_edition", "initial-token"})


@dataclass(frozen=True)
class Unsent:
    """`address`: where it was to go; `filled_in_at`: the page that it stood on; `fields`: names and texts in their
    order; `had_files`: some were chosen too."""

    address: str
    fields: list[tuple[str, str]]
    had_files: bool
    at: datetime
    filled_in_at: str = ""

    @property
    def typed(self) -> list[tuple[str, str]]:
        return [(name, text) for name, text in self.fields if name not in OF_THE_SITE and text.strip()]


def keep(request) -> bool:
    """Put away what a form sent that came without a session; whether there was anything to keep, of a member who was
    here before."""
    whose = request.get_signed_cookie(COOKIE, default="", max_age=COOKIE_LASTS)
    if not whose:
        return False
    fields = fields_sent(request)
    unsent = Unsent(request.get_full_path(), fields, bool(request.FILES), timezone.now(), page_filled_in_at(request))
    if not unsent.typed or sum(len(name) + len(text) for name, text in fields) > MOST_SIGNS:
        return False
    request.session[KEPT_IN] = {
        "whose": whose,
        "address": unsent.address,
        "fields": fields,
        "had_files": unsent.had_files,
        "at": unsent.at.isoformat(),
        "filled_in_at": unsent.filled_in_at,
    }
    return True


def fields_sent(request) -> list[tuple[str, str]]:
    """What a form sent, without its token and without any password, which is written nowhere."""
    return [
        (name, text)
        for name, texts in request.POST.lists()
        for text in texts
        if name != TOKEN and "password" not in name.lower()
    ]


def unsent_of(request) -> Unsent | None:
    """What is kept in this session for who is signed in now; what is another's or of the day before is forgotten."""
    kept = request.session.get(KEPT_IN)
    if kept is None:
        return None
    at = datetime.fromisoformat(kept["at"])
    if kept["whose"] != str(request.user.pk) or timezone.now() - at > KEPT_FOR:
        forget(request)
        return None
    fields = [tuple(one) for one in kept["fields"]]
    return Unsent(kept["address"], fields, kept["had_files"], at, kept.get("filled_in_at", ""))


def forget(request) -> None:
    request.session.pop(KEPT_IN, None)


def forget_once_sent(request) -> None:
    """A form that comes in at the address of what is kept is that, or what was written in its place."""
    if request.method == "POST" and request.session.get(KEPT_IN, {}).get("address") == request.get_full_path():
        forget(request)


def remember_who_was_here(get_response):
    """A cookie names whoever is signed in, for as long as a session may last; it opens nothing."""

    def answered(request):
        response = get_response(request)
        if settings.SESSION_COOKIE_NAME not in request.COOKIES and not request.session.modified:
            return response
        who = request.session.get(SESSION_KEY)
        if who and request.get_signed_cookie(COOKIE, default="", max_age=COOKIE_LASTS) != who:
            response.set_signed_cookie(
                COOKIE, who, max_age=COOKIE_LASTS, httponly=True, samesite="Lax", secure=settings.SESSION_COOKIE_SECURE
            )
        return response

    return answered
