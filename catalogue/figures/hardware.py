"""What closes and holds, drawn once for every part: buttons, studs, zips, tapes, toggles, bows, bars of stitches.

Everything here takes a pen whose coordinates are units of the drawing (`in_units`), so that it keeps its shape.
"""

from collections.abc import Iterable
from math import hypot

from catalogue.figures.pen import BoxPen, number

Point = tuple[float, float]


def in_units(pen: BoxPen) -> BoxPen:
    """The same box, measured in units of the drawing from its upper corner."""
    return pen.sheet(pen.box.w, pen.box.h)


def moved(pen: BoxPen, x: float, y: float, scale: float = 1) -> BoxPen:
    """A pen in units whose origin lies at that point, and whose unit is so many of the old ones."""
    return pen.within(x, y, 100 * scale, 100 * scale)


def spread(first: float, last: float, count: int) -> list[float]:
    """So many places at equal distances, the first and the last among them."""
    if count < 2:
        return [first]
    return [first + (last - first) * turn / (count - 1) for turn in range(count)]


def stitched_rect(pen: BoxPen, x: float, y: float, w: float, h: float) -> None:
    """A row of stitches round a rectangle."""
    pen.path("t", f"M{number(x)} {number(y)}H{number(x + w)}V{number(y + h)}H{number(x)}Z")


def buttons(pen: BoxPen, points: Iterable[Point], radius: float, *, holes: int = 0) -> None:
    """Sew-through buttons; with `holes` drawn for a close look, with a rim for a distant one."""
    dots = []
    for x, y in points:
        pen.circle("b", x, y, radius)
        if not holes:
            pen.circle("e", x, y, radius * 0.35)
        off = radius * 0.3
        rows = (-off, off) if holes == 4 else (0,)
        dots += [(x + side, y + row) for side in (-off, off) for row in rows] if holes else []
        if holes:
            pen.circle("f", x, y, radius * 0.72)
    specks(pen, dots)


def specks(pen: BoxPen, points: Iterable[Point]) -> None:
    """Small dots of ink, as one path."""
    data = "".join(f"M{number(x - 0.2)} {number(y)}H{number(x + 0.2)}" for x, y in points)
    if data:
        pen.path("e", data)


def buttonholes(pen: BoxPen, points: Iterable[Point], reach: float) -> None:
    """The ends of horizontal buttonholes that show beside their buttons."""
    data = "".join(f"M{number(x - reach)} {number(y)}H{number(x + reach)}" for x, y in points)
    pen.path("e", data)


def studs(pen: BoxPen, points: Iterable[Point], radius: float) -> None:
    """Caps of press studs: a rim and a pressed middle."""
    for x, y in points:
        pen.circle("b", x, y, radius)
        pen.circle("k", x, y, radius * 0.42)


def chain(pen: BoxPen, start: Point, end: Point, *, pitch: float = 5, half: float = 2.5) -> None:
    """The teeth of a closed zip between two points, as rungs across the line."""
    (x0, y0), (x1, y1) = start, end
    length = hypot(x1 - x0, y1 - y0)
    if length < pitch:
        return
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    ax, ay = -uy * half, ux * half
    data = ""
    for turn in range(int(length / pitch) + 1):
        x, y = x0 + ux * pitch * turn, y0 + uy * pitch * turn
        if x0 == x1:
            data += f"M{number(x - half)} {number(y)}H{number(x + half)}"
        else:
            data += f"M{number(x - ax)} {number(y - ay)}L{number(x + ax)} {number(y + ay)}"
    pen.path("e", data)


def puller(pen: BoxPen, scale: float = 1) -> None:
    """The slider of a zip and its hanging pull; the origin is the middle of the slider."""
    slider = moved(pen, 0, 0, scale)
    slider.path("b", "M-4 -4C-4 -6 4 -6 4 -4L3 4H-3ZM-1 -3H1V1H2L3 12C3 15 -3 15 -3 12L-2 1H-1Z")


