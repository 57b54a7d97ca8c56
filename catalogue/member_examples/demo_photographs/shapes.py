"""A flat's SVG as lines and areas of points. Reads what the pen of the figures writes, and nothing else.

Paths of absolute commands M L H V C Q Z, rectangles with or without rounded corners, and circles; words on a flat are
left out. Curves become short straight lines, and long lines are cut into short ones, so that all can be bent.
"""

import re
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, cos, hypot, pi, sin

import numpy as np

TOKEN = re.compile(r"[MLHVCQZ]|-?\d*\.?\d+")
LONGEST = 9.0
Point = tuple[float, float]


@dataclass(frozen=True)
class Shape:
    """`kind`: o e t f b k u, as the pen names its strokes. `lines`: points of each, (n, 2), in units of the drawing.

    `part`: the feature that it shows, empty for the body. `round_`: a circle, as buttons and eyelets are.
    """

    kind: str
    lines: tuple[np.ndarray, ...]
    closed: tuple[bool, ...]
    part: str = ""
    round_: bool = False


def shapes_of(svg: str) -> list[Shape]:
    """Every shape of a drawing, in the order of painting. Raises ValueError for what no pen of ours writes."""
    root = ElementTree.fromstring(f"<svg>{svg}</svg>")  # noqa: S314 - written by our own pen a moment ago
    found: list[Shape] = []
    gather(root, "", found)
    return found


def gather(element: ElementTree.Element, part: str, found: list[Shape]) -> None:
    for child in element:
        if child.tag == "g":
            gather(child, child.get("data-part", part).split(":")[0], found)
        elif child.tag != "text":
            kind = child.get("class", "")
            lines, closed = outline(child)
            found.append(Shape(kind, lines, closed, part, child.tag == "circle"))


@lru_cache(maxsize=4096)
def short_lines(data: str) -> tuple[tuple[np.ndarray, ...], tuple[bool, ...]]:
    """Kept, since the same body and parts are drawn for many pieces."""
    lines = path_lines(data)
    return tuple(cut_short(points) for points, _ in lines), tuple(closed for _, closed in lines)


def outline(element: ElementTree.Element) -> tuple[tuple[np.ndarray, ...], tuple[bool, ...]]:
    if element.tag == "path":
        return short_lines(element.get("d", ""))
    if element.tag == "circle":
        lines = [(circle_points(*(float(element.get(name, 0)) for name in ("cx", "cy", "r"))), True)]
    elif element.tag == "rect":
        lines = [(rect_points(*(float(element.get(name, 0)) for name in ("x", "y", "width", "height", "rx"))), True)]
    else:
        raise ValueError(f"No pen of ours draws <{element.tag}>.")
    return tuple(cut_short(points) for points, _ in lines), tuple(closed for _, closed in lines)


def circle_points(x: float, y: float, radius: float) -> list[Point]:
    steps = max(10, ceil(radius * 2))
    return [(x + radius * cos(2 * pi * n / steps), y + radius * sin(2 * pi * n / steps)) for n in range(steps + 1)]


def rect_points(x: float, y: float, w: float, h: float, corner: float) -> list[Point]:
    c = min(corner, w / 2, h / 2)
    return [
        (x + c, y), (x + w - c, y), (x + w, y + c), (x + w, y + h - c), (x + w - c, y + h),
        (x + c, y + h), (x, y + h - c), (x, y + c), (x + c, y),
    ]  # fmt: skip


def path_lines(data: str) -> list[tuple[list[Point], bool]]:
    """Each piece of a path as points, and whether it returns to its beginning."""
    tokens = TOKEN.findall(data)
    if re.sub(r"[\s,]+", "", data) != "".join(tokens):
        raise ValueError(f"Not a path of our pen: {data[:60]}")
    found: list[tuple[list[Point], bool]] = []
    points: list[Point] = []
    command, at = "", 0
    while at < len(tokens):
        if tokens[at].isalpha():
            command = tokens[at]
            at += 1
            if command == "Z" and points:
                found.append(([*points, points[0]], True))
                points = [points[0]]
                continue
        count = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "Q": 4}[command]
        numbers = [float(token) for token in tokens[at : at + count]]
        at += count
        if command == "M":
            if len(points) > 1:
                found.append((points, False))
            points, command = [(numbers[0], numbers[1])], "L"
        else:
            points.extend(step(command, numbers, points[-1]))
    if len(points) > 1:
        found.append((points, False))
    return found


def step(command: str, numbers: list[float], begin: Point) -> list[Point]:
    if command == "H":
        return [(numbers[0], begin[1])]
    if command == "V":
        return [(begin[0], numbers[0])]
    stops = [begin, *zip(numbers[::2], numbers[1::2], strict=True)]
    if command == "L":
        return stops[1:]
    length = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in zip(stops, stops[1:], strict=False))
    pieces = min(24, max(3, ceil(length / 6)))
    return [bezier(stops, n / pieces) for n in range(1, pieces + 1)]


def bezier(stops: list[Point], t: float) -> Point:
    """De Casteljau: between neighbours, until one point is left."""
    while len(stops) > 1:
        stops = [(a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t) for a, b in zip(stops, stops[1:], strict=False)]
    return stops[0]


def cut_short(points: list[Point]) -> np.ndarray:
    found = [points[0]]
    for begin, end in zip(points, points[1:], strict=False):
        pieces = ceil(hypot(end[0] - begin[0], end[1] - begin[1]) / LONGEST)
        for n in range(1, pieces + 1):
            found.append((begin[0] + (end[0] - begin[0]) * n / pieces, begin[1] + (end[1] - begin[1]) * n / pieces))
    return np.array(found)
