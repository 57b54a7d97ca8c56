"""Numbered call-outs: circles in the margins of a drawing and, where these are full, in rows below it.

The numbers of one place stand together, tied to each other by a line, and one line leads from them to the place: to a
dot on what is drawn, or to a cross where something is not.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import count

from catalogue.figures.pen import Box, Pen, number

RADIUS = 17
STEP = 54  # 24 px on a screen 320 px wide: WCAG 2.2, success criterion 2.5.8
LARGE_STEP = 84  # for a drawing that is shown half as wide as a phone: its numbers can be as large as text
MARGIN = STEP + 10
# The sign of what is not there, drawn from its middle.
CROSS = "m-9-9l18 18m-18 0l18-18"
Point = tuple[float, float]


@dataclass(frozen=True)
class CallOut:
    """Numbers that belong to one place, and the point that their line leads to. `absent`: where something would be."""

    numbers: tuple[int, ...]
    point: Point
    absent: bool = False


@dataclass(frozen=True)
class Placed:
    """A call-out with the circles of its numbers: columns beside each other, each from the top."""

    call_out: CallOut
    columns: tuple[tuple[Point, ...], ...]

    @property
    def circles(self) -> list[Point]:
        return [point for column in self.columns for point in column]


def in_margins(call_outs: Sequence[CallOut], width: float, height: float, step: int = STEP) -> list[Placed]:
    """Left or right by where the point lies; what lies in the middle goes to the emptier margin.

    What a margin has no room for goes to the other one, or else below the drawing: the longest first. `step`: from one
    number to the next.
    """
    sides: dict[str, list[CallOut]] = {"left": [], "right": []}
    middle = []
    for one in call_outs:
        if abs(one.point[0] - width / 2) < width * 0.04:
            middle.append(one)
        else:
            sides["left" if one.point[0] < width / 2 else "right"].append(one)
    for one in middle:
        emptier = min(sides, key=lambda side: filled(sides[side]))
        sides[emptier].append(one)
    below: list[CallOut] = []
    most = height // step
    for side, other in (("left", "right"), ("right", "left")):
        while filled(sides[side]) > most:
            fitting = [one for one in sides[side] if filled(sides[other]) + len(one.numbers) <= most]
            if fitting:
                one = min(fitting, key=lambda one: abs(one.point[0] - width / 2))
                sides[other].append(one)
            else:
                one = max(sides[side], key=lambda one: (len(one.numbers), one.point[1]))
                below.append(one)
            sides[side].remove(one)
    out = margin(step) - step // 2
    left = one_side(sides["left"], -out, height, step)
    right = one_side(sides["right"], width + out, height, step)
    return left + right + in_rows(below, width, height, step)


def margin(step: int) -> int:
    return step + MARGIN - STEP


def filled(call_outs: Sequence[CallOut]) -> int:
    """How many numbers stand in a margin."""
    return sum(len(one.numbers) for one in call_outs)


def one_side(call_outs: Sequence[CallOut], x: float, height: float, step: int) -> list[Placed]:
    """In the order of their points from the top, each as near to its point as those above it allow."""
    in_order = sorted(call_outs, key=lambda one: one.point[1])
    heights = [step * len(one.numbers) for one in in_order]
    tops: list[float] = []
    for one, high in zip(in_order, heights, strict=True):
        wanted = round(one.point[1] - high / 2)  # whole units weigh less
        tops.append(max(wanted, tops[-1] + heights[len(tops) - 1]) if tops else max(0.0, wanted))
    limit = height
    for place in reversed(range(len(tops))):
        limit -= heights[place]
        tops[place] = limit = min(tops[place], limit)
    return [
        Placed(one, (tuple((x, top + step * (turn + 0.5)) for turn in range(len(one.numbers))),))
        for one, top in zip(in_order, tops, strict=True)
    ]


def in_rows(call_outs: Sequence[CallOut], width: float, height: float, step: int) -> list[Placed]:
    """Beside each other below the drawing, in the order of their points, in as few rows as hold them all.

    Each begins in the uppermost row, so that its line crosses no other number; where even one column for each is too
    wide, the rest stand below these.
    """
    in_order = sorted(call_outs, key=lambda one: one.point[0])
    room = max(1, int((width + 2 * margin(step)) // step))
    found: list[Placed] = []
    top = height + step / 2
    while in_order:
        here, in_order = in_order[:room], in_order[room:]
        rows = next(rows for rows in count(1) if sum(-(-len(one.numbers) // rows) for one in here) <= room)
        columns = [[len(one.numbers[at : at + rows]) for at in range(0, len(one.numbers), rows)] for one in here]
        x = round((width - step * (sum(map(len, columns)) - 1)) / 2)
        for one, lengths in zip(here, columns, strict=True):
            points = [
                tuple((x + step * across, top + step * down) for down in range(length))
                for across, length in enumerate(lengths)
            ]
            found.append(Placed(one, tuple(points)))
            x += step * len(lengths)
        top += step * rows
    return found


def framed(placed: Sequence[Placed], width: float, height: float, step: int = STEP) -> Box:
    """The box that holds a drawing of this size, its margins, and what stands below it."""
    lowest = max((y + step / 2 for one in placed for _, y in one.circles), default=0.0)
    return Box(-margin(step), 0, width + 2 * margin(step), max(height, lowest))


def draw(pen: Pen, placed: Sequence[Placed], links: Mapping[int, str]) -> None:
    """Draws them all. `links`: the address behind each number."""
    with pen.group(class_="leads"):
        for one in placed:
            x, y = one.call_out.point
            near_x, near_y = min(one.circles, key=lambda point: (point[0] - x) ** 2 + (point[1] - y) ** 2)
            end = f"L{number(x)} {number(y)}" if near_y != y else f"H{number(x)}"  # which weighs less
            lead = f"{tie(one)}M{number(near_x)} {number(near_y)}{end}"
            if one.call_out.absent:
                pen.written.append(f'<path class="absent" d="{lead}{CROSS}"/>')
            else:
                pen.written.append(f'<path d="{lead}"/><circle class="k" cx="{number(x)}" cy="{number(y)}" r="3.5"/>')
    with pen.group(class_="call-outs"):
        for one in placed:
            for value, (x, y) in zip(one.call_out.numbers, one.circles, strict=True):
                circle = f'<circle cx="{number(x)}" cy="{number(y)}" r="{RADIUS}"/>'
                words = f'<text x="{number(x)}" y="{number(y + 7)}">{value}</text>'
                link = links.get(value)
                pen.written.append(f'<a href="{link}">{circle}{words}</a>' if link else circle + words)


def tie(one: Placed) -> str:
    """The line that holds numbers of one place together: down each column, and along their heads."""
    (x, y), (last, _) = one.columns[0][0], one.columns[-1][0]
    down = "".join(
        f"M{number(column[0][0])} {number(y)}V{number(column[-1][1])}" for column in one.columns if len(column) > 1
    )
    return down + (f"M{number(x)} {number(y)}H{number(last)}" if len(one.columns) > 1 else "")
