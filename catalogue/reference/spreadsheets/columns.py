"""What a column may hold: how a cell is read, what is said when it cannot be, and what it refers to."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from math import nan

from django.db import models

from catalogue.reference.codes import fault_in_code
from catalogue.reference.own_drawings import MOST_BYTES, DrawingFault, read_drawing
from catalogue.reference.plurals import counted
from catalogue.reference.uncertain_dates import DATES_THAT_ARE, fault_in_date
from identification.label_reading.said_of_states import FORM as FORM_OF_LABEL_SAYS
from identification.label_reading.said_of_states import label_says_of

LONGEST_LABEL_SAYS = 300
LONGEST_LINE, LONGEST_TEXT = 200, 5_000
FIRST_YEAR, LAST_YEAR = 1000, 2100
LONGEST_VIEW, LONGEST_REGION = 20, 40
DECIMAL = re.compile(r"[+-]?(\d{1,20}(\.\d{0,20})?|\.\d{1,20})([eE][+-]?\d{1,3})?", re.ASCII)
WHOLE = re.compile(r"\d{1,9}", re.ASCII)


class Unreadable(ValueError):
    """A cell that cannot be read; its text says what would be accepted."""


@dataclass(frozen=True)
class Column:
    """One column. `refers` names the file whose codes it holds; `many` means several, spaces between.

    `words` are the only ones it takes, where it takes only some; `called` says which of them is meant by other words
    that people write; `decimal` marks numbers with a decimal point.
    """

    name: str
    meaning: str
    accepts: str
    read: Callable[[str], object]
    required: bool = False
    refers: str = ""
    many: bool = False
    words: tuple[str, ...] = ()
    called: Mapping[str, str] = field(default_factory=dict)
    decimal: bool = False


def text(name: str, meaning: str, *, required: bool = False, longest: int = LONGEST_LINE) -> Column:
    def read(cell: str) -> str:
        if len(cell) > longest:
            raise Unreadable(f"at most {counted(longest, 'character')}")
        return cell

    return Column(name, meaning, f"text, at most {counted(longest, 'character')}", read, required)


def drawing(name: str, meaning: str, *, required: bool = False) -> Column:
    def read(cell: str) -> str:
        try:
            return cell if not cell or read_drawing(cell) else ""
        except DrawingFault as fault:
            raise Unreadable(f"an SVG drawing: {str(fault).removesuffix('.')}") from fault

    or_empty = "" if required else ", or empty"
    return Column(name, meaning, f"SVG text of at most {MOST_BYTES // 1000} kB{or_empty}", read, required)


def label_says(name: str, meaning: str) -> Column:
    def read(cell: str) -> str:
        try:
            label_says_of(cell)
        except ValueError as fault:
            raise Unreadable(f"{FORM_OF_LABEL_SAYS}; but {fault}") from fault
        if len(cell) > LONGEST_LABEL_SAYS:
            raise Unreadable(f"at most {counted(LONGEST_LABEL_SAYS, 'character')}")
        return cell

    return Column(name, meaning, FORM_OF_LABEL_SAYS, read)


def code(name: str, meaning: str, kind: str = "") -> Column:
    def read(cell: str) -> str:
        if fault := fault_in_code(cell, kind):
            raise Unreadable(f"a usable code: {fault}")
        return cell

    return Column(name, meaning, "a code: no spaces, none of , ; | :", read, required=True)


def reference(name: str, meaning: str, refers: str, *, required: bool = False, many: bool = False) -> Column:
    accepts = f"{'codes' if many else 'a code'} of {refers}.csv{', spaces between' if many else ''}"
    read = (lambda cell: tuple(dict.fromkeys(cell.split()))) if many else (lambda cell: cell)
    return Column(name, meaning, accepts, read, required, refers, many)


def words(
    name: str,
    meaning: str,
    choices: type[models.TextChoices],
    *,
    required: bool = True,
    called: Mapping[str, str] | None = None,
) -> Column:
    """One of the words. With `called`, which says what other words mean, the site's own words for each count too."""
    accepts = f"one of {', '.join(choices.values)}"
    labels = {} if called is None else {label.casefold(): value for value, label in choices.choices}

    def read(cell: str) -> str:
        meant = labels.get(cell.casefold(), cell)
        if meant and meant not in choices.values:
            raise Unreadable(accepts)
        return meant

    return Column(
        name,
        meaning,
        accepts + ("" if required else ", or empty"),
        read,
        required,
        words=tuple(choices.values),
        called=labels | dict(called or {}),
    )


