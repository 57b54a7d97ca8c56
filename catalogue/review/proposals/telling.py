"""A notice of a proposal, as the page of notices and the mail say it."""

from django.urls import reverse

from catalogue.review.models import Notice
from catalogue.review.proposals.words import DecisionOn


def what_of_proposal(notice: Notice) -> str:
    made = notice.proposal_decision
    return DecisionOn(made.kind).label if made else "A word was written"


def proposal_row(notice: Notice) -> dict:
    """What happened, who did it, the words and where it leads."""
    about = notice.about_proposal
    made, proposal = notice.proposal_decision, about.proposal
    address = reverse("proposals:proposal", args=[proposal.pk])
    return {
        "code": f"Proposal {proposal.pk} ({proposal.about_code})",
        "new": notice.read_at is None,
        "on": notice.made_at,
        "what": what_of_proposal(notice) if made else "A word about it",
        "held_as": "",
        "by": made.decider if made else about.by.username,
        "text": made.reason if made else about.text,
        "address": address,
        "thread": f"{address}#thread",
        "asks": not made or made.kind == DecisionOn.RETURNED,
    }
