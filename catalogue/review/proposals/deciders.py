"""What a record's page says of the decision that wrote it, and of the sources that this was decided on."""

from collections.abc import Iterable, Mapping

from django.urls import reverse

from catalogue.reference.addresses import address_of
from catalogue.reference.models import Source
from catalogue.review.models import Decision
from catalogue.review.proposals.words import FIRST_OF_TWO, DecisionOn

GONE = "This source is not there any more"


def told_of_decision(decision: Decision, titles: Mapping[str, str]) -> dict:
    """The proposal, its sources and the people who decided on it together. `takes_back`: the record was written to
    revoke what the proposal had changed, so that deciding and writing are no approval of one's own; `revoked`: that was
    done since. `titles`: of the sources, as `titles_cited` reads them for a whole page.

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
        "sources": cited(proposal.sources, titles),
    }


def titles_cited(decisions: Iterable[Decision | None]) -> dict[str, str]:
    """The titles of all sources that the proposals behind these decisions cite, by code, in one query."""
    return titles_of({code for one in decisions if one for code in one.proposal.sources})


def titles_of(codes: Iterable[str]) -> dict[str, str]:
    codes = set(codes)
    return dict(Source.objects.filter(code__in=codes).values_list("code", "title")) if codes else {}


def cited(codes: Iterable[str], titles: Mapping[str, str]) -> list[dict]:
    """Sources as a list of links; one that is gone says so."""
    return [
        {
            "code": code,
            "title": titles.get(code, GONE),
            "address": address_of("source", code) if code in titles else "",
        }
        for code in codes
    ]
