"""Where somebody is signed in: told from the sessions themselves, which say at sign-in by what they were begun.

No address on the network is kept. What stands in a session goes with it: at signing out, at leaving, in thirty days.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth import HASH_SESSION_KEY, SESSION_KEY
from django.contrib.auth.signals import user_logged_in
from django.contrib.sessions.models import Session
from django.dispatch import receiver
from django.utils.crypto import constant_time_compare, salted_hmac

from catalogue.accounts.models import Member

BROWSER, SINCE = "signed_in_by", "signed_in_at"
# A word of the browser's own description, and what people call it; the first that is met counts.
BROWSERS = (("Edg", "Edge"), ("OPR", "Opera"), ("SamsungBrowser", "Samsung Internet"), ("Firefox", "Firefox"),
            ("FxiOS", "Firefox"), ("CriOS", "Chrome"), ("Chrom", "Chrome"), ("Safari", "Safari"))  # fmt: skip
SYSTEMS = (("iPhone", "iPhone"), ("iPad", "iPad"), ("Android", "Android"), ("Windows", "Windows"),
           ("CrOS", "Chromebook"), ("Mac OS", "Mac"), ("Linux", "Linux"))  # fmt: skip


@dataclass(frozen=True)
class Device:
    """One session. `mark` names it on a page without giving it away; `since` is None where it began unrecorded."""

    mark: str
    words: str
    since: datetime | None
    is_this: bool


@receiver(user_logged_in)
def remember_device(request, **_) -> None:
    if request is None or not hasattr(request, "session"):
        return
    request.session[BROWSER] = browser_words(request.META.get("HTTP_USER_AGENT", ""))
    request.session[SINCE] = datetime.now().astimezone().isoformat()


def browser_words(description: str) -> str:
    """`Firefox, Android`: enough to tell one's phone from one's desktop, and too little to tell people apart."""
    named = [
        next((words for sign, words in signs if re.search(rf"\b{sign}", description)), "")
        for signs in (BROWSERS, SYSTEMS)
    ]
    return ", ".join(filter(None, named)) or "A browser that does not say which"


def sessions_of(member: Member, now: datetime) -> Iterator[tuple[Session, dict]]:
    """Each session that still opens the site for this person: one of before a change of password does not."""
    valid = member.get_session_auth_hash()
    for session in Session.objects.filter(expire_date__gt=now).iterator():
        held = session.get_decoded()
        if held.get(SESSION_KEY) == str(member.pk) and constant_time_compare(held.get(HASH_SESSION_KEY, ""), valid):
            yield session, held


def devices_of(member: Member, *, this: str | None, now: datetime) -> list[Device]:
    """This one first, then the latest. `this`: the key of the session that asks."""
    found = [
        Device(mark_of(session.session_key), held.get(BROWSER, ""), since_in(held), session.session_key == this)
        for session, held in sessions_of(member, now)
    ]
    return sorted(found, key=lambda one: (not one.is_this, -(one.since.timestamp() if one.since else 0)))


def sign_out(member: Member, *, this: str | None, now: datetime, mark: str = "") -> int:
    """End the sessions everywhere else, or the one with this mark; how many ended. The one that asks stays."""
    ended = 0
    for session, _ in list(sessions_of(member, now)):
        if session.session_key != this and mark in ("", mark_of(session.session_key)):
            session.delete()
            ended += 1
    return ended


def mark_of(session_key: str) -> str:
    """Whoever knew the key itself would be signed in."""
    return salted_hmac("catalogue.accounts.devices", session_key, algorithm="sha256").hexdigest()[:20]


def since_in(held: dict) -> datetime | None:
    try:
        return datetime.fromisoformat(held.get(SINCE, ""))
    except ValueError:
        return None
