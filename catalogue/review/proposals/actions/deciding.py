"""What others decide on a proposal: agree, approve, return, decline; and revoke what was approved."""

from collections.abc import Sequence

from django.db import transaction
from django.db.models import F

from catalogue.accounts.mailboxes import same_person
from catalogue.accounts.models import Member
from catalogue.accounts.roles import REVIEW_REFERENCE, may
from catalogue.accounts.second_accounts import addresses
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.actions.refusals import refuse
from catalogue.reference.models import Feature, IssueVersion, OpenQuestion, ReferenceState, SourceScan, VersionRecord
from catalogue.review.backing import standing as backing
from catalogue.review.deputies.standing_in import may_decide, stood_in_for
from catalogue.review.features import standing as features
from catalogue.review.features.standing import rests_on
from catalogue.review.models import Decision, FeatureRecord, Proposal
from catalogue.review.notices.telling import tell
from catalogue.review.proposals import rules
from catalogue.review.proposals.actions.merging import finish_merge, reason_not_to_merge, refuse_moved_on, undo_merge
from catalogue.review.proposals.actions.retiring import finish_retirement, undo_retirement
from catalogue.review.proposals.actions.splitting import (
    finish_split,
    make_both,
    refuse_split_moved_on,
    rows_of_divided,
    undo_split,
)
from catalogue.review.proposals.actions.talking import people_of
from catalogue.review.proposals.actions.waiting import nothing_waits
from catalogue.review.proposals.retiring import followers_of_retired, reason_not_to_retire, words_of_nowhere
from catalogue.review.proposals.split_checks import refuse_split
from catalogue.review.proposals.standing import (
    Known,
    Rows,
    make_version,
    reason_not_to_become,
    reason_not_to_call_it,
    rows_of_version,
    write_rows,
)
from catalogue.review.proposals.subjects import (
    check,
    is_of_backing,
    is_of_feature,
    is_of_question,
    is_of_scan,
    is_split,
    reason_not_to_touch,
    row_name,
    sort_of,
    stands_now,
)
from catalogue.review.proposals.words import (
    DECIDERS_NEEDED,
    FIRST_OF_TWO,
    DecisionOn,
    ProposalKind,
    ProposalState,
    Weight,
)
from catalogue.review.questions import standing as questions
from catalogue.review.records.decisions import seal_decision
from catalogue.review.scans import standing as scans
from catalogue.review.words import LONGEST

OTHER_CHANGED = "The version that goes was changed since this was written: base the proposal on what stands now first."
CLASHES = "The {} changed since this was written: choose row by row first what shall stand."
GONE_BY = "Somebody else has just decided on this. Look again before you decide."
MOVES = {
    DecisionOn.AGREED: ProposalState.OPEN,
    DecisionOn.APPROVED: ProposalState.APPROVED,
    DecisionOn.RETURNED: ProposalState.RETURNED,
    DecisionOn.DECLINED: ProposalState.DECLINED,
    DecisionOn.UNDO_AGREED: ProposalState.APPROVED,
    DecisionOn.REVOKED: ProposalState.REVOKED,
}


@transaction.atomic
def decide_on_proposal(*, proposal: Proposal, decider: Member, decision: str, reason: str, sending: int) -> Decision:
    """Approve, return or decline the sending that was looked at. Of what two people decide, the first approval is an
    agreement (`DecisionOn.AGREED`), the second by another person approves.

    Approving writes the record with its seal, the decision and the notices, and moves the reference on, or nothing.
    """
    if decision not in (DecisionOn.APPROVED, DecisionOn.RETURNED, DecisionOn.DECLINED):
        raise NotDone("Choose what you decide: approve, return or decline.")
    before, place = lock(proposal, decider, decision, reason, sending)
    if decision != DecisionOn.APPROVED:
        if is_of_scan(proposal) and decision == DecisionOn.DECLINED:
            scans.close(proposal.scan)
        return sealed_and_told(moved(proposal, decider, DecisionOn(decision), reason, place=place), decider)
    now = rows_to_approve_on(proposal)
    if proposal.kind == ProposalKind.SPLIT:
        refuse_split(proposal, now)
        rows = rows_of_divided(proposal)
    else:
        rows = rules.left_to_change(proposal.rows, now)
    if not rows and proposal.kind != ProposalKind.MERGE:
        raise NotDone("All of this stands already: decline it, or let its author withdraw it.")
    Known(proposal.garment_type).keys("sources", proposal.sources)
    if len(before) + 1 < DECIDERS_NEEDED[Weight(proposal.weight)]:
        return sealed_and_told(moved(proposal, decider, DecisionOn.AGREED, reason, place=place), decider)
    was = {key: rules.row_of(now, key) for key in rows}
    if proposal.kind == ProposalKind.SPLIT:
        make_both(proposal, now)
    leaving = followers_of_retired(proposal) if proposal.kind == ProposalKind.RETIRE else ()
    wrote = written(proposal, rows, now, author=proposal.by, why=proposal.grounds)
    made = moved(proposal, decider, DecisionOn.APPROVED, reason, place=place, before=was, after=rows, **wrote)
    if proposal.kind == ProposalKind.MERGE:
        finish_merge(made, now, [decider, *before])
    elif proposal.kind == ProposalKind.SPLIT:
        finish_split(made, now, [decider, *before])
    elif leaving:
        finish_retirement(made, leaving, [decider, *before])
    return sealed_and_told(made, decider)


