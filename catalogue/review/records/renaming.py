"""Before review has begun a version is renamed or dated anew without a proposal: a record says so then, so that every
version stands as its newest record says."""

import json
from collections.abc import Iterator

from django.db import transaction
from django.db.models import OuterRef, Subquery

from catalogue.accounts.models import Member
from catalogue.reference.models import IssueVersion, ReferenceState, VersionRecord
from catalogue.reference.review_state import review_is_on
from catalogue.reference.spreadsheets.profiles import cells_of_record, write_cells
from catalogue.reference.written_records import records_were_written, tell_of_features
from catalogue.review.models import RecordSeal

# What a seal says of the version beside its profile, and under review only a proposal changes.
OF_A_VERSION = {"name": "name", "kind": "kind", "date": "dates", "certainty": "how sure it is", "type": "garment type"}


def standing_otherwise() -> Iterator[tuple[IssueVersion, list[str]]]:
    """Versions that are called or dated otherwise than their newest record says, each with what differs, in words."""
    newest = RecordSeal.objects.filter(record=OuterRef("current_record")).values("body")[:1]
    rows = IssueVersion.objects.select_related("garment_type", "current_record").annotate(sealed=Subquery(newest))
    for version in rows.filter(sealed__isnull=False).order_by("code").iterator(chunk_size=200):
        try:
            then = json.loads(version.sealed)["words"]["version"]
            now = {name: getattr(version, name, version.garment_type.code) for name in OF_A_VERSION}
            differs = [words for name, words in OF_A_VERSION.items() if then[name] != now[name]]
        except (ValueError, KeyError, TypeError):
            continue  # a body that cannot be read is named where the seals are verified
        if differs:
            yield version, differs


@tell_of_features
@transaction.atomic
def record_renamed(*, by: Member | None, why: str, standing: str) -> None:
    """Told by the import and the back office. Under review nothing is written: what stands otherwise then was changed
    past it, and `verify_records` names it."""
    if review_is_on():
        return
    found = [version for version, _ in standing_otherwise()]
    if not found:
        return
    ReferenceState.hold()
    made = []
    for version in found:
        before = version.current_record
        record = VersionRecord.objects.create(
            version=version, number=before.number + 1, standing=standing, written_by=by, why=why
        )
        write_cells({record.pk: cells_of_record(before)})
        IssueVersion.objects.filter(pk=version.pk).update(current_record=record)
        made.append(record.pk)
    records_were_written(made)
