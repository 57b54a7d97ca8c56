"""Reading a folder of the society's CSV files. Nothing is written here; every fault is kept, none stops the rest."""

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path

from catalogue.reference.spreadsheets.columns import Unreadable
from catalogue.reference.spreadsheets.layout import SHEETS, Sheet

LARGEST_FILE = 10_000_000
SHOWN_OF_A_CELL = 60


@dataclass(frozen=True, order=True)
class Fault:
    """One thing wrong, in a secretary's words. `line` is that of the file, the header being line 1; 0 is the file."""

    file: str
    line: int
    column: str
    found: str
    wanted: str
    nearest: str = ""

    def __str__(self) -> str:
        where = [self.file, *([f"line {self.line}"] if self.line else [])]
        where += [f"column {self.column}"] if self.column else []
        shown = self.found if len(self.found) <= SHOWN_OF_A_CELL else self.found[: SHOWN_OF_A_CELL - 1] + "…"
        near = f" Nearest: {self.nearest}." if self.nearest else ""
        return f"{', '.join(where)}: found “{shown}”. Accepted: {self.wanted}.{near}"


@dataclass
class Row:
    line: int
    values: dict[str, object]
    faulty: set[str] = field(default_factory=set)

    def __getitem__(self, column: str):
        return self.values[column]


@dataclass
class Folder:
    """What was read: rows by sheet, the sheets that could not be read at all, and every fault met."""

    rows: dict[str, list[Row]]
    unreadable: set[str]
    faults: list[Fault]


def nearest(word: str, known: Iterable[str]) -> str:
    return next(iter(get_close_matches(word, list(known), 1, 0.6)), "")


def read_folder(path: Path) -> Folder:
    """All files of the folder that a sheet is named after. A folder without any is a fault."""
    folder = Folder({}, set(), [])
    if not path.is_dir():
        folder.faults.append(Fault(str(path), 0, "", "no such folder", "a folder with the society's CSV files"))
        return folder
    known = {sheet.file for sheet in SHEETS}
    present = sorted(file.name for file in path.iterdir() if file.suffix.lower() == ".csv")
    if not set(present) & known:
        folder.faults.append(Fault(str(path), 0, "", "no file that is known here", ", ".join(sorted(known))))
    for name in present:
        if name not in known:
            near = nearest(name, known)
            folder.faults.append(
                Fault(name, 0, "", "a file with this name", "the names " + ", ".join(sorted(known)), near)
            )
    for sheet in SHEETS:
        if sheet.file in present:
            read_sheet(path / sheet.file, sheet, folder)
    return folder


def read_sheet(path: Path, sheet: Sheet, folder: Folder) -> None:
    """Rows of one file; a file that cannot be read whole gives one fault and no row."""
    lines = read_lines(path, sheet, folder)
    header = lines[0][1] if lines else None
    if header is None or not good_header(header, sheet, folder):
        folder.unreadable.add(sheet.name)
        return
    rows = folder.rows.setdefault(sheet.name, [])
    met: dict[tuple, int] = {}
    for line, cells in lines[1:]:
        if len(cells) != len(header):
            wanted = f"{len(header)} cells, as the header has"
            folder.faults.append(Fault(sheet.file, line, "", f"{len(cells)} cells", wanted))
            note_key_of_ragged(sheet, header, cells, rows, line)
            continue
        row = read_row(sheet, line, dict(zip(header, cells, strict=True)), folder.faults)
        check_key(sheet, row, met, folder.faults)
        rows.append(row)


def note_key_of_ragged(sheet: Sheet, header: list[str], cells: list[str], rows: list[Row], line: int) -> None:
    """The code of a row with too few or many cells still counts as met, so that one fault stays one fault."""
    place = header.index(sheet.key[0])
    if place < len(cells) and cells[place].strip():
        values = {column.name: "" for column in sheet.columns} | {sheet.key[0]: cells[place].strip()}
        rows.append(Row(line, values, {column.name for column in sheet.columns}))


