"""What a record's page says of the decision that wrote it."""

from django.urls import reverse

from catalogue.review.models import Decision
from catalogue.review.proposals.words import FIRST_OF_TWO, DecisionOn


def told_of_decision(decision: Decision) -> dict:
    """The proposal and the people who decided on it together. `takes_back`: the record was written to revoke what the
    proposal had changed, so that deciding and writing are no approval of one's own; `revoked`: that was done since.

    Reads the proposal's decisions, which the caller has fetched.
    """
    proposal, every = decision.proposal, decision.proposal.decisions.all()
    together = (decision.kind, FIRST_OF_TWO[DecisionOn(decision.kind)])
    return {
        "number": proposal.pk,
        "address": reverse("proposals:proposal", args=[proposal.pk]),
        "people": [one.decider for one in every if one.kind in together and one.sending == decision.sending],
        "takes_back": decision.kind == DecisionOn.REVOKED,
        "revoked": decision.kind == DecisionOn.APPROVED and any(one.kind == DecisionOn.REVOKED for one in every),
    }
