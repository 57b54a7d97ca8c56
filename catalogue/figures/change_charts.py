"""Dated pieces on a line of years: the states of a detail one below the other, and the dated span of a version.

Drawn in the units of the screen like the chart of versions; every word is text, and nothing is told by colour.
"""

from collections import Counter, defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from html import escape

import numpy as np

from catalogue.figures.text_width import cut_to, text_width
from catalogue.figures.timeline_layout import AXIS, BAR, EDGE, HALF, ROW, SIZE, WORDS
from catalogue.figures.timelines import LEAST_WIDTH, MOST_WIDTH, PHONE, WIDTH_OF_A_YEAR, axis
from catalogue.figures.years import FARTHEST_DRAWN, Scale
from identification.dating.change_over import Change, DatedPiece, History
from identification.dating.fits import never_falling
from identification.dating.spans import VersionDates
from identification.dating.strays import odd_ones
from identification.dating.words import counted, years_between

WIDEST_MARK, NARROWEST_MARK, BETWEEN = 8, 3, 2
MOST_STACKED = 8
# Under this a cross, drawn with a line that can be seen, looks like a square.
LEAST_CROSS = 9
LANE_WORDS, LANE_GAP = 20, 12
SHARE = 40


@dataclass(frozen=True)
class DetailChart:
    """The drawing, and which signs occur in it: mark, apart, odd, change, share."""

    svg: str
    signs: tuple[str, ...]


def for_screens(draw: Callable[[int], str]) -> str:
    """The drawing as wide as its years want it, and once more as narrow as a phone: a page shows the one that fits.

    `draw` takes the width, 0 for whatever the years want. Nothing where nothing is drawn.
    """
    wide = draw(0)
    if not wide:
        return ""
    return wide.replace('class="timeline"', 'class="timeline wide"', 1) + draw(PHONE).replace(
        'class="timeline"', 'class="timeline phone"', 1
    )


def scale_over(first: int, last: int, width: int = 0) -> tuple[Scale, int]:
    """A scale that holds these years whole, and the width of the drawing; `width` where it is given."""
    first, last = first - 1, last + 2
    width = width or min(max((last - first) * WIDTH_OF_A_YEAR, LEAST_WIDTH), MOST_WIDTH)
    return Scale(first, last, EDGE, width - EDGE), width


def drawing(name: str, described: str, width: int, height: int, parts: Sequence[str]) -> str:
    return (
        f'<svg class="timeline" viewBox="0 0 {width} {height}" width="{width}" height="{height}" role="img">'
        f"<title>{escape(name)}</title><desc>{escape(described)}</desc>{''.join(parts)}</svg>"
    )


def detail_chart(
    name: str,
    pieces: Sequence[DatedPiece],
    history: History,
    labels: Mapping[str, str],
    makers: Mapping[str, str],
    width: int = 0,
) -> DetailChart | None:
    """Every dated piece as a mark by state and year, with the change between; None without a piece.

    `labels` and `makers` are names by code; `width` as `for_screens` gives it. States stand in the order of their
    middle years.
    """
    if not pieces:
        return None
    scale, width = scale_over(min(p.year for p in pieces), max(p.year for p in pieces), width)
    lanes = lanes_of(pieces)
    odd = {piece for change in history.changes for piece in odd_ones(change, pieces)}
    apart = {(one.maker, state) for change in history.changes for one in change.makers_apart
             for state in (change.before, change.after)}  # fmt: skip
    y, drawn, said = AXIS, [], []
    for state, by_year in lanes:
        stacked = max(min(len(group), MOST_STACKED) for group in by_year.values())
        mark = mark_size(scale)
        base = y + LANE_WORDS + stacked * (mark + BETWEEN)
        number = f" ({counted(sum(map(len, by_year.values())), 'label')})"
        # Where there is no room for all, the number of labels stays.
        name = cut_to(labels.get(state, state), width - 2 * EDGE - text_width(number, SIZE), SIZE)
        drawn.append(f'<text x="{EDGE}" y="{y + WORDS}">{escape(name + number)}</text>')
        drawn.append(f'<path class="rule" d="M{EDGE} {base}H{width - EDGE}"/>')
        for year, group in by_year.items():
            drawn.append(marks(scale, year, group, base, mark, odd, apart, labels.get(state, state), makers))
        said.append(f"{labels.get(state, state)}: {', '.join(f'{year} ({len(g)})' for year, g in by_year.items())}.")
        y = base + LANE_GAP
    share = share_line(pieces, history.changes[0], scale, y, labels) if history.changes else ""
    y += SHARE + LANE_WORDS if share else 0
    bands = [band(change, scale, y) for change in history.changes]
    parts = [axis(scale, y, below=False), *(drawn_band for drawn_band in bands), *drawn, share]
    signs = {
        "mark": True,
        "apart": any((p.maker, p.state) in apart for p in pieces),
        "odd": bool(odd),
        "change": bool(bands),
        "share": bool(share),
    }
    height = y + (22 if bands else 4)
    return DetailChart(
        drawing(name, " ".join(said), width, height, parts), tuple(sign for sign, there in signs.items() if there)
    )


