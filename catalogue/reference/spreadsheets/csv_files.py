"""From the bytes of a file to its lines of cells. A file that is no CSV is told so, in words, and never read in part
without being told."""

import csv
import io
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from catalogue.typed_words import can_be_read

LARGEST_FILE = 10_000_000
MOST_BROKEN_LINES = 50
# A whole cell that is a number, or the share behind a state's colon.
DECIMAL_COMMA = re.compile(r"(?:(?<=^)|(?<=:)|(?<=: ))(\d+),(\d+)(?=\s*(?:\||$))")
# As spreadsheet programs write it before the header, and how it comes back from one that took it for a cell.
NAMED_SEPARATOR = re.compile(r'"?sep=([,;])"?[,;]*[ \t]*(\r\n|\r|\n|$)', re.IGNORECASE)
TABS, NO_TABS = "cells that seem to be separated by tabs", "commas or semicolons between them: save the sheet as CSV"
Tell = Callable[[int, str, str], None]


@dataclass(frozen=True)
class Lines:
    """`cells` holds (line, cells) of every line that is not empty; `broken` (line, its text) of those that end
    within quotation marks."""

    separator: str
    cells: list[tuple[int, list[str]]]
    broken: list[tuple[int, str]]


def too_large(path: Path) -> str:
    """How large the file is, in words, where it is larger than what is read; empty where it is not."""
    size = path.stat().st_size if path.exists() else 0
    return f"{size // 1_000_000} MB" if size > LARGEST_FILE else ""


def read_lines(path: Path, tell: Tell) -> Lines | None:
    """The lines of a CSV file in UTF-8; None where it cannot be read. `tell(line, found, wanted)` takes the faults."""
    text = read_text(path, tell)
    if text is None:
        return None
    separator, text = separator_of(text)
    if not text.strip():
        tell(1, "an empty file", "a header line with the names of the columns")
        return None
    if line := line_with_tabs(text):
        tell(line, TABS, NO_TABS)
        return None
    return split_lines(text, separator, tell)


def with_commas(path: Path, folder: Path) -> Path:
    """The same table with commas, as a file of the same name in `folder`, without what a spreadsheet program adds: a
    line that names the separator, columns and lines that hold nothing. The file itself where it cannot be read.

    Where semicolons part the cells, the program writes its decimals with a comma: a cell that is such a number, and
    such a share behind a colon, gets a point.
    """
    try:
        separator, text = separator_of(path.read_bytes().decode("utf-8-sig"))
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True))
    except (OSError, UnicodeDecodeError, csv.Error):
        return path
    rows = [row if any(cell.strip() for cell in row) else [] for row in rows]
    if separator == ";":
        rows = [[DECIMAL_COMMA.sub(r"\1.\2", cell) for cell in row] for row in rows]
    header = next((row for row in rows if row), [])
    kept = columns_with_something(header, rows)
    folder.mkdir(parents=True, exist_ok=True)
    with (folder / path.name).open("w", encoding="utf-8", newline="") as written:
        csv.writer(written, lineterminator="\n").writerows(without_columns(row, header, kept) for row in rows)
    return folder / path.name


def columns_with_something(header: Sequence[str], rows: Iterable[Sequence[str]]) -> list[int]:
    """Places of the columns that have a heading or a cell: a spreadsheet program also writes columns that are empty."""
    filled = {place for row in rows for place, cell in enumerate(row[: len(header)]) if cell.strip()}
    return [place for place, heading in enumerate(header) if heading.strip() or place in filled]


def without_columns(row: Sequence[str], header: Sequence[str], kept: Sequence[int]) -> list[str]:
    """The cells of the kept columns, and whatever the row holds beyond the header, up to its last cell with something.

    A row that ends before the last kept column stays as short as it is.
    """
    beyond = list(row[len(header) :])
    while beyond and not beyond[-1].strip():
        beyond.pop()
    return [row[place] for place in kept if place < len(row)] + beyond


def separator_of(text: str) -> tuple[str, str]:
    """Comma or semicolon, and the text: as a first line `sep=;` says, which is blanked, else whichever the header has
    more of."""
    if named := NAMED_SEPARATOR.match(text):
        return named[1], named[2] + text[named.end() :]
    header = next((line for line in text.splitlines() if line.strip()), "")
    return ";" if header.count(";") > header.count(",") else ",", text


def line_with_tabs(text: str) -> int:
    """The line of the header where tabs part its cells; 0 where commas or semicolons do, or nothing does."""
    for number, line in enumerate(text.splitlines(), 1):
        if line.strip():
            return number if line.count("\t") > line.count(",") + line.count(";") else 0
    return 0


def read_text(path: Path, tell: Tell) -> str | None:
    if not path.is_file():
        tell(0, "no ordinary file", "a CSV file")
        return None
    if size := too_large(path):
        tell(0, size, f"at most {LARGEST_FILE // 1_000_000} MB; split the file or leave out what does not belong")
        return None
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except OSError as problem:
        tell(0, str(problem.strerror), "a file that may be read")
        return None
    except UnicodeDecodeError as problem:
        line = problem.object[: problem.start].count(b"\n") + 1
        wanted = "UTF-8: in the spreadsheet program choose “CSV UTF-8” when saving"
        tell(line, "letters that are not written in UTF-8", wanted)
        return None
    if "\0" in text:
        line = text[: text.index("\0")].count("\n") + 1
        tell(line, "a NUL character", "plain text: save the sheet as CSV again, in UTF-8")
        return None
    return text


def split_lines(text: str, separator: str, tell: Tell) -> Lines:
    """After a line whose quotation mark is not closed reading goes on with the next, so that one fault stays one."""
    physical = list(io.StringIO(text, newline=""))
    found = Lines(separator, [], [])
    begun = 0
    while begun < len(physical):
        reader = csv.reader(physical[begun:], delimiter=separator, strict=True)
        first = begun
        try:
            for cells in reader:
                typed = [cell.strip() if can_be_read(cell) else "" for cell in cells]
                if any(typed):
                    found.cells.append((begun + 1, typed))
                begun = first + reader.line_num
        except csv.Error:
            tell(begun + 1, "a quotation mark that is not closed", "a closing mark; one inside a cell is written twice")
            found.broken.append((begun + 1, physical[begun]))
            if len(found.broken) == MOST_BROKEN_LINES:
                break
            begun += 1
    return found
