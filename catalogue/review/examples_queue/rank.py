"""In which order pieces come to the moderators. Pure; the numbers are the society's choice (common practice, no
source)."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from catalogue.review.examples_queue.effects import Effects

TOO_LONG = timedelta(days=60)
ENOUGH = 20


@dataclass(frozen=True)
class Rank:
    """`place` sorts, small first; `why` says it in words; `weighs`: it would change what the reference holds."""

    place: tuple[int, datetime, str]
    why: str
    weighs: bool


def rank(*, code: str, sent: datetime, now: datetime, effects: Effects | None, disputed: int = 0) -> Rank:
    """Consequential pieces first, then those of versions with few pieces and whatever waits for more than sixty days,
    then the rest; the oldest first within each. `effects`: None where nobody names a version.
    """
    if reasons := reasons_of(effects, disputed):
        return Rank((0, sent, code), "; ".join(reasons), weighs=True)
    if effects.pieces + 1 < ENOUGH:
        why = f"agrees; would be piece number {effects.pieces + 1} of its version"
        return Rank((1, sent, code), why, weighs=False)
    why = f"agrees, as {effects.pieces} accepted pieces of its version do"
    if now - sent > TOO_LONG:
        return Rank((1, sent, code), f"{why}, but waits for more than {TOO_LONG.days} days", weighs=False)
    return Rank((2, sent, code), why, weighs=False)


def age_words(sent: datetime, now: datetime) -> str:
    """`today`, `12 days ago`, `5 months ago`, `3 years ago`."""
    days = max(0, (now - sent).days)
    if not days:
        return "today"
    for size, word in ((730, "year"), (61, "month"), (1, "day")):
        if days >= size:
            many = days // {"year": 365, "month": 30, "day": 1}[word]
            return f"{many} {word}{'s' if many > 1 else ''} ago"


def waiting_words(sent: datetime, now: datetime) -> str:
    """`waiting since today`, `waiting 1 day`, `waiting 12 days`: in days however many, so that ages compare."""
    days = max(0, (now - sent).days)
    return f"waiting {days} day{'s' if days > 1 else ''}" if days else "waiting since today"


def waits_long(sent: datetime, now: datetime) -> bool:
    """Whether it waits for longer than the society wants anything to wait."""
    return now - sent > TOO_LONG


def reasons_of(effects: Effects | None, disputed: int) -> list[str]:
    """What would change by it, weightiest first."""
    if effects is None:
        return ["nobody says which version it is"]
    found = []
    if effects.contradicts:
        found.append(f"contradicts the record: {named(effects.contradicts)}")
    if not effects.pieces:
        found.append("the first piece of its version")
    if effects.settles:
        found.append(f"would settle an empty cell: {named(effects.settles)}")
    if effects.span:
        found.append(effects.span)
    if disputed:
        found.append(f"seen differently by different people: {disputed} feature{'s' if disputed > 1 else ''}")
    return found


def named(changes) -> str:
    words = [one.name.lower() for one in changes]
    return ", ".join(words[:2]) + (f" and {len(words) - 2} more" if len(words) > 2 else "")
