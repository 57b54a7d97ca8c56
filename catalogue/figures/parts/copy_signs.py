"""Signs that betray a copy: the label's thread, needle holes, names on hardware, what a stud is made of.

None of them is proof alone; each is worth a look on any piece. Common practice, no source.
"""

from catalogue.figures.closeups import WHOLE, sheet, wording
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen


def garment_seam(page: BoxPen) -> None:
    """A seam of the garment itself beside the label, to compare the thread with."""
    page.path("o", "M2 3H94V61H2Z")
    page.path("e", "M22 3V61")
    page.path("e", thread_down(13, 6, 56))


def thread_down(x: int, top: int, foot: int) -> str:
    """Stitches of the garment's thread: slim loops."""
    rows = range(top, foot, 9)
    return "".join(
        f"M{x} {y}C{x - 3} {y + 1} {x - 3} {y + 6} {x} {y + 7}C{x + 3} {y + 6} {x + 3} {y + 1} {x} {y}" for y in rows
    )


def thread_along(y: int, left: int, right: int) -> str:
    steps = range(left, right, 9)
    return "".join(
        f"M{x} {y}C{x + 1} {y - 3} {x + 6} {y - 3} {x + 7} {y}C{x + 6} {y + 3} {x + 1} {y + 3} {x} {y}" for x in steps
    )


