"""What closes and holds trousers, and the pockets on their thighs."""

from catalogue.figures import hardware, miniatures
from catalogue.figures.halves import strokes
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

WHOLE = (0, 0, 100, 100)


def units(pen: BoxPen) -> BoxPen:
    """The same box, measured in units of the drawing from its upper corner."""
    return pen.sheet(pen.box.w, pen.box.h)


def moved(page: BoxPen, x: float, y: float) -> BoxPen:
    """The same units, counted from another point."""
    return page.within(x, y, 100, 100)


def fly_page(pen: BoxPen, place: Place) -> BoxPen:
    """Units from the top of the centre front; in the small picture with the top of the trousers under them."""
    if not place.small:
        return moved(units(pen), 12, 0)
    page = moved(pen.sheet(174, 116), 76, 8)
    page.path("o", "M-90 -3C-20 3 20 3 110 -3V120H-90Z")
    page.path("e", "M-90 20C-20 26 20 26 110 20M0 25V120M-54 23C-62 60 -74 84 -92 100M54 23C64 60 80 84 104 100")
    page.path("t", "M-90 16C-20 22 20 22 110 16")
    return page


def opening(page: BoxPen) -> None:
    """The left front on top, turned back a little; its J of stitches, and the band's end that laps to the right."""
    page.path("b", "M0 25C18 58 18 116 0 152Z")
    page.path("t", "M34 27V108C33 132 22 152 3 160M12 30C24 66 23 112 8 146")
    page.path("b", "M-8 2L22 1V24L-8 25Z")
    page.circle("b", 1, 13, 4.5)
    page.circle("e", 1, 13, 1.4)


@part("fly", "buttons", layer=44, frame=WHOLE)
def button_fly(pen: BoxPen, place: Place) -> None:
    page = fly_page(pen, place)
    opening(page)
    if place.small:
        hardware.buttons(page, [(6, y) for y in (50, 78, 106)], 7, holes=4)
        return
    for y in (48, 74, 100, 126):
        page.circle("b", 5, y, 4.6)
        page.circle("e", 5, y, 1.4)
    page.path("e", "M16 48H23M18 74H25M18 100H25M14 126H21")


@part("fly", "zip", layer=44, frame=WHOLE)
def zip_fly(pen: BoxPen, place: Place) -> None:
    page = fly_page(pen, place)
    opening(page)
    page.path("e", "".join(f"M2 {y}H9" for y in range(44, 146, 5)))
    page.path("b", "M1 30H10L9 38H2ZM4 34H7L9 52C9 56 2 56 2 52Z")


@part("fly", "studs", layer=44, frame=WHOLE)
def stud_fly(pen: BoxPen, place: Place) -> None:
    page = fly_page(pen, place)
    opening(page)
    near = 1.3 if place.small else 1
    for y in (54, 84, 114):
        page.circle("b", 6, y, 5 * near)
        page.circle("k", 6, y, 2.2 * near)


@part("fly", "none", layer=44, frame=WHOLE)
def pull_on(pen: BoxPen, place: Place) -> None:
    """A felled seam up to a band that nothing interrupts."""
    page = fly_page(pen, place)
    page.path("t", "M5 27V166M-5 27V166")
    if place.small:
        miniatures.absent(page, "M34 27V80C33 104 22 124 3 132", (18, 66), reach=11)


BAND = {"front": ("waistband",), "back": ("waistband_back",)}


def band_page(pen: BoxPen, place: Place, *, shift: float = 14) -> tuple[BoxPen, float]:
    """Units from the middle of the waistband, and half its width; the small picture shows the wearer's left half."""
    if not place.small:
        return moved(units(pen), pen.box.w / 2, 0), pen.box.w / 2
    page = moved(pen.sheet(144, 96), shift, 26)
    page.path("o", "M-60 8C-20 9 70 6 116 0L120 24C130 44 136 58 140 90H-60Z")
    page.path("e", "M-60 31C-20 32 70 30 120 24M0 9V90M70 30C80 54 100 76 139 84")
    page.path("t", "M-60 27C-20 28 70 26 119 20")
    return page, 120


def band_top(x: float, half: float, place: Place) -> float:
    """The upper edge of the band, which dips in front and rises behind."""
    bend = (x / half) ** 2
    return 6 * bend if place.view == "back" else 8 * (1 - bend)


@part("waist_fix", "loops", views=BAND, layer=46, frame=WHOLE)
def belt_loops(pen: BoxPen, place: Place) -> None:
    page, half = band_page(pen, place)
    data = ""
    for x in (0, 62) if place.view == "back" else (48, 98):
        top = round(band_top(x, half, place))
        loop = f"M{x - 4} {top - 3}L{x + 4} {top - 3}L{x + 4} {top + 31}L{x - 4} {top + 31}Z"
        loop += f"M{x - 4} {top + 1}L{x + 4} {top + 1}M{x - 4} {top + 27}L{x + 4} {top + 27}"
        data += loop if x == 0 or place.small else strokes(loop)
    page.path("b", data)


@part("waist_fix", "brace_buttons", views=BAND, layer=46, frame=WHOLE)
def brace_buttons(pen: BoxPen, place: Place) -> None:
    page, half = band_page(pen, place)
    near = (12,) if place.view == "back" else (44, 66)
    if place.small:  # the end of a brace, whose two loops go over the buttons
        page.path("o", "M48 -40H62V-14L72 24H60L55 -4L50 24H38L48 -14Z")
    for x in near if place.small else (*near, *(-x for x in near)):
        y = band_top(x, half, place) + 11
        page.circle("b", x, y, 5)
        page.path("e", f"M{x - 1.6} {y - 1:.0f}H{x - 1.4}M{x + 1.4} {y - 1:.0f}H{x + 1.6}")


