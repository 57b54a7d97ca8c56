"""Whether versions, and what they rest on, stand as the newest decision on each of their rows gave it."""

from collections.abc import Iterator

from catalogue.reference.models import Correction
from catalogue.reference.review_state import review_is_on
from catalogue.review.backing import standing as backing
from catalogue.review.models import Decision, FurtherRecord
from catalogue.review.proposals.standing import fields_of, versions_to_read
from catalogue.review.proposals.words import FIELD_WORDS, DecisionOn
from catalogue.review.records.bodies import canonical
from catalogue.review.records.renaming import OF_A_VERSION

# What only a decision writes, also while versions are not under review.
ALWAYS = {"retired": "why it is retired, or whether", "became": "what it became"}
AT_ONCE = 200
Said = dict[str, tuple[int, object]]


def faults_of_decided_versions() -> Iterator[str]:
    """Versions of which a field stands otherwise than the newest decision that wrote it says, in words. Features are
    compared with their records, and what a seal says of the version itself with that."""
    words = FIELD_WORDS | ALWAYS if review_is_on() else ALWAYS
    words = {key: called for key, called in words.items() if key not in OF_A_VERSION}
    said = said_of_versions(words)
    rows = versions_to_read().filter(pk__in=said).order_by("code")
    for version in rows.iterator(chunk_size=AT_ONCE):
        stands = fields_of(version)
        for key, called in words.items():
            number, value = said[version.pk].get(key, (0, stands[key]))
            if in_no_order(stands[key]) != in_no_order(value):
                what = called if key in ALWAYS else called.lower()
                yield f"{version.code} stands otherwise than the decision behind its record {number} says: {what}"


def said_of_versions(keys) -> dict[int, Said]:
    """By version the newest value of each row that a decision wrote, with the number of the record behind it."""
    found: dict[int, Said] = {}
    for table in (Decision, FurtherRecord):
        rows = table.objects.filter(record__isnull=False)
        for version, number, after in rows.values_list("record__version", "record__number", "after"):
            held = found.setdefault(version, {})
            for key in keys:
                if key in after and number > held.get(key, (0,))[0]:
                    held[key] = (number, after[key])
    return found


def in_no_order(value: object) -> object:
    """The order of a list was nobody's decision: the tables have one of their own."""
    return sorted(map(canonical, value)) if isinstance(value, list) else value


def faults_of_backings() -> Iterator[str]:
    """Makers, services, sources and number forms that stand otherwise than the decisions on them say, in words."""
    if not review_is_on():
        return
    for (table, code), said in sorted(said_of_backings().items()):
        sort, stands = backing.backing_of(table).sort, backing.rows_of(table, code)
        if not stands:
            yield f"the {sort} {code} is gone, and no decision or correction took it away"
        for key, (number, value) in said.items() if stands else ():
            if stands[key] != value:
                called = backing.row_name(table, key).lower()
                yield f"the {sort} {code} stands otherwise than the decision on proposal {number} says: {called}"


def said_of_backings() -> dict[tuple[str, str], Said]:
    """By table and code the newest value of each row that a decision wrote, with the number of the proposal. What was
    taken away by a decision, or as nothing named it in the back office, is left out, for under its code another may
    have come."""
    gone = {}
    deleted = Correction.objects.filter(deed=Correction.Deed.DELETED).order_by("made_at")
    for table, title, at in deleted.values_list("table", "title", "made_at"):
        gone[table, title.rpartition("(")[2].rstrip(")")] = at
    found: dict[tuple[str, str], Said] = {}
    made = Decision.objects.filter(kind__in=[DecisionOn.APPROVED, DecisionOn.REVOKED]).exclude(backing="")
    for wrote, number, after, at in made.order_by("pk").values_list("backing", "proposal", "after", "made_at"):
        table, _, code = wrote.partition(":")
        if (table, code) in gone and at <= gone[table, code]:
            continue
        if not after:  # it was made by what was revoked, and went
            found.pop((table, code), None)
            continue
        found.setdefault((table, code), {}).update({key: (number, value) for key, value in after.items()})
    return found
