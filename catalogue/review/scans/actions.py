"""Putting a scan in, making a part of it unreadable, taking it out. What is refused raises NotDone with words for the
person, and leaves nothing behind. Opening a picture takes seconds, so it is done before the database is asked to wait.
"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from uuid import uuid4

from django.db import transaction
from django.db.models import F
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.accounts.roles import REVIEW_REFERENCE, may
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.actions.refusals import refuse
from catalogue.member_examples.photographs import keeping
from catalogue.member_examples.photographs.hiding import Area
from catalogue.member_examples.photographs.intake import Refused, hidden, take_in
from catalogue.member_examples.photographs.keeping import NotKept, kept
from catalogue.member_examples.photographs.limits import SIZES
from catalogue.reference.models import GarmentType, ReferenceState, Source, SourceScan
from catalogue.reference.words import NamesOnScan
from catalogue.review.models import Proposal, ProposalWord
from catalogue.review.proposals.actions.drafting import refuse_strangers
from catalogue.review.proposals.rules import CHANGEABLE
from catalogue.review.proposals.words import ProposalKind, ProposalState, Weight
from catalogue.review.scans import standing

MOST_AT_A_SOURCE = 30
THERE = "This very picture stands at this source already, or waits there."
THERE_OF_OWN = "You have put this very picture in already: it stands in your draft."
OTHER_PICTURE = "The picture was changed or taken out meanwhile. Look at it again."


class AlreadyThere(NotDone):
    """The same picture is at the source already; `scan`: the one that is there."""

    def __init__(self, scan: SourceScan, by: Member):
        own_draft = scan.proposal.by_id == by.pk and scan.proposal.state in CHANGEABLE
        super().__init__(THERE_OF_OWN if own_draft else THERE)
        self.scan = scan


def begin_scan(*, by: Member, source: Source, file) -> Proposal:
    """A draft with the picture; nobody else sees it before it is sent."""
    refuse_strangers(by, Weight.SMALL)
    refuse(reason_against(source))
    try:
        picture = take_in(file)
    except Refused as refusal:
        raise NotDone(str(refusal)) from refusal
    with keeping_words(), kept(picture.sizes) as key, transaction.atomic():
        ReferenceState.hold()
        refuse(reason_against(source))
        same = source.scans.filter(sha256=picture.sha256).exclude(key="").select_related("proposal").first()
        if same:
            raise AlreadyThere(same, by)
        scan = SourceScan.objects.create(
            source=source, key=key, width=picture.width, height=picture.height, sha256=picture.sha256
        )
        return Proposal.objects.create(
            kind=ProposalKind.SCAN,
            by=by,
            garment_type=home_of(source),
            scan=scan,
            rows={"credit": by.username},
            weight=Weight.SMALL,
        )


def reason_against(source: Source) -> str | None:
    if not Source.objects.filter(pk=source.pk).exists():
        return "This source is not there any more."
    if source.scans.exclude(key="").count() >= MOST_AT_A_SOURCE:
        return f"A source has at most {MOST_AT_A_SOURCE} scans, those that wait among them."
    return None


def home_of(source: Source) -> GarmentType:
    """The garment type under which the proposal is listed: that of a version that rests on the source."""
    cited = source.citations.filter(version__isnull=False).select_related("version__garment_type").first()
    in_cell = source.citations.filter(cell__isnull=False).select_related("cell__record__version__garment_type").first()
    if cited:
        return cited.version.garment_type
    found = in_cell.cell.record.version.garment_type if in_cell else GarmentType.objects.first()
    if found is None:
        raise NotDone("There is no garment type yet for which a source could speak.")
    return found


def may_blur(person: Member, scan: SourceScan) -> bool:
    """Its author while it is being written, moderators once it was sent."""
    proposal = scan.proposal
    if not scan.key:
        return False
    if proposal.by_id == person.pk and proposal.state in CHANGEABLE:
        return True
    return proposal.state in (ProposalState.OPEN, ProposalState.APPROVED) and may(person, REVIEW_REFERENCE)


def blur(*, scan: SourceScan, by: Member, areas: Sequence[Area], seen: str) -> None:
    """Make areas unreadable in every size, for good. `seen`: the key of the picture that was looked at."""
    if not may_blur(by, scan):
        raise NotDone("Its author does this before sending it, and a moderator does it after.")
    try:
        made = hidden(keeping.read(scan.key, SIZES[0]), areas)
    except Refused as refusal:
        raise NotDone(str(refusal)) from refusal
    except OSError as problem:
        raise NotDone("The picture's file cannot be read just now. Nothing was changed; try again.") from problem
    with keeping_words(), kept(made.sizes) as key, transaction.atomic():
        held = held_scan(scan, seen)
        if not may_blur(by, held):
            raise NotDone(OTHER_PICTURE)
        standing.forget_files(held)
        held.key, held.blurred, held.width, held.height = key, True, made.width, made.height
        held.save()
        if held.proposal.state != ProposalState.APPROVED:
            rows = held.proposal.rows | {"names": NamesOnScan.MASKED.value}
            Proposal.objects.filter(pk=held.proposal.pk).update(rows=rows, revision=F("revision") + 1)
        ReferenceState.mark_changed()


@transaction.atomic
def take_out(*, scan: SourceScan, by: Member, seen: str) -> None:
    """Who put a scan in takes it out when they like, as a photograph of a piece: shown no more, its files gone."""
    held = held_scan(scan, seen)
    if held.proposal.by_id != by.pk or not held.shown:
        raise NotDone("Who put a scan in takes it out; a moderator revokes it.")
    held.shown = False
    standing.forget_files(held)
    held.save()
    on = timezone.localdate()
    ProposalWord.objects.create(
        proposal=held.proposal, by=by, text=f"I have taken the scan out, {on.day} {on:%B %Y}.", sent_once=uuid4()
    )
    ReferenceState.mark_changed()


def held_scan(scan: SourceScan, seen: str) -> SourceScan:
    """The row while nobody else changes the reference, if it still has the picture that was looked at."""
    ReferenceState.hold()
    held = SourceScan.objects.select_related("proposal__by").filter(pk=scan.pk).first()
    if held is None or held.key != seen or not held.key:
        raise NotDone(OTHER_PICTURE)
    return held


@contextmanager
def keeping_words() -> Iterator[None]:
    """What the storage refuses is told like any other refusal."""
    try:
        yield
    except NotKept as problem:
        raise NotDone(str(problem)) from problem