def read_lines(path: Path, sheet: Sheet, folder: Folder) -> list[tuple[int, list[str]]]:
    """(line, cells) of every line that is not empty; [] with a fault where the file is no UTF-8 CSV of fair size."""
    size = path.stat().st_size
    if size > LARGEST_FILE:
        wanted = f"at most {LARGEST_FILE // 1_000_000} MB; split the file or leave out what does not belong"
        folder.faults.append(Fault(sheet.file, 0, "", f"{size // 1_000_000} MB", wanted))
        return []
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        line = problem.object[: problem.start].count(b"\n") + 1
        wanted = "UTF-8: in the spreadsheet program choose “CSV UTF-8” when saving"
        folder.faults.append(Fault(sheet.file, line, "", "letters that are not written in UTF-8", wanted))
        return []
    if "\0" in text:
        line = text[: text.index("\0")].count("\n") + 1
        folder.faults.append(Fault(sheet.file, line, "", "a NUL character", "plain text: save the sheet as CSV again"))
        return []
    first_line = text.splitlines()[0] if text.strip() else ""
    if not first_line:
        folder.faults.append(Fault(sheet.file, 1, "", "an empty file", "a header line: " + ",".join(sheet.header)))
        return []
    separator = ";" if first_line.count(";") > first_line.count(",") else ","
    return split_lines(text, separator, sheet, folder)


def split_lines(text: str, separator: str, sheet: Sheet, folder: Folder) -> list[tuple[int, list[str]]]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    lines, begun = [], 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                lines.append((begun, [cell.strip() for cell in cells]))
            begun = reader.line_num + 1
    except csv.Error as problem:
        wanted = "CSV in which every quotation mark that is opened is closed"
        folder.faults.append(Fault(sheet.file, begun, "", str(problem), wanted))
        return []
    return lines


def good_header(header: list[str], sheet: Sheet, folder: Folder) -> bool:
    """Every column known and once; the key columns and the required ones there. Each fault is said."""
    before = len(folder.faults)
    for column in sorted({column for column in header if header.count(column) > 1}):
        folder.faults.append(Fault(sheet.file, 1, column, "the column twice", "each column once"))
    for column in dict.fromkeys(header):
        if column not in sheet.header:
            wanted = "the columns " + ", ".join(sheet.header)
            folder.faults.append(Fault(sheet.file, 1, column, column, wanted, nearest(column, sheet.header)))
    for column in sheet.columns:
        if column.required and column.name not in header:
            folder.faults.append(Fault(sheet.file, 1, column.name, "no such column", column.meaning))
    return len(folder.faults) == before


def read_row(sheet: Sheet, line: int, cells: dict[str, str], faults: list[Fault]) -> Row:
    """The values of a row. A column that the file leaves out is missing from them: its fields stay as they are."""
    row = Row(line, {})
    for column in sheet.columns:
        if column.name not in cells:
            continue
        cell = cells[column.name]
        try:
            if column.required and not cell:
                raise Unreadable(column.accepts)
            row.values[column.name] = column.read(cell)
        except Unreadable as problem:
            near = (
                nearest(cell, column.accepts.removeprefix("one of ").split(", ")) if "one of" in column.accepts else ""
            )
            faults.append(Fault(sheet.file, line, column.name, cell, str(problem), near))
            row.values[column.name] = cell
            row.faulty.add(column.name)
    return row


def check_key(sheet: Sheet, row: Row, met: dict[tuple, int], faults: list[Fault]) -> None:
    """What must stand once stands once, capitals or not."""
    key = tuple(str(row.values[column]).casefold() for column in sheet.key)
    if key in met and not row.faulty & set(sheet.key):
        found = " ".join(str(row.values[column]) for column in sheet.key)
        wanted = f"what does not stand in line {met[key]} already"
        faults.append(Fault(sheet.file, row.line, sheet.key[-1], found, wanted))
        row.faulty.update(sheet.key)
    met.setdefault(key, row.line)
