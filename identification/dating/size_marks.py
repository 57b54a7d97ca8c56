"""The tape against the size mark: what of a piece's measurements does not agree with others that are marked the same.

Compared with pieces of the same version and mark, or, where these are few, with the line through all marks of the
version (Theil 1950, Sen 1968: the median of the slopes between every two pieces, which a few shortened ones do not
move). A size mark describes the wearer, so makers differ: only what lies well outside the others is told.
"""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from math import sqrt

import numpy as np

FEWEST_ALIKE, FEWEST_ON_A_LINE, FEWEST_MARKS = 5, 8, 3
# Two people measuring the same length differ by this much, as standard deviation; 1 cm is tolerated in any case.
TAPE_MM, TOLERATED_MM = 7, 10
# A garment leaves its works this much longer or shorter than ordered, likewise (common practice, no source).
MADE_MM = 10
# A normal quantile for one false alarm in 100 lengths; widened below for the few pieces it rests on.
CLEAR = 2.6
# Lengths that follow the wearer's height; all others follow the girth.
ALONG = frozenset({"back_length", "sleeve", "inside_leg", "rise"})


@dataclass(frozen=True)
class Measured:
    """One piece: the size mark as read, and its lengths in mm by name, such as pit_to_pit or back_length."""

    mark: str
    lengths: Mapping[str, float] = field(default_factory=dict)
    code: str = ""


class Basis(Enum):
    SAME_MARK = "same mark"
    LINE = "line through all marks"
    TABLE = "size table"
    TOO_FEW = "too few"


@dataclass(frozen=True)
class Compared:
    """One length against what the others make one expect. `expected` and `allowed` in mm, None where too few."""

    length: str
    found: float
    expected: float | None
    allowed: float | None
    basis: Basis
    others: int

    @property
    def off_by(self) -> float:
        """How much longer (or, below nought, shorter) than expected; 0 where it agrees or nothing can be said."""
        if self.expected is None or self.allowed is None:
            return 0.0
        off = self.found - self.expected
        return off if abs(off) > self.allowed else 0.0


class Reading(Enum):
    """What the lengths that do not agree suggest; never a proof."""

    AGREES = "agrees"
    TOO_FEW = "too few"
    SHORTENED = "shortened"
    SHRUNK_OR_REMARKED = "shrunk or re-marked"
    LARGER_THAN_MARKED = "larger than marked"
    NOT_ALIKE = "does not agree"


@dataclass(frozen=True)
class AgainstMark:
    """The whole comparison: `look_at` names where a tape or an eye would tell; `fits` other marks that do agree."""

    mark: str
    compared: tuple[Compared, ...]
    reading: Reading
    fits: tuple[str, ...]
    look_at: tuple[str, ...]


WHERE_TO_LOOK = {
    "back_length": "the hem",
    "sleeve": "the cuffs",
    "inside_leg": "the leg ends",
    "waist": "the waistband seam",
}


def against_mark(piece: Measured, others: Iterable[Measured]) -> AgainstMark:
    """The piece against others of its version; itself, known by its code, is left out of them."""
    rest = sorted(
        (other for other in others if not piece.code or other.code != piece.code),
        key=lambda other: (other.mark, other.code, tuple(sorted(other.lengths.items()))),
    )
    compared = tuple(compare(name, float(found), piece.mark, rest) for name, found in sorted(piece.lengths.items()))
    return read(piece.mark, compared, lambda: marks_that_fit(piece, rest))


def against_table(piece: Measured, table: Mapping[str, Mapping[str, float]]) -> AgainstMark:
    """The piece against a documented size table: by mark, the lengths in mm that the garment was to have.

    TOO_FEW where the table has not this mark, or none of the lengths that were measured. A length may be off by what
    tape and works together account for: the 2.6 of `CLEAR` times the root of the sum of their squares, 32 mm.
    """
    by_mark = {bare_mark(mark): lengths for mark, lengths in table.items()}
    compared = in_table(piece, by_mark.get(bare_mark(piece.mark), {}))

    def fitting() -> tuple[str, ...]:
        found = {mark: in_table(piece, lengths) for mark, lengths in table.items() if not same_mark(mark, piece.mark)}
        told = {mark for mark, row in found.items() if all(one.expected is not None for one in row)}
        return tuple(mark for mark, row in found.items() if mark in told and not any(one.off_by for one in row))

    return read(piece.mark, compared, fitting)


def in_table(piece: Measured, lengths: Mapping[str, float]) -> tuple[Compared, ...]:
    allowed = CLEAR * sqrt(TAPE_MM**2 + MADE_MM**2)
    return tuple(
        Compared(name, float(found), float(lengths[name]), allowed, Basis.TABLE, 0)
        if name in lengths
        else Compared(name, float(found), None, None, Basis.TOO_FEW, 0)
        for name, found in sorted(piece.lengths.items())
    )


