"""Where a chart of versions has its rows, bars, words and lines of descent, in the units of the screen."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from catalogue.figures.step_notes import Step, lines_of, short_note
from catalogue.figures.text_width import cut_to, text_width
from catalogue.figures.years import NO_DATES, Piece, Scale, pieces_of
from catalogue.reference.facts import VersionFacts
from identification.dating.spans import VersionDates
from identification.dating.words import counted, years_between

EDGE = 16
SIZE, HEADING_SIZE = 14, 15
AXIS, HEADING, ROW = 26, 34, 37
# Within a row: where its words stand, and the middle of its bar.
WORDS, BAR, HALF = 15, 26, 4
# Below a bar: the first line of what changed at the step to it, and from one such line to the next.
NOTES, NOTE = 45, 18
# In a chart of many types a note is this wide at most, so that versions can share a row.
SHORT_NOTE = 330
# Notes begin under their bar where so much of the chart's width is right of it. Elsewhere they end at the right edge
# and take no more than this, so that they stay near their bar.
LEAST_BESIDE = 0.5
GAP = 14


@dataclass(frozen=True)
class Section:
    """Versions that stand together under a heading, which may lead somewhere. `steps`: by version what changed."""

    heading: str
    versions: tuple[VersionFacts, ...]
    address: str = ""
    steps: Mapping[str, tuple[Step, ...]] = field(default_factory=dict)


@dataclass(frozen=True)
class Notes:
    """Lines below a bar, `at` where they begin, or end if they are `to_the_left`."""

    lines: tuple[str, ...]
    at: int
    to_the_left: bool

    @property
    def width(self) -> float:
        return max((text_width(line, SIZE) for line in self.lines), default=0)

    @property
    def begin(self) -> float:
        return self.at - self.width if self.to_the_left else self.at

    @property
    def end(self) -> float:
        return self.begin + self.width


@dataclass(frozen=True)
class Bar:
    """A version in its place: pieces in units of the drawing, its words, and `words_at` where they begin or end."""

    version: VersionFacts
    pieces: tuple[tuple[int, int, bool], ...]
    words: tuple[str, str, str]
    words_at: int
    to_the_left: bool
    top: int
    notes: Notes

    @property
    def begin(self) -> int:
        return self.pieces[0][0]

    @property
    def end(self) -> int:
        return self.pieces[-1][1]

    @property
    def middle(self) -> int:
        return self.top + BAR


@dataclass
class Layout:
    """Where everything stands; filled from top to bottom. `narrow`: of a version only code and dates are written.
    `dates`: by code of a version what its labels say."""

    scale: Scale
    narrow: bool = False
    dates: Mapping[str, VersionDates] = field(default_factory=lambda: NO_DATES)
    bars: dict[str, Bar] = field(default_factory=dict)
    sections: list[Section] = field(default_factory=list)
    headings: list[tuple[int, Section]] = field(default_factory=list)
    rows: int = 0
    y: int = AXIS

    def copy(self) -> "Layout":
        """As it stands now, whatever is laid into this one later."""
        return replace(self, bars=dict(self.bars), sections=list(self.sections), headings=list(self.headings))


def lay_section(laid: Layout, section: Section, close: bool) -> None:
    taken: list[int] = []  # how far each row of this section is filled
    tops: list[int] = []
    known = () if laid.narrow or not close else section.steps.values()
    most_lines = max((len(short_note(steps, SHORT_NOTE, SIZE)) for steps in known), default=0)
    for version in section.versions:
        steps = () if laid.narrow else section.steps.get(version.code, ())
        notes = notes_of(laid, version, steps, close)
        free = [n for n, until in enumerate(taken) if close and bar_from(laid, version, notes) >= until + GAP]
        row = row_for(laid, version, free, tops) if free else len(taken)
        if row == len(taken):
            taken.append(0)
            tops.append(laid.y)
            # Where versions share rows, all rows of the section leave room for a note.
            lines = most_lines if close else len(notes.lines)
            laid.y += ROW + NOTE * lines
        bar, taken[row] = placed(laid, version, tops[row], notes, close)
        laid.bars[version.code] = bar
    laid.rows += len(taken)


def drawn_pieces(laid: Layout, version: VersionFacts) -> tuple[tuple[int, int, bool], ...]:
    scale = laid.scale
    pieces = pieces_of(version, scale.first, scale.last, laid.dates.get(version.code))
    return tuple(drawn_piece(piece, scale) for piece in pieces)


def notes_of(laid: Layout, version: VersionFacts, steps: Sequence[Step], close: bool) -> Notes:
    """What changed at the step to this version, below its bar as far as there is room."""
    scale, begin = laid.scale, drawn_pieces(laid, version)[0][0]
    if close:
        found = Notes(short_note(steps, SHORT_NOTE, SIZE), begin, False)
        return found if found.end <= scale.right else Notes(found.lines, scale.right, True)
    least = LEAST_BESIDE * (scale.right - scale.left)
    beside = scale.right - begin >= least
    room = scale.right - begin if beside else least
    return Notes(lines_of(steps, room, SIZE), begin if beside else scale.right, not beside)


def row_for(laid: Layout, version: VersionFacts, free: list[int], tops: Sequence[int]) -> int:
    """Of the rows with room the one that a version stands in which this one comes from, else the first."""
    above = {ancestor.version for ancestor in version.ancestors}
    there = {bar.top for code, bar in laid.bars.items() if code in above}
    return next((row for row in free if tops[row] in there), free[0])


def bar_from(laid: Layout, version: VersionFacts, notes: Notes) -> int:
    """Where, in a chart of many types, the bar or, if that is before it, the version's words or its note begin."""
    _, width = fitted(words_for(laid, version, close=True), laid.scale)
    return min(drawn_pieces(laid, version)[0][0], round(laid.scale.right - width), round(notes.begin))


