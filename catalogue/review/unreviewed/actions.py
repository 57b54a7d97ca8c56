"""Letting records stand that nobody proposed, several at once, and taking it back."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.db import transaction

from catalogue.accounts.mailboxes import same_person
from catalogue.accounts.models import Member
from catalogue.accounts.roles import REVIEW_REFERENCE, may
from catalogue.accounts.second_accounts import addresses
from catalogue.member_examples.actions import NotDone
from catalogue.reference.models import IssueVersion, ReferenceState, VersionRecord
from catalogue.review.models import RecordLook
from catalogue.review.words import LONGEST

MOST_AT_ONCE = 500


@dataclass(frozen=True)
class Done:
    """What became of a batch: codes of the versions, and of those left out why, in words."""

    codes: tuple[str, ...]
    left: tuple[str, ...]


@transaction.atomic
def pass_records(*, records: Sequence[int], by: Member, reason: str) -> Done:
    """Let current records stand as looked through, each with a row of its own. What was changed, passed or written by
    this person since is left out and named; where nothing is left, NotDone.
    """
    return look(records=records, by=by, reason=reason, passed=True)


@transaction.atomic
def take_passes_back(*, records: Sequence[int], by: Member, reason: str) -> Done:
    """The records count as not reviewed again; they still stand, and nothing of them changes."""
    return look(records=records, by=by, reason=reason, passed=False)


def look(*, records: Sequence[int], by: Member, reason: str, passed: bool) -> Done:
    if not may(by, REVIEW_REFERENCE):
        raise NotDone("Only moderators look records through.")
    if not reason.strip():
        raise NotDone("Write down why: what was looked at, and against what.")
    if not records:
        raise NotDone("Tick the records first.")
    if len(records) > MOST_AT_ONCE:
        raise NotDone(f"At most {MOST_AT_ONCE} records at once.")
    ReferenceState.hold()
    # Not joined to who wrote it: PostgreSQL cannot hold rows that may be absent.
    rows = VersionRecord.objects.filter(pk__in=records).select_related("version").order_by("pk")
    found = list(rows.prefetch_related("looks", "written_by__emailaddress_set"))
    own = addresses(by)
    refused = {one.pk: reason_not_to_look(one, by, own, passed) for one in found}
    left = [f"{one.version.code}: {refused[one.pk]}" for one in found if refused[one.pk]]
    going = [one for one in found if not refused[one.pk]]
    if not going:
        raise NotDone(f"Nothing was written. {'; '.join(left[:10])}." if left else "These records are not there.")
    RecordLook.objects.bulk_create(
        RecordLook(
            record=one, turn=len(one.looks.all()) + 1, passed=passed, by=by, reason=reason.strip()[:LONGEST]
        )
        for one in going
    )  # fmt: skip
    for one in going:
        one.version.passed_record = one if passed else None
    IssueVersion.objects.bulk_update([one.version for one in going], ["passed_record"], batch_size=200)
    ReferenceState.mark_changed()
    return Done(tuple(one.version.code for one in going), tuple(left))


def reason_not_to_look(record: VersionRecord, by: Member, own: Sequence[str], passed: bool) -> str | None:
    """`own`: every address of the one who looks."""
    version = record.version
    if record.standing == VersionRecord.Standing.APPROVED:
        return "approved by a proposal"
    if version.current_record_id != record.pk:
        return "a newer record stands by now"
    is_passed = version.passed_record_id == record.pk
    if passed and is_passed:
        return "looked through already"
    if not passed and not is_passed:
        return "not looked through"
    if passed and record.written_by_id == by.pk:
        return "brought in by you, so somebody else looks it through"
    if passed and record.written_by and same_person(own, addresses(record.written_by)):
        return "brought in by an account with your e-mail address, so somebody else looks it through"
    return None
