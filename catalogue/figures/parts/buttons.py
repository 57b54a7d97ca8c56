"""How a button is fixed and what it is made of, seen from a hand's breadth."""

from catalogue.figures import miniatures
from catalogue.figures.closeups import WHOLE, sheet
from catalogue.figures.miniatures import sparkle
from catalogue.figures.parts import Place, part
from catalogue.figures.parts.copy_signs import BRASS, round_at
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
    page.path("o", "M4 6H56V58H4")
    page.path("o", "M92 6H44V58H92")
    page.path("t", "M49 6V58")
    miniatures.absent(page, round_at(68, 32, 17), (68, 32), reach=8)


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
    """The nut, cut open, that it is turned from; on the button the same fine, even grain, and no gloss."""
    page = sheet(pen)
    page.path("o", "M20 8C10 14 2 26 3 38C4 52 12 58 20 58C28 58 36 52 37 38C38 26 30 14 20 8Z")
    page.path("o", "M20 15C13 20 8 28 8 38C9 48 14 53 20 53C26 53 31 48 32 38C32 28 27 20 20 15Z")
    page.path("f", "M15 22C12 32 12 40 16 50M20 18V52M25 22C28 32 28 40 24 50")
    page.path("k", "M18 34C18 30 22 30 22 34C22 38 18 38 18 34ZM20 9L17 1L23 1Z")
    page.circle("o", 68, 33, 26)
    grain = "".join(f"M{x} {33 - y}C{x + 2} {33 - y // 2} {x - 2} {33 + y // 2} {x} {33 + y}" for x, y in GRAIN)
    page.path("f", grain)
    page.circle("e", 68, 33, 18)
    holes(page, (62, 27), (74, 27), (62, 39), (74, 39))


GRAIN = ((48, 14), (53, 18), (58, 15), (63, 17), (68, 17), (73, 17), (78, 15), (83, 18), (88, 14))


@part("button_material", "horn", detail=True, frame=WHOLE)
def horn(pen: BoxPen, place: Place) -> None:
    """The horn that it is cut from; on the button dark flames and streaks, none like the other."""
    page = sheet(pen)
    page.path("o", "M2 58C4 40 12 18 38 4C32 16 30 36 24 58C18 62 8 62 2 58Z")
    page.path("e", "M2 58C8 54 18 54 24 58M5 46C12 43 20 44 27 47M11 32C17 31 24 32 29 35M19 19C23 19 28 20 32 22")
    page.circle("o", 66, 34, 26)
    page.path(
        "k",
        "M42 28C54 24 60 14 72 9C68 17 62 25 54 28C49 30 46 31 41 33Z"
        "M42 44C54 40 68 32 76 19C80 16 84 16 85 18C80 30 70 38 58 42C52 45 47 46 44 48Z"
        "M54 57C64 53 76 48 83 36C87 30 90 30 91 32C88 44 78 52 66 56C62 58 58 59 54 57Z",
    )
    for x, y in ((60, 28), (72, 28), (60, 40), (72, 40)):
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
    """Yellow, domed and bright, a loop of wire behind it, which shows from the side."""
    page = sheet(pen)
    page.dyed(BRASS, round_at(30, 34, 27))
    page.circle("e", 30, 34, 22)
    page.path("k", sparkle(24, 28, 13) + sparkle(40, 42, 7) + sparkle(56, 8, 7))
    page.dyed(BRASS, "M70 10C96 14 96 54 70 58Z")
    page.path("e", "M70 26C58 24 58 44 70 42M70 30C64 29 64 39 70 38")


@part("button_material", "polyester", detail=True, frame=WHOLE)
def polyester(pen: BoxPen, place: Place) -> None:
    """Poured into round moulds, one like the other; they come out even and with a gloss."""
    page = sheet(pen)
    page.path("o", "M2 34H94V62H2Z")
    page.path(
        "o",
        "M8 34H28V42Q28 46 24 46H12Q8 46 8 42ZM38 34H58V42Q58 46 54 46H42Q38 46 38 42Z"
        "M68 34H88V42Q88 46 84 46H72Q68 46 68 42Z",
    )
    page.path("k", "M9 38H27V42Q27 45 24 45H12Q9 45 9 42ZM39 40H57V42Q57 45 54 45H42Q39 45 39 42Z")
    page.path("o", "M66 12H84C84 22 70 24 62 20C56 18 54 24 50 24V20C52 14 58 12 66 12ZM84 14L95 6")
    page.path("k", "M47 24H50V40H46Z")
    page.path("o", "M8 22C8 12 32 12 32 22C32 32 8 32 8 22Z")
    page.path("k", "M17 19H20V22H17ZM23 21H26V24H23Z" + sparkle(10, 10, 8))


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
