"""Writing down how features stand, as soon as they stand otherwise; and verifying what was written down."""

import json
from collections.abc import Iterator
from datetime import UTC

from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.reference.models import Feature, ReferenceState, VersionRecord
from catalogue.reference.written_records import tell_of_features
from catalogue.review.features.rows import Rows, features_to_read, rows_of_feature
from catalogue.review.models import FeatureRecord
from catalogue.review.records.bodies import canonical
from catalogue.review.records.sealing import digest_of

FORMAT = 1


@tell_of_features
@transaction.atomic
def record_features(
    *, by: Member | None, why: str, standing: str = VersionRecord.Standing.IMPORTED, only: str = ""
) -> list[FeatureRecord]:
    """A record of each feature that stands otherwise than its newest record says, or has none; those written.
    `only`: the code of the one feature that is looked at.

    Whoever records waits until nobody else does: the chain has one end.
    """
    ReferenceState.hold()
    return add_records(Feature, FeatureRecord, written_by_id=by.pk if by else None, why=why.strip(),
                       standing=standing, only=only)  # fmt: skip


def add_records(features, records, *, written_by_id: int | None, why: str, standing: str, only: str = "") -> list:
    """The same with the tables as a migration sees them."""
    of = {"code": only} if only else {}
    newest = records.objects.filter(**of).values("code").annotate(newest=Max("pk")).values("newest")
    held = {one.code: (one.number, rows_in(one)) for one in records.objects.filter(pk__in=newest)}
    last = records.objects.order_by("-place").only("place", "digest").first()
    place, previous = (last.place, last.digest) if last else (0, "")
    now, made = timezone.now(), []
    for feature in features_to_read(features.objects.filter(**of).order_by("position", "code")):
        rows = rows_of_feature(feature)
        number, before = held.get(feature.code, (0, None))
        if rows == before:
            continue
        place += 1
        one = records(
            code=feature.code, number=number + 1, standing=standing, written_by_id=written_by_id, why=why, made_at=now,
            place=place, previous=previous,
        )  # fmt: skip
        one.body = body_of(one, rows)
        previous = one.digest = digest_of(previous, one.body)
        made.append(one)
    return records.objects.bulk_create(made)


def body_of(record, rows: Rows) -> str:
    return canonical(
        {
            "format": FORMAT,
            "feature": record.code,
            "number": record.number,
            "standing": record.standing,
            "written_by": record.written_by_id,
            "why": record.why,
            "made_at": record.made_at.astimezone(UTC).isoformat(timespec="microseconds"),
            "rows": rows,
        }
    )


def rows_in(record: FeatureRecord) -> Rows:
    """The feature as it stood then."""
    return json.loads(record.body)["rows"]


def is_intact(record: FeatureRecord) -> bool:
    """Whether the record is still as it was written."""
    return digest_of(record.previous, record.body) == record.digest and body_of(record, rows_in(record)) == record.body


def faults_of_features() -> Iterator[str]:
    """Every fault of the chain, and every feature that stands otherwise than its newest record, in words."""
    place, previous = 0, ""
    newest: dict[str, Rows] = {}
    for one in FeatureRecord.objects.order_by("place").iterator():
        if one.place != place + 1:
            yield f"record {place + 1} of features is missing: after {place} comes {one.place} ({one})"
        elif one.previous != previous:
            yield f"record {one.place} of features ({one}) does not follow the one before"
        try:
            whole = is_intact(one)
            newest[one.code] = rows_in(one)
        except (ValueError, KeyError, TypeError):
            whole = False
        if not whole:
            yield f"record {one.place} of features ({one}) is not what was written"
        place, previous = one.place, one.digest
    for feature in features_to_read(Feature.objects.order_by("position", "code")):
        if feature.code in newest and newest[feature.code] != rows_of_feature(feature):
            yield f"the feature {feature.code} stands otherwise than its newest record says"
