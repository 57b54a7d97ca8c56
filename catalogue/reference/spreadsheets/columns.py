"""What a column may hold: how a cell is read, what is said when it cannot be, and what it refers to."""

from collections.abc import Callable
from dataclasses import dataclass

from django.db import models

from catalogue.reference.codes import fault_in_code
from catalogue.reference.uncertain_dates import fault_in_date

LONGEST_TEXT = 5_000


class Unreadable(ValueError):
    """A cell that cannot be read; its text says what would be accepted."""


@dataclass(frozen=True)
class Column:
    """One column. `refers` names the file whose codes it holds; `many` means several, spaces between."""

    name: str
    meaning: str
    accepts: str
    read: Callable[[str], object]
    required: bool = False
    refers: str = ""
    many: bool = False


def text(name: str, meaning: str, *, required: bool = False, longest: int = 200) -> Column:
    def read(cell: str) -> str:
        if len(cell) > longest:
            raise Unreadable(f"at most {longest} characters")
        return cell

    return Column(name, meaning, f"text, at most {longest} characters", read, required)


def code(name: str, meaning: str) -> Column:
    def read(cell: str) -> str:
        if fault := fault_in_code(cell):
            raise Unreadable(f"a usable code: {fault}")
        return cell

    return Column(name, meaning, "a code: no spaces, none of , ; | :", read, required=True)


def reference(name: str, meaning: str, refers: str, *, required: bool = False, many: bool = False) -> Column:
    accepts = f"{'codes' if many else 'a code'} of {refers}.csv{', spaces between' if many else ''}"
    read = (lambda cell: tuple(dict.fromkeys(cell.split()))) if many else (lambda cell: cell)
    return Column(name, meaning, accepts, read, required, refers, many)


def words(name: str, meaning: str, choices: type[models.TextChoices], *, required: bool = True) -> Column:
    accepts = f"one of {', '.join(choices.values)}"

    def read(cell: str) -> str:
        if cell and cell not in choices.values:
            raise Unreadable(accepts)
        return cell

    return Column(name, meaning, accepts + ("" if required else ", or empty"), read, required)


def number(name: str, meaning: str, accepts: str, low: float, high: float, *, default: float | None = None) -> Column:
    """A decimal number from low to high, both included; an empty cell is `default`."""

    def read(cell: str) -> float | None:
        if not cell:
            return default
        try:
            value = float(cell)
        except ValueError:
            raise Unreadable(accepts) from None
        if not low <= value <= high:
            raise Unreadable(accepts)
        return value

    return Column(name, meaning, accepts if default is None else f"{accepts}; empty is {default:g}", read)


def whole(name: str, meaning: str, accepts: str, low: int, high: int, *, default: int | None = None) -> Column:
    def read(cell: str) -> int | None:
        if not cell:
            return default
        if not (cell.isascii() and cell.isdigit() and low <= int(cell) <= high):
            raise Unreadable(accepts)
        return int(cell)

    return Column(name, meaning, accepts if default is None else f"{accepts}; empty is {default}", read)


def year(name: str, meaning: str) -> Column:
    return whole(name, meaning, "a year of four figures, or empty", 1000, 2100)


def yes_no(name: str, meaning: str, *, default: bool) -> Column:
    def read(cell: str) -> bool:
        if cell not in ("", "yes", "no"):
            raise Unreadable("yes or no")
        return default if not cell else cell == "yes"

    return Column(name, meaning, f"yes or no; empty is {'yes' if default else 'no'}", read)


def uncertain_date(name: str, meaning: str) -> Column:
    def read(cell: str) -> str:
        if cell and (fault := fault_in_date(cell)):
            raise Unreadable(fault)
        return cell

    return Column(name, meaning, "EDTF: 1966, 1966-03, 1966~, 1964?, 1971/1986, .. for an open end", read)


def names(name: str, meaning: str) -> Column:
    """Several names, `; ` between."""

    def read(cell: str) -> tuple[str, ...]:
        found = tuple(dict.fromkeys(part.strip() for part in cell.split(";") if part.strip()))
        if any(len(one) > 200 for one in found):
            raise Unreadable("names of at most 200 characters, ; between")
        return found

    return Column(name, meaning, "names, ; between", read)


def mark_list(name: str, meaning: str) -> Column:
    return Column(name, meaning, "marks, spaces between", lambda cell: tuple(dict.fromkeys(cell.split())))


def alternatives(name: str, meaning: str) -> Column:
    return Column(name, meaning, "states of the parent, | between", lambda cell: tuple(filter(None, cell.split("|"))))


def places(name: str, meaning: str) -> Column:
    """`view:region+region`, then `;TYPE=view:region` where a type differs; read as (type, view, region) rows."""
    accepts = "view:region+region, then ;TYPE=view:region where a type differs"

    def read(cell: str) -> tuple[tuple[str, str, str], ...]:
        found = []
        for part in filter(None, (piece.strip() for piece in cell.split(";"))):
            home, _, where = part.rpartition("=")
            for spot in where.split("+") if where.count(":") == 1 else where.split("+"):
                view, colon, region = spot.partition(":")
                if not colon:
                    view, region = (found[-1][1] if found else ""), view
                if not view or not region:
                    raise Unreadable(accepts)
                found.append((home, view, region))
        return tuple(dict.fromkeys(found))

    return Column(name, meaning, accepts, read)