def read(mark: str, compared: tuple[Compared, ...], fitting: Callable[[], tuple[str, ...]]) -> AgainstMark:
    reading = reading_of(compared)
    off = reading not in (Reading.AGREES, Reading.TOO_FEW)
    fits = fitting() if off else ()
    look_at = tuple(WHERE_TO_LOOK[one.length] for one in compared if one.off_by < 0 and one.length in WHERE_TO_LOOK)
    return AgainstMark(mark, compared, reading, fits, look_at if off else ())


def compare(name: str, found: float, mark: str, others: Sequence[Measured]) -> Compared:
    alike = [float(other.lengths[name]) for other in others if same_mark(other.mark, mark) and name in other.lengths]
    if len(alike) >= FEWEST_ALIKE:
        expected, allowed = typical(np.array(alike), fitted=1)
        return Compared(name, found, expected, allowed, Basis.SAME_MARK, len(alike))
    place = place_of_mark(mark, name)
    on_line = [
        (where, float(other.lengths[name]))
        for other in others
        if name in other.lengths and (where := place_of_mark(other.mark, name)) is not None
    ]
    on_line = [(where.number, length) for where, length in on_line if place and where.system == place.system]
    marks = {where for where, _ in on_line}
    # A line says nothing of marks outside those that it goes through.
    inside = bool(marks) and place is not None and min(marks) <= place.number <= max(marks)
    if len(on_line) < FEWEST_ON_A_LINE or len(marks) < FEWEST_MARKS or not inside:
        return Compared(name, found, None, None, Basis.TOO_FEW, len(alike))
    where, lengths = np.array(on_line).T
    slope, start = steady_line(where, lengths)
    _, allowed = typical(lengths - (start + slope * where), fitted=2)
    return Compared(name, found, float(start + slope * place.number), allowed, Basis.LINE, len(on_line))


def typical(lengths: np.ndarray, *, fitted: int) -> tuple[float, float]:
    """The median, and how far from it another piece may lie: the spread of the middle half, never under the tape's.

    The spread is 1.4826 times the median distance from the median; few pieces tell it badly, so it is widened by
    1 + 4 / (n - fitted) (ours; see the false alarms in tests/benchmarks/dating.py).
    """
    middle = float(np.median(lengths))
    number = len(lengths)
    spread = max(1.4826 * float(np.median(np.abs(lengths - middle))), TAPE_MM)
    widened = 1 + 4 / (number - fitted)
    return middle, max(CLEAR * spread * widened * sqrt(1 + 1 / number), TOLERATED_MM)


def steady_line(places: np.ndarray, lengths: np.ndarray) -> tuple[float, float]:
    """Slope and start: the median slope between every two pieces of different marks, and the median of what is left."""
    one, other = np.triu_indices(len(places), 1)
    rise, run = lengths[other] - lengths[one], places[other] - places[one]
    slope = float(np.median(rise[run != 0] / run[run != 0]))
    return slope, float(np.median(lengths - slope * places))


@dataclass(frozen=True)
class MarkPlace:
    """Where a size mark stands among those of its own kind."""

    system: str
    number: float


def place_of_mark(mark: str, length: str) -> MarkPlace | None:
    """A bare number, or of a pair of height and girth the one that the length follows; None for letters."""
    pair = re.fullmatch(r"\s*(\d{2,3})\s*/\s*(\d{2,3})\s*", mark)
    if pair:
        return MarkPlace("pair", float(pair[1] if length in ALONG else pair[2]))
    single = re.fullmatch(r"\s*(\d{1,2})\s*", mark)
    if not single:
        return None
    number = int(single[1])
    return MarkPlace("size" if number < 10 else "inches", float(number))


def bare_mark(mark: str) -> str:
    """A mark without its spaces and capitals, as marks are compared."""
    return "".join(mark.split()).casefold()


def same_mark(one: str, other: str) -> bool:
    return bare_mark(one) == bare_mark(other) != ""


def reading_of(compared: Sequence[Compared]) -> Reading:
    told = [one for one in compared if one.expected is not None]
    if not told:
        return Reading.TOO_FEW
    off = {one.length: one.off_by for one in told if one.off_by}
    if not off:
        return Reading.AGREES
    if all(by > 0 for by in off.values()):
        return Reading.LARGER_THAN_MARKED
    if any(by > 0 for by in off.values()):
        return Reading.NOT_ALIKE
    across = [one for one in told if one.length not in ALONG]
    if any(one.off_by for one in across):
        return Reading.SHRUNK_OR_REMARKED
    # Only lengths are short; where no width was compared it may also have shrunk.
    return Reading.SHORTENED if across else Reading.SHRUNK_OR_REMARKED


def marks_that_fit(piece: Measured, others: Sequence[Measured]) -> tuple[str, ...]:
    """Other marks of the version with which every length agrees that can be compared, and one at least can."""
    found = []
    for mark in sorted({other.mark.strip() for other in others if not same_mark(other.mark, piece.mark)} - {""}):
        compared = [compare(name, float(length), mark, others) for name, length in sorted(piece.lengths.items())]
        told = [one for one in compared if one.expected is not None]
        if told and len(told) == len(compared) and not any(one.off_by for one in told):
            found.append(mark)
    return tuple(found)
