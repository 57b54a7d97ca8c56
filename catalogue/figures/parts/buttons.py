"""How a button is fixed and what it is made of, seen from a hand's breadth."""

from math import cos, radians, sin

from catalogue.figures.closeups import WHOLE, line, sheet
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen


def disc(pen: BoxPen, radius: float = 27) -> None:
    """A flat button with its sunk middle."""
    pen.circle("o", 48, 32, radius)
    pen.circle("e", 48, 32, radius - 6)


def holes(pen: BoxPen, *points: tuple[float, float], radius: float = 3) -> None:
    for x, y in points:
        pen.circle("k", x, y, radius)


FOUR = ((41, 25), (55, 25), (41, 39), (55, 39))


@part("button_fix", "none", detail=True, frame=WHOLE)
def front_without_buttons(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    page.path("o", "M22 4C12 6 6 9 2 12V62H48V22C38 20 28 13 22 4Z")
    page.path("o", "M74 4C84 6 90 9 94 12V62H42V22C58 20 68 13 74 4Z")
    page.path("t", "M46 26V62M21 10C27 18 34 24 42 26")
    page.path("f", "M80 24C76 36 76 46 80 60M16 26C20 38 20 46 16 58")


@part("button_fix", "sew2", detail=True, frame=WHOLE)
def sewn_through_two(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    disc(page)
    holes(page, (39, 32), (57, 32), radius=4)
    page.path("b", "M39 30H57V34H39Z")
    page.path("e", "M39 32H57")


@part("button_fix", "sew4", detail=True, frame=WHOLE)
def sewn_through_four(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    disc(page)
    holes(page, *FOUR, radius=3.5)
    page.path("b", "M41 23H55V27H41ZM41 37H55V41H41Z")
    page.path("e", "M41 25H55M41 39H55")


@part("button_fix", "shank", detail=True, frame=WHOLE)
def sewn_by_a_shank(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    page.path("e", "M40 25V36C40 47 56 47 56 36V25M44 25V36C44 41 52 41 52 36V25")
    page.path("o", "M14 25C18 10 34 5 48 5C62 5 78 10 82 25Z")
    page.path("f", "M24 20C30 12 40 10 48 10")
    page.path("o", "M2 48C30 46 66 46 94 48V58C66 56 30 56 2 58Z")
    page.path("e", "M46 39C41 44 40 48 40 52M50 39C55 44 56 48 56 52M48 39V52M36 60L40 52L44 61M52 61L56 52L60 60")


@part("button_fix", "tack", detail=True, frame=WHOLE)
def riveted(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    page.path("o", "M2 36H94V46H2Z")
    page.path("f", "M2 41H94")
    page.path("o", "M44 20H52V46L48 50L44 46Z")
    page.path("o", "M16 12C16 8 22 6 26 8C38 12 58 12 70 8C74 6 80 8 80 12C80 20 66 26 48 26C30 26 16 20 16 12Z")
    page.path("e", "M26 13C38 17 58 17 70 13")
    page.path("k", "M30 46H66C66 54 58 58 48 58C38 58 30 54 30 46Z")


@part("button_fix", "slotted", detail=True, frame=WHOLE)
def held_by_a_tape(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    page.path("b", "M2 23H94V41H2Z")
    page.path("t", "M6 26V38M90 26V38")
    disc(page)
    page.path("k", "M34 20H41V44H34ZM55 20H62V44H55Z")
    page.path("b", "M38 23H58V41H38Z")
    page.path("f", "M38 27H58M38 32H58M38 37H58")


@part("button_material", "corozo", detail=True, frame=WHOLE)
def corozo(pen: BoxPen, place: Place) -> None:
    """Fine, even grain like that of a nut, and no gloss."""
    page = sheet(pen)
    page.circle("o", 48, 32, 28)
    grain = "".join(
        f"M{x} {32 - y}C{x + b} {32 - y // 2} {x - b} {32 + y // 2} {x + 1} {32 + y}"
        for x, y, b in ((25, 13, 2), (29, 18, 2), (33, 21, 3), (37, 23, 3), (44, 25, 3), (52, 25, 4), (59, 23, 3))
    )
    page.path("f", grain + "M63 11C66 24 61 42 64 53M67 14C69 26 65 40 68 50M71 18C73 28 70 38 71 46")
    page.circle("e", 48, 32, 19)
    holes(page, *FOUR)


@part("button_material", "horn", detail=True, frame=WHOLE)
def horn(pen: BoxPen, place: Place) -> None:
    """Dark flames and streaks, none like the other."""
    page = sheet(pen)
    page.circle("o", 48, 32, 28)
    page.path(
        "k",
        "M22 28C34 22 42 11 56 6C50 14 44 22 34 26C30 28 26 29 22 30Z"
        "M22 40C34 36 50 30 60 18C64 13 67 12 69 13C64 24 54 34 42 38C34 41 27 42 23 43Z"
        "M35 56C46 52 58 46 66 34C70 28 74 26 75 27C72 38 62 50 50 54C44 57 40 58 35 56Z",
    )
    page.path("f", "M26 48C42 46 60 36 72 20M21 35C30 33 40 27 48 18M46 59C58 56 68 48 74 38")
    for x, y in FOUR:
        page.circle("b", x, y, 3)


@part("button_material", "urea", detail=True, frame=WHOLE)
def urea(pen: BoxPen, place: Place) -> None:
    """Thick rim, hard gloss, and a rim that breaks like glass."""
    page = sheet(pen)
    page.path(
        "o",
        "M75 25C78 44 64 60 48 60C33 60 20 47 20 32C20 17 33 4 48 4C52 4 56 5 59 7"
        "C56 12 58 16 63 17C64 22 68 26 75 25Z",
    )
    page.path(
        "e",
        "M55 13C40 8 28 18 28 32C28 43 37 52 48 52C60 52 69 43 67 29M56 12C53 19 60 28 70 30M58 10L55 13M75 25L67 29",
    )
    page.path("e", "M74 6C79 5 84 9 84 15C80 18 74 17 72 13C71 10 72 7 74 6ZM74 10C76 13 79 14 82 13")
    page.path("k", "M23 33C22 21 30 10 42 7L41 10C32 13 26 22 26 33ZM45 6L50 6L50 9L45 9Z")
    holes(page, (42, 27), (54, 27), (42, 39), (54, 39))


@part("button_material", "brass", detail=True, frame=WHOLE)
def brass(pen: BoxPen, place: Place) -> None:
    """A struck dome: milled rim, the light in a hard band across it, no holes."""
    page = sheet(pen)
    page.circle("o", 48, 32, 29)
    ticks = ""
    for turn in range(0, 360, 12):
        x, y = cos(radians(turn)), sin(radians(turn))
        ticks += line((48 + 25 * x, 32 + 25 * y), (48 + 29 * x, 32 + 29 * y))
    page.path("e", ticks)
    page.circle("e", 48, 32, 25)
    page.path("k", "M26 36C34 28 42 40 52 34C60 30 66 30 70 34C69 44 60 54 48 54C36 54 28 46 26 36Z")
    page.path("e", "M32 24C36 16 42 13 50 12")
    page.path("b", "M34 44C40 50 54 51 62 44C56 47 42 48 34 44Z")


@part("button_material", "polyester", detail=True, frame=WHOLE)
def polyester(pen: BoxPen, place: Place) -> None:
    """Lying aslant: a window shines back from its rim, and the line where the halves of the mould met runs round it."""
    page = sheet(pen)
    page.path("o", "M6 24V38C6 48.5 25 57 48 57C71 57 90 48.5 90 38V24Z")
    page.path(
        "k",
        "M6 30L2 32L6 34C8 44 26 52 48 52C70 52 88 44 90 34L94 32L90 30C88 40 70 48.5 48 48.5C26 48.5 8 40 6 30Z",
    )
    page.path("o", "M6 24C6 13.5 25 5 48 5C71 5 90 13.5 90 24C90 34.5 71 43 48 43C25 43 6 34.5 6 24Z")
    page.path("e", "M20 25C20 6 76 6 76 25C76 44 20 44 20 25Z")
    page.path("k", "M12 20C14 14 19 10 25 8L30 10C24 12 20 15 18 20ZM28 7L36 5L39 7L33 9Z")
    holes(page, (40, 20), (56, 20), (40, 30), (56, 30))


@part("button_material", "nylon", detail=True, frame=WHOLE)
def nylon(pen: BoxPen, place: Place) -> None:
    """The stub of the mould at the rim, and an edge that bends between the fingers."""
    page = sheet(pen)
    page.path("o", "M30 9V4H36V9C48 10 57 20 57 32C57 45 46 56 33 56C20 56 9 45 9 32C9 20 18 10 30 9Z")
    page.circle("e", 33, 32, 18)
    holes(page, (27, 26), (39, 26), (27, 38), (39, 38))
    page.path("o", "M66 7C80 20 80 44 66 57C65 59 69 61 71 59C86 45 86 19 71 5C69 3 65 5 66 7Z")
    page.path("f", "M70 15C77 26 77 38 70 49")
    page.path("e", "M80 7C87 12 91 18 92 25M88 21L92 26L95 21M80 57C87 52 91 46 92 39M88 43L92 38L95 43")
