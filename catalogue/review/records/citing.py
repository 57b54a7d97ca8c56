"""The approved changes that a source was cited for: told on its own page, and a source that bears one that stands is
not called uncited."""

from django.urls import reverse

from catalogue.reference.addresses import address_of
from catalogue.reference.changes import in_a_sentence
from catalogue.reference.resting import tells_of_sources
from catalogue.reference.snapshots import keep_for_state
from catalogue.review.features.pages import record_address as feature_record_address
from catalogue.review.models import Decision
from catalogue.review.proposals.gathering import feature_names, title_of
from catalogue.review.proposals.words import DecisionOn, ProposalKind, ProposalState
from catalogue.review.records.addresses import record_address

# Of these the title says already what was done; of others it begins with what was changed.
CHANGED = (ProposalKind.CHANGE, ProposalKind.FEATURE, ProposalKind.QUESTION, ProposalKind.BACKING)


def decisions_by_source() -> dict[str, list[tuple[int, bool]]]:
    """By the code of each cited source the keys of the decisions that approved, and whether that still stands."""
    found: dict[str, list[tuple[int, bool]]] = {}
    approved = Decision.objects.filter(kind=DecisionOn.APPROVED).exclude(proposal__sources=[])
    for key, codes, state in approved.values_list("pk", "proposal__sources", "proposal__state"):
        for code in codes:
            found.setdefault(code, []).append((key, state == ProposalState.APPROVED))
    return found


def kept_decisions() -> dict[str, list[tuple[int, bool]]]:
    return keep_for_state(("decisions by source",), decisions_by_source)


@tells_of_sources
def sources_of_changes() -> list[str]:
    """Codes of the sources on which a change that stands was approved."""
    return [code for code, found in kept_decisions().items() if any(stands for _, stands in found)]


def changes_citing(code: str) -> list[dict]:
    """The changes that were approved on this source, the latest first, each with the record that it wrote."""
    keys = [key for key, _ in kept_decisions().get(code, ())]
    if not keys:
        return []
    rows = Decision.objects.filter(pk__in=keys).order_by("-made_at", "-pk")
    rows = rows.select_related(
        "proposal__version", "proposal__other", "proposal__feature", "proposal__question",
        "record__version", "feature_record", "question",
    ).prefetch_related("proposal__decisions")  # fmt: skip
    features = feature_names()
    return [change_row(one, features) for one in rows]


def change_row(one: Decision, features: dict[str, str]) -> dict:
    title = title_of(one.proposal, features)
    is_changed = one.proposal.kind in CHANGED and not one.proposal.new_code
    revoked = next((other for other in one.proposal.decisions.all() if other.kind == DecisionOn.REVOKED), None)
    return {
        "words": f"Change of {title if one.record else in_a_sentence(title)}" if is_changed else title,
        "on": one.made_at,
        "address": address_of_record(one),
        "revoked_on": revoked.made_at if revoked else None,
    }


def address_of_record(one: Decision) -> str:
    """Where what the decision wrote is read."""
    if one.record:
        return record_address(one.record.version.code, one.record.number)
    if one.feature_record:
        return feature_record_address(one.feature_record.code, one.feature_record.number)
    if one.backing:
        return reverse("proposals:proposal", args=[one.proposal_id])
    return address_of("open_question", one.question.code)
