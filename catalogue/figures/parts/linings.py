"""Linings: in the inside view soft strokes that suit a back as well as a crown, as a picture the whole inside."""

from catalogue.figures import miniatures
from catalogue.figures.closeups import WHOLE, hatch, opened_crown, opened_garment, opened_hood, opened_legs, sheet
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


def picture_of(opened, boxes, pitch: float, *degrees: int, end: str = ""):
    """A small picture: what is lined, opened; its lining hatched in the boxes, and a line along the lining's end."""

    def draw(pen: BoxPen, place: Place) -> None:
        page = sheet(pen)
        opened(page)
        page.path("f", "".join(hatch(*box, turn, pitch) for box in boxes for turn in degrees))
        if end:
            page.path("e", end)

    return draw


def bare_picture_of(opened, turnings: str, ghost: str, middle: tuple[float, float]):
    """The same without a lining: the turnings of the seams, and a cross where it would be."""

    def draw(pen: BoxPen, place: Place) -> None:
        page = sheet(pen)
        opened(page)
        page.path("e", turnings)
        miniatures.absent(page, ghost, middle, reach=6)

    return draw


# What has no fronts and back: headgear from below, trousers turned out, a hood from the front. Of each how it is drawn
# without a lining, where a lining reaches, where half of one does, and the line at which that ends.
OTHER_CLASSES = (
    (
        ("cap", "hat"),
        opened_crown,
        ("M48 11V22M24 30H36M60 30H72M48 37V47", "M37 22H59V37H37Z", (48, 29)),
        ((26, 15, 44, 29),),
        ((26, 15, 44, 15),),
        "M24 30H72",
    ),
    (
        ("trousers", "over-trousers"),
        opened_legs,
        ("M24 16L18 62M72 16L78 62", "M34 20H62V32H34Z", (48, 26)),
        ((19, 17, 27, 45), (50, 17, 27, 45)),
        ((19, 17, 27, 25), (50, 17, 27, 25)),
        "M15 43C24 45 36 45 46 43M50 43C60 45 72 45 81 43",
    ),
    (
        ("hood",),
        opened_hood,
        ("M48 10V24M46 10V24", "M38 28H58V46H38Z", (48, 37)),
        ((31, 16, 34, 40),),
        ((31, 16, 34, 18),),
        "M28 35C36 38 60 38 68 35",
    ),
)
for classes, opened, bare, boxes, half, end in OTHER_CLASSES:
    for state, drawn in (
        ("none", bare_picture_of(opened, *bare)),
        ("half", picture_of(opened, half, 4, 45, end=end)),
        ("full", picture_of(opened, boxes, 5, 45)),
        ("quilt", picture_of(opened, boxes, 8, 45, 135)),
        ("mesh", picture_of(opened, boxes, 4, 0, 90)),
    ):
        part("lining", state, classes=classes, detail=True, frame=WHOLE)(drawn)
