"""What changes people, invitations and requests. Each action is all or nothing, and safe against a second click."""

from catalogue.accounts.actions.joining import (
    admit_invited,
    ask_to_join,
    decide_request,
    invite,
    revoke_invitation,
    take_invitation,
)
from catalogue.accounts.actions.people import change_role, leave_society

__all__ = [
    "admit_invited",
    "ask_to_join",
    "change_role",
    "decide_request",
    "invite",
    "leave_society",
    "revoke_invitation",
    "take_invitation",
]
