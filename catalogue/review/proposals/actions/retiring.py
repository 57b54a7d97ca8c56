"""What a retirement does to accepted pieces: they go to what the version became, and back once it is revoked."""

from collections.abc import Sequence

from catalogue.accounts.models import Member
from catalogue.review.models import Decision
from catalogue.review.proposals.actions.followers import let_follow, settle_doubts, take_back
from catalogue.review.proposals.merged import Follower
from catalogue.review.proposals.retiring import became_of


def finish_retirement(decision: Decision, followers: Sequence[Follower], deciders: Sequence[Member]) -> None:
    """After the record that retires it. `followers`: its pieces, read before."""
    proposal = decision.proposal
    words = (
        f"{proposal.version.code} was retired and became {' and '.join(became_of(proposal))}: proposal {proposal.pk}."
    )
    let_follow(decision, followers, deciders, f"{words} {proposal.grounds}")


def undo_retirement(decision: Decision, approved: Decision, deciders: Sequence[Member]) -> None:
    """After the record that puts it in force again: its pieces come back, but those that were decided on since."""
    proposal = decision.proposal
    words = f"The retirement of {proposal.version.code} was revoked: proposal {proposal.pk}."
    take_back(decision, approved, deciders, f"{words} {decision.reason}")
    settle_doubts(approved, decision.by)
