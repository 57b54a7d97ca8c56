"""Two versions become one: begun as a proposal, written by the decision that approves it, undone by a newer one."""

from collections.abc import Iterable, Sequence

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.actions.refusals import refuse
from catalogue.member_examples.queries import read_evidence
from catalogue.reference.models import FeatureState, GarmentType, IssueVersion
from catalogue.review.models import Decision, FurtherRecord, Proposal
from catalogue.review.proposals import rules
from catalogue.review.proposals.actions.drafting import refuse_strangers
from catalogue.review.proposals.actions.followers import let_follow, settle_doubts, take_back
from catalogue.review.proposals.merged import Follower, after_merge, after_return, merged_rows
from catalogue.review.proposals.standing import Rows, rows_of_version, successors_by_code, write_rows
from catalogue.review.proposals.words import ProposalKind, ProposalState, Weight


@transaction.atomic
def begin_merge(*, by: Member, stays: IssueVersion, goes: IssueVersion) -> Proposal:
    """A draft in which `goes` becomes part of `stays`, whose record begins with everything that either shows. One's own
    that was not written on yet is gone on with."""
    refuse_strangers(by, Weight.WEIGHTY)
    refuse(reason_not_to_merge(stays, goes))
    base, other_base = rows_of_version(stays), rows_of_version(goes)
    mine = by.proposals.filter(kind=ProposalKind.MERGE, state=ProposalState.DRAFT, revision=0)
    begun = mine.filter(version=stays, other=goes).first()
    if begun and (begun.base, begun.other_base) == (base, other_base):
        return begun
    wanted = merged_rows(base, other_base, goes_code=goes.code, order=order_of_states(stays.garment_type))
    return Proposal.objects.create(
        kind=ProposalKind.MERGE,
        by=by,
        garment_type=stays.garment_type,
        version=stays,
        other=goes,
        based_on=stays.current_record,
        base=base,
        other_base=other_base,
        rows=rules.changed_rows(base, wanted),
        weight=Weight.WEIGHTY,
    )


def reason_not_to_merge(stays: IssueVersion, goes: IssueVersion) -> str | None:
    both = IssueVersion.objects.filter(pk__in=[stays.pk, goes.pk])
    return rules.reason_not_to_merge(
        stays=stays.code,
        goes=goes.code,
        one_type=stays.garment_type_id == goes.garment_type_id,
        retired=both.retired().values_list("code", flat=True),
        became=successors_by_code(),
    )


def order_of_states(garment_type: GarmentType) -> dict[str, list[str]]:
    """Codes of the states by feature, in the order in which a row has them."""
    found: dict[str, list[str]] = {}
    states = FeatureState.objects.filter(feature__garment_types=garment_type).order_by("position", "code")
    for feature, state in states.values_list("feature__code", "code"):
        found.setdefault(feature, []).append(state)
    return found


def followers_of(proposal: Proposal, now: Rows, rows: Rows) -> tuple[Follower, ...]:
    """Pieces that would follow or become doubtful, read afresh. `now`: the version that stays; `rows`: what changes."""
    return after_merge(
        read_evidence(proposal.garment_type.code).pieces,
        stays=proposal.version.code,
        goes=proposal.other.code,
        before=now,
        merged={**now, **rows},
    )


def finish_merge(decision: Decision, now: Rows, deciders: Sequence[Member]) -> None:
    """After the record of the version that stays: the other is retired, and its pieces follow. `now`: rows of the
    version that stays, before."""
    proposal = decision.proposal
    gone = {"retired": proposal.grounds, "became": [proposal.version.code]}
    write_further(decision, proposal.other, gone, why=proposal.grounds)
    followers = followers_of(proposal, now, decision.after)
    words = f"{proposal.other.code} was merged into {proposal.version.code}: proposal {proposal.pk}."
    let_follow(decision, followers, deciders, f"{words} {proposal.grounds}")


def undo_merge(decision: Decision, approved: Decision, now: Rows, deciders: Sequence[Member]) -> None:
    """After the record that brings back the version that stayed: the other is in force again, and pieces that followed
    go back, but those that were decided on since."""
    proposal = decision.proposal
    bring_back(decision, approved)
    words = f"The merge of {proposal.other.code} into {proposal.version.code} was revoked: proposal {proposal.pk}."
    back = take_back(decision, approved, deciders, f"{words} {decision.reason}")
    settle_doubts(approved, decision.by)
    followers = after_return(
        read_evidence(proposal.garment_type.code).pieces,
        version=proposal.version.code,
        before=now,
        after={**now, **decision.after},
        but=back,
    )
    let_follow(decision, followers, deciders, words)


def write_further(
    decision: Decision, version: IssueVersion, rows: Rows, *, why: str, is_new: bool = False
) -> FurtherRecord:
    """A record of another version, by the same decision. `is_new`: nothing was recorded of it before."""
    before = {} if is_new else rows_of_version(version)
    record = write_rows(version=version, rows=rows, author=author_of(decision), why=why)
    was = {key: rules.row_of(before, key) for key in rows}
    return FurtherRecord.objects.create(decision=decision, record=record, before=was, after=rows)


def author_of(decision: Decision) -> Member:
    """Whose the records are: the proposal's author's, or whoever revoked it."""
    return decision.by if decision.kind == "revoked" else decision.proposal.by


def bring_back(decision: Decision, approved: Decision) -> None:
    for one in approved.further.select_related("record__version__garment_type"):
        write_further(decision, one.record.version, one.before, why=decision.reason)


def refuse_moved_on(proposal: Proposal, approved: Decision, now: Rows) -> None:
    """Raises NotDone in words where one of the versions was changed or retired since, so that nothing can go back."""
    if now["retired"]:
        raise NotDone(f"{proposal.version.code} was retired since: revoke that first.")
    for one in approved.further.select_related("record__version"):
        version, stands = one.record.version, rows_of_version(one.record.version)
        if changed(one.after, stands):
            raise NotDone(f"{version.code} was changed again since. Propose another change instead.")


def changed(rows: Rows, now: Rows) -> Iterable[str]:
    return [key for key, value in rows.items() if rules.row_of(now, key) != value]
