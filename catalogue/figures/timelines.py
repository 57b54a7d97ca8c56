"""Versions on a chart of years: a bar for each, lines of descent between them, every word as text.

The whole is drawn in the units of the screen, so that its text stays as large as text; where the screen is narrower
the box around it scrolls.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from html import escape

from catalogue.figures.descent_lines import Line, descent
from catalogue.figures.step_notes import Step, steps_of
from catalogue.figures.text_width import cut_to
from catalogue.figures.timeline_layout import (
    AXIS,
    EDGE,
    HALF,
    HEADING,
    HEADING_SIZE,
    NOTE,
    NOTES,
    WORDS,
    Bar,
    Layout,
    Section,
    labels_counted,
    lay_section,
)
from catalogue.figures.years import NO_DATES, Scale, span_of_years
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.words import VersionKind
from identification.dating.spans import VersionDates
from identification.dating.words import span_sentences

SECTIONS = (
    ("Issued", (VersionKind.ISSUE,)),
    ("Trials and changeovers", (VersionKind.TRIAL, VersionKind.TRANSITIONAL)),
    ("Changed after issue", (VersionKind.DEPOT_MODIFICATION, VersionKind.CONVERSION)),
    ("Copies and reproductions", (VersionKind.COMMERCIAL_COPY, VersionKind.REPRODUCTION)),
    ("Not placed", (VersionKind.UNPLACED,)),
)
LEAST_WIDTH, MOST_WIDTH, WIDTH_OF_A_YEAR = 600, 1060, 17
# A phone 360 wide leaves so much, of which lines that go round the words take what the chart leaves them.
PHONE, PHONE_WIDTHS = 328, (296, 280, 260)
# A taller chart comes in parts, so that each stands whole on a sheet of paper; one of many types in parts of which two
# may share a sheet.
MOST_HIGH, MOST_HIGH_CLOSE = 1350, 850
BOTH_AXES = 14  # from so many rows on the years stand below as well
LATE = 9999  # a version without a year stands behind the dated ones


@dataclass(frozen=True)
class Chart:
    """A chart in one or several parts, the signs that occur in it, and the versions that could not stand in it.

    `narrow`: the same as wide as a phone, without names and without what changed. `told`: versions with all that
    changed at the steps to them, where the chart has room for one change only.
    """

    parts: tuple[str, ...]
    signs: tuple[str, ...]
    undated: tuple[VersionFacts, ...] = ()
    narrow: tuple[str, ...] = ()
    told: tuple[tuple[VersionFacts, tuple[Step, ...]], ...] = ()


def timeline_of_type(
    facts: TypeFacts, *, number: int | None = None, dates: Mapping[str, VersionDates] = NO_DATES
) -> Chart | None:
    """A type's versions, each in a row of its own under its kind. None where none is dated. Kept for the state.

    `dates`: by code of a version what the labels of its accepted pieces say.
    """
    key = ("timeline", facts.code, bool(dates))
    return keep_for_state(key, lambda: draw_type(facts, dates), number=number)


def draw_type(facts: TypeFacts, dates: Mapping[str, VersionDates]) -> Chart | None:
    by_heading = [(heading, [v for v in facts.versions.values() if v.kind in kinds]) for heading, kinds in SECTIONS]
    sections = [Section(heading, in_time(found), steps=steps(facts, found)) for heading, found in by_heading]
    name = f"{facts.name}: versions in the order of time"
    return chart(name, [s for s in sections if s.versions], close=False, dates=dates)


def steps(facts: TypeFacts, versions: Iterable[VersionFacts]) -> dict[str, tuple[Step, ...]]:
    """What changed at the step to each of the versions at which something did."""
    found = {version.code: steps_of(facts, version) for version in versions}
    return {code: made for code, made in found.items() if made}


def timeline_of_issuer(
    issuer: str,
    types: Iterable[TypeFacts],
    *,
    number: int | None = None,
    dates: Mapping[str, VersionDates] = NO_DATES,
) -> Chart | None:
    """What the issuer of this name gave out, under its garment types, as close as it can stand. Kept for the state.
    `dates`: as for `timeline_of_type`."""
    key = ("timeline of issuer", issuer, bool(dates))
    return keep_for_state(key, lambda: draw_issuer(issuer, types, dates), number=number)


def draw_issuer(issuer: str, types: Iterable[TypeFacts], dates: Mapping[str, VersionDates]) -> Chart | None:
    sections = []
    for facts in types:
        found = in_time(version for version in facts.versions.values() if version.issuer == issuer)
        sections.append(Section(facts.name, found, address_of("type", facts.code), steps(facts, found)))
    return chart(f"{issuer}: versions of all garment types in the order of time", sections, close=True, dates=dates)


def in_time(versions: Iterable[VersionFacts]) -> tuple[VersionFacts, ...]:
    return tuple(sorted(versions, key=lambda v: (v.from_year or v.to_year or LATE, v.to_year or LATE)))


def chart(
    name: str, sections: Sequence[Section], *, close: bool, dates: Mapping[str, VersionDates] = NO_DATES
) -> Chart | None:
    """The chart, or None where no version is dated. `close`: several versions in a row, named by their codes only.
    `dates`: by code of a version what its labels say."""
    versions = [version for section in sections for version in section.versions]
    years = span_of_years(versions, dates)
    if years is None:
        return None
    first, last = years
    width = min(max((last - first) * WIDTH_OF_A_YEAR, LEAST_WIDTH), MOST_WIDTH)
    dated = [replace(s, versions=tuple(v for v in s.versions if v.from_year or v.to_year)) for s in sections]
    dated = [section for section in dated if section.versions]
    headed = len(dated) > 1 or close
    wide = Layout(Scale(first, last, EDGE, width - EDGE), dates=dates)
    parts = laid_in_parts(dated, wide, headed=headed, close=close)
    for phone in PHONE_WIDTHS:
        small = Layout(Scale(first, last, EDGE, phone - EDGE), narrow=True, dates=dates)
        narrow = laid_in_parts(dated, small, headed=headed, close=close)
        if all(phone + descent(laid)[1] <= PHONE for laid in narrow):
            break
    there = {code for laid in parts for code in laid.bars}
    undated = tuple(version for version in versions if version.code not in there)
    told = [(v, s.steps[v.code]) for s in dated for v in s.versions if close and v.code in s.steps]
    return Chart(
        written_parts(name, parts, undated, width, "wide"),
        signs_of(parts),
        undated,
        written_parts(name, narrow, undated, phone, "phone"),
        tuple(told),
    )


def written_parts(
    name: str, parts: Sequence[Layout], undated: Sequence[VersionFacts], width: int, screen: str
) -> tuple[str, ...]:
    return tuple(
        written(
            part_name(name, laid, parts),
            description(laid, undated if laid is parts[-1] else ()),
            laid,
            width,
            screen,
        )
        for laid in parts
    )


def part_name(name: str, laid: Layout, parts: Sequence[Layout]) -> str:
    """Of several parts each says what stands in it."""
    return name if len(parts) == 1 else f"{name}; {', '.join(section.heading for section in laid.sections)}"


def laid_in_parts(sections: Sequence[Section], empty: Layout, *, headed: bool, close: bool) -> list[Layout]:
    """The sections below each other. A part ends before the section that would make it too high; lines of descent
    stay within their part."""
    parts = [empty.copy()]
    for section in sections:
        before = parts[-1].copy()
        lay(parts[-1], section, headed, close)
        if parts[-1].y > (MOST_HIGH_CLOSE if close else MOST_HIGH) and before.sections:
            parts[-1] = before
            parts.append(empty.copy())
            lay(parts[-1], section, headed, close)
    return parts


def lay(laid: Layout, section: Section, headed: bool, close: bool) -> None:
    laid.sections.append(section)
    if headed:
        laid.headings.append((laid.y, section))
        laid.y += HEADING
    lay_section(laid, section, close)


def written(name: str, described: str, laid: Layout, width: int, screen: str) -> str:
    below = laid.rows >= BOTH_AXES
    foot = laid.y + 6
    height = foot + (20 if below else 2)
    lines, beside = descent(laid)
    box = f'viewBox="{-beside} 0 {width + beside} {height}" width="{width + beside}" height="{height}"'
    parts = [
        f'<svg class="timeline {screen}" {box} role="group">',
        f"<title>{escape(name)}</title><desc>{escape(described)}</desc>",
        axis(laid.scale, foot, below),
        *(heading(y, section, width) for y, section in laid.headings),
        *map(drawn_line, lines),
        *(linked(bar, laid.dates.get(bar.version.code)) for bar in laid.bars.values()),
        "</svg>",
    ]
    return "".join(parts)


def drawn_line(line: Line) -> str:
    ends = f'data-from="{escape(line.above)}" data-to="{escape(line.below)}"'
    return f'<path class="{line.kind}" {ends} d="{line.path}"/><path class="tip" d="{line.tip}"/>'


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


def linked(bar: Bar, by_labels: VersionDates | None) -> str:
    """A version's bar and words, leading to its page, with everything the chart says of it as its name."""
    version = bar.version
    hollow = version.kind != VersionKind.ISSUE
    drawn = "".join(hollow_piece(bar, piece) if hollow else solid_piece(bar, piece) for piece in bar.pieces)
    code, name, dates = (escape(words) for words in bar.words)
    text = f"<tspan>{code}</tspan>" + (f" {name}" if name else "") + (f" <tspan>{dates}</tspan>" if dates else "")
    side = ' text-anchor="end"' if bar.to_the_left else ""
    told = read_on([in_full(version), *said_by(by_labels), *bar.notes.lines])
    return (
        f'<a href="{escape(address_of("version", version.code))}"><title>{escape(told)}</title>{drawn}'
        f'<text x="{bar.words_at}" y="{bar.top + WORDS}"{side}>{text}</text>{noted(bar)}</a>'
    )