@part("label_thread", "same", detail=True, frame=WHOLE)
def same_thread(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    garment_seam(page)
    page.path("b", "M32 10H94V54H32Z")
    page.path("e", thread_along(15, 37, 88) + thread_along(49, 37, 88) + wording(44, 26, 40, 28, 36, gap=6))


@part("label_thread", "other", detail=True, frame=WHOLE)
def another_thread(pen: BoxPen, place: Place) -> None:
    """Thick dark stitches, another length than those of the garment."""
    page = sheet(pen)
    garment_seam(page)
    page.path("b", "M32 10H94V54H32Z")
    page.path("k", "".join(f"M{x} {y}H{x + 3}V{y + 4}H{x}Z" for y in (13, 47) for x in range(36, 92, 5)))
    page.path("e", wording(44, 26, 40, 28, 36, gap=6))


@part("label_thread", "glued", detail=True, frame=WHOLE)
def glued_down(pen: BoxPen, place: Place) -> None:
    """No stitch at all; glue at the edges, a corner that lifts."""
    page = sheet(pen)
    garment_seam(page)
    page.path("k", "M29 40C27 46 29 50 32 49V36ZM50 10C52 6 60 6 62 10ZM72 54C74 59 84 58 84 54Z")
    page.path("b", "M44 10H94V54H32V22Z")
    page.path("b", "M32 22L44 10C50 14 51 20 48 25C43 27 36 26 32 22Z")
    page.path("e", wording(54, 28, 34, 24, 30, gap=6))


def small_label(page: BoxPen) -> None:
    page.path("o", "M2 3H94V61H2Z")
    page.rect("b", 30, 20, 40, 26)
    page.path("t", "M32 22H68V44H32Z")
    page.path("e", wording(37, 28, 26, 18, 24))


@part("needle_holes", "none", detail=True, frame=WHOLE)
def no_holes(pen: BoxPen, place: Place) -> None:
    small_label(sheet(pen))


@part("needle_holes", "empty_row", detail=True, frame=WHOLE)
def an_empty_row(pen: BoxPen, place: Place) -> None:
    """Holes that no thread fills, close round the label: something was unpicked here."""
    page = sheet(pen)
    small_label(page)
    page.path("k", holes(23, 12, 75, 52))


@part("needle_holes", "other_label", detail=True, frame=WHOLE)
def holes_of_another_label(pen: BoxPen, place: Place) -> None:
    """Holes of a label of another size, which lay elsewhere; part of its row runs under this one."""
    page = sheet(pen)
    small_label(page)
    page.path("k", holes(10, 32, 54, 56, skip=(28, 72, 18, 48)))
    page.path("f", "M10 32H28M10 32V56H54V48")


def holes(left: int, top: int, right: int, foot: int, skip: tuple[int, int, int, int] = (0, 0, 0, 0)) -> str:
    """A rectangle of needle holes, but for those that something covers."""
    points = [(x, y) for y in (top, foot) for x in range(left, right + 1, 4)]
    points += [(x, y) for x in (left, right) for y in range(top + 4, foot, 4)]
    seen = [(x, y) for x, y in points if not (skip[0] < x < skip[1] and skip[2] < y < skip[3])]
    return "".join(f"M{x} {y}H{x + 2}V{y + 2}H{x}Z" for x, y in seen)


def stud_cap(page: BoxPen) -> None:
    page.circle("o", 48, 32, 29)
    page.circle("e", 48, 32, 25)


@part("trade_name", "unmarked", detail=True, frame=WHOLE)
def bare_hardware(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    stud_cap(page)
    page.path("f", "M29 30C30 20 38 13 47 13M33 31C34 24 39 18 45 17")


@part("trade_name", "maker_mark", detail=True, frame=WHOLE)
def makers_mark(pen: BoxPen, place: Place) -> None:
    """A small struck device, no word."""
    page = sheet(pen)
    stud_cap(page)
    page.path("k", "M40 22H56L50 32L56 42H40L46 32Z")
    page.circle("e", 48, 32, 16)


@part("trade_name", "trade_name", detail=True, frame=WHOLE)
def name_on_hardware(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    stud_cap(page)
    page.path("e", "M25 22C40 20 56 20 71 22M25 42C40 44 56 44 71 42")
    page.text(48, 37, "NAME", size=15)


@part("stud_material", "brass", detail=True, frame=WHOLE)
def brass_stud(pen: BoxPen, place: Place) -> None:
    """Bright, with a hard gleam and a rolled edge."""
    page = sheet(pen)
    stud_cap(page)
    page.path("k", "M27 36C36 28 42 40 52 34C60 30 66 30 69 34C68 44 60 53 48 53C37 53 29 46 27 36Z")
    page.path("b", "M34 44C40 50 54 51 62 44C56 47 42 48 34 44Z")
    page.path("e", "M31 26C34 17 41 13 50 12")


@part("stud_material", "painted_iron", detail=True, frame=WHOLE)
def painted_iron_stud(pen: BoxPen, place: Place) -> None:
    """Paint that chips, rust beneath, and rust that has run into the cloth."""
    page = sheet(pen)
    page.path("f", "M36 58L34 64M42 60V64M50 61V64M57 59L59 64")
    stud_cap(page)
    page.path("e", "M68 15C58 20 64 27 54 30C47 33 54 40 47 43C42 48 52 54 55 57")
    page.path("k", "M70 18C61 22 67 29 58 32C51 35 58 41 52 45C49 48 55 52 58 55C68 52 75 42 74 32C74 26 73 21 70 18Z")
    page.path(
        "k", "M29 22C33 19 36 20 37 24C34 24 35 29 31 29C28 28 27 25 29 22ZM32 42C36 40 38 43 36 46C33 47 31 45 32 42Z"
    )
    page.path("b", "M62 38L65 36L66 40L63 42ZM66 28L69 27L69 30Z")
    page.path("f", "M34 15C38 12 42 11 46 10")


@part("stud_material", "plastic", detail=True, frame=WHOLE)
def plastic_stud(pen: BoxPen, place: Place) -> None:
    """From the side: a thick dull dome, the seam of the mould over it, and the stub where it was filled."""
    page = sheet(pen)
    page.path("o", "M12 34C12 18 28 8 48 8C68 8 84 18 84 34Z")
    page.path("o", "M8 34H88V42H8ZM36 42H60V54H36ZM26 54H70V60H26Z")
    page.path("b", "M46 8L48 2L50 8ZM88 36H95V40H88Z")
    page.path("e", "M48 8V60M47 12L49 14M47 20L49 22M47 28L49 30")
    page.path("f", "M20 30C22 21 30 15 38 13M25 31C27 24 33 19 40 17")
