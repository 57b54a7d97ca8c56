"""Lines of descent on a chart of versions: each leads from a version to one that follows it or was made from it.

A line leaves the bar of the one, bends twice, and ends with an arrowhead at the bar of the other. It is never broken:
it goes where no words stand and, where there is no such way, round them in a lane of its own left of the chart. Bends
are round, so that a line which turns is told from two that cross. Lines of one kind from one version may share their
way; others do not.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from catalogue.figures.pen import Box
from catalogue.figures.text_width import text_width
from catalogue.figures.timeline_layout import HALF, HEADING_SIZE, NOTE, NOTES, SIZE, WORDS, Bar, Layout

TRUNK = 11  # how far before a bar a line turns towards it, where nothing stands in its way
UNDER = HALF + 2  # below the middle of a bar: the level at which a line leaves to the left, or passes other bars
APART = 5  # between a line and words, and between lines from different versions
ROUND = 4  # radius of a bend
TIP, SPREAD = 8, 4  # length of an arrowhead, and half its width
LANE = 6  # from one lane left of the chart to the next
ASCENT, DESCENT = 11, 3  # of letters, above and below the line that they stand on
# What a way costs, in units by which it lies beside the best place (ours; no source).
OVER_A_BAR, ROUND_ABOUT, ALONG_A_LINE = 150, 25, 120
Point = tuple[float, float]


@dataclass(frozen=True)
class Line:
    """`path` leads from the version `above` to the version `below`; `tip` is the arrowhead there.

    `kind`: follows or made.
    """

    above: str
    below: str
    kind: str
    path: str
    tip: str


@dataclass
class Drawn:
    """The pieces drawn so far, each with its owner, the version that it comes from and its kind: where it is, and from
    where to where."""

    upright: list[tuple[float, float, float, tuple[str, str]]] = field(default_factory=list)
    level: list[tuple[float, float, float, tuple[str, str]]] = field(default_factory=list)
    lanes: int = 0


def descent(laid: Layout) -> tuple[list[Line], int]:
    """All lines between versions of the chart, and how much room their lanes take left of it."""
    bars = list(laid.bars.values())
    words = sorted(words_on(laid), key=lambda box: box.y)
    drawn, found = Drawn(), []
    for bar in bars:
        above: dict[str, bool] = {}
        for ancestor in bar.version.ancestors:
            above[ancestor.version] = above.get(ancestor.version, False) or ancestor.made_from
        for code, made in above.items():
            if code in laid.bars and code != bar.version.code:
                kind = "made" if made else "follows"
                points = way(laid.bars[code], bar, bars, words, drawn, (code, kind))
                found.append(Line(code, bar.version.code, kind, rounded(points), tip(points)))
    return found, drawn.lanes * LANE


def words_on(laid: Layout) -> Iterator[Box]:
    """The boxes of all words of the chart: headings, what stands over the bars, what changed below them."""
    for y, section in laid.headings:
        yield letters(0, y + 18, text_width(section.heading, HEADING_SIZE, bold=True))
    for bar in laid.bars.values():
        code, name, dates = bar.words
        width = text_width(code, SIZE, bold=True) + sum(text_width(f" {one}", SIZE) for one in (name, dates) if one)
        yield letters(bar.words_at - (width if bar.to_the_left else 0), bar.top + WORDS, width)
        for place, note in enumerate(bar.notes.lines):
            width = text_width(note, SIZE)
            begin = bar.notes.at - (width if bar.notes.to_the_left else 0)
            yield letters(begin, bar.top + NOTES + NOTE * place, width)


def letters(x: float, baseline: float, width: float) -> Box:
    return Box(x, baseline - ASCENT, width, ASCENT + DESCENT)


def way(
    above: Bar, bar: Bar, bars: Sequence[Bar], words: Sequence[Box], drawn: Drawn, owner: tuple[str, str]
) -> list[Point]:
    """The corners of the line, from the bar of the one to the bar of the other."""
    if above.middle == bar.middle and above.end <= bar.begin:
        return in_one_row(above, bar, bars)
    top, bottom = sorted((above.middle, bar.middle))
    passed = [box for box in words if box.y < bottom + UNDER and box.y + box.h > top]
    between = [one for one in bars if top < one.middle < bottom]
    level = [one for one in bars if one.middle in (top, bottom) and one not in (above, bar)]
    best = min(bar.begin - TRUNK, above.end - 2)

    def free(x: float) -> bool:
        """Whether an upright line here is whole and nobody else's."""
        if any(stands_at(box, x) for box in passed):
            return False
        return not any(
            abs(x - other) < APART and begin < bottom + UNDER and end > top - UNDER and theirs != owner
            for other, begin, end, theirs in drawn.upright
        )

    def cost(x: float) -> float:
        over = sum(one.begin - 5 <= x <= one.end + 5 for one in between)
        over += sum(crosses(one, x, above) + crosses(one, x, bar) for one in level)
        over += sum(one.begin - 5 <= x <= one.end + 5 for one in level)
        own = level_pieces(above, bar, x, level)
        along = sum(
            theirs != owner and abs(y - other) < 1 and begin < right and end > left
            for y, left, right in own
            for other, begin, end, theirs in drawn.level
        )
        about = (not above.begin <= x <= above.end) + (x > bar.end)
        return over * OVER_A_BAR + along * ALONG_A_LINE + about * ROUND_ABOUT + abs(x - best)

    ways = {best, *range(best - 6 * APART, best, APART), above.begin + ROUND, above.end - 2, above.begin - TRUNK}
    ways |= {edge for box in passed for edge in (int(box.x) - APART - 1, int(box.x + box.w) + APART + 2)}
    ways |= {edge for one in (*between, *level) for edge in (one.begin - APART - 2, one.end + APART + 2)}
    last = max(one.end for one in bars)
    open_ways = [x for x in ways if 2 <= x <= last and free(x) and not bar.begin - TRUNK < x <= bar.end + TRUNK]
    lane = next((n for n in range(drawn.lanes) if free(-LANE * (n + 0.5))), drawn.lanes)
    x = min((*open_ways, -LANE * (lane + 0.5)), key=lambda one: (cost(one), one))
    if x < 0:
        drawn.lanes = max(drawn.lanes, lane + 1)
    drawn.upright.append((x, top - UNDER, bottom + UNDER, owner))
    drawn.level += [(*piece, owner) for piece in level_pieces(above, bar, x, level)]
    return [*leaving(above, x, level), *arriving(bar, x, level)]


