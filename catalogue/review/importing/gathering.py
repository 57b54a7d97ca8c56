"""Imports and their proposals as lists, in a number of queries that does not grow with them."""

from collections.abc import Iterable

from django.db.models import Count, F, Prefetch, Q, QuerySet

from catalogue.accounts.models import Member
from catalogue.reference.snapshots import type_facts
from catalogue.review.models import Decision, Proposal, ReferenceImport
from catalogue.review.proposals.gathering import title_of
from catalogue.review.proposals.proposal_page import change_row
from catalogue.review.proposals.words import DECIDERS_NEEDED, DecisionOn, ProposalState, Weight

# Of a whole profile so many rows are shown; the rest stands on the proposal's own page.
MOST_ROWS = 8


def imports() -> QuerySet:
    """The newest first, each with how many proposals it has and how many wait."""
    waiting = Count("proposals", filter=Q(proposals__state=ProposalState.OPEN))
    return (
        ReferenceImport.objects.select_related("by").annotate(all=Count("proposals"), waiting=waiting).order_by("-pk")
    )


def proposals_of(one: ReferenceImport) -> QuerySet:
    """Those that wait first, the small before the weighty; then the decided."""
    decisions = Prefetch("decisions", Decision.objects.select_related("by", "in_place_of"))
    waits = Q(state=ProposalState.OPEN)
    return (
        Proposal.objects.filter(brought_in=one)
        .select_related("version", "feature", "garment_type", "by")
        .prefetch_related(decisions)
        .annotate(waits=Count("pk", filter=waits))
        .order_by(F("waits").desc(), "weight", "pk")
    )


def rows_of(proposals: Iterable[Proposal], person: Member, ticked: Iterable[int], *, number: int) -> list[dict]:
    return [row_of(one, person, one.pk in ticked, number=number) for one in proposals]


def row_of(one: Proposal, person: Member, ticked: bool, *, number: int) -> dict:
    home = type_facts(one.garment_type.code, number=number)
    names = {code: feature.name for code, feature in home.features.items()}
    decisions = list(one.decisions.all())
    agreed = [d.by for d in decisions if d.kind == DecisionOn.AGREED and d.sending == one.times_sent]
    keys = list(one.rows)
    return {
        "proposal": one,
        "title": title_of(one, names),
        "changes": [change_row(one, key, one.base, one.rows, home) for key in keys[:MOST_ROWS]],
        "more": max(0, len(keys) - MOST_ROWS),
        "needed": DECIDERS_NEEDED[Weight(one.weight)],
        "agreed": [member.username for member in agreed],
        "last": decisions[-1] if decisions else None,
        "decidable": one.state == ProposalState.OPEN and person.pk not in [one.by_id, *(m.pk for m in agreed)],
        "ticked": ticked,
    }
