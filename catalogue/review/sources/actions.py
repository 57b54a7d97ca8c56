"""A source that is not listed yet is added, and taken back. Each refuses with `NotDone`, in words; then nothing was
written."""

import json
import re
from collections import Counter

from django.db import transaction
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.accounts.roles import PROPOSE_CHANGES, REVIEW_REFERENCE, may
from catalogue.member_examples.actions import NotDone
from catalogue.reference.codes import alike
from catalogue.reference.models import ReferenceState, Source
from catalogue.review.models import Proposal, SourceAddition
from catalogue.review.notices.telling import read_by_all, tell, tell_all, those_who_may
from catalogue.review.proposals.words import ProposalState
from catalogue.review.words import LONGEST

NUMBERED = re.compile(r"(.*?)(\d{1,9})", re.ASCII)
RESTS = "Something rests on this source, or cites it: it stays. Propose a change of what cites it first."
GONE = "This source is not there any more."


@transaction.atomic
def add_source(*, by: Member, **fields) -> SourceAddition:
    """A source under the next number, and that it was added by whom; moderators are told. The same by the same member
    again is the one that is there. `fields`: what a source says of itself, without its code."""
    if not may(by, PROPOSE_CHANGES):
        raise NotDone("Members add sources. Sign in first.")
    ReferenceState.hold()
    for there in Source.objects.filter(kind=fields["kind"]).select_related("addition"):
        if alike(there.title) == alike(fields["title"]):
            made = getattr(there, "addition", None)
            if made and made.by_id == by.pk and all(getattr(there, name) == said for name, said in fields.items()):
                return made
            if there.date == fields["date"]:
                raise NotDone(f"{there.code} has this title and date already: cite that, or say how this one differs.")
    source = Source.objects.create(code=next_code(), **fields)
    made = SourceAddition.objects.create(source=source, code=source.code, title=source.title, by=by)
    ReferenceState.mark_changed()
    tell_all(those_who_may(REVIEW_REFERENCE), but=by.pk, source_added=made)
    return made


def next_code() -> str:
    """The number behind all that the society has used, written as most of its sources are; S01 is the first."""
    used = [*Source.objects.values_list("code", flat=True), *SourceAddition.objects.values_list("code", flat=True)]
    found = [match.groups() for code in used if (match := NUMBERED.fullmatch(code))]
    begins = Counter(letters for letters, _ in found).most_common(1)[0][0] if found else "S"
    numbers = [number for letters, number in found if alike(letters) == alike(begins)]
    number, width = 1 + max(map(int, numbers), default=0), min(map(len, numbers), default=2)
    taken = set(map(alike, used))
    while alike(f"{begins}{number:0{width}}") in taken:
        number += 1
    return f"{begins}{number:0{width}}"


def may_take_back(addition: SourceAddition, person: Member) -> bool:
    """Moderators, and who added it."""
    return bool(addition.source_id) and (
        may(person, REVIEW_REFERENCE) or (addition.by_id == person.pk and may(person, PROPOSE_CHANGES))
    )


@transaction.atomic
def take_back(*, addition: SourceAddition, by: Member, reason: str) -> SourceAddition:
    """The source is on the list no more; that it was, and why it went, stays. Who added it is told."""
    ReferenceState.hold()
    addition = SourceAddition.objects.select_related("source", "by").get(pk=addition.pk)
    if addition.source is None:
        raise NotDone(GONE)
    if not may_take_back(addition, by):
        raise NotDone("A source is taken back by who added it, or by a moderator.")
    if not reason.strip():
        raise NotDone("Write down why; it stays in the list of sources that were added.")
    if is_rested_on(addition.source):
        raise NotDone(RESTS)
    source = addition.source
    addition.source, addition.taken_back_by, addition.taken_back_at = None, by, timezone.now()
    addition.reason = reason.strip()[:LONGEST]
    addition.save()
    source.delete()
    ReferenceState.mark_changed()
    read_by_all(source_added=addition)
    if addition.by_id != by.pk:
        tell(addition.by, source_added=addition)
    return addition


def is_rested_on(source: Source) -> bool:
    """Whether a claim of any record, a size table, a view, a scan or a proposal that was sent names it."""
    if any(getattr(source, rows).exists() for rows in ("citations", "size_lengths", "views", "scans")):
        return True
    sent = Proposal.objects.exclude(state=ProposalState.DRAFT).values_list("sources", "rows", "state")
    waits = (ProposalState.OPEN, ProposalState.RETURNED)
    return any(
        source.code in codes or (state in waits and json.dumps(source.code) in json.dumps(rows))
        for codes, rows, state in sent
    )
