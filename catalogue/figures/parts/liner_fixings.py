"""What holds a removable liner, along the inside of both front edges."""

from catalogue.figures import hardware, miniatures
from catalogue.figures.closeups import opened_garment
from catalogue.figures.hardware import in_units, moved, spread
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen, number

WHOLE = (0, 0, 100, 100)
VIEWS = {"inside": ("front_edge_left",)}


# Down the inside of each front, in the small picture: at the viewer's left and at the right.
BOTH_FRONTS = (15, 81)
IN_ROWS = [(x, y) for x in BOTH_FRONTS for y in (23, 36, 49)]


def opened(pen: BoxPen) -> BoxPen:
    """The garment opened flat, its inside up."""
    page = pen.unflipped().sheet(96, 64)
    opened_garment(page)
    return page


def ring(x: float, y: float) -> str:
    """Where a button would be."""
    return f"M{x - 5} {y}C{x - 5} {y - 7} {x + 5} {y - 7} {x + 5} {y}C{x + 5} {y + 7} {x - 5} {y + 7} {x - 5} {y}"


def across_facing(pen: BoxPen, place: Place, y: float) -> float:
    """Where the middle of the facing lies at a height of its region; a coat's leads outwards towards the hem."""
    top, foot = (place.points.get(f"facing_{end}_{place.side}") for end in ("top", "foot"))
    lean = abs(foot[0] - top[0]) if top and foot else 0
    return (pen.box.w - lean) / 2 + lean * y / pen.box.h


def places_along(pen: BoxPen, place: Place, count: int) -> list[tuple[float, float]]:
    """So many places down the middle of the facing, clear of neck and hem."""
    return [(across_facing(pen, place, y), y) for y in spread(pen.box.h * 0.08, pen.box.h * 0.9, count)]


@part("liner_fixing", "none", views=VIEWS, layer=45, frame=WHOLE)
def no_fixing(pen: BoxPen, place: Place) -> None:
    """The inside of both fronts, empty."""
    if place.small:
        miniatures.absent(opened(pen), "".join(map(ring, *zip(*IN_ROWS, strict=True))), *IN_ROWS, reach=3)


@part("liner_fixing", "buttons", views=VIEWS, layer=45, frame=WHOLE)
def buttons(pen: BoxPen, place: Place) -> None:
    if place.small:
        return hardware.buttons(opened(pen), IN_ROWS, 5, holes=4)
    return hardware.buttons(in_units(pen), places_along(pen, place, 6), 4.4)


@part("liner_fixing", "studs", views=VIEWS, layer=45, frame=WHOLE)
def studs(pen: BoxPen, place: Place) -> None:
    if place.small:
        return hardware.studs(opened(pen), IN_ROWS, 3)
    return hardware.studs(in_units(pen), places_along(pen, place, 6), 4.4)


@part("liner_fixing", "loops", views=VIEWS, layer=45, frame=WHOLE)
def loops(pen: BoxPen, place: Place) -> None:
    """Loops of tape that stand out from the edge, both ends caught in its seam."""
    if place.small:
        near = opened(pen)
        for x, y in IN_ROWS:
            loop(moved(near, x - 8, y, 1))
        return
    page = in_units(pen)
    for x, y in places_along(pen, place, 6):
        loop(moved(page, x - 8, y, 1))


def loop(page: BoxPen) -> None:
    page.path("b", "M0 -4H9C17 -4 17 4 9 4H0V1.5H8C12 1.5 12 -1.5 8 -1.5H0Z")


@part("liner_fixing", "zip", views=VIEWS, layer=45, frame=WHOLE)
def zipped(pen: BoxPen, place: Place) -> None:
    """One half of a zip, its teeth towards the edge; the other half is on the liner."""
    if place.small:
        near = opened(pen)
        for x in BOTH_FRONTS:
            hardware.chain(near, (x, 22), (x, 58), pitch=4, half=3)
            hardware.puller(moved(near, x, 20, 1))
        return
    page = in_units(pen)
    foot = pen.box.h * 0.94
    above, below = across_facing(pen, place, 6), across_facing(pen, place, foot)
    low = number(foot)
    page.path("e", f"M{number(above - 6)} 6L{number(below - 6)} {low}H{number(below + 2)}L{number(above + 2)} 6Z")
    page.path("t", f"M{number(above - 2)} 8L{number(below - 2)} {low}")
    hardware.chain(page, (above + 3, 8), (below + 3, foot - 2), pitch=6, half=2)
