"""Numbered call-outs: circles in the margins of a drawing, each chain led by a line to its region."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from catalogue.figures.pen import Box, Pen, number

RADIUS = 17
STEP = 54  # 24 px on a screen 320 px wide: WCAG 2.2, success criterion 2.5.8
MARGIN = 2 * RADIUS + 30


@dataclass(frozen=True)
class CallOut:
    """Numbers that belong to one region, and the point that their line leads to."""

    numbers: tuple[int, ...]
    point: tuple[float, float]

    @property
    def height(self) -> float:
        return STEP * len(self.numbers)


@dataclass(frozen=True)
class Placed:
    """A call-out in its margin: the centre of its first circle."""

    call_out: CallOut
    x: float
    y: float


def one_side(call_outs: Sequence[CallOut], x: float, height: float) -> list[Placed]:
    """In the order of their points from the top, each as near to its point as those above it allow.

    A margin that is too full begins above the drawing and ends below it, evenly.
    """
    in_order = sorted(call_outs, key=lambda one: one.point[1])
    tops: list[float] = []
    for one in in_order:
        wanted = one.point[1] - one.height / 2
        tops.append(max(wanted, tops[-1] + in_order[len(tops) - 1].height) if tops else max(0.0, wanted))
    overrun = tops[-1] + in_order[-1].height - height if tops else 0
    if overrun > 0:
        limit = height
        for place in reversed(range(len(tops))):
            limit -= in_order[place].height
            tops[place] = min(tops[place], limit)
            limit = tops[place]
    return [Placed(one, x, top + STEP / 2) for one, top in zip(in_order, tops, strict=True)]


def in_margins(call_outs: Sequence[CallOut], width: float, height: float) -> list[Placed]:
    """Left or right by where the point lies; what lies in the middle goes to the emptier margin."""
    sides: dict[str, list[CallOut]] = {"left": [], "right": []}
    middle = []
    for one in call_outs:
        if abs(one.point[0] - width / 2) < width * 0.04:
            middle.append(one)
        else:
            sides["left" if one.point[0] < width / 2 else "right"].append(one)
    for one in middle:
        emptier = min(sides, key=lambda side: sum(other.height for other in sides[side]))
        sides[emptier].append(one)
    left = one_side(sides["left"], -MARGIN + RADIUS + 2, height)
    return left + one_side(sides["right"], width + MARGIN - RADIUS - 2, height)


def draw(pen: Pen, placed: Sequence[Placed], links: Mapping[int, str], *, named: Collection[int] = ()) -> Box:
    """Draws them all and returns the box that holds them. `links`: the address behind each number. `named`: numbers
    that can be led to, by the id `c` and the number."""
    top, bottom = 0.0, 0.0
    with pen.group(class_="leads"):
        for one in placed:
            begin = one.x + (RADIUS if one.x < one.call_out.point[0] else -RADIUS)
            x, y = one.call_out.point
            pen.written.append(f'<path d="M{number(begin)} {number(one.y)}L{number(x)} {number(y)}"/>')
            pen.written.append(f'<circle class="k" cx="{number(x)}" cy="{number(y)}" r="3.5"/>')
    with pen.group(class_="call-outs"):
        for one in placed:
            for step, value in enumerate(one.call_out.numbers):
                y = one.y + step * STEP
                top, bottom = min(top, y - STEP / 2), max(bottom, y + STEP / 2)
                name = f'id="c{value}" ' if value in named else ""
                circle = f'<circle {name}cx="{number(one.x)}" cy="{number(y)}" r="{RADIUS}"/>'
                words = f'<text x="{number(one.x)}" y="{number(y + 7)}">{value}</text>'
                link = links.get(value)
                pen.written.append(f'<a href="{link}">{circle}{words}</a>' if link else circle + words)
    return Box(0, top, 0, bottom - top)
