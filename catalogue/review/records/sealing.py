"""Sealing: each record, as soon as it is written, gets a link in a chain that cannot be changed unnoticed."""

from collections.abc import Sequence
from hashlib import sha256

from django.db import transaction

from catalogue.reference.models import ReferenceState, VersionRecord
from catalogue.reference.written_records import tell_of_records
from catalogue.review.models import RecordSeal
from catalogue.review.records.bodies import body_of, records_to_read

AT_ONCE = 200


def digest_of(previous: str, body: str) -> str:
    """Sha-256 (FIPS 180-4) over the previous digest as 64 hexadecimal signs, nothing for the first, then the body."""
    return sha256((previous + body).encode()).hexdigest()


@tell_of_records
@transaction.atomic
def seal_records(records: Sequence[int]) -> None:
    """Seal records, complete with their cells, in the order of their keys.

    Whoever seals waits until nobody else does: the chain has one end.
    """
    ReferenceState.hold()
    add_seals(VersionRecord, RecordSeal, records)


def add_seals(record_table, seal_table, records: Sequence[int]) -> None:
    """The same with the tables as a migration sees them."""
    last = seal_table.objects.order_by("-number").only("number", "digest").first()
    number, previous = (last.number, last.digest) if last else (0, "")
    in_order = sorted(records)
    for start in range(0, len(in_order), AT_ONCE):
        rows = record_table.objects.filter(pk__in=in_order[start : start + AT_ONCE]).order_by("pk")
        made = []
        for row in records_to_read(rows):
            number, body = number + 1, body_of(row)
            digest = digest_of(previous, body)
            made.append(seal_table(record_id=row.pk, number=number, body=body, previous=previous, digest=digest))
            previous = digest
        seal_table.objects.bulk_create(made)
