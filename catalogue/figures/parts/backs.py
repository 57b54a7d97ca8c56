"""The back of an upper garment: what gives it room, and the vents in its hem.

Units of the flat: x from the middle line, y as upper_cuts counts it; a vent counts y from the top of its region.
"""

from catalogue.figures import miniatures
from catalogue.figures.halves import across, closed, corner_at, crop, mirrored, strokes
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen
from catalogue.figures.upper_cuts import ARMHOLE, NECK_BACK, SHOULDER

WHOLE = (0, 0, 100, 100)
LAYER = 24
YOKE_SEAM, YOKE_STITCHES = across("M0 154C40 154 70 153 98 150"), across("M0 150C40 150 70 149 98 146")


def back_page(pen: BoxPen, place: Place, x: float) -> BoxPen:
    """In the small picture, the back from the neck to the waist, with the sleeves."""
    if not place.small:
        return corner_at(pen, x, 112)
    page = crop(pen, -168, 94, 336)
    page.path("o", strokes("M98 122C124 132 142 160 166 312L118 318L104 220"))
    page.path("o", closed(f"{NECK_BACK}{SHOULDER}{ARMHOLE}C118 250 118 270 118 300L0 300"))
    page.path("t", across("M0 116C20 116 36 114 46 109"))
    return page


def foot(pen: BoxPen, place: Place) -> float:
    """Where a pleat ends: at the waist."""
    return 290 if place.small else 112 + pen.box.h


@part("back_fullness", "plain", frame=WHOLE, layer=LAYER)
def plain_back(pen: BoxPen, place: Place) -> None:
    page = back_page(pen, place, 0)
    if place.small:
        miniatures.absent(page, "M-16 150V300M16 150V300M-16 150H16", (0, 220), reach=18)


@part("back_fullness", "box_pleat", frame=WHOLE, views={"back": ("centre_pleat",)}, layer=LAYER)
def box_pleat(pen: BoxPen, place: Place) -> None:
    page, low = back_page(pen, place, -20), foot(pen, place)
    page.path("e", f"{YOKE_SEAM}M-14 154C-15 190 -17 230 -17 {low:.0f}M14 154C15 190 17 230 17 {low:.0f}")
    page.path("t", YOKE_STITCHES + "M-14 166L14 166")
    page.path("f", f"M-2 154C-3 190 -3 230 -3 {low:.0f}M2 154C3 190 3 230 3 {low:.0f}M-14 166L-2 154M14 166L2 154")


@part("back_fullness", "bellows", frame=WHOLE, views={"back": ("side_pleat_left",)}, layer=LAYER)
def bellows(pen: BoxPen, place: Place) -> None:
    """A pleat beside each sleeve, from the shoulder to the waist: its edge, and the cloth folded in behind it."""
    if place.small:
        opened_bellows(back_page(pen, place, 0))
        return
    page, low = back_page(pen, place, 62), foot(pen, place)
    edge = f"M86 117C74 150 78 214 92 {low:.0f}"
    under = f"M93 120C83 154 86 210 97 {low - 8:.0f}"
    tack = f"M88 {low - 8:.0f}L99 {low - 4:.0f}M84 122L91 125"
    shade = "M79 150L86 156M78 168L86 174M79 186L87 192M81 204L89 210M83 222L91 228"
    page.path("e", edge + tack)
    page.path("f", under + shade)
    page.path("t", f"M82 116C70 150 74 214 88 {low:.0f}")


def opened_bellows(page: BoxPen) -> None:
    """Both pleats drawn apart: dark in their depth, with the cloth that lies folded in them."""
    page.path("k", strokes("M96 126C48 160 44 250 98 300L88 290C56 240 58 170 92 134Z"))
    page.path("b", strokes("M92 134C58 170 56 240 88 290L98 300C84 250 82 180 96 126Z"))
    page.path("e", strokes("M94 140C74 180 74 236 92 288"))
    page.path("t", strokes("M88 122C38 156 34 248 86 298"))


