"""Lines of descent on a chart of versions: from each version to what follows it or was made from it, clear of words."""

from collections.abc import Iterator, Sequence

from catalogue.figures.pen import Box
from catalogue.figures.text_width import text_width
from catalogue.figures.timeline_layout import HALF, HEADING_SIZE, NOTE, NOTES, SIZE, WORDS, Bar, Layout

TRUNK = 9  # how far before a bar a line turns towards it, where nothing stands in its way
STUMP = 8  # shorter pieces between words are left out
APART = 4  # between a line and words, and between lines from different versions
ASCENT, DESCENT = 11, 3  # of letters, above and below the line that they stand on
# What a way costs, in units by which it lies beside the best place (ours; no source).
BROKEN, OVER_A_BAR, ON_ANOTHER, ROUND_ABOUT = 60, 40, 80, 25


def descent(laid: Layout) -> list[tuple[str, str]]:
    """Path and class of each line from a version to one that follows it or was made from it.

    A line goes where no words stand; where there is no such way, it is broken at the words.
    """
    bars = list(laid.bars.values())
    words = sorted(words_on(laid), key=lambda box: box.y)
    trunks: list[tuple[int, int, int, str]] = []
    found = []
    for bar in bars:
        above: dict[str, bool] = {}
        for ancestor in bar.version.ancestors:
            above[ancestor.version] = above.get(ancestor.version, False) or ancestor.made_from
        for code, made in above.items():
            if code in laid.bars and code != bar.version.code:
                path = line(laid.bars[code], bar, bars, words, trunks)
                found.append((path, "made" if made else "follows"))
    return found


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


def line(
    above: Bar, bar: Bar, bars: Sequence[Bar], words: Sequence[Box], trunks: list[tuple[int, int, int, str]]
) -> str:
    """Along the row of the one, down or up where it costs least, along the row of the other.

    `trunks`: the upright pieces drawn so far, each with the version it comes from; those from one may share their way.
    """
    if above.middle == bar.middle:
        return in_one_row(above, bar, bars)
    top, bottom = sorted((above.middle, bar.middle))
    passed = [box for box in words if box.y < bottom and box.y + box.h > top]
    between = [one for one in bars if top < one.middle < bottom]
    level = [one for one in bars if one.middle in (top, bottom) and one not in (above, bar)]
    best = min(max(bar.begin - TRUNK, above.begin + 2), above.end - 2)
    if best > bar.begin - 3:
        best = min(max(above.begin, bar.begin) + APART, above.end)

    def cost(x: int) -> float:
        broken = sum(stands_at(box, x) for box in passed)
        over = sum(one.begin - 2 <= x <= one.end + 2 for one in between)
        over += sum(crosses(one, x, above) or crosses(one, x, bar) for one in level)
        shared = any(
            abs(x - other) < APART and begin < bottom and end > top and code != above.version.code
            for other, begin, end, code in trunks
        )
        about = (not above.begin <= x <= above.end) + (x > bar.end)
        return broken * BROKEN + over * OVER_A_BAR + shared * ON_ANOTHER + about * ROUND_ABOUT + abs(x - best)

    ways = {best, *range(best - 5 * APART, best, APART), above.begin + 2, above.end - 2, above.begin - TRUNK, 4}
    ways |= {round(edge) for box in passed for edge in (box.x - APART - 1, box.x + box.w + APART + 1)}
    last = max(one.end for one in bars)
    x = min((way for way in ways if 2 <= way <= last), key=lambda way: (cost(way), way))
    trunks.append((x, top, bottom, above.version.code))
    return along(above, x, begin=True) + upright(x, above.middle, bar.middle, passed) + along(bar, x, begin=False)


def stands_at(box: Box, x: int) -> bool:
    return box.x - APART < x < box.x + box.w + APART


def crosses(other: Bar, x: int, bar: Bar) -> bool:
    """Whether another bar of the row lies between a bar and an upright line beside it."""
    if other.middle != bar.middle:
        return False
    begin, end = (x, bar.begin) if x < bar.begin else (bar.end, x)
    return begin < end and other.begin < end and other.end > begin


def along(bar: Bar, x: int, *, begin: bool) -> str:
    """From the bar to the upright line, or from that to the bar; nothing where the line stands on the bar."""
    nearest = min(max(x, bar.begin), bar.end)
    if begin:
        return f"M{nearest} {bar.middle}" + (f"H{x}" if nearest != x else "")
    return f"H{nearest}" if nearest != x else ""


def upright(x: int, begin: int, end: int, passed: Sequence[Box]) -> str:
    """Down or up from `begin` to `end`, broken where words stand in the way; stumps between words are left out."""
    gaps = sorted((box.y - 1, box.y + box.h + 1) for box in passed if stands_at(box, x))
    if begin > end:
        gaps = [(bottom, top) for top, bottom in reversed(gaps)]
    here, found = float(begin), ""
    for near, far in gaps:
        if abs(near - here) >= STUMP and (near - here) * (end - begin) > 0:
            found += f"M{x} {here:g}V{near:g}"
        if (far - here) * (end - begin) > 0:
            here = far
    return (found + f"M{x} {here:g}").removeprefix(f"M{x} {begin:g}") + f"V{end}"


def in_one_row(above: Bar, bar: Bar, bars: Sequence[Bar]) -> str:
    """Straight, or close below what stands between the two."""
    between = [one for one in bars if one.middle == bar.middle and above.end <= one.begin < bar.begin]
    if not between:
        return f"M{above.end} {bar.middle}H{bar.begin}"
    return f"M{above.end - 2} {bar.middle}V{bar.middle + HALF + 2}H{bar.begin + 2}V{bar.middle}"
