"""How versions came to be retired, and which stand again because a merge or a split was revoked: for their own pages in
the reference. Kept until the reference changes; `number`: of its state."""

from django.urls import reverse

from catalogue.reference.models import VersionRecord
from catalogue.reference.snapshots import keep_for_state
from catalogue.review.models import Decision
from catalogue.review.proposals.subjects import codes_of_split, is_split
from catalogue.review.proposals.words import DecisionOn, ProposalKind
from catalogue.review.records.deeds import READ_WITH, links, retirement_of


def how_retired(code: str, *, number: int) -> dict | None:
    """The deed that retired a version, with the proposal; None where no decision did."""
    return keep_for_state(("how retired", code), lambda: read_retirement(code), number=number)


def read_retirement(code: str) -> dict | None:
    rows = VersionRecord.objects.filter(version__code=code).select_related(*READ_WITH).order_by("-number")
    found = retirement_of(rows)
    return {"deed": found[0], **proposal_link(found[1])} if found else None


def proposal_link(number: int) -> dict:
    return {"proposal": number, "address": reverse("proposals:proposal", args=[number])}


def revoked_decisions() -> list[dict]:
    """Every merge and split that was revoked, the latest first, as plain values."""
    rows = Decision.objects.filter(
        kind=DecisionOn.REVOKED, proposal__kind__in=[ProposalKind.MERGE, ProposalKind.SPLIT]
    ).select_related("proposal__version", "proposal__other")
    return [row_of(one) for one in rows.order_by("-made_at", "-pk")]


def row_of(one: Decision) -> dict:
    proposal = one.proposal
    parts = list(codes_of_split(proposal)) if is_split(proposal) else []
    return {
        "of": [proposal.version.code] if parts else [proposal.other.code, proposal.version.code],
        "withdrawn": parts,
        "words": "it was split into" if parts else f"{proposal.other.code} was merged into",
        "codes": links(parts or [proposal.version.code]),
        "on": one.made_at,
        **proposal_link(proposal.pk),
    }


def kept_revoked(number: int) -> list[dict]:
    return keep_for_state(("revoked merges and splits",), revoked_decisions, number=number)


def taken_back(code: str, *, number: int) -> list[dict]:
    """The revoked merges and splits that a version went through and came back from."""
    return [one for one in kept_revoked(number) if code in one["of"]]


def withdrawn(*, number: int) -> set[str]:
    """Codes that only a revoked split had made: they never were a name of the version that stands again."""
    return {code for one in kept_revoked(number) for code in one["withdrawn"]}
