"""Numbered call-outs: circles in the margins of a drawing and, where these are full, in rows below it.

The numbers of one place stand together, tied to each other by a line, and one line leads from them to the place: to a
dot on what is drawn, or to a ring struck through where something is not.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import count

from catalogue.figures.pen import Box, Pen, number

RADIUS = 17
STEP = 54  # 24 px on a screen 320 px wide: WCAG 2.2, success criterion 2.5.8
MARGIN = 2 * RADIUS + 30
# The sign of what is not there: a ring of this radius, struck through.
GONE, SLASH = 10, 11
Point = tuple[float, float]


@dataclass(frozen=True)
class CallOut:
    """Numbers that belong to one place, and the point that their line leads to. `absent`: where something would be."""

    numbers: tuple[int, ...]
    point: Point
    absent: bool = False

    @property
    def height(self) -> float:
        return STEP * len(self.numbers)


@dataclass(frozen=True)
class Placed:
    """A call-out with the circles of its numbers: columns beside each other, each from the top."""

    call_out: CallOut
    columns: tuple[tuple[Point, ...], ...]

    @property
    def circles(self) -> list[Point]:
        return [point for column in self.columns for point in column]


def in_margins(call_outs: Sequence[CallOut], width: float, height: float) -> list[Placed]:
    """Left or right by where the point lies; what lies in the middle goes to the emptier margin.

    What a margin has no room for goes to the other one, or else below the drawing: the longest first.
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
    for side, other in (("left", "right"), ("right", "left")):
        while filled(sides[side]) > height:
            fitting = [one for one in sides[side] if filled(sides[other]) + one.height <= height]
            if fitting:
                one = min(fitting, key=lambda one: abs(one.point[0] - width / 2))
                sides[other].append(one)
            else:
                one = max(sides[side], key=lambda one: (one.height, one.point[1]))
                below.append(one)
            sides[side].remove(one)
    left = one_side(sides["left"], STEP // 2 - MARGIN, height)
    right = one_side(sides["right"], width + MARGIN - STEP // 2, height)
    return left + right + in_rows(below, width, height)


def filled(call_outs: Sequence[CallOut]) -> float:
    return sum(one.height for one in call_outs)


def one_side(call_outs: Sequence[CallOut], x: float, height: float) -> list[Placed]:
    """In the order of their points from the top, each as near to its point as those above it allow."""
    in_order = sorted(call_outs, key=lambda one: one.point[1])
    tops: list[float] = []
    for one in in_order:
        wanted = round(one.point[1] - one.height / 2)  # whole units weigh less
        tops.append(max(wanted, tops[-1] + in_order[len(tops) - 1].height) if tops else max(0.0, wanted))
    limit = height
    for place in reversed(range(len(tops))):
        limit -= in_order[place].height
        tops[place] = limit = min(tops[place], limit)
    return [
        Placed(one, (tuple((x, top + STEP * (step + 0.5)) for step in range(len(one.numbers))),))
        for one, top in zip(in_order, tops, strict=True)
    ]


def in_rows(call_outs: Sequence[CallOut], width: float, height: float) -> list[Placed]:
    """Beside each other below the drawing, in the order of their points, in as few rows as hold them all.

    Each begins in the uppermost row, so that its line crosses no other number; where even one column for each is too
    wide, the rest stand below these.
    """
    in_order = sorted(call_outs, key=lambda one: one.point[0])
    room = max(1, int((width + 2 * MARGIN) // STEP))
    found: list[Placed] = []
    top = height + STEP / 2
    while in_order:
        here, in_order = in_order[:room], in_order[room:]
        rows = next(rows for rows in count(1) if sum(-(-len(one.numbers) // rows) for one in here) <= room)
        columns = [[len(one.numbers[at : at + rows]) for at in range(0, len(one.numbers), rows)] for one in here]
        x = (width - STEP * (sum(map(len, columns)) - 1)) / 2
        for one, lengths in zip(here, columns, strict=True):
            points = [
                tuple((x + STEP * across, top + STEP * down) for down in range(length))
                for across, length in enumerate(lengths)
            ]
            found.append(Placed(one, tuple(points)))
            x += STEP * len(lengths)
        top += STEP * rows
    return found


def framed(placed: Sequence[Placed], width: float, height: float) -> Box:
    """The box that holds a drawing of this size, its margins, and what stands below it."""
    lowest = max((y + STEP / 2 for one in placed for _, y in one.circles), default=0.0)
    return Box(-MARGIN, 0, width + 2 * MARGIN, max(height, lowest))


def draw(pen: Pen, placed: Sequence[Placed], links: Mapping[int, str]) -> None:
    """Draws them all. `links`: the address behind each number."""
    with pen.group(class_="leads"):
        for one in placed:
            x, y = one.call_out.point
            near_x, near_y = min(one.circles, key=lambda point: (point[0] - x) ** 2 + (point[1] - y) ** 2)
            begin = f"M{number(near_x)} {number(near_y)}"
            at = f'cx="{number(x)}" cy="{number(y)}"'
            if one.call_out.absent:
                share = 1 - GONE / max(GONE, math.dist((near_x, near_y), (x, y)))
                lead = f"{begin}L{number(near_x + (x - near_x) * share)} {number(near_y + (y - near_y) * share)}"
                across = f"M{number(x - SLASH)} {number(y + SLASH)}L{number(x + SLASH)} {number(y - SLASH)}"
                pen.written.append(f'<path d="{tie(one)}{lead}{across}"/><circle class="absent" {at} r="{GONE}"/>')
            else:
                pen.written.append(f'<path d="{tie(one)}{begin}L{number(x)} {number(y)}"/>')
                pen.written.append(f'<circle class="k" {at} r="3.5"/>')
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
