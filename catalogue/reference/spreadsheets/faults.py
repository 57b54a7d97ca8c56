"""What is said of a faulty file: where, what was found, what would be accepted, and what is spelled nearly so."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

SHOWN_OF_A_CELL = 60
NEAR = 0.6


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
        shown = " ".join(shown.split())  # one fault is one line, whatever the cell holds
        near = f" Nearest: {self.nearest}." if self.nearest else ""
        return f"{', '.join(where)}: found “{shown}”. Accepted: {self.wanted}.{near}"


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word that is spelled most like `word`, capitals or not; empty where none is near."""
    by_capitals = {one.casefold(): one for one in known}
    found = get_close_matches(word[:100].casefold(), by_capitals, 1, NEAR)
    return by_capitals[found[0]] if found else ""
