"""Signs that betray a copy: the label's thread, needle holes, names on hardware, what a stud is made of.

None of them is proof alone; each is worth a look on any piece. Common practice, no source.
"""

from collections.abc import Iterable

from catalogue.figures.closeups import WHOLE, sheet, wording
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen


def garment_seam(page: BoxPen) -> None:
    """A seam of the garment itself beside the label, to compare the thread with."""
    page.path("o", "M2 3H94V61H2Z")
    page.path("e", "M22 3V61")
    page.path("k", "".join(f"M15 {y}H17V{y + 7}H15Z" for y in range(7, 56, 10)))


def thread_along(y: int) -> str:
    """Stitches of the garment's thread and length along an edge of the label."""
    return "".join(f"M{x} {y}V{y + 2}H{x + 7}V{y}Z" for x in range(35, 92, 10))


@part("label_thread", "same", detail=True, frame=WHOLE)
def same_thread(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    garment_seam(page)
    page.path("b", "M32 10H94V54H32Z")
    page.path("k", thread_along(14) + thread_along(48))
    page.path("e", wording(44, 26, 40, 28, 36, gap=6))


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
    """No stitch at all; a corner lifts, and dots of glue show on the cloth and on its underside."""
    page = sheet(pen)
    page.path("o", "M2 3H94V61H2Z")
    page.path("f", "M46 9H12V38")
    page.path("b", "M46 9H84V55H12V38Z")
    page.path("b", "M46 9C52 22 50 34 44 44C34 46 22 44 12 38Z")
    page.path("e", wording(58, 22, 18) + wording(58, 32, 18, 12) + wording(26, 50, 50))
    for x, y in ((18, 14), (26, 14), (34, 14), (18, 22), (26, 22), (18, 30), (44, 22), (43, 30), (35, 30), (41, 38)):
        page.circle("k", x, y, 1.6)


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
    for y in (13, 53):
        punched(page, [(x, y) for x in (23, 32, 38, 47, 55, 61, 70, 77)])
    for x in (23, 77):
        punched(page, [(x, y) for y in (22, 29, 37, 46)])


@part("needle_holes", "other_label", detail=True, frame=WHOLE)
def holes_of_another_label(pen: BoxPen, place: Place) -> None:
    """Holes of a label of another size, which lay elsewhere; part of its row runs under this one."""
    page = sheet(pen)
    small_label(page)
    punched(page, ((10, 32), (18, 32), (24, 32), (9, 40), (11, 48), (54, 51)))
    punched(page, ((10, 56), (16, 56), (25, 56), (31, 56), (40, 56), (47, 56), (55, 56)))


def punched(page: BoxPen, points: Iterable[tuple[float, float]]) -> None:
    """Needle holes: round and open, so that they are not taken for stitches."""
    for x, y in points:
        page.circle("b", x, y, 1.5)


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
    """Both halves: the socket with the two wires of its spring, and the cap from the side, its edge rolled under."""
    page = sheet(pen)
    page.circle("o", 24, 32, 22)
    page.circle("e", 24, 32, 18)
    page.circle("k", 24, 32, 10)
    page.path("b", "M17 18H20V46H17ZM28 18H31V46H28Z")
    page.path(
        "o",
        "M54 24C56 10 64 6 72 6C80 6 88 10 90 24C91 33 80 33 81 26C81 22 86 22 86 25"
        "H58C58 22 63 22 63 26C64 33 53 33 54 24Z",
    )
    page.path("f", "M60 18C61 13 66 10 71 10")
    page.path("o", "M68 38C66 41 69 43 69 46V52H54V58H90V52H75V46C75 43 78 41 76 38C74 36 70 36 68 38Z")


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
