"""How the cloth is woven: through a thread counter, and beside it as the eye sees it at arm's length.

What the thread counter shows is drawn as a weaver's diagram is: the filling yarns lie across, and an upright yarn is
drawn only where it lies on top.
"""

from collections.abc import Callable

from catalogue.figures.closeups import WHOLE, hatch, pick_glass, pinked, sheet
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

COLUMNS, ROWS, PITCH = 14, 8, 6
# The columns that are drawn; a herringbone turns between the seventh and the eighth.
SHOWN = range(4, 11)
# Whether the upright yarn of a column lies on top in a row, both counted from nought.
Rule = Callable[[int, int], bool]
RULES: dict[str, Rule] = {
    "plain": lambda col, row: (col + row) % 2 == 0,
    "twill22": lambda col, row: (col + row) % 4 < 2,
    "drill": lambda col, row: (col + row) % 4 != 0,
    "herringbone": lambda col, row: ((col if col < 7 else 13 - col) + row) % 4 < 2,
    "sateen": lambda col, row: (3 * col + row) % 8 != 0,
}


# The lines that the eye sees: of even twill and drill a diagonal, steep where the upright yarns lead; of herringbone
# one that turns again and again; of sateen a sheen.
AT_ARMS_LENGTH = {
    "plain": ("f", hatch(58, 10, 32, 44, 0, 4) + hatch(58, 10, 32, 44, 90, 4)),
    "twill22": ("e", hatch(58, 10, 32, 44, 45, 4)),
    "drill": ("e", hatch(58, 10, 32, 44, 27, 4)),
    "herringbone": (
        "e",
        "".join(hatch(58 + strip * 8, 10, 8, 44, 45 if strip % 2 else 135, 6) for strip in range(4)),
    ),
    "sateen": ("f", "M60 50C66 34 74 22 88 14M60 44C65 30 72 19 82 12M68 52C73 40 80 30 90 24"),
}


def floats(up: list[bool]) -> list[tuple[int, int]]:
    """Where the yarn lies on top without a break: the first and the last that it crosses."""
    found: list[tuple[int, int]] = []
    for place, is_up in enumerate(up):
        if is_up and found and found[-1][1] == place - 1:
            found[-1] = (found[-1][0], place)
        elif is_up:
            found.append((place, place))
    return found


def upright_yarns(rule: Rule) -> str:
    """Every float of an upright yarn as a bar that reaches a little over the yarns before and behind it."""
    found = []
    for place, col in enumerate(SHOWN):
        for first, last in floats([rule(col, row) for row in range(ROWS)]):
            left = 6 + place * PITCH
            top, foot = max(7 + first * PITCH, 8), min(9 + (last + 1) * PITCH, 56)
            found.append(f"M{left} {top}H{left + 5}V{foot}H{left}Z")
    return "".join(found)


@part("weave", *RULES, detail=True, frame=WHOLE)
def interlaced(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    page.path("e", "".join(f"M6 {y}H47" for y in range(8, 57, 3)))
    page.path("b", upright_yarns(RULES[place.profile["weave"]]))
    page.path("e", "M1 2H52V62H1ZM5 7H48V58H5Z")
    pinked(page, 56, 8, 36, 48)
    page.path(*AT_ARMS_LENGTH[place.profile["weave"]])


@part("weave", "ripstop", detail=True, frame=WHOLE)
def ripstop(pen: BoxPen, place: Place) -> None:
    """Fine plain cloth with two thick yarns together at even distances, both ways."""
    page = sheet(pen)
    page.path("f", "".join(f"M{x} 8V56" for x in range(9, 90, 3)) + "".join(f"M6 {y}H90" for y in range(11, 56, 3)))
    page.path("b", "".join(f"M6 {y}H90V{y + 3}H6Z" for y in (15, 18, 43, 46)))
    page.path("b", "".join(f"M{x} 8H{x + 3}V56H{x}Z" for x in (17, 20, 45, 48, 73, 76)))
    crossings = ((x, y) for x, y in ((17, 18), (20, 15), (45, 18), (48, 15), (73, 18), (76, 15)))
    page.path("b", "".join(f"M{x - 1} {y + d}H{x + 4}V{y + 3 + d}H{x - 1}Z" for x, y in crossings for d in (0, 28)))
    pick_glass(page)


@part("weave", "coated", detail=True, frame=WHOLE)
def coated(pen: BoxPen, place: Place) -> None:
    """A smooth skin on which water stands in beads; where it lifts, the cloth shows."""
    page = sheet(pen)
    page.path("o", "M2 6C30 3 66 3 94 6V60C66 62 30 62 2 60Z")
    page.path("e", "".join(f"M{x} {max(38, 126 - x)}V60" for x in range(68, 94, 3)))
    page.path("e", "".join(f"M{126 - y} {y}H94" for y in range(35, 60, 3)))
    page.path("b", "M94 30L64 61C64 52 62 46 58 42C68 45 76 41 80 26C84 30 89 31 94 30Z")
    page.path("f", "M64 46C71 46 78 42 82 33")
    page.path("b", "M14 24C14 14 32 14 32 24C32 31 14 31 14 24ZM42 16C42 11 52 11 52 16C52 20 42 20 42 16Z")
    page.path("b", "M22 47C22 40 36 40 36 47C36 53 22 53 22 47ZM62 13C62 10 68 10 68 13C68 16 62 16 62 13Z")
    page.path("e", "M18 22C19 19 22 18 25 19M45 15C46 14 47 14 48 14M26 45C27 43 29 43 31 43M18 34H28M28 57H36")


@part("weave", "pile", detail=True, frame=WHOLE)
def pile(pen: BoxPen, place: Place) -> None:
    """Tufts that hide the ground, which shows at the cut edge."""
    page = sheet(pen)
    for y in (26, 39, 52):
        locks = "".join(
            f"C{x} {y - 6} {x + 3} {y - 14} {x + 9} {y - 16}C{x + 6} {y - 9} {x + 7} {y - 3} {x + 10} {y}"
            for x in range(2, 84, 10)
        )
        page.path("b", f"M2 {y}{locks}V60H2Z")
    page.path("o", "M2 52H94V61H2Z")
    page.path("e", "".join(f"M{x} 56V57M{x + 4} 54V59" for x in range(5, 92, 8)))