@part("waist_fix", "side_tabs", views={"front": ("waistband",)}, layer=46, frame=WHOLE)
def side_tabs(pen: BoxPen, place: Place) -> None:
    """Each leads from the side seam forwards and draws the band into folds."""
    page, half = band_page(pen, place)
    a = half
    tab = f"M{a - 4} 5L{a - 44} 9L{a - 51} 17L{a - 43} 24L{a - 2} 20Z"
    row = f"M{a - 7} 9L{a - 43} 12L{a - 47} 17L{a - 42} 21L{a - 5} 17"
    folds = f"M{a - 56} 16L{a - 70} 14M{a - 56} 19L{a - 68} 21"
    page.path("b", tab if place.small else strokes(tab))
    page.path("t", row if place.small else strokes(row))
    page.path("f", folds if place.small else strokes(folds))
    for x in (a - 40,) if place.small else (a - 40, 40 - a):
        page.circle("b", x, 16.5, 4.5)


@part("waist_fix", "elastic", views=BAND, layer=46, frame=WHOLE)
def elastic_waist(pen: BoxPen, place: Place) -> None:
    """Gathered all round, with the rows of stitches that hold the elastic."""
    page, half = band_page(pen, place)
    gathers = ""
    for x in range(-44 if place.small else 8 - int(half), int(half) - 6, 10 if place.small else 8):
        top = round(band_top(x, half, place))
        gathers += f"M{x} {top + 2}C{x + 3} {top + 9} {x - 2} {top + 15} {x + 1} {top + 28 + x % 3 * 4}"
    page.path("e", gathers)
    page.path("t", "M-118 8C-60 14 60 14 118 8" if place.view != "back" else "M-118 14C-60 8 60 8 118 14")


@part("waist_fix", "drawcord", views=BAND, layer=46, frame=WHOLE)
def cord_waist(pen: BoxPen, place: Place) -> None:
    """A channel with two eyelets in front, and the ends of the cord tied in a bow."""
    page, half = band_page(pen, place, shift=58)
    if place.view == "back":
        page.path("t", "M-118 11C-60 5 60 5 118 11")
        return
    page.path("t", "M-116 5C-60 13 60 13 116 5")
    for x in (-12, 12):
        page.circle("b", x, 20, 4)
    page.path(
        "b",
        "M-12 19C-8 24 -5 28 -1 30L-15 62L-11 64L1 33L13 66L17 63L3 30C6 28 9 24 12 19L0 27Z",
    )
    page.path("b", "M0 30C-8 18 -26 24 -24 34C-22 43 -8 38 0 30C8 18 26 24 24 34C22 43 8 38 0 30Z")


def cargo(page: BoxPen, *, button: float = 3.6, near: bool = True) -> None:
    """A bellows pocket, its sides folded in, under a flap with two buttons (their radius in units of the drawing).

    `near`: drawn large enough to show the stitches below the flap.
    """
    page.path("o", "M8 12H80V98Q80 104 74 104H14Q8 104 8 98Z")
    page.path("e", "M15 32V98H73V32")
    if near:
        page.path("t", "M20 32V93H68V32")
    page.path("o", "M4 0H84V27Q84 33 78 33H10Q4 33 4 27Z")
    page.path("t", "M9 5H79V28H9Z")
    for x in (22, 66):
        page.circle("b", x, 20, button)


def thighs(pen: BoxPen) -> BoxPen:
    """The legs from fork to knee, in units from the middle of the crotch seam."""
    page = moved(pen.sheet(342, 228), 171, -152)
    page.path(
        "o",
        "M-163 390C-161 300 -158 200 -153 140H153C158 200 161 300 163 390H28C20 320 14 260 9 226"
        "Q6 212 0 212Q-6 212 -9 226C-14 260 -20 320 -28 390Z",
    )
    page.path("e", "M0 140V212")
    page.path("f", strokes("M14 222C34 212 50 212 70 216"))
    return page


def thigh_sides(pen: BoxPen) -> None:
    """The wearer's right and left, written on the legs."""
    page = pen.unflipped().sheet(96, 64)
    page.text(27, 17, "R", size=15)
    page.text(69, 17, "L", size=15)


@part("thigh_pocket", "left", "right", "both", layer=44, frame=WHOLE)
def thigh_pocket(pen: BoxPen, place: Place) -> None:
    if not place.small:
        cargo(units(pen))
        return
    page = thighs(pen)
    state = place.profile["thigh_pocket"]
    for side, x in (("right", -136), ("left", 48)):  # as seen from the front
        if state in (side, "both"):
            cargo(moved(page, x, 236), button=1.4, near=False)
    thigh_sides(pen)


@part("thigh_pocket", "none", layer=44, frame=WHOLE)
def no_thigh_pocket(pen: BoxPen, place: Place) -> None:
    if place.small:
        pockets = strokes("M48 248L132 248L132 340L48 340ZM48 276L132 276")
        miniatures.absent(thighs(pen), pockets, (-90, 296), (90, 296), reach=18)
        thigh_sides(pen)
