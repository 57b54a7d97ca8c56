"""The chain of the decisions: who decided what, when, why and in whose place, with the rows that were written; and
whether the tables still say so."""

import json
from collections.abc import Iterator
from datetime import UTC

from catalogue.review.models import Decision, DecisionSeal
from catalogue.review.records.bodies import canonical
from catalogue.review.records.sealing import AT_ONCE, digest_of

FORMAT = 1
KEYS = ("proposal", "by", "in_place_of", "record", "feature_record", "question", "scan")
PLAIN = ("kind", "sending", "reason", "before", "after")
# Of the proposal that was approved; until then its author writes on.
ASKED = ("kind", "grounds", "sources", "rows", "new_code", "second_code")
APPROVED = "approved"
# What a person reads first of a decision that was changed.
PARTS = {
    "by": "who decided",
    "in_place_of": "in whose place",
    "kind": "what was decided",
    "reason": "the reason",
    "made_at": "the time",
    "before": "the rows before",
    "after": "the rows that it wrote",
    "further": "what it wrote further",
    "asked": "what was proposed, and why",
}


def seal_decision(decision: Decision) -> None:
    """Once all that it wrote is there, while `ReferenceState` is held: the chain has one end."""
    add_seals(Decision, DecisionSeal, [decision.pk])


def add_seals(decision_table, seal_table, decisions) -> None:
    """The same with the tables as a migration sees them."""
    last = seal_table.objects.order_by("-number").only("number", "digest").first()
    number, previous = (last.number, last.digest) if last else (0, "")
    made = []
    for row in to_read(decision_table.objects.filter(pk__in=decisions)).order_by("pk"):
        number, body = number + 1, body_of(row)
        digest = digest_of(previous, body)
        made.append(seal_table(decision_id=row.pk, number=number, body=body, previous=previous, digest=digest))
        previous = digest
    seal_table.objects.bulk_create(made, batch_size=AT_ONCE)


def to_read(rows):
    return rows.select_related("proposal").prefetch_related("further")


def body_of(decision) -> str:
    """People, records and proposals as the numbers of their rows, so that no name of a person who decided stands in it,
    and the keys of further records in their order."""
    said = {name: getattr(decision, f"{name}_id") for name in KEYS} | {name: getattr(decision, name) for name in PLAIN}
    said |= {"id": decision.pk, "made_at": decision.made_at.astimezone(UTC).isoformat(timespec="microseconds")}
    if decision.backing:  # those of before were sealed without
        said["backing"] = decision.backing
    further = sorted(decision.further.all(), key=lambda one: one.pk)
    said["further"] = [{"record": one.record_id, "before": one.before, "after": one.after} for one in further]
    if decision.kind == APPROVED:
        proposal = decision.proposal
        said["asked"] = {"by": proposal.by_id} | {name: getattr(proposal, name) for name in ASKED}
    return canonical({"format": FORMAT, "decision": said})


def faults_of_decisions() -> Iterator[str]:
    """Every fault of the chain, and every decision that stands otherwise than its seal, in words."""
    for one in Decision.objects.filter(seal__isnull=True).order_by("pk"):
        yield f"decision {one.pk} on proposal {one.proposal_id} has no seal"
    number, previous = 0, ""
    for seals in batches():
        stored = {one.pk: one for one in to_read(Decision.objects.filter(pk__in=[seal.decision_id for seal in seals]))}
        for seal in seals:
            title = f"seal {seal.number} of decisions"
            if seal.number != number + 1:
                yield f"seal {number + 1} of decisions is missing: after {number} comes {seal.number}"
            elif seal.previous != previous:
                yield f"{title} does not follow the one before"
            if digest_of(seal.previous, seal.body) != seal.digest:
                yield f"{title}: the body is not what was sealed, its digest is another"
            yield from faults_of(seal, stored.get(seal.decision_id), title)
            number, previous = seal.number, seal.digest


def batches() -> Iterator[list[DecisionSeal]]:
    after = 0
    while seals := list(DecisionSeal.objects.filter(number__gt=after).order_by("number")[:AT_ONCE]):
        yield seals
        after = seals[-1].number


def faults_of(seal: DecisionSeal, stored: Decision | None, title: str) -> Iterator[str]:
    """Where the tables say something else than the body."""
    if stored is None:
        yield f"{title}: its decision is gone"
        return
    try:
        then, now = (json.loads(body)["decision"] for body in (seal.body, body_of(stored)))
        differs = [words for name, words in PARTS.items() if then.get(name) != now.get(name)]
    except (ValueError, KeyError, TypeError, AttributeError):
        yield f"{title}: the body cannot be read"
        return
    if body_of(stored) != seal.body:
        what = ", ".join(differs) or "what it is about"
        yield f"the decision on proposal {stored.proposal_id} ({stored.kind}) differs from its seal in {what}"
