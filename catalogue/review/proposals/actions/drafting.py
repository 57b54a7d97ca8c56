"""Writing a proposal: begun, saved, sent, withdrawn, and brought up to the record that stands now."""

from collections.abc import Mapping, Sequence
from uuid import uuid4

from django.db import transaction
from django.db.models import F
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.accounts.roles import MAINTAIN_REFERENCE, PROPOSE_CHANGES, REVIEW_REFERENCE, may
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.actions.refusals import refuse
from catalogue.reference.models import Feature, GarmentType, IssueVersion, OpenQuestion, ReferenceState, VersionRecord
from catalogue.reference.words import Certainty, VersionKind
from catalogue.review.backing import standing as backing
from catalogue.review.features import standing as features
from catalogue.review.models import Proposal, ProposalWord
from catalogue.review.proposals import rules
from catalogue.review.proposals.actions.waiting import nothing_waits, tell_who_decides
from catalogue.review.proposals.prefilled import Prefilled
from catalogue.review.proposals.retiring import reason_not_to_retire
from catalogue.review.proposals.split_checks import refuse_split
from catalogue.review.proposals.standing import Known, Rows, reason_not_to_call_it, rows_of_version
from catalogue.review.proposals.subjects import (
    check,
    is_of_scan,
    is_split,
    reason_not_to_touch,
    row_name,
    sort_of,
    stands_now,
)
from catalogue.review.proposals.words import FEATURE, ProposalKind, ProposalState, Weight
from catalogue.review.questions import standing as questions
from catalogue.review.scans import standing as scans
from catalogue.review.words import LONGEST

CHANGED_ELSEWHERE = "This was saved elsewhere meanwhile. Open it again; what you typed there stands."
COPIED_FIELDS = ("kind", "cut", "colourway", "issuer", "date", "reason")
# What a cell rests on was said of the version that is copied; of the new one nobody has said it yet.
UNGROUNDED = {"certainty": "", "sources": [], "note": ""}


def refuse_strangers(person: Member, weight: str) -> None:
    if not may(person, PROPOSE_CHANGES):
        raise NotDone("Members propose changes. Sign in first.")
    refuse(rules.reason_not_to_propose(weight=weight, may_maintain=may(person, MAINTAIN_REFERENCE)))


@transaction.atomic
def begin_change(*, by: Member, version: IssueVersion, retire: bool = False) -> Proposal:
    """A draft on today's record of the version; one's own that is still empty is gone on with."""
    kind = ProposalKind.RETIRE if retire else ProposalKind.CHANGE
    refuse_strangers(by, Weight.WEIGHTY if retire else Weight.SMALL)
    if retire and version.retired_why:
        raise NotDone(f"{version.name} is retired already.")
    begun = by.proposals.filter(version=version, kind=kind, state=ProposalState.DRAFT, revision=0).first()
    base = rows_of_version(version)
    if begun and begun.base == base:
        return begun
    return Proposal.objects.create(
        kind=kind,
        by=by,
        garment_type=version.garment_type,
        version=version,
        based_on=version.current_record,
        base=base,
        weight=Weight.WEIGHTY if retire else Weight.SMALL,
    )


@transaction.atomic
def begin_prefilled(*, by: Member, version: IssueVersion, offered: Prefilled) -> Proposal:
    """A draft of a change with what pieces suggest written into it; the same again is the same draft."""
    made = begin_change(by=by, version=version)
    drafts = by.proposals.filter(version=version, kind=ProposalKind.CHANGE, state=ProposalState.DRAFT)
    for draft in drafts.exclude(pk=made.pk):
        if draft.rows == offered.rows and draft.base == made.base:
            if not made.revision:
                made.delete()
            return draft
    wanted = made.base | offered.rows
    return save_draft(proposal=made, by=by, revision=made.revision, wanted=wanted, grounds=offered.grounds, sources=[])


