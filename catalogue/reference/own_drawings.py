"""Reads a drawing that a society brings as SVG, and writes it anew from what is allowed: nothing of the file survives
but shapes.

A drawing is trusted only in so far as it was read: elements, attributes and values come from short lists, numbers are
numbers, and the text that pages print is made here. So a script, an address, an entity or a style never reaches a page.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from xml.parsers import expat

MOST_BYTES = 60_000
MOST_ELEMENTS = 400
DEEPEST = 12
# Of all paths and lists of points together: some 6,000 points, more than a traced outline needs.
MOST_NUMBERS = 12_000
# Beyond this a browser's sums no longer hold, and a number is no place in a drawing.
LARGEST = 100_000
LONGEST_NUMBER = 24
# Kinds of stroke that a shape may have: those of the site's own drawings.
KINDS = ("o", "e", "t", "f", "b", "k", "u")
SHAPES = {
    "path": ("d",),
    "rect": ("x", "y", "width", "height", "rx", "ry"),
    "circle": ("cx", "cy", "r"),
    "ellipse": ("cx", "cy", "rx", "ry"),
    "line": ("x1", "y1", "x2", "y2"),
    "polyline": ("points",),
    "polygon": ("points",),
}
GROUPS = ("g",)
# Read and left out without a word: drawing programs write them, and they draw nothing.
SILENT = ("title", "desc", "metadata", "defs")
NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")
# What may stand between the numbers.
PATH_REST = re.compile(r"[MmLlHhVvCcSsQqTtAaZz,\s]*")
POINTS_REST = re.compile(r"[,\s]*")
ONE_MOVE = r"(?:translate|scale|rotate|matrix)\([0-9eE+\-.,\s]+\)"
MOVE = re.compile(rf"{ONE_MOVE}(?:\s*,?\s*{ONE_MOVE}){{0,7}}")
ENLARGES = re.compile(r"(scale|matrix)\(([^)]*)\)")


class DrawingFault(ValueError):
    """Why a drawing is not taken, in words for the person who brought it."""


@dataclass(frozen=True)
class OwnDrawing:
    """The box in which it is drawn (x, y, width, height), and its shapes as they may stand in a page."""

    box: tuple[float, float, float, float]
    markup: str


@lru_cache(maxsize=256)
def read_drawing(text: str) -> OwnDrawing:
    """The drawing in a file.

    Raises DrawingFault when it is too large, is no SVG, has no viewBox, or holds what is not allowed.
    """
    if len(text.encode()) > MOST_BYTES:
        raise DrawingFault(f"The drawing is larger than {MOST_BYTES // 1000} kB. Simplify its paths.")
    reader = Reader()
    parser = expat.ParserCreate()
    parser.StartDoctypeDeclHandler = refuse_doctype
    parser.EntityDeclHandler = refuse_doctype
    parser.ProcessingInstructionHandler = lambda target, data: None
    parser.StartElementHandler = reader.begin
    parser.EndElementHandler = reader.end
    try:
        parser.Parse(text, True)
    except expat.ExpatError as fault:
        what = f"line {fault.lineno}, {expat.ErrorString(fault.code)}"
        raise DrawingFault(f"This is no well-formed SVG: {what}.") from fault
    if reader.box is None:
        raise DrawingFault("The file does not begin with an svg element that has a viewBox.")
    if not reader.shapes:
        raise DrawingFault("The drawing holds no shape: path, rect, circle, ellipse, line, polyline or polygon.")
    return OwnDrawing(reader.box, "".join(reader.written))


def refuse_doctype(*_) -> None:
    raise DrawingFault("The file declares a document type or an entity. Save it as plain SVG, without them.")


class Reader:
    """Writes the allowed part of what it is told of."""

    def __init__(self) -> None:
        self.box: tuple[float, float, float, float] | None = None
        self.written: list[str] = []
        self.open: list[str] = []
        self.shapes = 0
        self.numbers = 0
        self.skipping = 0
        self.enlarged = [1.0]  # by how much at most, in each open group

    def begin(self, name: str, attributes: dict[str, str]) -> None:
        name = name.rpartition(":")[2]
        if self.skipping or name in SILENT:
            self.skipping += 1
            return
        if len(self.open) >= DEEPEST:
            raise DrawingFault(f"Groups are nested more than {DEEPEST} deep. Ungroup some of them.")
        self.open.append(name)
        self.enlarged.append(self.enlarged[-1] * enlargement(attributes))
        if self.enlarged[-1] > LARGEST:
            raise DrawingFault(
                "Its transforms enlarge it beyond measure. Draw it at its size, without scale or matrix."
            )
        if self.box is None:
            self.box = box_of(name, attributes)
            return
        if name in GROUPS:
            self.written.append(f"<g{''.join(looks(attributes))}>")
            return
        if name not in SHAPES:
            raise DrawingFault(f"The element “{name[:40]}” is not allowed. Allowed are g, {', '.join(SHAPES)}.")
        self.shapes += 1
        if self.shapes > MOST_ELEMENTS:
            raise DrawingFault(f"The drawing has more than {MOST_ELEMENTS} shapes. Join some of them.")
        refuse_live(attributes)
        self.numbers += sum(len(NUMBER.findall(attributes.get(key, ""))) for key in SHAPES[name])
        if self.numbers > MOST_NUMBERS:
            raise DrawingFault(f"Its shapes hold more than {MOST_NUMBERS:,} numbers. Simplify their paths.")
        self.written.append(f"<{name}{''.join(geometry(name, attributes))}{''.join(looks(attributes))}/>")

    def end(self, name: str) -> None:
        if self.skipping:
            self.skipping -= 1
            return
        self.enlarged.pop()
        if self.open.pop() in GROUPS:
            self.written.append("</g>")


def box_of(name: str, attributes: dict[str, str]) -> tuple[float, float, float, float]:
    refuse_live(attributes)
    numbers = re.split(r"[\s,]+", attributes.get("viewBox", "").strip())
    if name != "svg" or len(numbers) != 4 or not all(NUMBER.fullmatch(one) for one in numbers):
        raise DrawingFault("The file does not begin with an svg element that has a viewBox of four numbers.")
    x, y, w, h = map(float, numbers)
    if min(w, h) < 1 / LARGEST or max(map(abs, (x, y, w, h))) > LARGEST:
        raise DrawingFault(f"The viewBox must have a width and a height above nothing and below {LARGEST:,}.")
    return x, y, w, h


def refuse_unmeasured(value: str, where: str) -> None:
    """Refuses a text that holds a number of a size that no drawing has, or one written at endless length."""
    for one in NUMBER.findall(value):
        if abs(float(one)) > LARGEST:
            raise DrawingFault(f"The number “{one[:40]}” in {where} is too large. Numbers reach as far as {LARGEST:,}.")
        if len(one) > LONGEST_NUMBER:
            raise DrawingFault(f"The number “{one[:40]}…” in {where} is too long. Two decimals are plenty.")


def enlargement(attributes: dict[str, str]) -> float:
    """By how much its transform enlarges an element, at most."""
    found = 1.0
    for _, inside in ENLARGES.findall(attributes.get("transform", "")):
        found *= max([1.0, *(abs(float(one)) for one in NUMBER.findall(inside)[:4])])
    return found


def refuse_live(attributes: dict[str, str]) -> None:
    """What could act or fetch is refused by name, so that its author learns of it; all else unknown is left out."""
    for name, value in attributes.items():
        bare = name.rpartition(":")[2].lower()
        if bare.startswith("on") or bare == "href" or "url(" in value.lower() or "script:" in value.lower():
            raise DrawingFault(f"The attribute “{name[:40]}” could run or fetch something. Take it out.")


def geometry(name: str, attributes: dict[str, str]) -> Iterator[str]:
    for key in SHAPES[name]:
        value = attributes.get(key)
        if value is None:
            continue
        rest = {"d": PATH_REST, "points": POINTS_REST}.get(key)
        known = rest.fullmatch(NUMBER.sub(" ", value)) if rest else NUMBER.fullmatch(value.strip())
        if not known:
            raise DrawingFault(f"“{value[:40]}” cannot be read as {key} of a {name}.")
        refuse_unmeasured(value, f"{key} of a {name}")
        yield f' {key}="{" ".join(value.split())}"'


def looks(attributes: dict[str, str]) -> Iterator[str]:
    """A kind of stroke of ours, and where the shape is moved to; colours, widths and styles are the site's."""
    refuse_live(attributes)
    kind = attributes.get("class", "")
    if kind in KINDS:
        yield f' class="{kind}"'
    move = attributes.get("transform", "").strip()
    if move:
        if not MOVE.fullmatch(move):
            raise DrawingFault(f"“{move[:40]}” cannot be read as a transform.")
        refuse_unmeasured(move, "a transform")
        yield f' transform="{" ".join(move.split())}"'