def interlocked(pen: BoxPen, middle: float, top: float, foot: float, *, pitch: float, reach: float) -> None:
    """Teeth seen from near, those of either side by turns."""
    data, y, turn = "", top, 0
    while y <= foot:
        left, right = (-reach, 1) if turn % 2 else (-1, reach)
        data += f"M{number(middle + left)} {number(y)}H{number(middle + right)}"
        y, turn = y + pitch / 2, turn + 1
    pen.path("e", data)


def meeting_edges(pen: BoxPen, middle: float, foot: float, *, part_by: float = 6) -> None:
    """Two fronts that hang side by side and part towards the hem, each with its row of stitches."""
    bend, end = number(foot * 0.6), number(foot)
    left, right = number(middle - part_by), number(middle + part_by)
    inner, outer = number(middle - part_by / 3 - 1), number(middle + part_by / 3 + 1)
    pen.path(
        "b",
        f"M{number(middle - 1)} 0C{number(middle - 1)} {bend} {inner} {bend} {left} {end}H{right}"
        f"C{outer} {bend} {number(middle + 1)} {bend} {number(middle + 1)} 0Z",
    )
    rows = ""
    for side in (-1, 1):
        top, mid, low = (number(middle + side * (5 + off)) for off in (1, part_by / 3 + 1, part_by))
        rows += f"M{top} 0C{top} {bend} {mid} {bend} {low} {end}"
    pen.path("t", rows)


def hook_tape(pen: BoxPen, x: float, y: float, w: float, h: float) -> None:
    """A piece of hook-and-loop tape: sewn round its edge, rough all over."""
    pen.path("b", f"M{number(x)} {number(y)}H{number(x + w)}V{number(y + h)}H{number(x)}Z")
    data, step = "", 4
    for turn in range(1, int((w + h) / step)):
        reach = turn * step
        left, top = max(0, reach - h), min(h, reach)
        right, foot = min(w, reach), max(0, reach - w)
        data += f"M{number(x + left)} {number(y + top)}L{number(x + right)} {number(y + foot)}"
    pen.path("f", data)


def toggle(pen: BoxPen, scale: float = 1) -> None:
    """A bar button lying in its cord loop, with the two sewn-on patches; the origin is the middle of the bar."""
    one = moved(pen, 0, 0, scale)
    one.path("b", "M-19 -5H-10V5H-19ZM10 -5H19V5H10Z")
    one.path("e", "M-10 -2H-4M-10 2H-4M10 -2C4 -3 -3 -6 -3 0C-3 6 4 3 10 2")
    one.path("b", "M-2.5 -9C0 -12 3 -11 3 -8L2.5 9C0 12 -3 11 -3 8Z")


def bow(pen: BoxPen, scale: float = 1) -> None:
    """Two tapes tied in a bow; the origin is the knot."""
    one = moved(pen, 0, 0, scale)
    one.path("b", "M-2 1L-9 17L-4 18L1 3M2 1L8 16L4 18L-1 3")
    one.path("b", "M0 0C-6 -9 -18 -9 -17 -2C-16 5 -7 4 0 0C6 -9 18 -9 17 -2C16 5 7 4 0 0Z")
    one.path("b", "M-3 -3H3V3H-3Z")


def bar(pen: BoxPen, x: float, y: float, length: float, half: float = 2) -> None:
    """A bartack: a short bar of dense stitches, lying level from the point to the viewer's right."""
    turns = max(3, round(length / 1.5))
    step = length / turns
    points = [f"{number(x + step * turn)} {number(y + (half if turn % 2 else -half))}" for turn in range(turns + 1)]
    pen.path("e", "M" + "L".join(points))


def crossed_box(pen: BoxPen, x: float, y: float, w: float, h: float) -> None:
    """Box stitching: a square of stitches with its two diagonals."""
    left, top, right, foot = (number(value) for value in (x, y, x + w, y + h))
    pen.path("t", f"M{left} {top}H{right}V{foot}H{left}ZL{right} {foot}M{right} {top}L{left} {foot}")


def rivet(pen: BoxPen, x: float, y: float, radius: float) -> None:
    """A set rivet: a burr with its hammered middle."""
    pen.circle("b", x, y, radius)
    pen.circle("e", x, y, radius * 0.5)