@part("back_fullness", "yoke_gather", frame=WHOLE, views={"back": ("yoke",)}, layer=LAYER)
def gathers_under_a_yoke(pen: BoxPen, place: Place) -> None:
    page = back_page(pen, place, -104)
    gathers = "".join(
        f"M{x} 155C{x + 1} 165 {x - 1} 172 {x + 2} {176 + x * 7 % 18}" for x in range(7, 66, 12 if place.small else 6)
    )
    page.path("e", YOKE_SEAM + strokes(gathers))
    page.path("t", YOKE_STITCHES)
    if not place.small:
        page.path("f", strokes("M12 182C14 204 10 222 14 244M36 186C38 204 36 216 40 232"))


def whole_back(pen: BoxPen) -> BoxPen:
    """The small picture: a garment from behind, its hem at 62; x counts from the middle."""
    page = miniatures.arms_out(pen, behind=True)
    page.path("t", across("M0 58C8 58 14 58 19 58"))
    return page


@part("hem_vent", "none", frame=WHOLE, layer=LAYER)
def closed_hem(pen: BoxPen, place: Place) -> None:
    if place.small:
        ghosts = "M-5 62L0 40L5 62M-24 62L-19 40L-14 62M24 62L19 40L14 62"
        miniatures.absent(whole_back(pen), ghosts, (-19, 53), (0, 53), (19, 53), reach=4)


@part("hem_vent", "centre", frame=WHOLE, views={"back": ("hem_centre",)}, layer=LAYER)
def centre_vent(pen: BoxPen, place: Place) -> None:
    """One edge over the other, held at the top by a slanting row."""
    if place.small:
        page = whole_back(pen)
        page.path("b", "M0 34C-1 44 -4 54 -7 63H7C4 54 1 44 0 34Z")
        page.path("e", "M0 8V34L7 40M4 48L5 62")
        page.path("t", "M-4 10V34C-5 44 -8 54 -11 61")
        return
    page = corner_at(pen, -24, 0)
    page.path("b", "M0 14C-1 40 -3 70 -6 96L9 96C7 70 4 40 0 14Z")
    page.path("e", "M0 -10L0 14M0 14L16 26")
    page.path("t", "M-5 -10C-5 40 -8 70 -11 95M4 20L16 29")
    page.path("f", "M4 40L5 96")


def small_slits(pen: BoxPen) -> BoxPen:
    """A slit at each side of the back, the cloth of the front showing behind it."""
    page = whole_back(pen)
    slit = "M19 36C18 46 15 54 12 62L27 62C25 54 21 46 19 36Z"
    page.path("b", slit + mirrored(slit))
    page.path("e", strokes("M14 36L24 36M22 46L24 61"))
    page.path("t", strokes("M16 38C15 46 12 54 9 61"))
    return page


def side_slit(pen: BoxPen, place: Place) -> tuple[BoxPen, float]:
    """The slit at the side, and how far the side leans out along it."""
    page = corner_at(pen, 0, 0)
    lean = 0.0
    if "hem_left" in place.points:
        lean = 0.36 * (abs(place.points["hem_left"][0] - 250) - abs(place.points["waist_left"][0] - 250))
    top = 30 - lean
    page.path("b", f"M{top:.1f} 4C{top - 4:.1f} 36 {26 - lean / 4:.1f} 60 22 85L30 84Z")
    page.path("e", f"M{top - 9:.1f} 4L{top + 1:.1f} 4M{top - 9:.1f} 7L{top + 1:.1f} 7")
    page.path("t", f"M{top - 4:.1f} 8C{top - 8:.1f} 36 {21 - lean / 4:.1f} 60 17 85")
    return page, lean


@part("hem_vent", "side", frame=WHOLE, views={"back": ("hem_side_left",)}, layer=LAYER)
def side_vent(pen: BoxPen, place: Place) -> None:
    if place.small:
        small_slits(pen)
    else:
        side_slit(pen, place)


@part("hem_vent", "side_button", frame=WHOLE, views={"back": ("hem_side_left",)}, layer=LAYER)
def side_vent_buttoned(pen: BoxPen, place: Place) -> None:
    if place.small:
        page = small_slits(pen)
        for x, down in ((12, 42), (10, 49), (7, 56)):
            page.circle("b", x, down, 2.2)
            page.circle("b", -x, down, 2.2)
        return
    page, lean = side_slit(pen, place)
    for y in (24, 44, 64):
        x = 14 - lean * (84 - y) / 84
        page.circle("b", x, y, 3.2)
        page.path("e", f"M{x - 5:.0f} {y}L{x + 6:.0f} {y}")
