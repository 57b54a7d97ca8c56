"""Reading a folder of the society's CSV files. Nothing is written here; every fault is kept, none stops the rest."""

from dataclasses import dataclass, field, replace
from pathlib import Path

from catalogue.reference.codes import alike
from catalogue.reference.plurals import counted
from catalogue.reference.spreadsheets.columns import Column, Unreadable
from catalogue.reference.spreadsheets.csv_files import (
    MOST_BROKEN_LINES,
    Lines,
    columns_with_something,
    read_lines,
    without_columns,
)
from catalogue.reference.spreadsheets.faults import Fault, nearest
from catalogue.reference.spreadsheets.layout import SHEETS, Sheet


@dataclass
class Row:
    """A line of a file: its values by column. `faulty` names the columns that were complained about already."""

    line: int
    values: dict[str, object]
    faulty: set[str] = field(default_factory=set)

    def __getitem__(self, column: str):
        return self.values[column]


@dataclass
class Folder:
    """What was read: rows by sheet, the sheets whose codes are not known, and every fault met.

    `whole_profiles` names versions whose profile is the rows given, were there none.
    """

    rows: dict[str, list[Row]] = field(default_factory=dict)
    unreadable: set[str] = field(default_factory=set)
    faults: list[Fault] = field(default_factory=list)
    whole_profiles: frozenset[str] = frozenset()


def read_folder(path: Path) -> Folder:
    """All files of the folder that a sheet is named after. A folder without any is a fault."""
    folder = Folder()
    if not path.is_dir():
        folder.faults.append(Fault(str(path), 0, "", "no such folder", "a folder with the society's CSV files"))
        return folder
    known = {sheet.file for sheet in SHEETS}
    present = sorted(file.name for file in path.iterdir() if file.suffix.lower() == ".csv")
    if not present:
        folder.faults.append(Fault(str(path), 0, "", "no CSV file", ", ".join(sorted(known))))
    for name in present:
        if name not in known:
            wanted = "the names " + ", ".join(sorted(known))
            folder.faults.append(Fault(name, 0, "", "a file with this name", wanted, nearest(name, known)))
    for sheet in SHEETS:
        if sheet.file in present:
            read_sheet(path / sheet.file, sheet, folder)
    return folder


def read_sheet(path: Path, sheet: Sheet, folder: Folder) -> None:
    """Rows of one file. A file of which not even the codes can be read gives its faults and no row."""
    lines = read_lines(
        path, lambda line, found, wanted: folder.faults.append(Fault(sheet.file, line, "", found, wanted))
    )
    if not lines or not lines.cells:
        folder.unreadable.add(sheet.name)
        return
    header = lines.cells[0][1]
    lines = with_columns(lines, columns_with_something(header, [cells for _, cells in lines.cells]))
    first, header = lines.cells[0]
    told = told_of_header(header, first, lines, sheet, folder.faults)
    lines = with_columns(lines, [place for place, heading in enumerate(header) if heading])
    header = lines.cells[0][1]
    if told & set(sheet.key):
        folder.unreadable.add(sheet.name)
        return
    if len(lines.broken) == MOST_BROKEN_LINES:  # the rest was not read, nor were its codes
        folder.unreadable.add(sheet.name)
    rows = folder.rows.setdefault(sheet.name, [])
    met: dict[tuple, int] = {}
    for line, cells in lines.cells[1:]:
        if cells == header:
            wanted = "one header line; the lines of two sheets follow one another without the second’s"
            folder.faults.append(Fault(sheet.file, line, "", "the header line again", wanted))
        elif len(cells) == len(header):
            named = {name: cell for name, cell in zip(header, cells, strict=True) if name not in told}
            row = read_row(sheet, line, named, told, lines.separator, folder.faults)
            check_key(sheet, row, met, folder.faults)
            rows.append(row)
        else:
            wanted = f"{counted(len(header), 'cell')}, as the header has"
            folder.faults.append(Fault(sheet.file, line, "", counted(len(cells), "cell"), wanted))
            rows.append(row_of_codes(sheet, line, header, cells))
    rows += [row_of_codes(sheet, line, header, cells) for line, cells in broken_cells(lines)]


