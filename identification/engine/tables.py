"""Reading a bare identification table: features, matrix, observations. Every fault of all files is reported at once."""

import csv
import io
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from difflib import get_close_matches
from math import inf, nan
from pathlib import Path

from identification.engine.model import CANNOT_TELL, Answer, CellState, Feature, States, Version

FEATURE_COLUMNS = ("feature", "states", "effort", "error", "absent", "loss", "gain", "parent", "shown_when")
OBSERVATION_COLUMNS = ("specimen", "feature", "answer")
NOT_APPLICABLE = "-"
UNKNOWN = "?"
# `-` where it is no state of its own: the answer is left out, but it is an answer, and closes the way to details.
NOT_THERE = States(())
A_CHANCE = "a chance from 0 to 1"
SHOWN = 60


@dataclass(frozen=True)
class Fault:
    """One thing wrong: where, what was found, what would be accepted. Line 0 is the file as a whole."""

    file: str
    line: int
    column: str
    found: str
    wanted: str

    def __str__(self) -> str:
        where = [self.file, f"line {self.line}" if self.line else "", f"column {self.column}" if self.column else ""]
        shown = self.found if len(self.found) <= SHOWN else self.found[: SHOWN - 1] + "…"
        return f"{', '.join(filter(None, where))}: found “{shown}”; accepted: {self.wanted}"


class FaultyTable(ValueError):
    """Raised with every fault of the files read; `faults` lists them."""

    def __init__(self, faults: list[Fault]):
        super().__init__("\n".join(map(str, faults)))
        self.faults = faults


@dataclass
class Sheet:
    """A file being read, and what was found wrong in any file so far. `notes` are told but stop nothing."""

    name: str
    faults: list[Fault]
    notes: list[str]
    header: list[str] = field(default_factory=list)
    rows: list[tuple[int, dict[str, str]]] = field(default_factory=list)

    def fault(self, line: int, column: str, found: str, wanted: str) -> None:
        self.faults.append(Fault(self.name, line, column, found, wanted))


@dataclass(frozen=True)
class Problem:
    """What the files hold: features, versions, and answers by specimen in order of first appearance."""

    features: list[Feature]
    versions: list[Version]
    specimens: dict[str, dict[str, Answer]]
    notes: list[str]


def read_problem(features_path: Path, matrix_path: Path, observations_path: Path | None = None) -> Problem:
    """Read the files of an identification problem. Raises FaultyTable with the faults of all of them."""
    faults: list[Fault] = []
    notes: list[str] = []
    features = read_features(read_sheet(features_path, ("feature", "states"), faults, notes))
    matrix = read_sheet(matrix_path, ("version", *(feature.code for feature in features)), faults, notes)
    features = [with_dash(feature, matrix) for feature in features]
    versions = read_matrix(matrix, features)
    specimens: dict[str, dict[str, Answer]] = {}
    if observations_path is not None:
        sheet = read_sheet(observations_path, OBSERVATION_COLUMNS, faults, notes)
        specimens = read_observations(sheet, features) if features or not faults else {}
    if faults:
        raise FaultyTable(faults)
    return Problem(features, versions, specimens, notes)


# ---- any CSV file


def read_sheet(path: Path, required: Iterable[str], faults: list[Fault], notes: list[str]) -> Sheet:
    """Header and rows of a CSV file in UTF-8, with or without a byte order mark; white space around cells goes."""
    sheet = Sheet(path.name, faults, notes)
    lines = lines_of(sheet, path)
    if not lines:
        return sheet
    sheet.header = [cell.strip() for cell in lines[0][1]]
    if len(sheet.header) == 1 and ";" in sheet.header[0]:
        sheet.fault(1, "", sheet.header[0], "commas between the cells")
        sheet.header = []
        return sheet
    for column in dict.fromkeys(sheet.header):
        if sheet.header.count(column) > 1:
            sheet.fault(1, column, "the column twice", "each column once")
    for column in required:
        if column not in sheet.header:
            sheet.fault(1, column, "no such column", near_miss(column, sheet.header, f"a column named {column}"))
    for line, row in lines[1:]:
        if len(row) != len(sheet.header):
            sheet.fault(line, "", f"{len(row)} cells", f"{len(sheet.header)} cells, as in the header")
        sheet.rows.append((line, dict(zip(sheet.header, map(str.strip, row), strict=False))))
    return sheet