def lanes_of(pieces: Sequence[DatedPiece]) -> list[tuple[str, dict[int, list[DatedPiece]]]]:
    found: dict[str, dict[int, list[DatedPiece]]] = defaultdict(lambda: defaultdict(list))
    for piece in sorted(pieces, key=lambda one: (one.year, one.maker, one.code)):
        found[piece.state][piece.year].append(piece)
    middle = {state: float(np.median([p.year for p in pieces if p.state == state])) for state in found}
    return [(state, found[state]) for state in sorted(found, key=lambda state: (middle[state], state))]


def mark_size(scale: Scale) -> int:
    a_year = (scale.right - scale.left) / (scale.last - scale.first)
    return int(max(NARROWEST_MARK, min(WIDEST_MARK, a_year - BETWEEN)))


def marks(
    scale: Scale,
    year: int,
    group: Sequence[DatedPiece],
    base: int,
    mark: int,
    odd: set[DatedPiece],
    apart: set[tuple[str, str]],
    label: str,
    makers: Mapping[str, str],
) -> str:
    """The pieces of one state and year, stacked from the line up; beyond what fits a figure says how many."""
    x = scale.place(year + 0.5) - mark // 2
    shown = group if len(group) <= MOST_STACKED else group[: MOST_STACKED - 1]
    found = []
    for place, piece in enumerate(shown):
        y = base - (place + 1) * (mark + BETWEEN)
        if piece in odd:
            found.append(cross(x + mark / 2, y + mark / 2, max(mark, LEAST_CROSS)))
        else:
            kind = "apart" if (piece.maker, piece.state) in apart else "piece"
            found.append(f'<path class="{kind}" d="M{x} {y}h{mark}v{mark}h{-mark}z"/>')
    if len(shown) < len(group):
        y = base - MOST_STACKED * (mark + BETWEEN) + mark
        found.append(f'<text class="more" x="{x + mark // 2}" y="{y}">+{len(group) - len(shown)}</text>')
    by_maker = Counter(makers.get(piece.maker, piece.maker) or "maker not known" for piece in group)
    who = ", ".join(f"{maker} {number}" for maker, number in by_maker.items())
    title = f"{year}: {label}, {counted(len(group), 'label')} ({who})" if label else f"{year}: {len(group)}"
    return f"<g><title>{escape(title)}</title>{''.join(found)}</g>"


def cross(x: float, y: float, wide: int) -> str:
    """A cross around a middle; it stays so large that it is no square, however narrow the years are."""
    half = wide / 2
    return f'<path class="odd" d="M{x - half:g} {y - half:g}l{wide} {wide}m0 {-wide}l{-wide} {wide}"/>'


def band(change: Change, scale: Scale, foot: int) -> str:
    """The years in which the change may lie, shaded by lines, and the likeliest one, with words below."""
    begin, end, at = scale.place(change.first), scale.place(change.last + 1), scale.place(change.about)
    words = escape(f"about {change.about} ({years_between(change.first, change.last)})")
    near = "middle" if scale.left + 80 < at < scale.right - 80 else ("start" if at <= scale.left + 80 else "end")
    return (
        f'<path class="band" d="M{begin} {AXIS}H{end}V{foot}H{begin}Z"/><path class="turn" d="M{at} {AXIS}V{foot}"/>'
        f'<text x="{at}" y="{foot + 15}" text-anchor="{near}">{words}</text>'
    )


