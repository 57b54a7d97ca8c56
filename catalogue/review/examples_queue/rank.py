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
    """Consequential pieces first, then those of versions with few pieces, then the rest; the oldest first within each.

    Whatever waits for more than sixty days comes with the first, so that nothing waits for ever. `effects`: None where
    nobody names a version.
    """
    reasons = reasons_of(effects, disputed)
    weighs = bool(reasons)
    long = now - sent > TOO_LONG
    if long:
        reasons.append(f"waits for more than {TOO_LONG.days} days")
    if reasons:
        return Rank((0, sent, code), "; ".join(reasons), weighs)
    if effects.pieces + 1 < ENOUGH:
        return Rank((1, sent, code), f"agrees; would be piece number {effects.pieces + 1} of its version", False)
    return Rank((2, sent, code), f"agrees, as {effects.pieces} accepted pieces of its version do", False)


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
