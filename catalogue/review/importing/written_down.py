"""What spreadsheets change at once under review, kept in the history of each record as a change by hand is: who, when,
why, before and after, so that one person's change can be read and taken back."""

from collections.abc import Mapping

from django.db.models import Model

from catalogue.accounts.models import Member
from catalogue.reference.admin_editions import titled
from catalogue.reference.models import (
    Colourway,
    Companion,
    Correction,
    Cut,
    GarmentType,
    Issuer,
    IssueVersion,
    Maker,
    NumberForm,
    OpenQuestion,
    Source,
)
from catalogue.reference.spreadsheets.exporting import ROWS, as_text
from catalogue.reference.spreadsheets.layout import SHEETS

# The table of each sheet of which something is written at once. What is written of features has records of its own.
TABLES: dict[str, type[Model]] = {
    "issuers": Issuer,
    "makers": Maker,
    "sources": Source,
    "cuts": Cut,
    "colourways": Colourway,
    "types": GarmentType,
    "versions": IssueVersion,
    "number_forms": NumberForm,
    "companions": Companion,
    "open_questions": OpenQuestion,
}
KEYS = {sheet.name: sheet.key for sheet in SHEETS if sheet.name in TABLES}
AT_ONCE = 500
Key = tuple[str, ...]
Row = Mapping[str, str]
Standing = Mapping[str, Mapping[Key, Row]]


def standing() -> Standing:
    """Every row of these sheets as an export would write it, by its key."""
    return {name: {key_of(name, row): row for row in map(texts, ROWS[name]())} for name in TABLES}


def texts(row: Mapping[str, object]) -> dict[str, str]:
    return {column: as_text(value) for column, value in row.items()}


def key_of(sheet: str, row: Row) -> Key:
    return tuple(row[column] for column in KEYS[sheet])


def note_changes(before: Standing, *, by: Member, why: str) -> int:
    """A correction of each record that stands otherwise than `before`, or was not there. Returns their number."""
    made = []
    for sheet, rows in standing().items():
        was = before[sheet]
        if changed := {key: row for key, row in rows.items() if row != was.get(key)}:
            records = records_by_key(sheet)
            made += [correction(records[key], was.get(key), row, by, why) for key, row in changed.items()]
    Correction.objects.bulk_create(made, batch_size=AT_ONCE)
    return len(made)


def records_by_key(sheet: str) -> dict[Key, Model]:
    if sheet == "companions":
        pairs = Companion.objects.select_related("version", "other")
        return {(one.version.code, one.other.code, one.goes_with): one for one in pairs}
    return {(one.code,): one for one in TABLES[sheet]._default_manager.all()}


def correction(
    record: Model, was: Mapping[str, str] | None, row: Mapping[str, str], by: Member, why: str
) -> Correction:
    before = was or {}
    return Correction(
        table=record._meta.model_name,
        row=record.pk,
        title=titled(record)[:300],
        deed=Correction.Deed.CHANGED if was else Correction.Deed.ADDED,
        member=by,
        why=why,
        lines=[
            [column.replace("_", " ").capitalize(), before.get(column, ""), text]
            for column, text in row.items()
            if text != before.get(column, "")
        ],
    )
