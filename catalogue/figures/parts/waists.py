"""How the waist of an upper garment is drawn in, and how its lower edge ends.

Units of the flat: x from the middle line, y from the top of the region.
"""

from collections.abc import Callable

from catalogue.figures import miniatures
from catalogue.figures.closeups import opened_garment
from catalogue.figures.halves import across, closed, corner_at, crop, strokes
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

WHOLE = (0, 0, 100, 100)
WAIST = {"front": ("waist",), "back": ("waist_back",)}
HEM = {"front": ("hem",), "back": ("hem",)}
CHANNEL = across("M0 2C40 2 80 1 117 0") + across("M0 16C40 16 80 15 117 14")


def waist_page(pen: BoxPen, place: Place, *, near: bool = False) -> BoxPen:
    """In the small picture, a front from the breast to its hem between both sleeves, its edge in the middle; or `near`,
    the wearer's left half of it."""
    if not place.small:
        return corner_at(pen, -118, 0)
    page = crop(pen, 8, -52, 156) if near else crop(pen, -168, -112, 336)
    page.path("o", strokes("M112 -112L128 70C138 74 152 74 162 70L158 -112"))
    page.path("o", closed("M0 -130L121 -130C119 -60 117 -10 118 8C118 40 120 70 122 96C80 103 40 105 0 105"))
    page.path("e", "M-14 -130L-14 105")
    page.path("t", "M14 -130L14 105" + across("M0 95C40 95 80 93 121 86"))
    return page


def is_front(place: Place) -> bool:
    return place.view != "back"


@part("waist_draw", "none", frame=WHOLE, views=WAIST, layer=36)
def no_waist(pen: BoxPen, place: Place) -> None:
    page = waist_page(pen, place)
    if place.small:
        miniatures.absent(page, CHANNEL, (-60, 8), (60, 8), reach=16)


@part("waist_draw", "cord_out", frame=WHOLE, views=WAIST, layer=36)
def cord_outside(pen: BoxPen, place: Place) -> None:
    page = waist_page(pen, place)
    page.path("t", CHANNEL)
    if not is_front(place):
        return
    for x in (-26, 26):
        page.circle("b", x, 9, 3)
    page.path("e", "M-26 9C-34 22 -20 34 -27 50M26 9C36 24 20 36 29 56")
    page.path("k", "M-30 49L-24 49L-25 62L-31 61ZM26 55L32 55L33 68L27 68Z")


@part("waist_draw", "cord_in", frame=WHOLE, views=WAIST, layer=36)
def cord_inside(pen: BoxPen, place: Place) -> None:
    """Outside only the channel shows and the cloth it draws in; the small picture shows the inside, opened."""
    if place.small:
        sheet = pen.sheet(96, 64)
        opened_garment(sheet)
        sheet.path("t", "M3 35H93M3 42H93")
        for x, side in ((11, 1), (85, -1)):
            sheet.circle("b", x, 38, 3)
            sheet.path("e", f"M{x} 38C{x + 6 * side} 43 {x - side} 47 {x + 5 * side} 51")
            sheet.path("k", f"M{x + 5 * side - 2} 50H{x + 5 * side + 2}V58H{x + 5 * side - 2}Z")
        return
    page = waist_page(pen, place)
    page.path("t", CHANNEL)
    page.path("f", strokes("".join(f"M{x} 4L{x + 1} 14" for x in range(24, 116, 15))))


@part("waist_draw", "tabs", frame=WHOLE, views=WAIST, layer=36)
def waist_tabs(pen: BoxPen, place: Place) -> None:
    """A tab from each side seam, buttoned, and a second button to draw it tighter."""
    page = waist_page(pen, place, near=True)
    page.path("o", strokes("M118 -1L80 -1L71 8L80 17L118 17"))
    if not place.small:
        page.path("t", strokes("M116 3L82 3L76 8L82 13L116 13"))
    for x in (82, 58) if place.small else (-82, 82, -58, 58):
        page.circle("b", x, 8, 3.2)
    page.path("f", strokes("M112 -1C108 -10 106 -16 107 -24"))


@part("waist_draw", "elastic", frame=WHOLE, views=WAIST, layer=36)
def waist_elastic(pen: BoxPen, place: Place) -> None:
    page = waist_page(pen, place)
    page.path("t", CHANNEL + across("M0 9C40 9 80 8 117 7"))
    first = 22 if is_front(place) else 4
    page.path("e", in_a_row(place, lambda x: f"M{x} -5Q{x + 4} 8 {x} 22", first, 116, 8))


def in_a_row(place: Place, one: Callable[[int], str], first: int, last: int, step: int) -> str:
    """The same stroke again and again to both sides of the middle; fewer in the small picture."""
    return strokes("".join(one(x) for x in range(first, last, step + 8 * place.small)))


