"""What a leave may be, on plain values; the answer is None or the words for the person who asked."""

from datetime import date, timedelta

LONGEST = timedelta(days=366)


def reason_not_to_go(
    *, moderates: bool, may_stand_in: bool, same_person: bool, begins: date, ends: date, today: date,
    deputy_away: tuple[date, date] | None,
) -> str | None:  # fmt: skip
    """`deputy_away`: first and last day of the deputy's own leave."""
    if not moderates:
        return "Only moderators name a deputy: others decide on nothing that waits."
    if same_person:
        return "A deputy is somebody else: this is you, or an account with your e-mail address."
    if not may_stand_in:
        return "An author, a moderator or the secretary can stand in for you, and with a second factor if it is asked."
    if ends < begins:
        return "The last day lies before the first."
    if ends < today:
        return "The last day has gone by."
    if ends - begins >= LONGEST:
        return "A leave is a year at most. For longer, ask the secretary to give somebody else the role."
    if deputy_away and deputy_away[0] <= ends and begins <= deputy_away[1]:
        return "Your deputy is away in that time too: choose somebody else, or other days."
    return None