@transaction.atomic
def begin_new_version(
    *, by: Member, garment_type: GarmentType, code: str, name: str, copy_of: IssueVersion | None = None
) -> Proposal:
    """A draft of a version that is not there yet, empty or with the profile of another, which it then continues: its
    states are carried over, without their sources."""
    refuse_strangers(by, Weight.WEIGHTY)
    refuse(reason_not_to_call_it(code.strip()))
    if not name.strip():
        raise NotDone("A new version needs a name.")
    rows: Rows = {"name": name.strip(), "kind": VersionKind.ISSUE.value, "certainty": Certainty.INFERRED.value}
    if copy_of is not None:
        whole = rows_of_version(copy_of)
        rows |= {key: whole[key] for key in COPIED_FIELDS if whole[key]} | {"continues": [copy_of.code]}
        rows |= {
            key: [{name: part for name, part in (cell | UNGROUNDED).items() if name != "against"} for cell in value]
            for key, value in whole.items()
            if key.startswith(FEATURE)
        }
    return Proposal.objects.create(
        kind=ProposalKind.NEW,
        by=by,
        garment_type=garment_type,
        new_code=code.strip(),
        rows=rows,
        weight=Weight.WEIGHTY,
    )


@transaction.atomic
def begin_feature(*, by: Member, feature: Feature) -> Proposal:
    """A draft on a feature as it stands today; one's own that is still empty is gone on with."""
    refuse_strangers(by, Weight.SMALL)
    base = features.rows_of(feature)
    begun = by.proposals.filter(feature=feature, state=ProposalState.DRAFT, revision=0).first()
    if begun and begun.base == base:
        return begun
    home = feature.garment_types.order_by("position", "code").first() or GarmentType.objects.first()
    if home is None:
        raise NotDone("There is no garment type that could be asked for it.")
    return Proposal.objects.create(kind=ProposalKind.FEATURE, by=by, garment_type=home, feature=feature, base=base)


@transaction.atomic
def begin_on_question(*, by: Member, question: OpenQuestion) -> Proposal:
    """A draft on an open question as it stands today; one's own that is still empty is gone on with."""
    refuse_strangers(by, Weight.SMALL)
    base = questions.rows_of(question)
    begun = by.proposals.filter(question=question, state=ProposalState.DRAFT, revision=0).first()
    if begun and begun.base == base:
        return begun
    touched = question.versions.select_related("garment_type").order_by("garment_type__position", "code").first()
    home = touched.garment_type if touched else GarmentType.objects.first()
    if home is None:
        raise NotDone("There is no garment type yet that a question could be about.")
    return Proposal.objects.create(kind=ProposalKind.QUESTION, by=by, garment_type=home, question=question, base=base)


@transaction.atomic
def begin_on_backing(*, by: Member, table: str, code: str, new: bool = False, name: str = "") -> Proposal:
    """A draft on a record that versions rest on, or of one that is not there yet; one's own that is still empty is gone
    on with."""
    refuse_strangers(by, Weight.WEIGHTY)
    code = code.strip()
    refuse(backing.reason_not_to_touch(table, code, new=new))
    if new and not name.strip():
        raise NotDone(f"A {backing.backing_of(table).sort} needs a name.")
    base = {} if new else backing.rows_of(table, code)
    mine = by.proposals.filter(kind=ProposalKind.BACKING, state=ProposalState.DRAFT, revision=0)
    begun = mine.filter(backing=table, backing_code=code).first()
    if begun and begun.base == base and not new:
        return begun
    home = GarmentType.objects.first()
    if home is None:
        raise NotDone("There is no garment type yet: what versions rest on is proposed once there are versions.")
    return Proposal.objects.create(
        kind=ProposalKind.BACKING,
        by=by,
        garment_type=home,
        backing=table,
        backing_code=code,
        new_code=code if new else "",
        base=base,
        rows={"name": name.strip()} if new else {},
        weight=Weight.WEIGHTY,
    )


