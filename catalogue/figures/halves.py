"""Shapes that are drawn as their right half, x counted from the middle line; and drawings that lie aslant."""

import re
from collections.abc import Callable
from functools import lru_cache

from catalogue.figures.pen import Box, BoxPen, number

PIECE = re.compile(r"([MLCQZ])([^MLCQZ]*)")
Point = tuple[float, float]
Step = tuple[str, list[Point]]


def steps_of(data: str) -> list[Step]:
    """The commands of a path (absolute M L C Q Z), each with its points."""
    found = []
    for command, rest in PIECE.findall(data):
        numbers = [float(word) for word in re.findall(r"-?\d*\.?\d+", rest)]
        found.append((command, list(zip(numbers[::2], numbers[1::2], strict=True))))
    return found


def written(steps: list[Step]) -> str:
    return "".join(command + " ".join(f"{number(x)} {number(y)}" for x, y in points) for command, points in steps)


def moved(data: str, where: Callable[[float, float], Point]) -> str:
    """The path with every point put elsewhere."""
    return written([(command, [where(x, y) for x, y in points]) for command, points in steps_of(data)])


@lru_cache(maxsize=1024)
def mirrored(data: str) -> str:
    """The same shape on the other side of the middle line."""
    return moved(data, lambda x, y: (0 - x, y))


def strokes(half: str) -> str:
    """A stroke and its mirror image."""
    return half + mirrored(half)


def led_back(steps: list[Step]) -> list[Step]:
    """The mirror image of a half, drawn from its end to its beginning."""
    ends = [points[-1] for _, points in steps]
    return [
        (command, [(0 - x, y) for x, y in [*reversed(points[:-1]), ends[turn]]])
        for turn, (command, points) in reversed(list(enumerate(steps[1:])))
    ]


@lru_cache(maxsize=1024)
def closed(half: str) -> str:
    """One outline from its right half, which leads from the middle line back to the middle line."""
    steps = steps_of(half)
    return written(steps + led_back(steps)) + "Z"


@lru_cache(maxsize=1024)
def across(half: str) -> str:
    """One open line from its right half, which leads from the middle line outwards."""
    steps = steps_of(half)
    x, y = steps[-1][1][-1]
    return written([("M", [(0 - x, y)]), *led_back(steps), *steps[1:]])


@lru_cache(maxsize=1024)
def aslant(data: str, corner: Point, right: Point, down: Point) -> str:
    """A path in percent of a box that lies aslant: `right` and `down` lead along its two edges from its corner."""
    return moved(
        data,
        lambda x, y: (
            corner[0] + (right[0] * x + down[0] * y) / 100,
            corner[1] + (right[1] * x + down[1] * y) / 100,
        ),
    )


Quad = tuple[Point, Point, Point, Point]


@lru_cache(maxsize=1024)
def within_quad(data: str, quad: Quad, *, whole: bool = False) -> str:
    """A path in percent of a box whose corners lie where the quad says: upper inner and outer, lower outer and inner.

    So what is drawn from edge to edge ends at the edges, also where they run towards each other. `whole`: in whole
    units, for a large drawing of which nothing smaller is seen.
    """
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = quad

    def where(x: float, y: float) -> Point:
        u, v = x / 100, y / 100
        left = (ax + (bx - ax) * u) * (1 - v) + (dx + (cx - dx) * u) * v
        top = (ay + (by - ay) * u) * (1 - v) + (dy + (cy - dy) * u) * v
        return (round(left), round(top)) if whole else (left, top)

    return moved(data, where)


def from_middle(pen: BoxPen) -> BoxPen:
    """The same box with x counted from its middle line."""
    box = pen.box
    begin = box.x + box.w / 2 - (box.w if pen.flipped else 0)
    return BoxPen(pen.pen, Box(begin, box.y, box.w, box.h), pen.flipped)


def corner_at(pen: BoxPen, x: float, y: float) -> BoxPen:
    """Units of the drawing, with the box's upper corner (the inner one of a side's box) at the point named."""
    box = pen.box
    begin = box.x + box.w + x - 100 if pen.flipped else box.x - x
    return BoxPen(pen.pen, Box(begin, box.y - y, 100, 100), pen.flipped)


def crop(pen: BoxPen, x: float, y: float, width: float) -> BoxPen:
    """Units of a drawing of which the box shows so much: its upper left corner, and how many units wide it is."""
    scale = pen.box.w / width
    return BoxPen(pen.pen, Box(pen.box.x - x * scale, pen.box.y - y * scale, 100 * scale, 100 * scale))
