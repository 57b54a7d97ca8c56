"""Whether every record is still as it was sealed."""

import json
from collections.abc import Callable, Iterator

from catalogue.reference.models import VersionRecord
from catalogue.reference.review_state import review_is_on
from catalogue.review.models import DecisionSeal, RecordSeal
from catalogue.review.records.bodies import body_of, canonical, records_to_read
from catalogue.review.records.renaming import standing_otherwise
from catalogue.review.records.sealing import AT_ONCE, digest_of

NOTHING_BEFORE = ""
# What a person reads first of a cell that was changed.
PARTS = {
    "standing": "its standing",
    "made_at": "the time at which it was written",
    "written_by": "who wrote it",
    "why": "the reason",
    "version": "the version it is of",
    "number": "its number",
    "id": "its key",
}


def faults(tell: Callable[[int], None] = lambda number: None) -> Iterator[str]:
    """Every fault, in words. `tell` gets the number of seals read so far.

    A chain shows what was changed, left out, put in or put in another order; that the newest seals were taken off
    together with their records it shows only to somebody who noted a later digest elsewhere.
    """
    yield from records_without_a_seal()
    number, previous = 0, NOTHING_BEFORE
    for seals in batches():
        stored = stored_records([seal.record_id for seal in seals])
        for seal in seals:
            title = title_of(seal)
            if seal.number != number + 1:
                yield f"seal {number + 1} is missing: after {number} comes {seal.number} ({title})"
            elif seal.previous != previous:
                yield f"seal {seal.number} ({title}) does not follow the one before: it names {short(seal.previous)}"
            if digest_of(seal.previous, seal.body) != seal.digest:
                yield f"seal {seal.number} ({title}): the body is not what was sealed, its digest is another"
            yield from faults_of_record(seal, stored.get(seal.record_id), title)
            number, previous = seal.number, seal.digest
        tell(number)


def batches() -> Iterator[list[RecordSeal]]:
    """All seals in their order, some at a time: they may be too many to be held at once."""
    after = 0
    while seals := list(RecordSeal.objects.filter(number__gt=after).order_by("number")[:AT_ONCE]):
        yield seals
        after = seals[-1].number


def stored_records(keys: list[int]) -> dict[int, VersionRecord]:
    return {row.pk: row for row in records_to_read(VersionRecord.objects.filter(pk__in=keys))}


def faults_of_record(seal: RecordSeal, stored: VersionRecord | None, title: str) -> Iterator[str]:
    """Where the tables say something else than the body."""
    if stored is None:
        yield f"seal {seal.number} ({title}): its record is gone"
        return
    try:
        sealed = json.loads(seal.body)
        then = sealed["record"]
    except (ValueError, KeyError, TypeError):
        yield f"seal {seal.number} ({title}): the body cannot be read"
        return
    if canonical(sealed) != seal.body:
        yield f"seal {seal.number} ({title}): the body is not written in the one way in which it may be"
    now = json.loads(body_of(stored))["record"]
    if then != now:
        yield f"seal {seal.number} ({title}): the record differs from its seal in {where(then, now)}"


def where(then: dict, now: dict) -> str:
    """What differs, in words."""
    parts = [words for name, words in PARTS.items() if then.get(name) != now.get(name)]
    if isinstance(cells := then.get("cells"), list) and cells != now["cells"]:
        before = {cell.get("state"): cell for cell in cells}
        after = {cell["state"]: cell for cell in now["cells"]}
        changed = [key for key in before.keys() & after.keys() if before[key] != after[key]]
        counted = (
            ("cell changed", len(changed)),
            ("cell gone", len(before.keys() - after.keys())),
            ("cell added", len(after.keys() - before.keys())),
        )
        parts += [f"{many} {words}" for words, many in counted if many]
    return ", ".join(parts) or "its cells"


def records_without_a_seal() -> Iterator[str]:
    rows = VersionRecord.objects.filter(seal__isnull=True).select_related("version").order_by("pk")
    for row in rows:
        yield f"{row.version.code}, record {row.number} has no seal"


def faults_of_versions() -> Iterator[str]:
    """Versions under review that are called or dated otherwise than their newest record says."""
    for version, differs in standing_otherwise() if review_is_on() else ():
        number, words = version.current_record.number, ", ".join(differs)
        yield f"the version {version.code} stands otherwise than its newest record, {number}, says: {words}"


def title_of(seal: RecordSeal) -> str:
    """Version and number as the body says; a body may be anything once somebody has tampered with it."""
    try:
        body = json.loads(seal.body)
        return f"{body['words']['version']['code']}, record {body['record']['number']}"
    except (ValueError, KeyError, TypeError):
        return f"record with the key {seal.record_id}"


def short(digest: str) -> str:
    return digest[:12] or "none"


def newest() -> RecordSeal | None:
    """The end of the chain, to be noted elsewhere."""
    return RecordSeal.objects.order_by("-number").first()


def newest_of_decisions() -> DecisionSeal | None:
    """The end of theirs."""
    return DecisionSeal.objects.order_by("-number").first()


def is_known(digest: str) -> bool:
    """Whether a digest noted earlier stands in one of the chains."""
    noted = digest.strip().lower()
    return any(table.objects.filter(digest=noted).exists() for table in (RecordSeal, DecisionSeal))