def share_line(pieces: Sequence[DatedPiece], change: Change, scale: Scale, y: int, labels: Mapping[str, str]) -> str:
    """The share of the later state among both by year, as the nearest line that never falls; odd pieces count."""
    both = [piece for piece in pieces if piece.state in (change.before, change.after)]
    if change.again is not None:
        both = [p for p in both if p.state == change.after or p.year < change.again.first]
    if change.already is not None:
        both = [p for p in both if p.state == change.before or p.year > change.already.last]
    years, place = np.unique([piece.year for piece in both], return_inverse=True)
    numbers = np.bincount(place)
    later = np.bincount(place, weights=[piece.state == change.after for piece in both])
    top, foot = y + LANE_WORDS, y + LANE_WORDS + SHARE - LANE_GAP
    path, shares = [], never_falling(later / numbers, numbers.astype(float))
    for year, share in zip(years, shares, strict=True):
        height = round(foot - share * (foot - top))
        path.append(f"{'V' if path else f'M{scale.place(int(year))} '}{height}H{scale.place(int(year) + 1)}")
    words = escape(cut_to(f"Share of “{labels.get(change.after, change.after)}”", scale.right - scale.left, SIZE))
    return (
        f'<text x="{EDGE}" y="{y + WORDS}">{words}</text><path class="rule" d="M{EDGE} {foot}H{scale.right}"/>'
        f'<path class="share" d="{"".join(path)}"/>'
    )


def span_signs(dates: VersionDates) -> tuple[str, ...]:
    """Which signs occur in `span_chart`."""
    begun = first_known(dates.documented.first, dates.low if dates.begin_told else None, dates.first) < dates.first
    ended = first_known(dates.documented.last, dates.high if dates.end_told else None, dates.last) > dates.last
    known = dates.begin_told and dates.end_told
    return ("mark", "sure", *(["about"] if begun or ended else []), *([] if known else ["unknown"]))


def span_chart(name: str, dates: VersionDates, label_years: Sequence[int], width: int = 0) -> str:
    """The span seen as a solid bar with its labels above, how far it may reach dashed, and a question mark at an end
    that too few labels tell; `width` as `for_screens` gives it."""
    low = first_known(dates.documented.first, dates.low if dates.begin_told else None, dates.first)
    high = first_known(dates.documented.last, dates.high if dates.end_told else None, dates.last)
    left, right = max(low, dates.first - FARTHEST_DRAWN), min(high, dates.last + FARTHEST_DRAWN)
    scale, width = scale_over(min(left, dates.first), max(right, dates.last), width)
    numbers = Counter(label_years)
    mark = mark_size(scale)
    stacked = min(max(numbers.values()), MOST_STACKED)
    base = AXIS + stacked * (mark + BETWEEN) + 4
    middle = base + 10
    parts = [axis(scale, middle + 10, below=False)]
    for year, number in sorted(numbers.items()):
        group = [DatedPiece(year, "", "", str(place)) for place in range(number)]
        parts.append(marks(scale, year, group, base, mark, set(), set(), "", {}))
    begin, end = scale.place(dates.first), scale.place(dates.last + 1)
    if left < dates.first:
        parts.append(f'<path class="about" d="M{scale.place(left)} {middle}H{begin}"/>')
    parts.append(f'<path class="sure" d="M{begin} {middle}H{end}"/>')
    if right > dates.last:
        parts.append(f'<path class="about" d="M{end} {middle}H{scale.place(right + 1)}"/>')
    if not dates.begin_told:
        parts.append(f'<text x="{begin - 4}" y="{middle + 4}" text-anchor="end">?</text>')
    if not dates.end_told:
        parts.append(f'<text x="{end + 4}" y="{middle + 4}">?</text>')
    described = f"Labels of {', '.join(f'{year} ({number})' for year, number in sorted(numbers.items()))}."
    if dates.low is not None and dates.high is not None and dates.begin_told and dates.end_told:
        papers = dates.documented.first is not None and dates.documented.last is not None
        told = "Papers name" if papers else "Production probably within"
        described += f" {told} {years_between(dates.low, dates.high)}."
    return drawing(name, described, width, middle + 14, parts)


