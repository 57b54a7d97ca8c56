"""A pen that writes SVG: few kinds of stroke, coordinates in percent of a box, and nothing that is not escaped.

Kinds of stroke (what each looks like is said once, in STROKES and in the style sheet):
`o` outline, filled with paper or the cloth (`c`); `e` edge or seam; `t` row of stitches; `f` fold of the cloth; `b`
hardware or a piece laid on top, filled with paper; `k` solid ink; `u` not recorded.
"""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache
from html import escape

# As presentation attributes, for a drawing that stands alone in a file of its own, and is shown at a sixth of its size.
STROKES = {
    "o": 'fill="#fff" stroke-width="8"',
    "e": 'stroke-width="5"',
    "t": 'stroke-width="4" stroke-dasharray="12 8"',
    "f": 'stroke-width="4" stroke-opacity=".5"',
    "b": 'fill="#fff" stroke-width="5"',
    "k": 'fill="#191c1d" stroke="none"',
    "u": 'stroke-width="4" stroke-dasharray="4 20"',
}
TOKEN = re.compile(r"[MLHVCQZ]|-?\d*\.?\d+")
# Coordinates that each command takes, x and y in turn.
AXES = {"M": "xy", "L": "xy", "H": "x", "V": "y", "C": "xyxyxy", "Q": "xyxy", "Z": ""}


@dataclass(frozen=True)
class Box:
    """A rectangle in the units of the drawing."""

    x: float
    y: float
    w: float
    h: float

    @property
    def centre(self) -> tuple[float, float]:
        return self.x + self.w / 2, self.y + self.h / 2

    def at(self, x: float, y: float) -> tuple[float, float]:
        """The point at so many percent of the width and height."""
        return self.x + self.w * x / 100, self.y + self.h * y / 100

    def within(self, x: float, y: float, w: float, h: float) -> "Box":
        """The box at so many percent of this one."""
        left, top = self.at(x, y)
        return Box(left, top, self.w * w / 100, self.h * h / 100)

    def inset(self, by: float) -> "Box":
        return Box(self.x + by, self.y + by, self.w - 2 * by, self.h - 2 * by)


def number(value: float) -> str:
    """At most one decimal, and no more figures than it needs."""
    text = f"{value:.1f}"
    return text[:-2] if text.endswith(".0") else text


@lru_cache(maxsize=16_384)
def mapped(data: str, box: Box, flipped: bool) -> str:
    """Path data in percent of a box as path data in units of the drawing. Kept, since the same parts are drawn again.

    Raises ValueError for anything but absolute commands M L H V C Q Z.
    """
    tokens = TOKEN.findall(data)
    if re.sub(r"[\s,]+", "", data) != "".join(tokens):
        raise ValueError(f"Not a path of absolute commands: {data[:80]}")
    found, axes, turn, command = [], "", 0, ""
    for token in tokens:
        if token in AXES:
            command, axes, turn = token, AXES[token], 0
            found.append(token)
            continue
        if not axes:
            raise ValueError(f"A number stands where a command is wanted: {data[:80]}")
        value = float(token)
        if axes[turn % len(axes)] == "y":
            text = number(box.y + box.h * value / 100)
        else:
            text = number(box.x + box.w * (100 - value if flipped else value) / 100)
        found.append(text if found[-1] == command or text.startswith("-") else f" {text}")
        turn += 1
    return "".join(found)


class Pen:
    """Collects what is drawn. `in_box` gives a pen whose coordinates are percent of a box.

    `without`: kinds of stroke that are left away where a drawing is shown very small. `alone`: kinds become
    presentation attributes, for a drawing in a file of its own, which no style sheet reaches. `cloth`: what outlines
    are filled with in place of paper.
    """

    def __init__(self, *, without: str = "", alone: bool = False, cloth: str = "") -> None:
        self.written: list[str] = []
        self.without, self.alone, self.cloth = without, alone, cloth

    def element(self, name: str, kind: str, attributes: str) -> None:
        """One element with a kind of stroke."""
        if kind and kind in self.without:
            return
        look = self.look(kind)
        self.written.append(f"<{name} {look}{' ' if look else ''}{attributes}/>")

    def look(self, kind: str) -> str:
        """The attributes that make a shape look like its kind of stroke."""
        if kind == "o" and self.cloth:
            return f'class="c" fill="{escape(self.cloth)}"'
        if self.alone and kind in STROKES:
            return STROKES[kind]
        return f'class="{escape(kind)}"' if kind else ""

    def in_box(self, box: Box, *, flipped: bool = False) -> "BoxPen":
        """`flipped`: what is drawn for the viewer's right stands mirrored, for the viewer's left."""
        return BoxPen(self, box, flipped)

    @contextmanager
    def group(self, **attributes: str) -> Iterator[None]:
        """Everything drawn inside stands in one group; names with underscores become names with hyphens."""
        words = "".join(
            f' {name.rstrip("_").replace("_", "-")}="{escape(value)}"' for name, value in attributes.items() if value
        )
        self.written.append(f"<g{words}>")
        start = len(self.written)
        yield
        if len(self.written) == start:
            self.written.pop()
        else:
            self.written.append("</g>")

    @property
    def svg(self) -> str:
        return "".join(self.written)


