"""What whoever decides has to know beside the change itself: that nothing can come of it, that it puts a version into
force again, which labels would lie outside its dates, what goes along when it is revoked."""

from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.models import Example
from catalogue.review.label_years import newly_outside, span_of_rows
from catalogue.review.models import Decision, Proposal
from catalogue.review.proposals import rules
from catalogue.review.proposals.actions.merging import reason_not_to_merge
from catalogue.review.proposals.standing import Rows
from catalogue.review.proposals.subjects import is_of_version, is_split, reason_not_to_touch
from catalogue.review.proposals.words import ProposalKind
from catalogue.review.records.addresses import record_address


def why_gone(proposal: Proposal, stands: Rows) -> str | None:
    """Why nothing can come of it any more, in words: what it is about was retired meanwhile, or is there already."""
    if proposal.kind == ProposalKind.NEW:
        return None
    merged = reason_not_to_merge(proposal.version, proposal.other) if proposal.other else None
    return merged or reason_not_to_touch(proposal, stands)


def comes_back(proposal: Proposal, stands: Rows) -> bool:
    """Whether it would put a retired version into force again."""
    if not is_of_version(proposal):
        return False
    return bool(rules.row_of(stands, "retired")) and proposal.rows.get("retired") == ""


def labels_outside(proposal: Proposal, stands: Rows) -> list[dict]:
    """Accepted pieces whose label bears a year within the dates of today, and outside those that are wanted. Of a
    split, which has the dates of two, `split_page` says it."""
    if "date" not in proposal.rows or proposal.version is None or is_split(proposal):
        return []
    wanted = {**stands, **proposal.rows}
    now, then = span_of_rows({**stands, "kind": rules.row_of(wanted, "kind")}), span_of_rows(wanted)
    held = Example.objects.accepted().filter(held_as__in=[proposal.version_id, proposal.other_id])
    dated = held.filter(label_year__isnull=False).order_by("label_year", "code").values_list("code", "label_year")
    return [
        {"code": code, "year": year, "address": example_address(code)}
        for code, year in dated
        if newly_outside(year, now, then)
    ]


def goes_with_it(approved: Decision | None) -> list[dict]:
    """Of a split that might be revoked: the versions that it made and that were changed since, each with its newest
    record. What was approved of them is withdrawn with them."""
    made = approved.further.select_related("record__version__current_record") if approved else ()
    return [
        {"code": version.code, "number": newest.number, "address": record_address(version.code, newest.number)}
        for one in made
        if is_split(approved.proposal)
        and (version := one.record.version)
        and (newest := version.current_record)
        and newest.pk != one.record_id
    ]
