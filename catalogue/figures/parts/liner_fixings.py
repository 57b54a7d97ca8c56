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


def places_along(pen: BoxPen, count: int) -> list[tuple[float, float]]:
    """So many places down the middle of the edge, clear of neck and hem."""
    return [(pen.box.w / 2, y) for y in spread(pen.box.h * 0.08, pen.box.h * 0.9, count)]


@part("liner_fixing", "none", views=VIEWS, layer=45, frame=WHOLE)
def no_fixing(pen: BoxPen, place: Place) -> None:
    """The inside of both fronts, empty."""
    if place.small:
        miniatures.absent(opened(pen), "".join(map(ring, *zip(*IN_ROWS, strict=True))), *IN_ROWS, reach=3)


@part("liner_fixing", "buttons", views=VIEWS, layer=45, frame=WHOLE)
def buttons(pen: BoxPen, place: Place) -> None:
    if place.small:
        return hardware.buttons(opened(pen), IN_ROWS, 5, holes=4)
    return hardware.buttons(in_units(pen), places_along(pen, 6), 4.4)


@part("liner_fixing", "studs", views=VIEWS, layer=45, frame=WHOLE)
def studs(pen: BoxPen, place: Place) -> None:
    if place.small:
        return hardware.studs(opened(pen), IN_ROWS, 3)
    return hardware.studs(in_units(pen), places_along(pen, 6), 4.4)


@part("liner_fixing", "loops", views=VIEWS, layer=45, frame=WHOLE)
def loops(pen: BoxPen, place: Place) -> None:
    """Loops of tape that stand out from the edge, both ends caught in its seam."""
    if place.small:
        near = opened(pen)
        for x, y in IN_ROWS:
            loop(moved(near, x - 8, y, 1))
        return
    page = in_units(pen)
    for x, y in places_along(pen, 6):
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
    middle, foot = pen.box.w / 2, pen.box.h * 0.94
    left, right, low = number(middle - 6), number(middle + 2), number(foot)
    page.path("e", f"M{left} 6V{low}H{right}V6Z")
    page.path("t", f"M{number(middle - 2)} 8V{low}")
    hardware.chain(page, (middle + 3, 8), (middle + 3, foot - 2), pitch=6, half=2)