@transaction.atomic
def begin_new_feature(*, by: Member, garment_type: GarmentType, code: str, name: str) -> Proposal:
    """A draft of a feature that is not there yet."""
    refuse_strangers(by, Weight.WEIGHTY)
    refuse(features.reason_not_to_call_it(code.strip()))
    if not name.strip():
        raise NotDone("A feature needs its trade word.")
    return Proposal.objects.create(
        kind=ProposalKind.FEATURE,
        by=by,
        garment_type=garment_type,
        new_code=code.strip(),
        rows=features.new_rows(garment_type, name.strip()),
        weight=Weight.WEIGHTY,
    )


@transaction.atomic
def save_draft(
    *, proposal: Proposal, by: Member, revision: int, wanted: Rows, grounds: str, sources: Sequence[str]
) -> Proposal:
    """Keep what was typed. `wanted`: the whole state that is wanted; only what differs from `base` is kept as rows.

    `revision`: that of the proposal when the form was opened, so that a save from another phone is not lost.
    """
    if by.pk != proposal.by_id:
        raise NotDone("This is not your proposal.")
    if proposal.state not in rules.CHANGEABLE:
        raise NotDone("This proposal waits for a decision. Withdraw it, or write in its thread.")
    rows = rules.changed_rows(proposal.base, wanted)
    weight = rules.weight_of(proposal.kind, proposal.base, rows)
    refuse_strangers(by, weight)
    if rows or proposal.kind != ProposalKind.BACKING:
        check(proposal, rows, proposal.base)
    Known(proposal.garment_type).keys("sources", sources)
    still = Proposal.objects.filter(pk=proposal.pk, revision=revision, state__in=rules.CHANGEABLE)
    changed = {"rows": rows, "weight": weight, "grounds": grounds.strip()[:LONGEST], "sources": list(sources)}
    if not still.update(revision=F("revision") + 1, **changed):
        raise NotDone(CHANGED_ELSEWHERE)
    proposal.refresh_from_db()
    return proposal


@transaction.atomic
def send_proposal(*, proposal: Proposal, by: Member) -> Proposal:
    """Put it before those who decide; a returned one again. What clashes with today's record is settled first."""
    if by.pk != proposal.by_id:
        raise NotDone("This is not your proposal.")
    proposal.refresh_from_db()
    refuse_strangers(by, proposal.weight)
    refuse(
        rules.reason_not_to_send(state=proposal.state, rows=proposal.rows, grounds=proposal.grounds, kind=proposal.kind)
    )
    Known(proposal.garment_type).keys("sources", proposal.sources)
    check(proposal, proposal.rows, proposal.base)
    if proposal.kind == ProposalKind.NEW:
        refuse(reason_not_to_call_it(proposal.new_code))
    else:
        stands = stands_now(proposal)
        refuse(reason_not_to_touch(proposal, stands))
        if rules.clashes(proposal.base, proposal.rows, stands):
            raise NotDone(f"The {sort_of(proposal)} changed since you began: choose row by row first what shall stand.")
        refuse(reason_not_to_retire(proposal))
        if is_split(proposal):
            refuse_split(proposal, stands)
    if proposal.other and rules.other_changed(proposal.other_base, rows_of_version(proposal.other)):
        raise NotDone("The version that goes was changed since you began: base the proposal on what stands now first.")
    still = Proposal.objects.filter(pk=proposal.pk, revision=proposal.revision, state=proposal.state)
    now = timezone.now()
    if not still.update(
        state=ProposalState.OPEN, sent_at=now, times_sent=F("times_sent") + 1, revision=F("revision") + 1
    ):
        raise NotDone(CHANGED_ELSEWHERE)
    proposal.refresh_from_db()
    tell_who_decides(proposal)
    return proposal


