"""From the bytes of a file to its lines of cells. A file that is no CSV is told so, in words, and never read in part
without being told."""

import csv
import io
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

LARGEST_FILE = 10_000_000
MOST_BROKEN_LINES = 50
# A whole cell that is a number, or the share behind a state's colon.
DECIMAL_COMMA = re.compile(r"(?:(?<=^)|(?<=:)|(?<=: ))(\d+),(\d+)(?=\s*(?:\||$))")
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
    header = next((line for line in text.splitlines() if line.strip()), "")
    if not header:
        tell(1, "an empty file", "a header line with the names of the columns")
        return None
    return split_lines(text, separator_of(text), tell)


def with_commas(path: Path, folder: Path) -> Path:
    """The same table with commas between its cells, as a file of the same name in `folder`; the file itself where it
    has commas already, or cannot be read.

    Where semicolons part the cells, the program writes its decimals with a comma: a cell that is such a number, and
    such a share behind a colon, gets a point.
    """
    try:
        text = path.read_bytes().decode("utf-8-sig")
        if separator_of(text) == ",":
            return path
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=";", strict=True))
    except (OSError, UnicodeDecodeError, csv.Error):
        return path
    folder.mkdir(parents=True, exist_ok=True)
    pointed = ([DECIMAL_COMMA.sub(r"\1.\2", cell) for cell in row] for row in rows)
    with (folder / path.name).open("w", encoding="utf-8", newline="") as written:
        csv.writer(written, lineterminator="\n").writerows(pointed)
    return folder / path.name


def separator_of(text: str) -> str:
    """Comma or semicolon, whichever the header has more of."""
    header = next((line for line in text.splitlines() if line.strip()), "")
    return ";" if header.count(";") > header.count(",") else ","


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
                if any(cell.strip() for cell in cells):
                    found.cells.append((begun + 1, [cell.strip() for cell in cells]))
                begun = first + reader.line_num
        except csv.Error:
            tell(begun + 1, "a quotation mark that is not closed", "a closing mark; one inside a cell is written twice")
            found.broken.append((begun + 1, physical[begun]))
            if len(found.broken) == MOST_BROKEN_LINES:
                break
            begun += 1
    return found
