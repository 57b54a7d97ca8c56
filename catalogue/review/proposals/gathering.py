"""The lists of proposals, in a number of queries that does not grow with them."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import F, Prefetch, QuerySet

from catalogue.accounts.models import Member
from catalogue.reference.models import Feature
from catalogue.review.examples_queue.rank import age_words, waiting_words, waits_long
from catalogue.review.models import Decision, Proposal
from catalogue.review.proposals.subjects import row_name
from catalogue.review.proposals.words import DECIDERS_NEEDED, DecisionOn, ProposalKind, ProposalState, Weight

MOST_NAMED = 3
OPEN, MINE = "open", "mine"
LISTS = {
    OPEN: "Waiting",
    "returned": "Returned",
    "approved": "Approved",
    "declined": "Declined",
    "withdrawn": "Withdrawn",
    MINE: "Mine",
}


@dataclass(frozen=True)
class Row:
    """A proposal of a list."""

    proposal: Proposal
    title: str
    age: str
    agreed: tuple[str, ...]
    needed: int
    is_own: bool
    waits_long: bool
    last: Decision | None


def listed(person: Member, which: str) -> QuerySet:
    """Proposals of a list; those that wait, the oldest first, others the latest first. Drafts are their author's."""
    rows = Proposal.objects.select_related(
        "by", "version", "other", "feature", "question", "scan__source", "garment_type"
    ).prefetch_related(Prefetch("decisions", Decision.objects.select_related("by", "in_place_of")))
    if which == MINE:
        return rows.filter(by=person).order_by(F("sent_at").desc(nulls_first=True), "-pk")
    if which == OPEN:
        return rows.filter(state=ProposalState.OPEN).order_by("sent_at", "pk")
    states = [which] if which != ProposalState.APPROVED else [ProposalState.APPROVED, ProposalState.REVOKED]
    return rows.filter(state__in=states).order_by("-sent_at", "-pk")


def rows_of(proposals, person: Member, *, now: datetime) -> list[Row]:
    features = feature_names()
    return [row(one, person, features, now) for one in proposals]


def feature_names() -> dict[str, str]:
    return dict(Feature.objects.values_list("code", "name"))


def row(one: Proposal, person: Member, features: dict[str, str], now: datetime) -> Row:
    decisions = list(one.decisions.all())
    agreed = [d.decider for d in decisions if d.kind == DecisionOn.AGREED and d.sending == one.times_sent]
    return Row(
        proposal=one,
        title=title_of(one, features),
        age=age_of(one, now),
        waits_long=one.state == ProposalState.OPEN and waits_long(one.sent_at, now),
        agreed=tuple(agreed),
        needed=DECIDERS_NEEDED[Weight(one.weight)],
        is_own=one.by_id == person.pk,
        last=decisions[-1] if decisions else None,
    )


def age_of(one: Proposal, now: datetime) -> str:
    """How long it waits, or how long ago it was sent; empty where it was not."""
    if one.state == ProposalState.OPEN:
        return waiting_words(one.sent_at, now)
    return age_words(one.sent_at, now) if one.sent_at else ""


def title_of(one: Proposal, features: dict[str, str]) -> str:
    """`BLO-71: cuff, dates`; `New version BLO-99: Blouse, …`; `Retire BLO-64G`; `Merge BLO-64G into BLO-64`;
    `Split BLO-71 into BLO-71-1 and BLO-71-2`; `Question D1: decision`; `Scan of S06: Specification …`."""
    if one.kind == ProposalKind.SCAN:
        return f"Scan of {one.scan.source.code}: {one.scan.source.title}"
    if one.kind == ProposalKind.BACKING and one.new_code:
        return f"New {one.get_backing_display()} {one.new_code}: {one.rows.get('name', '')}"
    if one.kind == ProposalKind.NEW:
        return f"New version {one.new_code}: {one.rows.get('name', '')}"
    if one.kind == ProposalKind.RETIRE:
        return f"Retire {one.version.code}: {one.version.name}"
    if one.kind == ProposalKind.MERGE:
        return f"Merge {one.other.code} into {one.version.code}: {one.version.name}"
    if one.kind == ProposalKind.SPLIT:
        return f"Split {one.version.code} into {one.new_code} and {one.second_code}: {one.version.name}"
    if one.kind == ProposalKind.FEATURE and one.new_code:
        return f"New feature {one.new_code}: {one.rows.get('name', '')}"
    names = [row_name(one, key, features) for key in one.rows]
    some = ", ".join(name.lower() for name in names[:MOST_NAMED])
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    about = one.about_code
    if one.kind == ProposalKind.BACKING:
        about = f"{one.get_backing_display().capitalize()} {about}"
    if one.feature or one.question:
        about = f"Feature {one.feature.name}" if one.feature else f"Question {about}"
    return f"{about}: {some}{more}" if names else f"{about}: nothing changed yet"