def lines_of(sheet: Sheet, path: Path) -> list[tuple[int, list[str]]]:
    """Rows with their line numbers, empty lines left out; nothing where the file cannot be read as CSV."""
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except OSError as problem:
        sheet.fault(0, "", str(problem.strerror), "a file that can be read")
        return []
    except UnicodeDecodeError as problem:
        sheet.fault(problem.object[: problem.start].count(b"\n") + 1, "", "bytes that are not UTF-8", "UTF-8")
        return []
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    lines = []
    try:
        lines = [(reader.line_num, row) for row in reader if row]
    except csv.Error as problem:
        sheet.fault(reader.line_num, "", str(problem), "cells between commas, quotes closed and doubled inside")
        return []
    if not lines:
        sheet.fault(1, "", "an empty file", "a header line")
    return lines


def near_miss(found: str, known: Iterable[str], wanted: str) -> str:
    near = get_close_matches(found, list(known), 1)
    return f"{wanted} (did you mean {near[0]}?)" if near else wanted


def one_of(states: Iterable[str]) -> str:
    shown = list(states)
    return f"one of {', '.join(shown[:12])}{' …' if len(shown) > 12 else ''}"


def number(
    sheet: Sheet,
    line: int,
    row: Mapping[str, str],
    column: str,
    default: float,
    highest: float = inf,
    *,
    above_zero: bool = False,
) -> float:
    """A number from 0, or above it, to `highest`; the default where the cell is blank or, with a fault, is none."""
    text = row.get(column, "")
    try:
        value = float(text) if text else default
    except ValueError:
        value = nan
    if 0 <= value <= highest and value < inf and (value or not above_zero):
        return value
    a_number = "a number over 0" if above_zero else "a number from 0"
    sheet.fault(line, column, text, A_CHANCE if highest == 1 else a_number)
    return default


# ---- features


def read_features(sheet: Sheet) -> list[Feature]:
    """The features of a table; what is faulty in one of them is told, and a default put in its place."""
    for column in sheet.header:
        if column not in FEATURE_COLUMNS:
            sheet.notes.append(f"{sheet.name}: column {column} is not used; known are {', '.join(FEATURE_COLUMNS)}")
    features: dict[str, Feature] = {}
    lines: dict[str, int] = {}
    if sheet.header and not sheet.rows:
        sheet.fault(1, "feature", "no feature", "one line for each feature")
    for line, row in sheet.rows:
        code = row.get("feature", "")
        if not code or code in features:
            sheet.fault(line, "feature", code, f"a name not used in line {lines[code]}" if code else "a name")
            continue
        features[code], lines[code] = read_feature(sheet, line, row), line
    for code, feature in features.items():
        if feature.parent is not None:
            check_parent(sheet, lines[code], feature, features)
    return list(features.values())


def read_feature(sheet: Sheet, line: int, row: Mapping[str, str]) -> Feature:
    states = listed(row.get("states", ""))
    reserved = [state for state in states if state in ("", UNKNOWN, NOT_APPLICABLE) or ":" in state]
    if len(states) < 2 or len(set(states)) < len(states) or reserved:
        sheet.fault(line, "states", row.get("states", ""), "two or more different states a|b, none of them ? or -")
    absent = row.get("absent") or None
    if absent and absent not in states:
        sheet.fault(line, "absent", absent, near_miss(absent, states, one_of(states)))
        absent = None
    return Feature(
        code=row["feature"],
        states=states,
        effort=number(sheet, line, row, "effort", 1.0, above_zero=True),
        error=number(sheet, line, row, "error", 0.05, 1),
        absent=absent,
        loss=number(sheet, line, row, "loss", 0.0, 1),
        gain=number(sheet, line, row, "gain", 0.0, 1),
        parent=row.get("parent") or None,
        shown_when=listed(row["shown_when"]) if row.get("shown_when") else (),
    )


def listed(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split("|"))


def check_parent(sheet: Sheet, line: int, feature: Feature, features: Mapping[str, Feature]) -> None:
    """Tell a parent that does not exist, states that it lacks, and a circle of parents."""
    parent = features.get(feature.parent)
    if parent is None:
        wanted = near_miss(feature.parent, features, "a feature of this file")
        sheet.fault(line, "parent", feature.parent, wanted)
    elif in_a_circle(feature, features):
        sheet.fault(line, "parent", feature.parent, "a feature that is no detail of this one")
    elif not feature.shown_when or not set(feature.shown_when) <= {*parent.states, NOT_APPLICABLE}:
        sheet.fault(
            line, "shown_when", "|".join(feature.shown_when), f"states of {parent.code}, {one_of(parent.states)}"
        )


