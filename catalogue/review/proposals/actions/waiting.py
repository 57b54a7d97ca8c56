"""Who is told that a proposal waits, and when that is new to nobody any more."""

from catalogue.accounts.roles import REVIEW_REFERENCE
from catalogue.review.deputies.standing_in import with_deputies
from catalogue.review.models import Proposal
from catalogue.review.notices.telling import read_by_all, tell_all, those_who_may
from catalogue.review.proposals.words import ProposalState


def tell_who_decides(proposal: Proposal) -> None:
    """Every moderator but its author, and who stands in for one; of the proposals of an import once for them all."""
    if proposal.brought_in_id:
        about = {"reference_import": proposal.brought_in}
    else:
        about = {"proposal": proposal, "sending": proposal.times_sent}
    tell_all(with_deputies(those_who_may(REVIEW_REFERENCE)), but=proposal.by_id, **about)


def nothing_waits(proposal: Proposal) -> None:
    """It was decided, returned or withdrawn; of an import once nothing of it waits."""
    read_by_all(proposal=proposal)
    brought_in = proposal.brought_in
    if brought_in and not brought_in.proposals.filter(state=ProposalState.OPEN).exists():
        read_by_all(reference_import=brought_in)
