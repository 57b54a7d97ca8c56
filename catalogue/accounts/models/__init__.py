"""Members, how they joined, what they hold and look for."""

from catalogue.accounts.models.joining import Invitation, JoinRequest
from catalogue.accounts.models.people import Member, RoleChange
from catalogue.accounts.models.pieces import Holding, Want

__all__ = ["Holding", "Invitation", "JoinRequest", "Member", "RoleChange", "Want"]
