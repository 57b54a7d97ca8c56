"""What a file leaves out stays as it is: missing columns are filled with what the tables hold, before anything is
checked or written."""

from catalogue.reference.spreadsheets.columns import Column, Unreadable
from catalogue.reference.spreadsheets.exporting import ROWS, as_text
from catalogue.reference.spreadsheets.layout import SHEETS, Sheet
from catalogue.reference.spreadsheets.reading import Folder


def complete(folder: Folder) -> None:
    """Give every row a value in every column: its own, else that of its record, else what an empty cell means."""
    for sheet in SHEETS:
        rows = folder.rows.get(sheet.name, [])
        missing = [column for column in sheet.columns if any(column.name not in row.values for row in rows)]
        if not missing:
            continue
        held = held_values(sheet, missing, {str(row[sheet.key[0]]) for row in rows})
        empty = {column.name: column.read("") for column in missing}
        for row in rows:
            key = tuple(str(row[name]) for name in sheet.key)
            row.values = empty | held.get(key, {}) | row.values


def held_values(sheet: Sheet, columns: list[Column], named: set[str]) -> dict[tuple[str, ...], dict[str, object]]:
    """The values of the columns that the tables hold, by the key of their row, for the records that are named."""
    return {
        tuple(str(cells[name]) for name in sheet.key): {
            column.name: read_back(column, as_text(cells.get(column.name))) for column in columns
        }
        for cells in ROWS[sheet.name](named)
    }


def read_back(column: Column, cell: str) -> object:
    """A cell of our own export. What the tables hold stands, were it more than an import would take."""
    try:
        return column.read(cell)
    except Unreadable:
        return cell