def in_a_circle(feature: Feature, features: Mapping[str, Feature]) -> bool:
    met = {feature.code}
    while (feature := features.get(feature.parent)) is not None:
        if feature.code in met:
            return True
        met.add(feature.code)
    return False


# ---- matrix


def with_dash(feature: Feature, matrix: Sheet) -> Feature:
    """A feature without a parent in which `-` occurs can be answered with `-` as one more state."""
    if feature.parent is None and any(row.get(feature.code) == NOT_APPLICABLE for _, row in matrix.rows):
        return replace(feature, states=(*feature.states, NOT_APPLICABLE))
    return feature


def read_matrix(sheet: Sheet, features: list[Feature]) -> list[Version]:
    """The versions of a table with their cells. Equal cells are read once and shared."""
    codes = {feature.code for feature in features}
    features_unreadable = bool(sheet.faults) and not codes  # that fault is enough
    for column in sheet.header:
        if column not in codes and column not in ("version", "prior") and not features_unreadable:
            sheet.fault(1, column, column, near_miss(column, codes, "version, prior or a feature of the features file"))
    versions: dict[str, Version] = {}
    lines: dict[str, int] = {}
    read: dict[tuple[str, str], tuple[CellState, ...]] = {}
    for line, row in sheet.rows:
        code = row.get("version", "")
        if not code or code in versions:
            sheet.fault(line, "version", code, f"a name not used in line {lines[code]}" if code else "a name")
        cells = {}
        for feature in features:
            if text := row.get(feature.code):
                if (feature.code, text) not in read:
                    read[feature.code, text] = read_cell(sheet, line, text, feature)
                cells[feature.code] = read[feature.code, text]
        versions[code], lines[code] = Version(code, cells, number(sheet, line, row, "prior", 1.0)), line
    if sheet.header and not sheet.rows:
        sheet.fault(1, "version", "no version", "one line for each version")
    if versions and not any(version.weight for version in versions.values()):
        sheet.fault(1, "prior", "0 in every line", "a weight over 0 somewhere")
    return list(versions.values())


def read_cell(sheet: Sheet, line: int, text: str, feature: Feature) -> tuple[CellState, ...]:
    """`a` always · `a|b` evenly · `a:0.8|b:0.2` with these shares · `-` does not apply."""
    if text == NOT_APPLICABLE:
        return (CellState(NOT_APPLICABLE),)
    cell = []
    for part in listed(text):
        state, _, share = (piece.strip() for piece in part.partition(":"))
        if state not in feature.states:
            sheet.fault(line, feature.code, text, near_miss(state, feature.states, one_of(feature.states)))
            return ()
        cell.append(CellState(state, number_or_nan(share) if ":" in part else None))
    shares = [state.share for state in cell if state.share is not None]
    readable = (
        all(0 <= share < inf for share in shares) and len(shares) in (0, len(cell)) and (not shares or sum(shares))
    )
    if not readable or len({state.state for state in cell}) < len(cell):
        sheet.fault(line, feature.code, text, "each state once, with a share each as in a:0.8|b:0.2, or none with one")
        return ()
    return tuple(cell)


def number_or_nan(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        return nan


# ---- observations


def read_observations(sheet: Sheet, features: list[Feature]) -> dict[str, dict[str, Answer]]:
    """Answers by specimen, in order of first appearance; `?` is cannot tell."""
    by_code = {feature.code: feature for feature in features}
    specimens: dict[str, dict[str, Answer]] = {}
    for line, row in sheet.rows:
        specimen, code, text = (row.get(column, "") for column in OBSERVATION_COLUMNS)
        if not specimen:
            sheet.fault(line, "specimen", "", "a name")
        answers = specimens.setdefault(specimen, {})
        feature = by_code.get(code)
        if feature is None:
            sheet.fault(line, "feature", code, near_miss(code, by_code, "a feature of the features file"))
        elif code in answers:
            sheet.fault(line, "feature", code, "at most one answer for each specimen and feature")
        elif (answer := read_answer(text, feature)) is None:
            sheet.fault(line, "answer", text, near_miss(text, feature.states, answers_taken(feature)))
        else:
            answers[code] = answer
    return specimens


def answers_taken(feature: Feature) -> str:
    return f"?, -, or {one_of(feature.states)}"


def read_answer(text: str, feature: Feature) -> Answer | None:
    """An answer of the batch formats, or None for one that the feature does not take."""
    if text == UNKNOWN:
        return CANNOT_TELL
    if text in feature.states:
        return States((text,))
    return NOT_THERE if text == NOT_APPLICABLE else None