class BoxPen:
    """Draws in percent of a box: x from 0 (viewer's left) to 100, y from 0 (top) to 100; more lies outside it."""

    def __init__(self, pen: Pen, box: Box, flipped: bool = False):
        self.pen, self.box, self.flipped = pen, box, flipped

    def within(self, x: float, y: float, w: float, h: float) -> "BoxPen":
        """A pen for a smaller box inside this one."""
        left = 100 - x - w if self.flipped else x
        return BoxPen(self.pen, self.box.within(left, y, w, h), self.flipped)

    def sheet(self, width: float, height: float) -> "BoxPen":
        """A pen whose coordinates are units of a sheet of that size, which lies undistorted in the middle of the box.

        For what must not be stretched with its box: a quilted lozenge, a letter, a picture with round things in it.
        """
        scale = min(self.box.w / width, self.box.h / height)
        left = self.box.x + (self.box.w - width * scale) / 2
        top = self.box.y + (self.box.h - height * scale) / 2
        start = left + (width - 100) * scale if self.flipped else left
        return BoxPen(self.pen, Box(start, top, 100 * scale, 100 * scale), self.flipped)

    def unflipped(self) -> "BoxPen":
        """The same box for what never stands mirrored: buttons that close left over right, letters."""
        return BoxPen(self.pen, self.box)

    def xy(self, x: float, y: float) -> tuple[float, float]:
        return self.box.at(100 - x if self.flipped else x, y)

    def path(self, kind: str, data: str) -> None:
        """Absolute commands M L H V C Q Z only.

        Raises ValueError for anything else.
        """
        self.pen.element("path", kind, f'd="{mapped(data, self.box, self.flipped)}"')

    def dyed(self, tone: str, data: str, *, lines: str = "") -> None:
        """A shape in a colour of its own, the same in every scheme; for cloth whose colour is what is asked about.

        `tone`: as #rrggbb. `lines`: the hatch that says it without colour, dark whatever the scheme.
        """
        self.pen.element("path", "", f'fill="{escape(tone)}" d="{mapped(data, self.box, self.flipped)}"')
        if lines:
            hatched = f'stroke="#000" stroke-opacity=".6" d="{mapped(lines, self.box, self.flipped)}"'
            self.pen.element("path", "", hatched)

    def rect(self, kind: str, x: float, y: float, w: float, h: float, *, round: float = 0) -> None:
        """`round`: radius of the corners, in units of the drawing."""
        left, top = self.xy(x + w if self.flipped else x, y)
        width, height = self.box.w * w / 100, self.box.h * h / 100
        corner = f' rx="{number(round)}"' if round else ""
        size = f'width="{number(width)}" height="{number(height)}"{corner}'
        self.pen.element("rect", kind, f'x="{number(left)}" y="{number(top)}" {size}')

    def circle(self, kind: str, x: float, y: float, radius: float) -> None:
        """`radius` in units of the drawing, so that it stays round in any box."""
        left, top = self.xy(x, y)
        self.pen.element("circle", kind, f'cx="{number(left)}" cy="{number(top)}" r="{number(radius)}"')

    def text(self, x: float, y: float, words: str, *, size: float = 11) -> None:
        """Centred on the point; never mirrored."""
        left, top = self.xy(x, y)
        self.pen.written.append(
            f'<text x="{number(left)}" y="{number(top)}" font-size="{number(size)}">{escape(words)}</text>'
        )
