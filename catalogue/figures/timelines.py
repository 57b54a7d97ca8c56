"""Versions on a chart of years: a bar for each, lines of descent between them, every word as text.

The whole is drawn in the units of the screen, so that its text stays as large as text; where the screen is narrower
the box around it scrolls.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

from catalogue.figures.text_width import cut_to
from catalogue.figures.timeline_layout import (
    AXIS,
    EDGE,
    HALF,
    HEADING,
    HEADING_SIZE,
    WORDS,
    Bar,
    Layout,
    Section,
    descent,
    lay_section,
)
from catalogue.figures.years import Scale, span_of_years
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.words import VersionKind

SECTIONS = (
    ("Issued", (VersionKind.ISSUE,)),
    ("Trials and changeovers", (VersionKind.TRIAL, VersionKind.TRANSITIONAL)),
    ("Changed after issue", (VersionKind.DEPOT_MODIFICATION, VersionKind.CONVERSION)),
    ("Copies and reproductions", (VersionKind.COMMERCIAL_COPY, VersionKind.REPRODUCTION)),
    ("Not placed", (VersionKind.UNPLACED,)),
)
LEAST_WIDTH, MOST_WIDTH, WIDTH_OF_A_YEAR = 600, 1060, 17
BOTH_AXES = 14  # from so many rows on the years stand below as well
LATE = 9999  # a version without a year stands behind the dated ones


@dataclass(frozen=True)
class Chart:
    """A drawn chart, the signs that occur in it, and the versions that could not stand in it."""

    svg: str
    signs: tuple[str, ...]
    undated: tuple[VersionFacts, ...] = ()


def timeline_of_type(facts: TypeFacts, *, number: int | None = None) -> Chart | None:
    """A type's versions, each in a row of its own under its kind. None where none is dated. Kept for the state."""
    return keep_for_state(("timeline", facts.code), lambda: draw_type(facts), number=number)


def draw_type(facts: TypeFacts) -> Chart | None:
    versions = facts.versions.values()
    sections = [Section(heading, in_time(v for v in versions if v.kind in kinds)) for heading, kinds in SECTIONS]
    return chart(f"{facts.name}: versions in the order of time", [s for s in sections if s.versions], close=False)


def timeline_of_issuer(issuer: str, types: Iterable[TypeFacts]) -> Chart | None:
    """What the issuer of this name gave out, under its garment types, as close as it can stand."""
    sections = [
        Section(
            facts.name,
            in_time(version for version in facts.versions.values() if version.issuer == issuer),
            address_of("type", facts.code),
        )
        for facts in types
    ]
    return chart(f"{issuer}: versions of all garment types in the order of time", sections, close=True)


def in_time(versions: Iterable[VersionFacts]) -> tuple[VersionFacts, ...]:
    return tuple(sorted(versions, key=lambda v: (v.from_year or v.to_year or LATE, v.to_year or LATE)))


def chart(name: str, sections: Sequence[Section], *, close: bool) -> Chart | None:
    """The chart, or None where no version is dated. `close`: several versions in a row, named by their codes only."""
    versions = [version for section in sections for version in section.versions]
    years = span_of_years(versions)
    if years is None:
        return None
    first, last = years
    width = min(max((last - first) * WIDTH_OF_A_YEAR, LEAST_WIDTH), MOST_WIDTH)
    laid = Layout(Scale(first, last, EDGE, width - EDGE))
    dated = [Section(s.heading, tuple(v for v in s.versions if v.from_year or v.to_year), s.address) for s in sections]
    dated = [section for section in dated if section.versions]
    for section in dated:
        if len(dated) > 1 or close:
            laid.headings.append((laid.y, section))
            laid.y += HEADING
        lay_section(laid, section, close)
    undated = tuple(version for version in versions if version.code not in laid.bars)
    lines = descent(list(laid.bars.values()))
    return Chart(written(name, description(dated, undated), laid, lines, width), signs_of(laid, lines), undated)


def written(name: str, described: str, laid: Layout, lines: list[tuple[str, str]], width: int) -> str:
    below = laid.rows >= BOTH_AXES
    foot = laid.y + 6
    height = foot + (20 if below else 2)
    parts = [
        f'<svg class="timeline" viewBox="0 0 {width} {height}" width="{width}" height="{height}" role="group">',
        f"<title>{escape(name)}</title><desc>{escape(described)}</desc>",
        axis(laid.scale, foot, below),
        *(heading(y, section, width) for y, section in laid.headings),
        *(f'<path class="{kind}" d="{path}"/>' for path, kind in lines),
        *(linked(bar) for bar in laid.bars.values()),
        "</svg>",
    ]
    return "".join(parts)


