"""Reading a bare identification table: a features file, a matrix file, and answers. Every fault is reported at once."""

import csv
import io
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from pathlib import Path

from identification.engine.model import CANNOT_TELL, CellState, Feature, States, Version

LARGEST_FILE = 50_000_000
FEATURE_COLUMNS = ("feature", "states", "effort", "error", "absent", "loss", "gain", "parent", "shown_when")
NOT_APPLICABLE = "-"


@dataclass(frozen=True)
class Fault:
    """One thing wrong: where, what was found, what would be accepted."""

    file: str
    line: int
    column: str
    found: str
    wanted: str

    def __str__(self) -> str:
        shown = self.found if len(self.found) <= 60 else self.found[:59] + "…"
        return f"{self.file}, line {self.line}, column {self.column}: found “{shown}”; {self.wanted}"


class FaultyTable(ValueError):
    """Raised with every fault of the files read; `faults` lists them."""

    def __init__(self, faults: list[Fault]):
        super().__init__("\n".join(map(str, faults)))
        self.faults = faults


def read_rows(path: Path, required: Iterable[str]) -> tuple[list[str], list[tuple[int, dict[str, str]]]]:
    """Header and (line, row) of a CSV file in UTF-8. Raises FaultyTable for what is no such file."""
    name = path.name
    try:
        if path.stat().st_size > LARGEST_FILE:
            raise FaultyTable([Fault(name, 0, "", f"{path.stat().st_size} bytes", "a file of at most 50 MB")])
        text = path.read_bytes().decode("utf-8-sig")
    except OSError as problem:
        raise FaultyTable([Fault(name, 0, "", str(problem.strerror), "a file that can be read")]) from problem
    except UnicodeDecodeError as problem:
        line = problem.object[: problem.start].count(b"\n") + 1
        raise FaultyTable([Fault(name, line, "", "bytes that are not UTF-8", "save it as UTF-8")]) from problem
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        lines = [(reader.line_num, row) for row in reader if row]
    except csv.Error as problem:
        raise FaultyTable([Fault(name, reader.line_num, "", str(problem), "CSV with closed quotes")]) from problem
    if not lines:
        raise FaultyTable([Fault(name, 1, "", "an empty file", "a header line")])
    header = [cell.strip() for cell in lines[0][1]]
    faults = header_faults(name, header, required)
    faults += [
        Fault(name, line, "", f"{len(row)} cells", f"{len(header)} cells as in the header")
        for line, row in lines[1:]
        if len(row) != len(header)
    ]
    if faults:
        raise FaultyTable(faults)
    return header, [(line, dict(zip(header, map(str.strip, row), strict=True))) for line, row in lines[1:]]


def header_faults(name: str, header: list[str], required: Iterable[str]) -> list[Fault]:
    twice = sorted({column for column in header if header.count(column) > 1})
    missing = [column for column in required if column not in header]
    return [Fault(name, 1, column, "the column twice", "each column once") for column in twice] + [
        Fault(name, 1, column, "no such column", f"the columns {', '.join(required)}") for column in missing
    ]


def read_features(path: Path) -> list[Feature]:
    """The features of a table. Raises FaultyTable."""
    _, rows = read_rows(path, ("feature", "states"))
    faults: list[Fault] = []
    features: list[Feature] = []
    lines: dict[str, int] = {}
    for line, row in rows:
        feature = read_feature(path.name, line, row, faults)
        if feature.code in lines:
            faults.append(
                Fault(path.name, line, "feature", feature.code, f"a name not used in line {lines[feature.code]}")
            )
        lines.setdefault(feature.code, line)
        features.append(feature)
    faults += parent_faults(path.name, features, lines)
    if faults:
        raise FaultyTable(faults)
    return features


def read_feature(name: str, line: int, row: Mapping[str, str], faults: list[Fault]) -> Feature:
    def number(column: str, default: float, low: float, high: float, wanted: str) -> float:
        text = row.get(column, "")
        try:
            value = float(text) if text else default
        except ValueError:
            value = float("nan")
        if not low <= value <= high:
            faults.append(Fault(name, line, column, text, wanted))
            return default
        return value

    states = tuple(row["states"].split("|"))
    if len(states) < 2 or len(set(states)) < len(states) or any(s in ("", "?", "-") or ":" in s for s in states):
        faults.append(Fault(name, line, "states", row["states"], "two or more different states, | between"))
    absent = row.get("absent", "") or None
    if absent and absent not in states:
        faults.append(Fault(name, line, "absent", absent, f"one of {'|'.join(states)}"))
        absent = None
    if not row["feature"]:
        faults.append(Fault(name, line, "feature", "", "a name"))
    shown = row.get("shown_when", "")
    return Feature(
        code=row["feature"],
        states=states,
        effort=number("effort", 1.0, 1e-9, 1e9, "a number over 0"),
        error=number("error", 0.05, 0.0, 1.0, "a chance from 0 to 1"),
        absent=absent,
        loss=number("loss", 0.0, 0.0, 1.0, "a chance from 0 to 1"),
        gain=number("gain", 0.0, 0.0, 1.0, "a chance from 0 to 1"),
        parent=row.get("parent", "") or None,
        shown_when=tuple(shown.split("|")) if shown else (),
    )


