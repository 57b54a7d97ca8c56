"""Linings: in the inside view soft strokes that suit a back as well as a crown, as a picture the whole inside."""

from catalogue.figures import miniatures
from catalogue.figures.closeups import WHOLE, hatch, opened_garment, sheet
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

# Back and both fronts of the opened garment of the small picture, within their seams.
PANELS = ((29, 22, 38, 35), (8, 22, 14, 35), (74, 22, 14, 35))
# Where a lining is seen: from inside, and on a liner, whose silhouettes name a place for its quilting, from outside.
INSIDE = {"inside": ("back",)}
INSIDE_AND_OUTSIDE = {"inside": ("back", "front_left"), "front": ("quilting_left",), "back": ("quilting",)}


def over_region(pen: BoxPen, place: Place, kind: str, pitch: float, *degrees: float) -> None:
    """Crossing lines in units of the drawing, so that no box stretches them; clear of armholes and neck on a back."""
    width, height = pen.box.w, pen.box.h
    side, top = (width * 0.09, height * 0.07) if place.region == "back" else (2, 2)
    lines = "".join(hatch(side, top, width - 2 * side, height - top - 8, turn, pitch) for turn in degrees)
    pen.sheet(width, height).path(kind, lines)


def over_panels(degrees: int, pitch: float, *, foot: int = 60) -> str:
    return "".join(hatch(x, y, w, min(h, foot - y), degrees, pitch) for x, y, w, h in PANELS)


@part("lining", "none", views=INSIDE, frame=WHOLE, layer=20)
def unlined(pen: BoxPen, place: Place) -> None:
    """The bare inside: the seams with their turnings, nothing over them."""
    if not place.small:
        return
    page = sheet(pen)
    opened_garment(page)
    page.path("e", "M21 33V57M27 33V57M69 33V57M75 33V57")
    miniatures.absent(page, "M34 24H62V52H34Z", (48, 38), reach=6)


@part("lining", "half", views=INSIDE, frame=WHOLE, layer=20)
def half_lined(pen: BoxPen, place: Place) -> None:
    """Lined down to the shoulder blades, with a hem that hangs free."""
    if not place.small:
        pen.path("e", "M0 52C30 56 70 56 100 52M48 6V53M52 6V53")
        pen.path("t", "M0 48C30 52 70 52 100 48")
        pen.path("f", "M15 10C20 18 20 32 16 44M85 10C80 18 80 32 84 44M33 8C35 20 35 32 33 44M67 8C65 20 65 32 67 44")
        return
    page = sheet(pen)
    opened_garment(page)
    page.path("f", over_panels(45, 4, foot=38))
    page.path("e", "M24 39C36 42 60 42 72 39M2 40C10 41 18 41 24 39M72 39C78 41 86 41 94 40")


@part("lining", "full", views=INSIDE, frame=WHOLE, layer=20)
def fully_lined(pen: BoxPen, place: Place) -> None:
    """Lined to the hem, with a pleat down the back for ease."""
    if not place.small:
        pen.path("e", "M47 6V96M53 6V96")
        pen.path("t", "M0 97C30 100 70 100 100 97")
        pen.path("f", "M15 10C21 34 21 64 15 92M85 10C79 34 79 64 85 92M32 8C35 36 35 64 32 90M68 8C65 36 65 64 68 90")
        return
    page = sheet(pen)
    opened_garment(page)
    page.path("f", over_panels(45, 5, foot=56))
    page.path("e", "M46 18V56M50 18V56")


@part("lining", "quilt", views=INSIDE_AND_OUTSIDE, frame=WHOLE, layer=20)
def quilted(pen: BoxPen, place: Place) -> None:
    """Rows of stitches crossing in lozenges."""
    if not place.small:
        over_region(pen, place, "t", 32, 40, -40)
        return
    page = sheet(pen)
    opened_garment(page)
    page.path("e", over_panels(45, 9) + over_panels(135, 9))


@part("lining", "mesh", views=INSIDE, frame=WHOLE, layer=20)
def net_lined(pen: BoxPen, place: Place) -> None:
    """Net: open squares, fine threads."""
    if not place.small:
        over_region(pen, place, "f", 7, 0, 90)
        return
    page = sheet(pen)
    opened_garment(page)
    page.path("f", over_panels(0, 4) + over_panels(90, 4))