def leaving(above: Bar, x: float, level: Sequence[Bar]) -> list[Point]:
    """From the bar to the upright line: straight off it, or beside it where that stands left or right of it."""
    if above.begin <= x <= above.end:
        return [(x, above.middle)]
    if x > above.end and not any(crosses(one, x, above) for one in level):
        return [(above.end, above.middle), (x, above.middle)]
    start = above.begin + 2 if x < above.begin else above.end - 2
    return [(start, above.middle), (start, above.middle + UNDER), (x, above.middle + UNDER)]


def arriving(bar: Bar, x: float, level: Sequence[Bar]) -> list[Point]:
    """From the upright line to the end of the bar that it comes to first; below other bars of the row."""
    side, end = (-1, bar.begin) if x < bar.begin else (1, bar.end)
    if any(crosses(one, x, bar) for one in level):
        low, turn = bar.middle + UNDER, end + side * TRUNK
        return [(x, low), (turn, low), (turn, bar.middle), (end, bar.middle)]
    return [(x, bar.middle), (end, bar.middle)]


def level_pieces(above: Bar, bar: Bar, x: float, level: Sequence[Bar]) -> list[tuple[float, float, float]]:
    """The level pieces of a line whose upright one stands there: height, left, right."""
    found = []
    for points in (leaving(above, x, level), arriving(bar, x, level)):
        for (x0, y0), (x1, y1) in zip(points, points[1:], strict=False):
            if y0 == y1:
                found.append((y0, *sorted((x0, x1))))
    return found


def stands_at(box: Box, x: float) -> bool:
    return box.x - APART < x < box.x + box.w + APART


def crosses(other: Bar, x: float, bar: Bar) -> bool:
    """Whether another bar of the row lies between a bar and an upright line beside it."""
    if other.middle != bar.middle:
        return False
    begin, end = (x, bar.begin) if x < bar.begin else (bar.end, x)
    return begin < end and other.begin < end and other.end > begin


def in_one_row(above: Bar, bar: Bar, bars: Sequence[Bar]) -> list[Point]:
    """Straight, or close below what stands between the two."""
    middle = bar.middle
    if not any(one.middle == middle and above.end <= one.begin < bar.begin for one in bars if one is not bar):
        return [(above.end, middle), (bar.begin, middle)]
    turn, low = bar.begin - TRUNK, middle + UNDER
    return [(above.end - 2, middle), (above.end - 2, low), (turn, low), (turn, middle), (bar.begin, middle)]


def rounded(points: Sequence[Point]) -> str:
    """The line along the corners, each rounded as far as its shorter arm allows."""
    found = f"M{points[0][0]:g} {points[0][1]:g}"
    for before, here, after in zip(points, points[1:], points[2:], strict=False):
        reach = min(ROUND, length(before, here) / 2, length(here, after) / 2)
        if reach <= 0:
            continue
        near, far = towards(here, before, reach), towards(here, after, reach)
        found += f"{straight(before, near)}Q{here[0]:g} {here[1]:g} {far[0]:g} {far[1]:g}"
    last, end = points[-2], points[-1]
    # The line ends within its arrowhead, whose point would else be blunt.
    return found + straight(last, towards(end, last, min(TIP / 2, length(last, end) / 2)))


def straight(before: Point, here: Point) -> str:
    return f"H{here[0]:g}" if before[1] == here[1] else f"V{here[1]:g}"


def length(one: Point, other: Point) -> float:
    return abs(one[0] - other[0]) + abs(one[1] - other[1])


def towards(here: Point, there: Point, by: float) -> Point:
    """The point so far on the level or upright way from here to there."""
    way = length(here, there)
    return (here[0] + (there[0] - here[0]) * by / way, here[1] + (there[1] - here[1]) * by / way) if way else here


def tip(points: Sequence[Point]) -> str:
    """The arrowhead at the end, which points to the right or to the left."""
    (before, _), (x, y) = points[-2:]
    back = x - TIP if before < x else x + TIP
    return f"M{back:g} {y - SPREAD:g}L{x:g} {y:g}L{back:g} {y + SPREAD:g}Z"
