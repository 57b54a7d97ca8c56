"""What a record did beside what it says of features, in words: it retired its version, put it in force again, took an
approved change back; and whether that was taken back since."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.utils.formats import date_format
from django.utils.timezone import localdate

from catalogue.reference.addresses import address_of
from catalogue.reference.models import VersionRecord
from catalogue.review.models import Decision, FurtherRecord
from catalogue.review.proposals.subjects import codes_of_split, is_split
from catalogue.review.proposals.words import DecisionOn, ProposalKind

# What has to be read with a decision for its deeds.
PROPOSAL = ("decision__proposal", "further__decision__proposal")
READ_WITH = (*PROPOSAL, *(f"{path}__{name}" for path in PROPOSAL for name in ("version", "other")))


@dataclass(frozen=True)
class Deed:
    """`tag` stands beside the number of the record in a list, empty for none; the sentence is `begins`, which stands
    out, the `codes` with their addresses, `ends`."""

    tag: str
    begins: str
    codes: tuple[dict, ...] = ()
    ends: str = "."


def written_by(record: VersionRecord) -> Decision | FurtherRecord | None:
    """What wrote the record, with its rows before and after: a decision, or as a further record of one."""
    return getattr(record, "further", None) or getattr(record, "decision", None)


def decision_behind(record: VersionRecord) -> Decision | None:
    """The decision that wrote the record, as its own or as a further one; None for a record without."""
    wrote = written_by(record)
    return getattr(wrote, "decision", wrote)


def deeds_of(record: VersionRecord) -> list[Deed]:
    """In the order in which they are told. Reads the proposal's decisions, which the caller has fetched."""
    wrote, decision = written_by(record), decision_behind(record)
    if decision is None:
        return []
    is_further = wrote is not decision
    found = [changed_standing(wrote, decision), taken_up(decision, is_further), made_by_split(wrote, decision)]
    if decision.kind == DecisionOn.REVOKED and not any(found):
        ends = f" what proposal {decision.proposal_id} had changed."
        found.append(Deed("takes a change back", "It takes back", ends=ends))
    return [one for one in (*found, revoked_since(decision)) if one]


def changed_standing(wrote: Decision | FurtherRecord, decision: Decision) -> Deed | None:
    """That the version was retired, why, and what stands in its place; or that it stands again."""
    if "retired" not in wrote.after:
        return None
    if not wrote.after["retired"]:
        was_retired = bool(wrote.before.get("retired"))
        return Deed("in force again", "In force again:", ends=f" {undone(decision)}.") if was_retired else None
    if decision.kind == DecisionOn.REVOKED:
        return withdrawn(wrote, decision)
    became = links(wrote.after.get("became", ()))
    begins = {ProposalKind.MERGE: "Retired: merged into", ProposalKind.SPLIT: "Retired: split into"}.get(
        ProposalKind(decision.proposal.kind), "Retired: it became"
    )
    if not became:
        return Deed("retired", "Retired: held to be no version any more")
    return Deed("retired", begins, became)


def withdrawn(wrote: Decision | FurtherRecord, decision: Decision) -> Deed:
    """Of a version that a decision had made and a newer one took back, or that is retired again."""
    proposal = decision.proposal
    if is_split(proposal) and wrote is not decision:
        begins = "Withdrawn: the split that made it was revoked, and"
        return Deed("withdrawn", begins, links([proposal.version.code]), " stands again.")
    if proposal.kind == ProposalKind.NEW:
        return Deed("withdrawn", "Withdrawn: the approval of this version was revoked")
    return Deed("retired", f"Retired again: {undone(decision)}", links(wrote.after.get("became", ())))


def undone(decision: Decision) -> str:
    """`the split into A and B was revoked (proposal 4)`: what put the version in force again."""
    proposal = decision.proposal
    if decision.kind != DecisionOn.REVOKED:
        return f"proposal {proposal.pk} was approved"
    what = {
        ProposalKind.MERGE: f"the merge of {proposal.other.code if proposal.other else ''} into {proposal.about_code}",
        ProposalKind.SPLIT: f"the split into {' and '.join(codes_of_split(proposal))}",
        ProposalKind.RETIRE: "its retirement",
    }.get(ProposalKind(proposal.kind), "what was changed of it")
    return f"{what} was revoked (proposal {proposal.pk})"


def taken_up(decision: Decision, is_further: bool) -> Deed | None:
    """Of the version that stays when two are merged."""
    proposal = decision.proposal
    if proposal.kind != ProposalKind.MERGE or is_further or decision.kind != DecisionOn.APPROVED:
        return None
    return Deed("takes another up", "It takes up", links([proposal.other.code]), ", which was merged into it.")


def made_by_split(wrote: Decision | FurtherRecord, decision: Decision) -> Deed | None:
    """Of either of the two that a split makes."""
    proposal = decision.proposal
    if not is_split(proposal) or wrote is decision or decision.kind != DecisionOn.APPROVED:
        return None
    return Deed("", "Made by the split of", links([proposal.version.code]))


def revoked_since(decision: Decision) -> Deed | None:
    if decision.kind != DecisionOn.APPROVED:
        return None
    for one in decision.proposal.decisions.all():
        if one.kind == DecisionOn.REVOKED:
            return Deed("revoked since", f"Revoked on {day(one.made_at)}:", ends=f" {one.reason}")
    return None


def day(moment) -> str:
    return date_format(localdate(moment), "j F Y")


def links(codes: Iterable[str]) -> tuple[dict, ...]:
    return tuple({"code": code, "address": address_of("version", code)} for code in codes)


def retirement_of(records: Sequence[VersionRecord]) -> tuple[Deed, int] | None:
    """How a version came to be retired, by the newest of its records that says so, and the number of the proposal; None
    where it was retired by no decision. `records`: newest first."""
    for record in records:
        wrote, decision = written_by(record), decision_behind(record)
        if wrote and wrote.after.get("retired"):
            return changed_standing(wrote, decision), decision.proposal_id
    return None
