"""A retirement against what stands: which accepted pieces would be left nowhere, and where they go if it is named what
the version became."""

from collections.abc import Sequence

from catalogue.member_examples.evidence import Evidence
from catalogue.member_examples.models import Example
from catalogue.member_examples.queries import read_evidence
from catalogue.reference.models import IssueVersion
from catalogue.reference.plurals import some_of
from catalogue.review.models import Proposal
from catalogue.review.proposals import rules
from catalogue.review.proposals.merged import Follower, after_merge
from catalogue.review.proposals.standing import rows_of_version
from catalogue.review.proposals.words import ProposalKind


def retires(proposal: Proposal) -> bool:
    """An import proposes a retirement as a change of its row."""
    if proposal.kind == ProposalKind.RETIRE:
        return True
    return proposal.kind == ProposalKind.CHANGE and bool(proposal.rows.get("retired"))


def became_of(proposal: Proposal) -> list[str]:
    return list(rules.row_of({**proposal.base, **proposal.rows}, "became"))


def reason_not_to_retire(proposal: Proposal) -> str | None:
    """Why pieces would be nowhere, or cannot go where they are to; None of what retires nothing. What a mere change may
    name, `reason_not_to_become` says."""
    if not retires(proposal):
        return None
    became = became_of(proposal)
    if became and proposal.kind == ProposalKind.RETIRE:
        return reason_not_to_go_to(proposal.version, became)
    return None if became else words_of_nowhere(proposal.version)


def reason_not_to_go_to(version: IssueVersion, became: Sequence[str]) -> str | None:
    if len(became) > 1:
        return (
            f"Name one version that {version.code} became. If it was two, propose a split: its pieces then go to each."
        )
    successor = IssueVersion.objects.filter(code=became[0]).first()
    if successor is None:
        return None  # which is said of every row that names what is not there
    if successor == version:
        return f"{version.code} cannot become itself: name another version, or none."
    if successor.garment_type_id != version.garment_type_id:
        return f"{successor.code} is a version of another garment type: a version becomes one of its own only."
    if successor.retired_why:
        return f"{successor.code} is retired itself: name a version that is in force."
    return None


def words_of_nowhere(version: IssueVersion) -> str | None:
    """Why a version does not go without a successor; None where no accepted piece is held as it."""
    codes = list(Example.objects.accepted().filter(held_as=version).order_by("code").values_list("code", flat=True))
    if not codes:
        return None
    are = "is" if len(codes) == 1 else "are"
    return (
        f"{some_of(codes)} {are} accepted as {version.code} and would be nowhere. Name the "
        "version that it became, to which its pieces then go, or have each attributed anew first."
    )


def followers_of_retired(proposal: Proposal, evidence: Evidence | None = None) -> tuple[Follower, ...]:
    """The pieces that would go to what the version became, read afresh where no `evidence` is given; none where that is
    not named."""
    successor = IssueVersion.objects.filter(code__in=became_of(proposal)[:1]).first()
    if successor is None:
        return ()
    stands = rows_of_version(successor)
    pieces = (evidence or read_evidence(proposal.garment_type.code)).pieces
    return after_merge(pieces, stays=successor.code, goes=proposal.version.code, before=stands, merged=stands)