def read_on(parts: Iterable[str]) -> str:
    """Sentences one behind another; what goes on behind a semicolon is no new one."""
    return ". ".join(parts).replace(";. ", "; ")


def noted(bar: Bar) -> str:
    """What changed at the step to this version, below its bar."""
    side = ' text-anchor="end"' if bar.notes.to_the_left else ""
    return "".join(
        f'<text class="note" x="{bar.notes.at}" y="{bar.top + NOTES + NOTE * place}"{side}>{escape(line)}</text>'
        for place, line in enumerate(bar.notes.lines)
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


def said_by(dates: VersionDates | None) -> list[str]:
    """The span seen on labels with their number, and what they tell of both ends, as the version's page has it."""
    return [words.removesuffix(".") for words in span_sentences(dates, narrowing=False)[:2]] if dates else []


def description(laid: Layout, undated: Sequence[VersionFacts]) -> str:
    """What stands in the chart, in words; each version's link says the rest."""
    said = [f"{s.heading}: {', '.join(described(laid, version) for version in s.versions)}." for s in laid.sections]
    if undated:
        said.append(f"Not dated: {', '.join(version.code for version in undated)}.")
    return " ".join(said)


def described(laid: Layout, version: VersionFacts) -> str:
    """`BLO-57 September 1957 – about 1966 (23 labels)`."""
    labels = labels_counted(laid.dates.get(version.code))
    return f"{version.code} {version.date_words}" + (f" ({labels})" if labels else "")


def signs_of(parts: Sequence[Layout]) -> tuple[str, ...]:
    """Which signs want an explanation: solid, hollow, stitched, follows, made, and the number of labels."""
    bars = [bar for laid in parts for bar in laid.bars.values()]
    hollow = [bar.version.kind != VersionKind.ISSUE for bar in bars]
    lines = [
        ancestor.made_from
        for laid in parts
        for bar in laid.bars.values()
        for ancestor in bar.version.ancestors
        if ancestor.version in laid.bars
    ]
    occurring = {
        "solid": not all(hollow),
        "hollow": any(hollow),
        "stitched": any(not sure for bar in bars for _, _, sure in bar.pieces),
        "follows": not all(lines),
        "made": any(lines),
        "labels": any(bar.version.code in laid.dates for laid in parts for bar in laid.bars.values()),
    }
    return tuple(sign for sign, occurs in occurring.items() if occurs)