def words_for(laid: Layout, version: VersionFacts, close: bool) -> tuple[str, str, str]:
    """Code, name and dates as a chart has room for them, with the number of dated labels behind the dates."""
    name = "" if close or laid.narrow else version.name
    dates = "" if close else years_of(version) if laid.narrow else version.date_words
    return version.code, name, ", ".join(part for part in (dates, labels_counted(laid.dates.get(version.code))) if part)


def labels_counted(dates: VersionDates | None) -> str:
    """`23 labels`; empty without any."""
    return counted(dates.pieces, "label") if dates else ""


def placed(laid: Layout, version: VersionFacts, top: int, notes: Notes, close: bool) -> tuple[Bar, int]:
    """The bar with its words, and how far to the right it all reaches."""
    scale = laid.scale
    pieces = drawn_pieces(laid, version)
    words, width = fitted(words_for(laid, version, close), scale)
    begin = pieces[0][0]
    to_the_left = begin + width > scale.right
    bar = Bar(version, pieces, words, scale.right if to_the_left else begin, to_the_left, top, notes)
    reach = scale.right if to_the_left else max(pieces[-1][1], round(begin + width))
    return bar, max(reach, round(notes.end))


def drawn_piece(piece: Piece, scale: Scale) -> tuple[int, int, bool]:
    return scale.place(piece.begin), scale.place(piece.end), piece.sure


def years_of(version: VersionFacts) -> str:
    """The dates where there is little room: `about 1957–66` for `September 1957 – about 1966`; a mark of one end stands
    for both, so nothing is surer than on the record."""
    about = "about " if re.search("[~%]", version.date) else ""
    unsure = "?" if re.search("[?%]", version.date) else ""
    begin, end = version.from_year, version.to_year
    if begin and end:
        return f"{about}{years_between(begin, end)}{unsure}"
    return f"from {about}{begin}{unsure}" if begin else f"until {about}{end}{unsure}"


def fitted(words: tuple[str, str, str], scale: Scale) -> tuple[tuple[str, str, str], float]:
    """Code, name and dates cut so that the whole fits the chart, and their width."""
    room = scale.right - scale.left
    code = cut_to(words[0], room / 2, SIZE, bold=True)
    fixed = text_width(code, SIZE, bold=True) + text_width(words[2], SIZE) + 2 * text_width("  ", SIZE)
    name = cut_to(words[1], room - fixed, SIZE) if words[1] else ""
    return (code, name, words[2]), fixed + text_width(name, SIZE)