def axis(scale: Scale, foot: int, below: bool) -> str:
    """Hairlines at round years with the years above, and below where the chart is tall. Not read aloud."""
    marks = [(scale.place(year), year) for year in scale.marked]
    rules = "".join(f"M{x} {AXIS - 6}V{foot}" for x, _ in marks)
    heights = [14, foot + 14] if below else [14]
    years = "".join(f'<text x="{x}" y="{y}">{year}</text>' for y in heights for x, year in marks)
    return f'<g class="axis" aria-hidden="true"><path d="{rules}"/>{years}</g>'


def heading(y: int, section: Section, width: int) -> str:
    """The section's words over a stitched rule across the chart."""
    words = escape(cut_to(section.heading, width, HEADING_SIZE, bold=True))
    text = f'<text class="heading" x="0" y="{y + 18}">{words}</text>'
    link = f'<a href="{escape(section.address)}">{text}</a>' if section.address else text
    return f'{link}<path class="rule" d="M0 {y + 25}H{width}"/>'


def linked(bar: Bar) -> str:
    """A version's bar and words, leading to its page, with everything the chart says of it as its name."""
    version = bar.version
    hollow = version.kind != VersionKind.ISSUE
    drawn = "".join(hollow_piece(bar, piece) if hollow else solid_piece(bar, piece) for piece in bar.pieces)
    code, name, dates = (escape(words) for words in bar.words)
    text = f"<tspan>{code}</tspan>" + (f" {name}" if name else "") + (f" <tspan>{dates}</tspan>" if dates else "")
    side = ' text-anchor="end"' if bar.to_the_left else ""
    return (
        f'<a href="{escape(address_of("version", version.code))}"><title>{escape(in_full(version))}</title>{drawn}'
        f'<text x="{bar.words_at}" y="{bar.top + WORDS}"{side}>{text}</text></a>'
    )


def solid_piece(bar: Bar, piece: tuple[int, int, bool]) -> str:
    begin, end, sure = piece
    return f'<path class="{"sure" if sure else "about"}" d="M{begin} {bar.middle}H{end}"/>'


def hollow_piece(bar: Bar, piece: tuple[int, int, bool]) -> str:
    """An outline; one that is not sure stays open towards the piece beside it."""
    begin, end, sure = piece
    top, bottom = bar.middle - HALF, bar.middle + HALF
    if sure or len(bar.pieces) == 1:
        path = f"M{begin} {top}H{end}V{bottom}H{begin}Z"
    elif piece == bar.pieces[0]:
        path = f"M{end} {top}H{begin}V{bottom}H{end}"
    else:
        path = f"M{begin} {top}H{end}V{bottom}H{begin}"
    return f'<path class="hollow{"" if sure else " unsure"}" d="{path}"/>'


def in_full(version: VersionFacts) -> str:
    """`Blouse, working, Pattern 57 (BLO-57): issue, September 1957 – about 1966; follows BLO-52`."""
    follows = [ancestor.version for ancestor in version.ancestors if not ancestor.made_from]
    made = [ancestor.version for ancestor in version.ancestors if ancestor.made_from]
    words = f"{version.name} ({version.code}): {version.kind_words.lower()}, {version.date_words}"
    if made:
        return f"{words}; made from {' or '.join(made)}"
    return f"{words}; follows {' and '.join(follows)}" if follows else words


def description(sections: Sequence[Section], undated: Sequence[VersionFacts]) -> str:
    """What stands in the chart, in words; each version's link says the rest."""
    said = [f"{s.heading}: {', '.join(f'{v.code} {v.date_words}' for v in s.versions)}." for s in sections]
    if undated:
        said.append(f"Not dated: {', '.join(version.code for version in undated)}.")
    return " ".join(said)


def signs_of(laid: Layout, lines: list[tuple[str, str]]) -> tuple[str, ...]:
    """Which signs want an explanation: solid, hollow, stitched, follows, made."""
    bars = laid.bars.values()
    hollow = [bar.version.kind != VersionKind.ISSUE for bar in bars]
    occurring = {
        "solid": not all(hollow),
        "hollow": any(hollow),
        "stitched": any(not sure for bar in bars for _, _, sure in bar.pieces),
        "follows": any(kind == "follows" for _, kind in lines),
        "made": any(kind == "made" for _, kind in lines),
    }
    return tuple(sign for sign, occurs in occurring.items() if occurs)