def several_words(name: str, meaning: str, choices: type[models.TextChoices]) -> Column:
    """Some of the words, spaces between; read in their own order."""
    accepts = f"any of {', '.join(choices.values)}, spaces between"

    def read(cell: str) -> tuple[str, ...]:
        found = cell.split()
        if not set(found) <= set(choices.values):
            raise Unreadable(accepts)
        return tuple(word for word in choices.values if word in found)

    return Column(name, meaning, accepts, read, words=tuple(choices.values))


def number(name: str, meaning: str, accepts: str, low: float, high: float, *, default: float | None = None) -> Column:
    """A decimal number from low to high, both included; an empty cell is `default`."""

    def read(cell: str) -> float | None:
        if not cell:
            return default
        value = float(cell) if DECIMAL.fullmatch(cell) else nan
        if not low <= value <= high:
            raise Unreadable(accepts)
        return value

    accepted = accepts if default is None else f"{accepts}; empty is {default:g}"
    return Column(name, meaning, accepted, read, decimal=True)


def whole(
    name: str, meaning: str, accepts: str, low: int, high: int, *, default: int | None = None, required: bool = False
) -> Column:
    def read(cell: str) -> int | None:
        if not cell:
            return default
        if not (WHOLE.fullmatch(cell) and low <= int(cell) <= high):
            raise Unreadable(accepts)
        return int(cell)

    return Column(name, meaning, accepts if default is None else f"{accepts}; empty is {default}", read, required)


def year(name: str, meaning: str) -> Column:
    return whole(name, meaning, "a year of four figures, or empty", FIRST_YEAR, LAST_YEAR)


def yes_no(name: str, meaning: str, *, default: bool) -> Column:
    def read(cell: str) -> bool:
        if cell not in ("", "yes", "no"):
            raise Unreadable("yes or no")
        return default if not cell else cell == "yes"

    accepts = f"yes or no; empty is {'yes' if default else 'no'}"
    return Column(name, meaning, accepts, read, words=("yes", "no"))


def uncertain_date(name: str, meaning: str) -> Column:
    def read(cell: str) -> str:
        if cell and (fault := fault_in_date(cell)):
            raise Unreadable(DATES_THAT_ARE[fault])
        return cell

    return Column(name, meaning, "EDTF: 1966, 1966-03, 1966~, 1964?, 1971/1986, .. for an open end", read)


def names(name: str, meaning: str) -> Column:
    """Several names, `; ` between."""

    def read(cell: str) -> tuple[str, ...]:
        found = tuple(dict.fromkeys(part.strip() for part in cell.split(";") if part.strip()))
        if any(len(one) > LONGEST_LINE for one in found):
            raise Unreadable(f"names of at most {LONGEST_LINE} characters, ; between")
        return found

    return Column(name, meaning, "names, ; between", read)


def mark_list(name: str, meaning: str) -> Column:
    def read(cell: str) -> tuple[str, ...]:
        if len(cell) > LONGEST_LINE:
            raise Unreadable(f"at most {LONGEST_LINE} characters")
        return tuple(dict.fromkeys(cell.split()))

    return Column(name, meaning, "marks, spaces between", read)


def alternatives(name: str, meaning: str) -> Column:
    def read(cell: str) -> tuple[str, ...]:
        return tuple(dict.fromkeys(part.strip() for part in cell.split("|") if part.strip()))

    return Column(name, meaning, "states of the parent, | between", read)


def places(name: str, meaning: str) -> Column:
    """`view:region+region`, then `;TYPE=view:region` where a type differs; read as (type, view, region) rows."""
    accepts = "view:region+region, then ;TYPE=view:region where a type differs"

    def read(cell: str) -> tuple[tuple[str, str, str], ...]:
        found = []
        for part in filter(None, (piece.strip() for piece in cell.split(";"))):
            home, _, where = part.rpartition("=")
            view = ""
            for spot in where.split("+"):
                before, colon, region = spot.rpartition(":")
                view = before if colon else view
                if not view or not region or len(view) > LONGEST_VIEW or len(region) > LONGEST_REGION:
                    raise Unreadable(accepts)
                found.append((home, view, region))
        return tuple(dict.fromkeys(found))

    return Column(name, meaning, accepts, read)
