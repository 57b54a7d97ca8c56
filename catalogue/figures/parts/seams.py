"""Seams, looked at from above and, beneath, cut through; and stitches along a centimetre."""

from itertools import pairwise

from catalogue.figures.closeups import WHOLE, sheet
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen


def from_above(page: BoxPen) -> None:
    """The cloth from above with the cut edge at its foot, and a ground line for the section beneath."""
    page.path("o", "M2 2C34 4 62 0 94 2V36H2Z")


def upright_stitches(x: int) -> str:
    return "".join(f"M{x} {y}V{y + 4}" for y in range(4, 34, 6))


@part("main_seam", "felled", detail=True, frame=WHOLE)
def felled(pen: BoxPen, place: Place) -> None:
    """Both edges folded into each other; two rows of stitches go through all four layers."""
    page = sheet(pen)
    from_above(page)
    page.path("e", "M34 3V36M62 2V36" + upright_stitches(39) + upright_stitches(57))
    page.path("f", "M10 8C12 18 10 26 12 34M82 8C80 18 82 26 80 34")
    page.path("o", "M94 61H38C28 61 28 49 38 49H56V52H38C32 52 32 58 38 58H94Z")
    page.path("o", "M2 44H58C68 44 68 56 58 56H42V53H58C64 53 64 47 58 47H2Z")
    page.path("e", "M39 41V63M57 41V63")


@part("main_seam", "overedged", detail=True, frame=WHOLE)
def overedged(pen: BoxPen, place: Place) -> None:
    """Two raw edges stand up together, and thread runs zigzag round them."""
    page = sheet(pen)
    from_above(page)
    page.path("e", "M48 3V36" + upright_stitches(43))
    page.path("e", "M66 3L48 6L66 9L48 12L66 15L48 18L66 21L48 24L66 27L48 30L66 33L48 36M66 2V36M57 2V36")
    page.path("o", "M2 58H44V44H48V62H2Z")
    page.path("o", "M94 58H52V44H48V62H94Z")
    page.path("e", "M40 56C34 48 40 40 48 40C56 40 62 48 56 56M40 52C36 44 42 42 48 42C54 42 60 44 56 52M40 54H56")


@part("main_seam", "bound", detail=True, frame=WHOLE)
def bound(pen: BoxPen, place: Place) -> None:
    """A tape is folded round both raw edges and sewn down."""
    page = sheet(pen)
    from_above(page)
    page.path("b", "M48 2H70V36H48Z")
    page.path("e", "M44 3V36" + upright_stitches(52))
    page.path("f", "M57 2V36M61 2V36M65 2V36")
    page.path("o", "M2 58H44V46H48V62H2Z")
    page.path("o", "M94 58H52V46H48V62H94Z")
    page.path("e", "M40 56V46C40 38 56 38 56 46V56M37 56V45C37 35 59 35 59 45V56M37 56H40M56 56H59M36 52H60")


@part("main_seam", "taped", detail=True, frame=WHOLE)
def sealed(pen: BoxPen, place: Place) -> None:
    """A smooth tape is welded over the seam; its end lifts and shows the stitches beneath."""
    page = sheet(pen)
    from_above(page)
    page.path("e", "M48 18V36" + "M44 20V23M44 26V29M44 32V35M52 20V23M52 26V29M52 32V35")
    page.path("b", "M28 2H68V16C66 24 60 27 54 26C46 24 38 28 28 22Z")
    page.path("f", "M32 3V18M36 3V18M62 3L50 16M66 8L58 17")
    page.path("e", "M28 22C38 20 48 16 54 19C60 21 65 20 68 16")
    page.path("o", "M2 52H46V58H2Z")
    page.path("o", "M94 52H50V58H94Z")
    page.path("k", "M26 46C26 44 28 44 30 44H66C68 44 70 44 70 46V50H26Z")
    page.path("e", "M48 50V63M42 62H54")


@part("stitch_density", "s3", "s4", "s5", detail=True, frame=WHOLE)
def along_a_centimetre(pen: BoxPen, place: Place) -> None:
    """Stitches between the 0 and the 1 of a rule, each from needle hole to needle hole."""
    step = 60 // int(place.profile["stitch_density"][1:])
    page = sheet(pen)
    page.path("o", "M2 2H94V36H2Z")
    page.path("e", "M2 11H94")
    holes = [x for x in range(18 - 2 * step, 92, step) if x > 3]
    for near, far in pairwise(holes):
        page.path("b", f"M{near} 21C{near + 4} 16 {far - 4} 16 {far} 21C{far - 4} 26 {near + 4} 26 {near} 21Z")
    for x in holes:
        page.circle("k", x, 21, 1.5)
    page.path("b", "M2 40H94V62H2Z")
    page.path("e", "".join(f"M{x} 40V{50 if x in (18, 78) else 47 if x == 48 else 44}" for x in range(6, 94, 6)))
    page.path("e", "M18 29V40M78 29V40")
    page.text(18, 60, "0")
    page.text(78, 60, "1")
    page.text(48, 60, "cm", size=13)
