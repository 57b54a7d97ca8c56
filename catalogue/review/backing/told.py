"""What was proposed and decided on a record that versions rest on, for its page."""

from django.db.models import Prefetch
from django.urls import reverse

from catalogue.accounts.models import Member
from catalogue.accounts.roles import MAINTAIN_REFERENCE, PROPOSE_CHANGES, may
from catalogue.reference.review_state import address_to_propose_on
from catalogue.review.backing.standing import backing_of, row_in_words
from catalogue.review.models import Decision, Proposal
from catalogue.review.proposals.deciders import titles_cited, told_of_decision
from catalogue.review.proposals.words import DecisionOn, ProposalState

WRITES = (DecisionOn.APPROVED, DecisionOn.REVOKED)
# What came to no change yet, for members alone, as the threads are.
FOR_MEMBERS = {
    ProposalState.OPEN: "waits for a decision",
    ProposalState.RETURNED: "was returned to its author",
    ProposalState.DECLINED: "was declined",
}


def told_of(table: str, code: str, person: Member) -> dict:
    """What changed it, the latest first, in words, and what waits or was declined; in three queries at most."""
    proposals = (
        Proposal.objects.filter(backing=table, backing_code=code)
        .filter(state__in=[*FOR_MEMBERS, ProposalState.APPROVED, ProposalState.REVOKED])
        .select_related("by")
        .prefetch_related(Prefetch("decisions", Decision.objects.select_related("by", "in_place_of")))
        .order_by("-pk")
    )
    wrote = [one for proposal in proposals for one in proposal.decisions.all() if one.kind in WRITES]
    wrote.sort(key=lambda one: (one.made_at, one.pk), reverse=True)
    titles = titles_cited(wrote)
    reads = may(person, PROPOSE_CHANGES)
    return {
        "decided": [told_of_decision(one, titles) | what_changed(one, table) for one in wrote],
        "others": [other(one) for one in proposals if one.state in FOR_MEMBERS] if reads else [],
        "reads": reads,
        "address": address_to_propose_on(table, code) if may(person, MAINTAIN_REFERENCE) else "",
    }


def what_changed(one: Decision, table: str) -> dict:
    """Each row as it stood and as it stands since, who proposed it, when and why."""
    revokes = one.kind == DecisionOn.REVOKED
    return {
        "on": one.made_at,
        "revokes": revokes,
        "proposed_by": one.proposal.by.username,
        "why": one.reason if revokes else one.proposal.grounds,
        "lines": [
            {
                "name": name,
                "before": row_in_words(key, one.before.get(key, "")),
                "after": row_in_words(key, one.after[key]),
            }
            for key, name in backing_of(table).fields.items()
            if key in one.after  # whose own order is the database's
        ],
    }


def other(one: Proposal) -> dict:
    address = reverse("proposals:proposal", args=[one.pk])
    return {"number": one.pk, "by": one.by.username, "state": FOR_MEMBERS[ProposalState(one.state)], "address": address}