def rows_to_approve_on(proposal: Proposal) -> Rows:
    """The rows that the proposal would change, as they stand; none for a version that is new. Raises NotDone in words
    where it may not be approved on them."""
    is_merge = proposal.kind == ProposalKind.MERGE
    if proposal.kind == ProposalKind.NEW:
        refuse(reason_not_to_call_it(proposal.new_code))
        now: Rows = {}
    else:
        now = stands_now(proposal)
        if is_merge:  # a circle is named as one, though its rows have changed as well
            refuse(reason_not_to_merge(proposal.version, proposal.other))
        refuse(reason_not_to_touch(proposal, now))
        if proposal.kind == ProposalKind.CHANGE:
            refuse(reason_not_to_become(proposal.version, proposal.rows.get("became", ())))
        refuse(reason_not_to_retire(proposal))
    if rules.clashes(proposal.base, proposal.rows, now):
        raise NotDone(CLASHES.format(sort_of(proposal)))
    if is_merge and rules.other_changed(proposal.other_base, rows_of_version(proposal.other)):
        raise NotDone(OTHER_CHANGED)
    return now


@transaction.atomic
def revoke_approval(*, proposal: Proposal, decider: Member, reason: str, sending: int) -> Decision:
    """Undo by a newer decision: a new record brings the rows back, the approved one stays readable.

    A weighty one takes two people again. Refused where somebody changed the same rows since. A version that the
    proposal made is retired: its address was public and answers for ever.
    """
    before, place = lock(proposal, decider, DecisionOn.REVOKED, reason, sending)
    approved = proposal.decisions.get(kind=DecisionOn.APPROVED)
    back = rows_to_bring_back(proposal, approved, reason)
    now = stands_now(proposal)
    changed = [key for key, value in approved.after.items() if rules.row_of(now, key) != value]
    if changed and (is_split(proposal) or not proposal.new_code):
        known = Known(proposal.garment_type).features
        names = ", ".join(row_name(proposal, key, known).lower() for key in changed)
        raise NotDone(f"Changed again since it was approved: {names}. Propose another change instead.")
    if proposal.kind == ProposalKind.MERGE:
        refuse_moved_on(proposal, approved, now)
    elif proposal.kind == ProposalKind.SPLIT:
        refuse_split_moved_on(approved)
    if proposal.kind == ProposalKind.NEW and now["retired"]:
        raise NotDone("The version is retired already.")
    if proposal.kind == ProposalKind.NEW:
        refuse(words_of_nowhere(proposal.version))
    if len(before) + 1 < DECIDERS_NEEDED[Weight(proposal.weight)]:
        return sealed_and_told(moved(proposal, decider, DecisionOn.UNDO_AGREED, reason, place=place), decider)
    was = {key: rules.row_of(now, key) for key in back}
    wrote = written(proposal, back, now, author=decider, why=reason.strip())
    made = moved(proposal, decider, DecisionOn.REVOKED, reason, place=place, before=was, after=back, **wrote)
    if proposal.kind == ProposalKind.MERGE:
        undo_merge(made, approved, now, [decider, *before])
    elif proposal.kind == ProposalKind.SPLIT:
        undo_split(made, approved, [decider, *before])
    elif proposal.kind == ProposalKind.RETIRE:
        undo_retirement(made, approved, [decider, *before])
    return sealed_and_told(made, decider)


def rows_to_bring_back(proposal: Proposal, approved: Decision, reason: str) -> Rows:
    """What revoking writes. What the proposal made keeps its address: a version is retired, a feature is asked of no
    garment type any more. Raises NotDone in words where something rests on what would go."""
    if proposal.kind == ProposalKind.NEW:
        return {"retired": reason.strip()}
    if is_of_backing(proposal) and proposal.new_code:
        refuse(backing.reason_not_to_take_away(proposal.backing, proposal.backing_code))
        return {}
    if not is_of_feature(proposal):
        return dict(approved.before)
    back = {"types": []} if proposal.new_code else dict(approved.before)
    refuse(rests_on(proposal.feature, {**stands_now(proposal), **back}))
    return back