def with_columns(lines: Lines, kept: list[int]) -> Lines:
    """The lines with some of their columns only."""
    header = lines.cells[0][1]
    return replace(lines, cells=[(line, without_columns(cells, header, kept)) for line, cells in lines.cells])


def broken_cells(lines: Lines) -> list[tuple[int, list[str]]]:
    return [(line, [cell.strip(' "\r\n') for cell in text.split(lines.separator)]) for line, text in lines.broken]


def row_of_codes(sheet: Sheet, line: int, header: list[str], cells: list[str]) -> Row:
    """A line that could not be read still tells which codes there are, so that one fault stays one fault."""
    values = dict.fromkeys(sheet.header, "")
    found = dict(zip(header, cells, strict=False))
    return Row(line, values | {key: found.get(key, "") for key in sheet.key}, set(sheet.header))


def told_of_header(header: list[str], line: int, lines: Lines, sheet: Sheet, faults: list[Fault]) -> set[str]:
    """Tell what is wrong with the columns. Returns those of the sheet that cannot be read: each was told of once."""
    told: set[str] = set()
    before = len(faults)

    def tell(column: str, found: str, wanted: str, near: str = "") -> None:
        faults.append(Fault(sheet.file, line, column, found, wanted, near))
        told.update({column, near} & set(sheet.header))

    if "" in header:
        place = header.index("")
        under = [(number, cells[place]) for number, cells in lines.cells if len(cells) > place]
        found = next(f"{cell} in line {number}, under no heading" for number, cell in under if cell)
        tell("", found, "a heading over each column that holds something")
    for column in dict.fromkeys(header):
        if column and column not in sheet.header:
            near = nearest(column, set(sheet.header) - set(header) - told)
            tell(column, column, "the columns " + ", ".join(sheet.header), near)
    missing = [column for column in sheet.columns if column.required and column.name not in {*header, *told}]
    for column in sorted({column for column in header if column and header.count(column) > 1}):
        # Most likely it was written over the heading that is missing, which is one fault.
        instead, missing = missing[: header.count(column) - 1], missing[header.count(column) - 1 :]
        lost = f"; there is no column {', '.join(one.name for one in instead)}" if instead else ""
        tell(column, "the column twice", f"each column once{lost}")
    for column in missing:
        tell(column.name, "no such column", column.meaning)
    # What is not there may be what a faulty heading was meant to be: nothing follows from that either.
    return told | (set(sheet.header) - set(header) if len(faults) > before else set())


def read_row(
    sheet: Sheet, line: int, cells: dict[str, str], told: set[str], separator: str, faults: list[Fault]
) -> Row:
    """The values of a row. A column that the file leaves out is missing from them: its fields stay as they are.

    `told`: columns of whose heading something was told; nothing more follows from their cells.
    """
    row = Row(line, {})
    for column in sheet.columns:
        if column.name not in cells:
            if column.name in told:
                row.faulty.add(column.name)
                row.values |= {column.name: ""} if column.required else {}
            continue
        cell = cells[column.name]
        try:
            if column.required and not cell:
                raise Unreadable(column.accepts)
            # Where semicolons part the cells, the program writes its decimals with a comma.
            row.values[column.name] = column.read(
                cell.replace(",", ".") if column.decimal and separator == ";" else cell
            )
        except Unreadable as problem:
            faults.append(Fault(sheet.file, line, column.name, cell, str(problem), meant(cell, column)))
            row.values[column.name] = cell
            row.faulty.add(column.name)
    return row


def meant(cell: str, column: Column) -> str:
    """The word of the column that is spelled most like the cell, or that what is spelled most like it means."""
    near = nearest(cell, (*column.words, *column.called))
    return column.called.get(near, near)


def check_key(sheet: Sheet, row: Row, met: dict[tuple, int], faults: list[Fault]) -> None:
    """What must stand once stands once, capitals or not. A column of the key that the file leaves out is empty."""
    written = [str(row.values.get(column, "")) for column in sheet.key]
    key = tuple(map(alike, written))
    if key in met and not row.faulty & set(sheet.key):
        found = " ".join(written)
        wanted = f"what does not stand in line {met[key]} already, capitals or not"
        faults.append(Fault(sheet.file, row.line, sheet.key[-1], found, wanted))
        row.faulty.update(sheet.key)
    met.setdefault(key, row.line)
