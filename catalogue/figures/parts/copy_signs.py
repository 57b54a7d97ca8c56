"""Signs that betray a copy: the label's thread, needle holes, names on hardware, what a stud is made of.

None of them is proof alone; each is worth a look on any piece. Common practice, no source.
"""

from collections.abc import Iterable

from catalogue.figures import miniatures
from catalogue.figures.closeups import WHOLE, sheet, wording
from catalogue.figures.miniatures import sparkle
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

# A colour for thread; the length of the stitches says the same without it.
THREAD = "#d9622b"


def garment_seam(page: BoxPen, thread: str = "") -> None:
    """A seam of the garment itself beside the label, to compare the thread with."""
    page.path("o", "M2 3H94V61H2Z")
    page.path("e", "M22 3V61")
    stitches = "".join(f"M14 {y}H17V{y + 7}H14Z" for y in range(7, 56, 10))
    if thread:
        page.dyed(thread, stitches)
    else:
        page.path("k", stitches)


def thread_along(y: int) -> str:
    """Stitches of the garment's thread and length along an edge of the label."""
    return "".join(f"M{x} {y}V{y + 3}H{x + 7}V{y}Z" for x in range(35, 86, 10))


@part("label_thread", "same", detail=True, frame=WHOLE)
def same_thread(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    garment_seam(page, THREAD)
    page.path("b", "M32 10H94V54H32Z")
    page.dyed(THREAD, thread_along(14) + thread_along(47))
    page.path("e", wording(44, 26, 40, 28, 36, gap=6))


@part("label_thread", "other", detail=True, frame=WHOLE)
def another_thread(pen: BoxPen, place: Place) -> None:
    """Thick stitches of another colour and length than those of the garment."""
    page = sheet(pen)
    garment_seam(page)
    page.path("b", "M32 10H94V54H32Z")
    page.dyed(THREAD, "".join(f"M{x} {y}H{x + 4}V{y + 4}H{x}Z" for y in (13, 47) for x in range(35, 92, 7)))
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
    """A row of open holes, struck out."""
    page = sheet(pen)
    small_label(page)
    punched(page, [(x, 54) for x in range(30, 71, 8)])
    page.path("e", "M40 48L60 60M60 48L40 60")


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
    miniatures.absent(page, "M30 24H66V40H30Z", (48, 32), reach=6)


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


# Of metals and rust: said a second time by glints, chips and dots, for who sees no colours.
BRASS, RUST = "#d3a93f", "#b4602c"


def round_at(x: int, y: int, radius: int) -> str:
    """A circle as a path, for a shape in a colour of its own."""
    k = round(radius * 0.55)
    left, right, top, foot = x - radius, x + radius, y - radius, y + radius
    return (
        f"M{left} {y}C{left} {y - k} {x - k} {top} {x} {top}C{x + k} {top} {right} {y - k} {right} {y}"
        f"C{right} {y + k} {x + k} {foot} {x} {foot}C{x - k} {foot} {left} {y + k} {left} {y}Z"
    )


@part("stud_material", "brass", detail=True, frame=WHOLE)
def brass_stud(pen: BoxPen, place: Place) -> None:
    """Yellow and bright; beside the cap its edge, rolled under, as it looks when it is cut through."""
    page = sheet(pen)
    page.dyed(BRASS, round_at(26, 34, 24))
    page.circle("e", 26, 34, 17)
    page.circle("k", 26, 34, 5)
    page.path("k", sparkle(14, 22, 10) + sparkle(36, 46, 6) + sparkle(48, 9, 7))
    page.dyed(
        BRASS,
        "M55 26C57 13 64 8 74 8C84 8 91 13 93 26C93 34 82 34 83 27C84 23 88 24 87 28C89 26 86 14 74 14"
        "C62 14 59 26 61 28C60 24 64 23 65 27C66 34 55 34 55 26Z",
    )
    page.path("o", "M70 14V38H54V44H94V38H78V14ZM62 44H86V56H62Z")


@part("stud_material", "painted_iron", detail=True, frame=WHOLE)
def painted_iron_stud(pen: BoxPen, place: Place) -> None:
    """Dark paint that chips off rust, and a magnet that holds it."""
    page = sheet(pen)
    page.circle("o", 30, 32, 28)
    page.path("k", round_at(30, 32, 24))
    page.circle("b", 30, 32, 6)
    chip = "M34 10L44 13L51 22L50 30L42 25L36 24L32 17ZM9 36L18 34L23 42L17 50L11 44ZM34 45L43 41L46 48L37 54Z"
    page.dyed(RUST, chip, lines="M39 15V16M45 22V23M39 20V21M15 41V42M18 38V39M40 47V48")
    page.path("o", "M94 16H82C66 16 66 48 82 48H94V40H82C76 40 76 24 82 24H94Z")
    page.path("k", "M89 16H94V24H89ZM89 40H94V48H89Z")
    page.path("e", "M60 22H66M61 32H68M60 42H66")


@part("stud_material", "plastic", detail=True, frame=WHOLE)
def plastic_stud(pen: BoxPen, place: Place) -> None:
    """Still on the runner on which they came out of the mould, whose seam goes over each."""
    page = sheet(pen)
    page.path("o", "M41 1H55L52 7V14H58V20H52V44H58V50H52V62H44V50H38V44H44V20H38V14H44V7Z")
    for x in (24, 72):
        for y in (17, 47):
            page.circle("o", x, y, 14)
            page.circle("e", x, y, 9)
            page.circle("k", x, y, 3)
    page.path("e", "M2 17H18M30 17H38M2 47H18M30 47H38M58 17H66M78 17H94M58 47H66M78 47H94")