def written(proposal: Proposal, rows: Rows, now: Rows, *, author: Member, why: str) -> dict[str, object]:
    """Writes the rows to what the proposal is about; that, and its record where it has one, as `moved` takes them."""
    if is_of_backing(proposal):
        made = backing.write_rows(proposal.backing, proposal.backing_code, rows, author=author, why=why)
        return {"backing": str(made)}
    if is_of_question(proposal):
        check(proposal, rows, now)
        questions.write_rows(proposal.question, rows)
        return {"question": proposal.question}
    if is_of_scan(proposal):
        scans.write_rows(proposal.scan, rows)
        return {"scan": proposal.scan}
    if is_of_feature(proposal):
        if rows.get("types") != []:  # a feature that was made by the proposal is asked of nothing any more
            check(proposal, rows, now)
        feature, record = features.write_rows(
            feature=proposal.feature, code=proposal.about_code, rows=rows, author=author, why=why
        )
        return {"feature": feature, "feature_record": record}
    version = proposal.version or make_version(proposal.garment_type, proposal.new_code, proposal.rows)
    return {"version": version, "record": write_rows(version=version, rows=rows, author=author, why=why)}


def lock(
    proposal: Proposal, decider: Member, decision: str, reason: str, sending: int
) -> tuple[Sequence[Member], Member | None]:
    """Waits for whoever else decides, refuses in words, and gives the people who agreed to this already, and the
    moderator in whose place this is decided, None for one's own."""
    if not may_decide(decider):
        raise NotDone("Only moderators decide on proposals, and who stands in for one that is away.")
    if is_of_scan(proposal) and not may(decider, REVIEW_REFERENCE):
        raise NotDone("Names may stand on a scan: moderators decide on it themselves.")
    ReferenceState.hold()
    # The row is held from here to the end of the transaction, also where the reference has no state yet.
    Proposal.objects.filter(pk=proposal.pk).update(revision=F("revision") + 1)
    proposal.refresh_from_db()
    fault, place = reason_and_place(proposal, decider, decision, reason=reason, sending=sending)
    refuse(fault)
    return [one.by for one in agreements(proposal, decision)], place


def agreements(proposal: Proposal, decision: str) -> Sequence[Decision]:
    """The first of two that were written for this decision on the present sending."""
    kind = FIRST_OF_TWO.get(DecisionOn(decision))
    rows = proposal.decisions.filter(kind=kind, sending=proposal.times_sent) if kind else Decision.objects.none()
    return list(rows.select_related("by", "in_place_of"))


def reason_and_place(
    proposal: Proposal, decider: Member, decision: str, *, reason: str, sending: int
) -> tuple[str | None, Member | None]:
    """Why somebody who may decide does not decide this, in words, and None where they do; then the moderator in whose
    place. One who moderates takes their own place, others the first that they stand in for and that is free."""
    places = [None] if may(decider, REVIEW_REFERENCE) else stood_in_for(decider)
    agreed = agreements(proposal, decision)
    took = [one for made in agreed for one in (made.by, made.in_place_of) if one]
    author, faults = addresses(proposal.by), []
    for place in places:
        own = addresses(decider) + (addresses(place) if place else [])
        fault = rules.reason_not_to_decide(
            decision=decision,
            state=proposal.state,
            decider=decider.pk,
            author=proposal.by_id,
            shared_mailbox=same_person(own, author),
            reason=reason,
            sending=sending,
            times_sent=proposal.times_sent,
            agreed=[one.pk for one in took],
            agreed_shared=any(same_person(own, addresses(one)) for one in took),
            place=(place.pk, place.username) if place else None,
        )
        if fault is None:
            return None, place
        faults.append(fault)
    return faults[0], None


def moved(
    proposal: Proposal,
    decider: Member,
    kind: DecisionOn,
    reason: str,
    *,
    place: Member | None,
    version: IssueVersion | None = None,
    record: VersionRecord | None = None,
    feature: Feature | None = None,
    feature_record: FeatureRecord | None = None,
    question: OpenQuestion | None = None,
    scan: SourceScan | None = None,
    backing: str = "",
    before: Rows | None = None,
    after: Rows | None = None,
) -> Decision:
    """Move the proposal by compare-and-set and write the decision down."""
    changes = {"state": MOVES[kind], "revision": F("revision") + 1}
    changes |= {name: one for name, one in (("version", version), ("feature", feature)) if one}
    if not Proposal.objects.filter(pk=proposal.pk, revision=proposal.revision).update(**changes):
        raise NotDone(GONE_BY)
    proposal.refresh_from_db()
    if proposal.state != ProposalState.OPEN:
        nothing_waits(proposal)
    return Decision.objects.create(
        proposal=proposal,
        by=decider,
        in_place_of=place,
        kind=kind,
        sending=proposal.times_sent,
        reason=reason.strip()[:LONGEST],
        record=record,
        feature_record=feature_record,
        question=question,
        scan=scan,
        backing=backing,
        before=before or {},
        after=after or {},
    )


def sealed_and_told(decision: Decision, decider: Member) -> Decision:
    """At the end, when all that the decision wrote is there."""
    seal_decision(decision)
    for member in people_of(decision.proposal, but=decider):
        tell(member, proposal_decision=decision)
    return decision
