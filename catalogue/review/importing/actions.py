"""The one way in which an import meets review."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.accounts.roles import MAINTAIN_REFERENCE, may
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.actions.refusals import refuse
from catalogue.reference.actions import Tell, checked_folder, tell_nobody, write_and_mark, wrote
from catalogue.reference.models import Feature, GarmentType, IssueVersion, ReferenceState
from catalogue.reference.spreadsheets.writer import Count
from catalogue.review.backing import standing as backing
from catalogue.review.importing.features import take_out_features
from catalogue.review.importing.settled import keep_views, sign_views, views_there
from catalogue.review.importing.sorting import Rows, Wanted, compare_profiles, sources_of, take_out
from catalogue.review.importing.written_down import note_changes, standing
from catalogue.review.models import Proposal, ReferenceImport
from catalogue.review.proposals.actions import (
    begin_change,
    begin_feature,
    begin_new_version,
    begin_on_backing,
    save_draft,
    send_proposal,
)
from catalogue.review.proposals.retiring import words_of_nowhere
from catalogue.review.proposals.rules import changed_rows
from catalogue.review.proposals.standing import reason_not_to_become, rows_of_version
from catalogue.review.proposals.words import FEATURE, ProposalKind, ProposalState
from catalogue.review.words import LONGEST

# A proposal in one of these states that wants the same answers the import already.
ANSWERED = (
    ProposalState.OPEN,
    ProposalState.RETURNED,
    ProposalState.DECLINED,
    ProposalState.REVOKED,
)


@dataclass
class Outcome:
    """What became of an import. `counts`: what was written at once, by sheet; `written`: numbers of new proposals;
    `left`, `refused`: versions of which none was written, with why, in words.
    """

    counts: dict[str, Count]
    waits: list[str]
    written: list[int] = field(default_factory=list)
    left: list[str] = field(default_factory=list)
    refused: list[str] = field(default_factory=list)


@transaction.atomic
def propose_import(*, folder: Path, by: Member, because: str, tell: Tell = tell_nobody) -> Outcome:
    """Bring the society's files in under review: each version that they change becomes a proposal that was sent, by
    `by` and grounded on `because`, with the sources that it names. What is under no review is written at once.

    Raises FaultyFolder with every fault at once, NotDone where `by` may not; then nothing was written.
    """
    if not may(by, MAINTAIN_REFERENCE):
        raise NotDone("Authors, moderators and the secretary bring spreadsheets in.")
    if not because.strip():
        raise NotDone("Say on what the changes rest.")
    read = checked_folder(folder, tell)
    ReferenceState.hold()
    wanted, profiles = take_out(read)
    take_out_features(read, wanted)
    keep_views(read, wanted)
    views, stood = views_there(), standing()
    counts = write_and_mark(read, tell, written_by=by, why=because.strip())
    sign_views(views, by)
    if wrote(counts):
        note_changes(stood, by=by, why=because.strip())
    outcome = Outcome(counts, wanted.waits, left=list(wanted.kept))
    compare_profiles(wanted, profiles)
    made = ReferenceImport.objects.create(by=by, because=because.strip()[:LONGEST])
    about = [(key, propose_backing) for key in wanted.backings]
    about += [(code, propose_feature) for code in wanted.features]
    about += [(code, propose) for code in wanted.codes()]
    for code, act in about:
        try:
            with transaction.atomic():
                act(code, wanted, made, outcome)
        except NotDone as refusal:
            name = code[1] if isinstance(code, tuple) else code
            outcome.refused.append(f"{name}: {refusal}")
    if not outcome.written:
        made.delete()
    return outcome


def propose(code: str, wanted: Wanted, made: ReferenceImport, outcome: Outcome) -> None:
    """One proposal, if nobody has answered the same already."""
    if code in wanted.moved:
        raise NotDone(f"a version does not go to another garment type ({wanted.moved[code]}) by an import")
    if code in wanted.unready:
        raise NotDone(f"it names {wanted.unready[code]}, which is only proposed: import this again once it stands")
    fields, profile = wanted.fields.get(code, {}), wanted.profiles.get(code)
    for key, words in (("continues", "continues"), ("made_from", "was made from"), ("became", "became")):
        if missing := [one for one in fields.get(key, []) if one in wanted.new]:
            raise NotDone(f"it {words} {', '.join(missing)}: import this again once that is approved")
    version = None if code in wanted.new else IssueVersion.objects.select_related("garment_type").get(code=code)
    base = rows_of_version(version) if version else {}
    if version and fields.get("became", base["became"]) != base["became"]:
        refuse(reason_not_to_become(version, fields["became"]))
    if version and fields.get("retired") and not base["retired"] and not fields.get("became"):
        refuse(words_of_nowhere(version))
    features = {key: value for key, value in base.items() if key.startswith(FEATURE)} if profile is None else profile
    others = {key: value for key, value in base.items() if not key.startswith(FEATURE)}
    rows = changed_rows(base, others | fields | features)
    if same := answered(code, rows, new=version is None):
        outcome.left.append(f"{code}: proposal {same.pk}, {same.get_state_display().lower()}, says the same")
        return
    if version is None and (other := waiting(code)):
        raise NotDone(f"proposal {other.pk} for it waits, and says something else: withdraw that one first")
    outcome.written.append(sent(version, code, wanted, rows, made).pk)


def propose_backing(key: tuple[str, str], wanted: Wanted, made: ReferenceImport, outcome: Outcome) -> None:
    """The same of what versions rest on."""
    table, code = key
    rows = wanted.backings[key]
    new = not backing.found(table, code)
    others = Proposal.objects.filter(backing=table, backing_code=code, state__in=ANSWERED).order_by("-pk")
    wants = {name: value for name, value in rows.items() if value != ""} if new else rows
    if same := next((one for one in others if {**one.rows} == wants), None):
        outcome.left.append(f"{code}: proposal {same.pk}, {same.get_state_display().lower()}, says the same")
        return
    begun = begin_on_backing(by=made.by, table=table, code=code, new=new, name=str(rows.get("name", "")))
    outcome.written.append(brought_in(begun, rows, [], made).pk)


def propose_feature(code: str, wanted: Wanted, made: ReferenceImport, outcome: Outcome) -> None:
    """The same of a feature."""
    begun = begin_feature(by=made.by, feature=Feature.objects.get(code=code))
    rows = {key: in_its_place(value, begun.base.get(key)) for key, value in wanted.features[code].items()}
    others = Proposal.objects.filter(kind=ProposalKind.FEATURE, feature__code=code, state__in=ANSWERED).order_by("-pk")
    if same := next((one for one in others if one.rows == rows), None):
        Proposal.objects.filter(pk=begun.pk, revision=0).delete()
        outcome.left.append(f"{code}: proposal {same.pk}, {same.get_state_display().lower()}, says the same")
        return
    outcome.written.append(brought_in(begun, rows, [], made).pk)


def in_its_place(value, stands):
    """A state where it stands now: what else was imported may have moved it."""
    return {**value, "position": stands["position"]} if isinstance(value, dict) and stands else value


def sent(version: IssueVersion | None, code: str, wanted: Wanted, rows: Rows, made: ReferenceImport) -> Proposal:
    if version is None:
        home = GarmentType.objects.get(code=wanted.new[code])
        begun = begin_new_version(by=made.by, garment_type=home, code=code, name=str(rows["name"]))
    else:
        begun = begin_change(by=made.by, version=version)
    return brought_in(begun, rows, sources_of(rows), made)


def brought_in(begun: Proposal, rows: Rows, sources: Sequence[str], made: ReferenceImport) -> Proposal:
    """A draft with these rows, sent as one of the import."""
    draft = save_draft(
        proposal=begun,
        by=made.by,
        revision=begun.revision,
        wanted=begun.base | rows,
        grounds=made.because,
        sources=sources,
    )
    Proposal.objects.filter(pk=draft.pk).update(brought_in=made)
    return send_proposal(proposal=draft, by=made.by)


def about(code: str, *, new: bool, states: Sequence[str]):
    of = {"kind": ProposalKind.NEW, "new_code": code} if new else {"version__code": code}
    return Proposal.objects.filter(state__in=states, **of).order_by("-pk")


def answered(code: str, rows: Rows, *, new: bool) -> Proposal | None:
    return next((one for one in about(code, new=new, states=ANSWERED) if one.rows == rows), None)


def waiting(code: str) -> Proposal | None:
    return about(code, new=True, states=(ProposalState.OPEN, ProposalState.RETURNED)).first()