def first_known(*years: int | None) -> int:
    return next(year for year in years if year is not None)


@dataclass(frozen=True)
class TypeRow:
    """One garment type on an issuer's chart of a detail."""

    name: str
    address: str
    pieces: tuple[DatedPiece, ...]
    history: History
    words: str
    recorded: tuple[int, ...] = ()


def issuer_chart(name: str, rows: Sequence[TypeRow], width: int = 0) -> str:
    """Each type's changes of one detail on the same years; empty where nothing is dated. `width` as `for_screens` gives
    it; a narrow drawing has the names alone beside the bars.

    The earlier state is a solid bar, the later one an outline, the years of the change between them dashed; a wedge
    stands where a change is on record. `recorded`: the years of these.
    """
    years = [year for row in rows for year in (*(piece.year for piece in row.pieces), *row.recorded)]
    if not years:
        return ""
    names_alone = bool(width)
    scale, width = scale_over(min(years), max(years), width)
    parts, said, y = [], [], AXIS
    for row in rows:
        own = [piece.year for piece in row.pieces]
        middle = y + BAR
        words = cut_to(row.name if names_alone else f"{row.name}: {row.words}", width - 2 * EDGE, SIZE)
        drawn = "".join(type_bars(row, scale, middle, min(own), max(own))) if own else ""
        drawn += "".join(wedge(scale.place(year), middle) for year in row.recorded)
        parts.append(
            f'<a href="{escape(row.address)}"><title>{escape(f"{row.name}: {row.words}")}</title>{drawn}'
            f'<text x="{EDGE}" y="{y + WORDS}">{escape(words)}</text></a>'
        )
        said.append(f"{row.name}: {row.words}.")
        y += ROW
    return drawing(name, " ".join(said), width, y + 4, [axis(scale, y, below=False), *parts]).replace(
        'role="img"', 'role="group"', 1
    )


def wedge(x: int, middle: int) -> str:
    return f'<path class="wedge" d="M{x} {middle + HALF + 1}l4 7h-8z"/>'


def type_bars(row: TypeRow, scale: Scale, middle: int, first: int, last: int) -> list[str]:
    """A state and those that replaced it by turns solid and outlined; one that was met out of its turn as it was."""
    if not row.history.changes:
        return [f'<path class="turn" d="M{scale.place(first)} {middle}H{scale.place(last + 1)}"/>']
    found, begin = [], first
    for place, change in enumerate(row.history.changes):
        follows = row.history.changes[place + 1 :]
        before, after = (solid_bar, outlined_bar) if place % 2 == 0 else (outlined_bar, solid_bar)
        if place == 0:
            if change.already is not None:
                found.append(after(scale, middle, begin, change.already.last + 1))
                begin = change.already.last + 1
            found.append(before(scale, middle, begin, max(change.first, begin)))
        from_year, to_year = max(change.first, begin), change.last + 1
        end = follows[0].first if follows else change.again.first if change.again is not None else last + 1
        until = max(end, to_year)
        found.append(f'<path class="about" d="M{scale.place(from_year)} {middle}H{scale.place(to_year)}"/>')
        found.append(after(scale, middle, to_year, until))
        begin = until
        if change.again is not None and not follows:
            found.append(before(scale, middle, until, max(last + 1, until)))
    return found


def solid_bar(scale: Scale, middle: int, first: int, end: int) -> str:
    return f'<path class="sure" d="M{scale.place(first)} {middle}H{scale.place(end)}"/>'


def outlined_bar(scale: Scale, middle: int, first: int, end: int) -> str:
    top, bottom = middle - HALF, middle + HALF
    return f'<path class="hollow" d="M{scale.place(first)} {top}H{scale.place(end)}V{bottom}H{scale.place(first)}Z"/>'
