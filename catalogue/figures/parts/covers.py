"""What lies over the front closure: a fly, one storm flap, or two. Drawn down the region `front_edge`.

A storm flap is turned back at its foot, so that it shows what it hides.
"""

from catalogue.figures import hardware, miniatures
from catalogue.figures.hardware import in_units, spread
from catalogue.figures.parts import Place, part
from catalogue.figures.parts.closures import HALF, TURNED, Opening
from catalogue.figures.pen import BoxPen, number

# A storm flap, from the middle: its free edge at the viewer's left, its seam at the viewer's right.
FREE, SEAM = 17.0, 21.0


@part("closure_cover", "exposed", layer=32, frame=(0, 0, 100, 100))
def exposed(pen: BoxPen, place: Place) -> None:
    """Nothing lies over the closure."""
    if not place.small:
        return
    page = front_at_hem(pen)
    page.path("e", "M30 0V58")
    page.path("t", "M34 0V58M64 0V58")
    points = [(47, 9), (47, 42)]
    hardware.buttonholes(page, points, 13)
    hardware.buttons(page, points, 8, holes=4)
    miniatures.absent(page, "M26 2H88V56H26Z", (76, 26), reach=7)


def front_at_hem(pen: BoxPen) -> BoxPen:
    """The foot of a front with its hem, and the pen in units of the small picture."""
    page = pen.unflipped().sheet(96, 64)
    page.path("o", "M-3 -4H99V58H-3Z")
    page.path("t", "M-2 53H98")
    return page


@part("closure_cover", "fly", layer=32, frame=(0, 0, 100, 100))
def fly(pen: BoxPen, place: Place) -> None:
    """No button shows: the outer layer is whole, and the row that holds the buttonhole strip runs beside the edge."""
    if place.small:
        return small_fly(pen)
    page, opening = in_units(pen.unflipped()), Opening.of(pen, place)
    right, foot = opening.middle + HALF + 6, number(opening.foot)
    page.path("t", f"M{right} 0V{foot}M{right + 3} 0V{foot}")
    # Bars across the row hold the two layers together between the hidden buttonholes.
    page.path("e", "".join(f"M{right - 5} {number(y)}H{right + 3}" for y in spread(50, opening.foot - 60, 4)))
    return None


def small_fly(pen: BoxPen) -> None:
    """The edge turned back at its foot: buttons sit on the layer behind it."""
    page = front_at_hem(pen)
    page.path("e", "M34 24V58")
    hardware.buttons(page, [(46, 49)], 6.5, holes=4)
    page.path("o", "M30 -4V22L66 58H99V-4Z")
    page.path("b", "M30 22L66 58C74 48 76 38 73 27C60 20 44 18 30 22Z")
    page.path("f", "M38 24C52 31 62 42 69 55")
    page.path("t", "M34 0V16M78 0V58M82 0V58")


@part("closure_cover", "flap_single", layer=32, frame=(0, 0, 100, 100))
def single_flap(pen: BoxPen, place: Place) -> None:
    """A separate strip, sewn down at one side."""
    if place.small:
        return small_flap(pen, double=False)
    page, opening = in_units(pen.unflipped()), Opening.of(pen, place)
    strip(page, opening)
    return None


@part("closure_cover", "flap_double", layer=32, frame=(0, 0, 100, 100))
def double_flap(pen: BoxPen, place: Place) -> None:
    """A second strip comes from the other side, under the first: its seam shows beside the free edge."""
    if place.small:
        return small_flap(pen, double=True)
    strip(in_units(pen.unflipped()), Opening.of(pen, place))
    return None


@part("closure_cover", "flap_double", layer=29)
def inner_flap(pen: BoxPen, place: Place) -> None:
    """The second flap lies below the closure, the first above it."""
    page, opening = in_units(pen.unflipped()), Opening.of(pen, place)
    left, foot = opening.middle - SEAM - 4, number(opening.foot - 2)
    page.path("o", f"M{left} 0V{foot}H{opening.middle + HALF}V0Z")
    page.path("t", f"M{left + 3} 0V{foot}")


def strip(page: BoxPen, opening: Opening) -> None:
    """The outer flap with its stitches, and its lower corner turned back."""
    left, right, foot = opening.middle - FREE, opening.middle + SEAM, opening.foot
    turned = min(TURNED, foot / 3)
    cut, inner, low = number(foot - turned - 4), number(left + turned), number(foot - turned * 0.7)
    end = number(foot)
    page.path("o", f"M{left} 0V{cut}L{inner} {end}H{right}V0Z")
    page.path("t", f"M{left + 4} 0V{cut}M{right - 3} 0V{end}M{right - 6} 0V{end}")
    page.path(
        "b",
        f"M{left} {cut}L{inner} {end}C{number(left + turned + 6)} {low} {left + 14} {cut} {left} {cut}Z",
    )


def small_flap(pen: BoxPen, *, double: bool) -> None:
    """The flap lies over a zip, turned back at its foot."""
    page = front_at_hem(pen)
    page.path("e", "M37 14V58M53 14V58")
    hardware.interlocked(page, 45, 16, 57, pitch=5, reach=4)
    if double:
        page.path("o", "M12 -4V58H28L42 24V-4Z")
        page.path("t", "M16 0V58M20 0V58")
        page.path("b", "M42 24L28 58C20 52 14 44 14 36C22 26 32 23 42 24Z")
    page.path("o", "M30 -4V20L62 58H84V-4Z")
    page.path("b", "M30 20L62 58C70 49 72 38 69 27C58 19 44 17 30 20Z")
    page.path("f", "M38 22C50 30 60 42 66 54")
    page.path("t", "M34 0V15M76 0V58M80 0V58")
