"""Reads a drawing back: which part stands where, in units of the drawing, from its shapes alone."""

import re
from dataclasses import dataclass
from xml.etree import ElementTree

PIECE = re.compile(r"([A-Za-z])([^A-Za-z]*)")
Point = tuple[float, float]


@dataclass(frozen=True)
class DrawnPart:
    """`points`: every end and turning point of its lines, and the corners round what is no line. `dashed`: as what only
    some pieces have is drawn."""

    name: str
    side: str
    points: tuple[Point, ...]
    dashed: bool = False

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        across, down = zip(*self.points, strict=True)
        return min(across), min(down), max(across), max(down)

    def holds(self, point: Point, by: float = 0.5) -> bool:
        left, top, right, bottom = self.box
        return left - by <= point[0] <= right + by and top - by <= point[1] <= bottom + by


def read(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg if svg.startswith("<svg") else f"<svg>{svg}</svg>")


def drawn_parts(svg: str) -> list[DrawnPart]:
    """The parts of a drawing without shapes that are turned or shrunk, which the site's own have none of."""
    return [
        DrawnPart(
            group.attrib["data-part"],
            group.attrib["data-side"],
            tuple(points_in(group)),
            "unsure" in group.get("class", "").split(),
        )
        for group in read(svg).iter()
        if "data-part" in group.attrib
    ]


def points_in(element: ElementTree.Element) -> list[Point]:
    found: list[Point] = []
    for one in element.iter():
        assert "transform" not in one.attrib
        of = {name: float(value) for name, value in one.attrib.items() if re.fullmatch(r"-?[\d.]+", value)}
        if one.tag == "path":
            found += points_of_path(one.attrib["d"])
        elif one.tag == "rect":
            found += [(of["x"], of["y"]), (of["x"] + of["width"], of["y"] + of["height"])]
        elif one.tag == "circle":
            found += [(of["cx"] - of["r"], of["cy"] - of["r"]), (of["cx"] + of["r"], of["cy"] + of["r"])]
        elif one.tag == "text":
            found.append((of["x"], of["y"]))
    return found


def points_of_path(data: str) -> list[Point]:
    """The points that absolute commands M L H V C Q Z pass through; those that only draw a curve are left out."""
    found: list[Point] = []
    x = y = 0.0
    for command, rest in PIECE.findall(data):
        numbers = [float(word) for word in re.findall(r"-?\d*\.?\d+", rest)]
        step = {"M": 2, "L": 2, "C": 6, "Q": 4, "H": 1, "V": 1, "Z": 1}[command]
        for begin in range(0, len(numbers), step):
            *_, end = numbers[begin : begin + step]
            if command == "H":
                x = end
            elif command == "V":
                y = end
            else:
                x, y = numbers[begin + step - 2], end
            found.append((x, y))
    return found