def hem_page(pen: BoxPen, place: Place, *, drawn_in: bool = False) -> tuple[BoxPen, float]:
    """The pen and half the width of the hem; in the small picture, the trunk below the waist."""
    if not place.small:
        return corner_at(pen, -pen.box.w / 2, 0), pen.box.w / 2
    page = crop(pen, -46, -50, 180)
    side = "L122 -40C122 -6 118 -1 109 0L108 32" if drawn_in else "L122 32"
    page.path("o", closed(f"M0 -140L121 -140{side}C74 39 36 41 0 41"))
    page.path("e", "M-14 -140L-14 41")
    page.path("t", "M-9 -140L-9 40M14 -140L14 40")
    return page, 109 if drawn_in else 122


def line(wide: float, y: float) -> str:
    """A line along the hem, which sinks towards the middle."""
    return across(f"M0 {y + 9:.0f}C{wide * 0.35:.0f} {y + 9:.0f} {wide * 0.68:.0f} {y + 7:.0f} {wide:.0f} {y:.0f}")


def sunk(x: float, wide: float) -> float:
    """How far the hem has sunk at a distance from the middle."""
    return 9 * (1 - (x / wide) ** 2)


@part("hem_finish", "plain", frame=WHOLE, layer=48)
def hem_plain(pen: BoxPen, place: Place) -> None:
    """On the flat the body draws the row of stitches, along whatever curve its hem has."""
    page, wide = hem_page(pen, place)
    if place.small:
        page.path("t", line(wide - 1, 18))


@part("hem_finish", "cord", frame=WHOLE, views=HEM, layer=48)
def hem_cord(pen: BoxPen, place: Place) -> None:
    page, wide = hem_page(pen, place)
    page.path("t", line(wide - 2, 14))
    page.path("f", strokes("".join(f"M{x} 24L{x + 1} 36" for x in range(54, int(wide) - 8, 15))))
    if is_front(place):
        for x in (-22, 22):
            page.circle("b", x, 31, 2.8)
        if place.small:
            page.path("e", "M-22 31C-28 40 -18 46 -23 55M22 31C29 40 17 48 25 58")
            page.path("k", "M-26 54L-20 54L-21 65L-27 64ZM22 57L28 57L29 68L23 68Z")
            return
        page.path("e", "M-22 31C-26 44 -36 36 -42 42M22 31C26 45 38 34 46 41")
        page.path("k", "M-40 39L-42 44L-52 48L-51 41ZM44 38L46 44L56 48L55 40Z")


# The folds of a body that blouses over its band.
BLOUSED = "M30 7L31 -12M54 5L55 -18M80 2L81 -18"


@part("hem_finish", "band_button", frame=WHOLE, views=HEM, layer=48)
def waistband(pen: BoxPen, place: Place) -> None:
    """A band that the body blouses over; in front its end lies left over right under a button."""
    page, wide = hem_page(pen, place, drawn_in=True)
    w = f"{wide:.0f}"
    page.path("o", closed(f"M0 9C38 9 74 7 {w} 0L{w} 32C74 39 36 41 0 41"))
    page.path("t", line(wide - 1, 4) + line(wide - 1, 27))
    page.path("f", strokes(f"{BLOUSED}M98 0L98 -10"))
    if is_front(place):
        page.path("o", "M14 9L-16 9L-21 25L-16 41L14 41")
        page.path("t", "M14 13L-13 13L-17 25L-13 37L14 37")
        page.circle("b", -8, 25, 3.4)
        page.path("e", "M-14 25L-2 25")


@part("hem_finish", "elastic", frame=WHOLE, views=HEM, layer=48)
def hem_elastic(pen: BoxPen, place: Place) -> None:
    page, wide = hem_page(pen, place, drawn_in=True)
    page.path("e", line(wide, 0))
    page.path("t", line(wide - 1, 11) + line(wide - 1, 21))
    page.path("e", in_a_row(place, lambda x: ruck(x, wide), 5, int(wide) - 3, 10))


def ruck(x: float, wide: float) -> str:
    top = sunk(x, wide)
    return f"M{x} {top:.0f}Q{x + 4} {top + 15:.0f} {x} {top + 31:.0f}"


def rib(x: float, wide: float) -> str:
    top = sunk(x, wide)
    return f"M{x} {top + 1:.0f}L{x * 0.97:.0f} {top + 31:.0f}"


@part("hem_finish", "knitted", frame=WHOLE, views=HEM, layer=48)
def hem_knitted(pen: BoxPen, place: Place) -> None:
    page, wide = hem_page(pen, place, drawn_in=True)
    w, low = f"{wide:.0f}", f"{wide - 4:.0f}"
    page.path("o", closed(f"M0 9C38 9 74 7 {w} 0C{w} 12 {low} 22 {low} 32C74 39 36 41 0 41"))
    page.path("e", in_a_row(place, lambda x: rib(x, wide), 3, int(wide), 6))
    page.path("f", strokes(BLOUSED))
