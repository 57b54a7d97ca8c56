"""Deciding, in plain values: each gives the words of a refusal, or None. Pure."""

from datetime import timedelta

INVITATION_LASTS = timedelta(days=30)
MOST_OPEN_INVITATIONS = 10
MOST_INVITATIONS_A_DAY = 20


def reason_not_to_decide(*, decider_id: int, applicant_id: int, state: str, declined: bool, reason: str) -> str | None:
    """Why a request to join is not decided so."""
    if decider_id == applicant_id:
        return "A request is decided by somebody other than the person who asks."
    if state != "waiting":
        return f"This request has been decided already: {state}."
    if declined and not reason.strip():
        return "Say why: the person who asked will read it."
    return None


def reason_not_to_change_role(
    *, by_id: int, member_id: int, before: str, after: str, known: set[str], reason: str, secretaries: int
) -> str | None:
    """Why a role is not changed so. `secretaries` counts those there are now."""
    if by_id == member_id:
        return "Nobody changes a role of their own. Ask another secretary."
    if after not in known:
        return "There is no such role."
    if before == after:
        return f"The role is {before} already."
    if not reason.strip():
        return "Say why: the reason stays on record."
    if before == "secretary" and secretaries < 2:
        return "The society would be left without a secretary. Make somebody else secretary first."
    return None


def reason_not_to_leave(*, role: str, secretaries: int) -> str | None:
    """Why somebody cannot leave now."""
    if role == "secretary" and secretaries < 2:
        return "You are the only secretary. Make somebody else secretary first; then you can leave."
    return None


def reason_not_to_invite(*, open_invitations: int, made_in_a_day: int) -> str | None:
    """Why no more invitations are made now: each may send a message to a stranger."""
    if open_invitations >= MOST_OPEN_INVITATIONS:
        return f"You have {open_invitations} open invitations, the most there may be. Take one back first."
    if made_in_a_day >= MOST_INVITATIONS_A_DAY:
        return f"You have made {made_in_a_day} invitations within a day, the most there may be. Go on tomorrow."
    return None