def parent_faults(name: str, features: list[Feature], lines: Mapping[str, int]) -> list[Fault]:
    """Parents that do not exist, states that they lack, and circles."""
    by_code = {feature.code: feature for feature in features}
    faults = []
    for feature in features:
        line, parent = lines[feature.code], by_code.get(feature.parent)
        if feature.parent and parent is None:
            near = get_close_matches(feature.parent, by_code, 1)
            wanted = f"a feature of this file{f', perhaps {near[0]}' if near else ''}"
            faults.append(Fault(name, line, "parent", feature.parent, wanted))
        elif parent and in_a_circle(feature, by_code):
            faults.append(Fault(name, line, "parent", feature.parent, "no circle of parents"))
        elif parent and (not feature.shown_when or not set(feature.shown_when) <= {*parent.states, NOT_APPLICABLE}):
            wanted = f"states of {parent.code}: {'|'.join(parent.states)}"
            faults.append(Fault(name, line, "shown_when", "|".join(feature.shown_when), wanted))
    return faults


def in_a_circle(feature: Feature, by_code: Mapping[str, Feature]) -> bool:
    met: set[str] = set()
    above = by_code.get(feature.parent)
    while above is not None and above.code not in met:
        if above.code == feature.code:
            return True
        met.add(above.code)
        above = by_code.get(above.parent)
    return False


def read_matrix(path: Path, features: list[Feature]) -> tuple[list[Feature], list[Version]]:
    """The versions of a table, and the features with `-` as one more state where it stands for one.

    A feature without a parent in which `-` occurs can be answered with `-`. Raises FaultyTable.
    """
    header, rows = read_rows(path, ("version", *(feature.code for feature in features)))
    faults: list[Fault] = []
    codes = {feature.code for feature in features}
    for column in header:
        if column not in codes and column not in ("version", "prior"):
            near = get_close_matches(column, codes, 1)
            wanted = f"a feature of the features file{f', perhaps {near[0]}' if near else ''}"
            faults.append(Fault(path.name, 1, column, column, wanted))
    features = [with_dash(feature, rows) for feature in features]
    versions = [read_version(path.name, line, row, features, faults) for line, row in rows]
    met: dict[str, int] = {}
    for (line, _), version in zip(rows, versions, strict=True):
        if version.code in met or not version.code:
            faults.append(Fault(path.name, line, "version", version.code, "a name that stands once"))
        met.setdefault(version.code, line)
    if faults:
        raise FaultyTable(faults)
    return features, versions


def with_dash(feature: Feature, rows) -> Feature:
    if feature.parent is None and any(row[feature.code] == NOT_APPLICABLE for _, row in rows):
        states = (*feature.states, NOT_APPLICABLE)
        return replace(feature, states=states)
    return feature


def read_version(name: str, line: int, row: Mapping[str, str], features, faults: list[Fault]) -> Version:
    text = row.get("prior", "")
    try:
        weight = float(text) if text else 1.0
    except ValueError:
        weight = float("nan")
    if not 0 <= weight < float("inf"):
        faults.append(Fault(name, line, "prior", text, "a number from 0"))
        weight = 1.0
    cells = {}
    for feature in features:
        if row[feature.code]:
            cells[feature.code] = read_cell(name, line, row[feature.code], feature, faults)
    return Version(code=row["version"], weight=weight, cells=cells)


def read_cell(name: str, line: int, text: str, feature: Feature, faults: list[Fault]) -> tuple[CellState, ...]:
    """`a`, `a|b` evenly, `a:0.8|b:0.2`, or `-`."""
    if text == NOT_APPLICABLE:
        return (CellState(NOT_APPLICABLE),)
    cell = []
    for part in text.split("|"):
        state, colon, share = part.partition(":")
        if state not in feature.states:
            near = get_close_matches(state, feature.states, 1)
            wanted = f"one of {'|'.join(feature.states)}{f', perhaps {near[0]}' if near else ''}"
            faults.append(Fault(name, line, feature.code, text, wanted))
            continue
        try:
            number = float(share) if colon else None
        except ValueError:
            number = -1.0
        if number is not None and not 0 <= number < float("inf"):
            faults.append(Fault(name, line, feature.code, text, "shares as in a:0.8|b:0.2"))
            continue
        cell.append(CellState(state, number))
    return tuple(cell)


def read_table(features_path: Path, matrix_path: Path) -> tuple[list[Feature], list[Version]]:
    """Both files of a table. Raises FaultyTable with the faults of both where both can be read."""
    features = read_features(features_path)
    return read_matrix(matrix_path, features)


def read_observations(path: Path, features: list[Feature]) -> dict[str, dict[str, object]]:
    """Answers by specimen, in order of first appearance; `?` is cannot tell. Raises FaultyTable."""
    _, rows = read_rows(path, ("specimen", "feature", "answer"))
    by_code = {feature.code: feature for feature in features}
    faults: list[Fault] = []
    specimens: dict[str, dict[str, object]] = {}
    for line, row in rows:
        answers = specimens.setdefault(row["specimen"], {})
        feature = by_code.get(row["feature"])
        if feature is None:
            near = get_close_matches(row["feature"], by_code, 1)
            wanted = f"a feature of the features file{f', perhaps {near[0]}' if near else ''}"
            faults.append(Fault(path.name, line, "feature", row["feature"], wanted))
        elif feature.code in answers:
            faults.append(Fault(path.name, line, "feature", feature.code, "one answer for each specimen and feature"))
        else:
            answer = read_answer(row["answer"], feature)
            if answer is None:
                wanted = f"? or - or one of {'|'.join(feature.states)}"
                faults.append(Fault(path.name, line, "answer", row["answer"], wanted))
            answers[feature.code] = answer
    if faults:
        raise FaultyTable(faults)
    return specimens


def read_answer(text: str, feature: Feature) -> object | None:
    """An answer of the batch formats, or None for one that the feature does not take."""
    if text == "?":
        return CANNOT_TELL
    if text in feature.states:
        return States((text,))
    return NOT_THERE if text == NOT_APPLICABLE else None


# `-` where it is no state of its own: the answer is left out, but it is an answer, and closes the way to details.
NOT_THERE = States(())