@transaction.atomic
def withdraw_proposal(*, proposal: Proposal, by: Member) -> Proposal:
    """Its author takes back what was sent; it stays readable."""
    if by.pk != proposal.by_id:
        raise NotDone("This is not your proposal.")
    still = Proposal.objects.filter(pk=proposal.pk, state__in=(ProposalState.OPEN, ProposalState.RETURNED))
    if not still.update(state=ProposalState.WITHDRAWN, revision=F("revision") + 1):
        raise NotDone("This proposal was decided meanwhile, or taken back already.")
    proposal.refresh_from_db()
    nothing_waits(proposal)
    if is_of_scan(proposal):
        scans.close(proposal.scan)
    return proposal


@transaction.atomic
def discard_draft(*, proposal: Proposal, by: Member) -> None:
    """A draft that was never sent goes, without a trace: nobody else has seen it."""
    mine = Proposal.objects.filter(pk=proposal.pk, by=by, state=ProposalState.DRAFT, times_sent=0)
    if not mine.delete()[0]:
        raise NotDone("Only a draft that was never sent can be thrown away. Withdraw it instead.")
    if proposal.scan:
        scans.throw_away(proposal.scan)


@transaction.atomic
def settle_clashes(*, proposal: Proposal, by: Member, choices: Mapping[str, str], revision: int) -> Proposal:
    """For each row that others changed meanwhile: `ours` keeps the proposal's, `theirs` what stands now.

    The proposal is then based on today's record, and what was agreed to before counts no longer. Done by its author, or
    by somebody who decides.
    """
    if by.pk != proposal.by_id and not may(by, REVIEW_REFERENCE):
        raise NotDone("This is done by its author or by a moderator.")
    ReferenceState.hold()
    proposal.refresh_from_db()
    if proposal.state not in (*rules.CHANGEABLE, ProposalState.OPEN) or not proposal.base:
        raise NotDone("There is nothing to settle here any more.")
    now = stands_now(proposal)
    clashing = rules.clashes(proposal.base, proposal.rows, now)
    if missing := [key for key in clashing if choices.get(key) not in ("ours", "theirs")]:
        raise NotDone(f"Choose for each row what shall stand; {len(missing)} left.")
    kept = {key: value for key, value in proposal.rows.items() if choices.get(key) != "theirs" or key not in clashing}
    kept = rules.left_to_change(kept, now)
    if not kept and proposal.kind != ProposalKind.MERGE:
        raise NotDone("Nothing of the proposal would be left. Withdraw it, or decline it, instead.")
    weight = rules.weight_of(proposal.kind, now, kept)
    refuse_strangers(proposal.by, weight)
    still = Proposal.objects.filter(pk=proposal.pk, revision=revision, state=proposal.state)
    sent_again = 1 if proposal.state == ProposalState.OPEN else 0
    changed = {"base": now, "rows": kept, "weight": weight, "based_on": based_on(proposal)}
    if proposal.other:
        changed["other_base"] = rows_of_version(proposal.other)
    if not still.update(revision=F("revision") + 1, times_sent=F("times_sent") + sent_again, **changed):
        raise NotDone(CHANGED_ELSEWHERE)
    if (clashing or proposal.other) and proposal.state != ProposalState.DRAFT:
        ProposalWord.objects.create(
            proposal=proposal, by=by, text=settled_words(proposal, clashing, choices), sent_once=uuid4()
        )
    proposal.refresh_from_db()
    return proposal


def based_on(proposal: Proposal) -> VersionRecord | None:
    """The record of a version that stands now; a feature's are told by their day."""
    return proposal.version.current_record if proposal.version else None


def settled_words(proposal: Proposal, clashing: Sequence[str], choices: Mapping[str, str]) -> str:
    names = Known(proposal.garment_type).features
    told = {"ours": "as proposed", "theirs": "as it stands now"}
    chosen = [f"{row_name(proposal, key, names)}: {told[choices[key]]}" for key in clashing]
    if not chosen:
        return "The version that goes had changed. The proposal is based on what stands now."
    return f"The {sort_of(proposal)} had changed. Chosen row by row: {'; '.join(chosen)}."
