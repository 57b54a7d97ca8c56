"""Codes: every one that is referred to exists, and no new one is an old one in other capitals."""

from dataclasses import dataclass

from catalogue.reference.codes import alike
from catalogue.reference.models import (
    Colourway,
    Cut,
    Feature,
    FeatureState,
    GarmentType,
    Issuer,
    IssueVersion,
    Maker,
    NumberForm,
    OpenQuestion,
    Source,
)
from catalogue.reference.spreadsheets.faults import Fault, nearest
from catalogue.reference.spreadsheets.layout import SHEET_BY_NAME, SHEETS, Sheet
from catalogue.reference.spreadsheets.reading import Folder, Row

CODED = {
    "issuers": Issuer,
    "makers": Maker,
    "sources": Source,
    "cuts": Cut,
    "colourways": Colourway,
    "types": GarmentType,
    "features": Feature,
    "versions": IssueVersion,
    "number_forms": NumberForm,
    "open_questions": OpenQuestion,
}


@dataclass(frozen=True)
class Known:
    """Codes by sheet, states by feature: `held` those of the tables, `codes` and `states` with every one met in the
    folder, on a faulty row too."""

    held: dict[str, set[str]]
    held_states: dict[str, set[str]]
    codes: dict[str, set[str]]
    states: dict[str, set[str]]


def known_codes(folder: Folder) -> Known:
    held = {name: set(model.objects.values_list("code", flat=True)) for name, model in CODED.items()}
    held_states: dict[str, set[str]] = {}
    for feature, state in FeatureState.objects.values_list("feature__code", "code"):
        held_states.setdefault(feature, set()).add(state)
    codes = {
        name: codes | {str(row[SHEET_BY_NAME[name].key[0]]) for row in folder.rows.get(name, [])}
        for name, codes in held.items()
    }
    states = {feature: set(own) for feature, own in held_states.items()}
    for row in folder.rows.get("states", []):
        states.setdefault(str(row["feature"]), set()).add(str(row["state"]))
    return Known(held, held_states, codes, states)


def check_references(folder: Folder, known: Known) -> list[Fault]:
    """Every code that a cell refers to exists. Cells that do not are marked, so that nothing follows from them."""
    return [
        fault
        for sheet in SHEETS
        for row in folder.rows.get(sheet.name, [])
        for fault in unknown_codes(sheet, row, known, folder)
    ]


def unknown_codes(sheet: Sheet, row: Row, known: Known, folder: Folder) -> list[Fault]:
    """References into a file that could not be read are not complained about: that file's fault is enough."""
    faults = []
    for column in sheet.columns:
        if not column.refers or column.name in row.faulty or column.refers in folder.unreadable:
            continue
        value = row[column.name]
        for code in value if column.many else [value]:
            if code and code not in known.codes[column.refers]:
                near = nearest(code, known.codes[column.refers])
                faults.append(Fault(sheet.file, row.line, column.name, code, column.accepts, near))
                row.faulty.add(column.name)
    return faults


def check_capitals(folder: Folder, known: Known) -> list[Fault]:
    """A new code is not one of the tables in other capitals: that would be a second record of the same thing."""
    faults = []
    for name, held in known.held.items():
        faults += other_capitals(name, SHEET_BY_NAME[name].key[0], folder.rows.get(name, []), held)
    by_feature: dict[str, list[Row]] = {}
    for row in folder.rows.get("states", []):
        by_feature.setdefault(str(row["feature"]), []).append(row)
    for feature, rows in by_feature.items():
        faults += other_capitals("states", "state", rows, known.held_states.get(feature, set()))
    return faults


def other_capitals(sheet: str, column: str, rows: list[Row], held: set[str]) -> list[Fault]:
    by_likeness = {alike(code): code for code in held}
    wanted = "a code that is there already, as it is written there, or one that differs by more than capitals"
    return [
        Fault(f"{sheet}.csv", row.line, column, str(row[column]), wanted, by_likeness[alike(str(row[column]))])
        for row in rows
        if column not in row.faulty and row[column] not in held and alike(str(row[column])) in by_likeness
    ]
