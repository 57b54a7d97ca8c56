"""What closes, holds and ends trousers, and what strengthens them."""

from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

SMALL_FLY = (34, 6, 32, 90)


def front_of_trousers(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-90 -4H190V112H-90Z")
        pen.path("e", "M-90 8H190M50 8V112")


def fly_stitches(pen: BoxPen) -> None:
    """The row that curves down at the wearer's left: the left lies on top, whichever side is seen."""
    over = pen.unflipped()
    over.path("t", "M96 4V62C94 82 80 94 52 100")


@part("fly", "none", layer=40, frame=SMALL_FLY)
def no_fly(pen: BoxPen, place: Place) -> None:
    front_of_trousers(pen, place)


@part("fly", "buttons", layer=40, frame=SMALL_FLY)
def button_fly(pen: BoxPen, place: Place) -> None:
    front_of_trousers(pen, place)
    fly_stitches(pen)
    for y in (16, 36, 56, 76):
        pen.circle("b", 72, y, min(3.6, 0.11 * pen.box.w))
        pen.path("e", f"M60 {y}H66")


@part("fly", "zip", layer=40, frame=SMALL_FLY)
def zip_fly(pen: BoxPen, place: Place) -> None:
    front_of_trousers(pen, place)
    fly_stitches(pen)
    pen.path("e", "M62 8V88M74 8V88" + "".join(f"M62 {y}H74" for y in range(14, 88, 7)))
    pen.rect("b", 58, 4, 20, 10, round=1)


@part("fly", "studs", layer=40, frame=SMALL_FLY)
def stud_fly(pen: BoxPen, place: Place) -> None:
    front_of_trousers(pen, place)
    fly_stitches(pen)
    for y in (18, 44, 70):
        pen.circle("b", 72, y, min(4, 0.12 * pen.box.w))
        pen.circle("k", 72, y, min(1.6, 0.05 * pen.box.w))


BAND = {"front": ("waistband",), "back": ("waistband_back",)}
SMALL_BAND = (8, 34, 84, 30)


def waistband(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M2 0H98L104 210H-4Z")
        pen.path("e", "M2 98C30 104 70 104 98 98M50 98V210")


@part("waist_fix", "brace_buttons", views=BAND, layer=42, frame=SMALL_BAND)
def brace_buttons(pen: BoxPen, place: Place) -> None:
    waistband(pen, place)
    for x in (18, 26, 74, 82):
        pen.circle("b", x, 46, min(4, 0.13 * pen.box.h))


@part("waist_fix", "loops", views=BAND, layer=42, frame=SMALL_BAND)
def belt_loops(pen: BoxPen, place: Place) -> None:
    waistband(pen, place)
    for x in (14, 34, 64, 84):
        pen.path("o", f"M{x} -6H{x + 4}V112H{x}Z")


@part("waist_fix", "side_tabs", views=BAND, layer=42, frame=SMALL_BAND)
def side_tabs(pen: BoxPen, place: Place) -> None:
    waistband(pen, place)
    for outer, inner in ((4, 24), (96, 76)):
        step = 1 if outer < 50 else -1
        pen.path("o", f"M{outer} 24H{inner}L{inner + 4 * step} 50L{inner} 76H{outer}Z")
        pen.rect("b", min(inner - 8 * step, inner - 3 * step), 16, 5, 68, round=1)


@part("waist_fix", "elastic", views=BAND, layer=42, frame=SMALL_BAND)
def elastic_waist(pen: BoxPen, place: Place) -> None:
    waistband(pen, place)
    pen.path("e", "".join(f"M{x} 8C{x + 2} 34 {x - 2} 66 {x} 92" for x in range(8, 96, 6)))


@part("waist_fix", "drawcord", views=BAND, layer=42, frame=SMALL_BAND)
def cord_waist(pen: BoxPen, place: Place) -> None:
    waistband(pen, place)
    pen.path("t", "M3 20C30 26 70 26 97 20M3 84C30 90 70 90 97 84")
    if place.view != "back":
        pen.path("e", "M46 56C42 100 48 130 42 176M54 56C60 100 52 140 58 190")
        pen.circle("b", 46, 52, min(2.4, 0.1 * pen.box.h))
        pen.circle("b", 54, 52, min(2.4, 0.1 * pen.box.h))


SMALL_LEGS = (26, 8, 48, 84)


@part("thigh_pocket", "left", "right", "both", layer=44, frame=SMALL_LEGS)
def thigh_pocket(pen: BoxPen, place: Place) -> None:
    if not place.small:
        cargo(pen)
        return
    legs(pen)
    state = place.profile.get("thigh_pocket", "both")
    for side, x in (("right", 4), ("left", 66)):  # as seen from the front
        if state in (side, "both"):
            cargo(pen.within(x, 42, 30, 34))


@part("thigh_pocket", "none", layer=44, frame=SMALL_LEGS)
def no_thigh_pocket(pen: BoxPen, place: Place) -> None:
    if place.small:
        legs(pen)


def legs(pen: BoxPen) -> None:
    pen.path("o", "M6 -2H94L104 102H58L50 34L42 102H-4Z")
    pen.path("e", "M6 8H94M50 8V34")


def cargo(pen: BoxPen) -> None:
    pen.path("o", "M4 18H96V100H4Z")
    pen.path("e", "M30 24V100M70 24V100")
    pen.path("o", "M0 0H100V24L96 28H4L0 24Z")
    pen.path("t", "M5 5H95V21H5Z")
    pen.circle("b", 50, 17, min(3, 0.05 * pen.box.w + 0.8))


SMALL_LEG = (28, 14, 44, 76)


def leg_end(pen: BoxPen, place: Place, *, hem: bool = True) -> None:
    if place.small:
        pen.path("o", "M-4 -40L8 100H92L104 -40Z")
        if hem:
            pen.path("t", "M7 84H93")


@part("ankle", "plain", layer=46, frame=SMALL_LEG)
def plain_end(pen: BoxPen, place: Place) -> None:
    leg_end(pen, place)


@part("ankle", "tab_button", layer=46, frame=SMALL_LEG)
def ankle_tab(pen: BoxPen, place: Place) -> None:
    leg_end(pen, place)
    pen.path("o", "M30 44H92V78H30L22 61Z")
    pen.path("t", "M34 51H88V71H34L29 61Z")
    pen.circle("b", 38, 61, min(3.6, 0.07 * pen.box.h + 0.6))


@part("ankle", "cord", layer=46, frame=SMALL_LEG)
def ankle_cord(pen: BoxPen, place: Place) -> None:
    leg_end(pen, place)
    pen.path("t", "M7 66H93")
    pen.path("e", "M82 76C90 96 84 110 92 134M78 76C80 96 74 112 80 138")
    pen.circle("b", 80, 75, min(2.6, 0.06 * pen.box.h + 0.5))


@part("ankle", "zip_gusset", layer=46, frame=SMALL_LEG)
def ankle_zip(pen: BoxPen, place: Place) -> None:
    leg_end(pen, place)
    pen.path("o", "M84 -30L98 98H60Z")
    pen.path(
        "e",
        "M80 -30L58 98"
        + "".join(f"M{79 - s * 2.1:.0f} {-18 + 12 * s}L{85 - s * 2.1:.0f} {-17 + 12 * s}" for s in range(10)),
    )
    pen.rect("b", 74, -36, 14, 10, round=1)


@part("ankle", "foot_loop", layer=46, frame=SMALL_LEG)
def foot_loop(pen: BoxPen, place: Place) -> None:
    leg_end(pen, place)
    pen.path("e", "M14 98C20 136 80 136 86 98M22 99C28 124 72 124 78 99")


@part("ankle", "cut", layer=46, frame=SMALL_LEG)
def cut_short(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-4 -40L6 70L18 78L28 68L40 80L52 70L64 80L76 68L86 78L94 70L104 -40Z")
        pen.path("f", "M18 78V92M40 80V96M64 80V94M86 78V90")
        return
    pen.path("e", "M4 12L18 20L30 10L44 22L58 12L70 22L84 10L98 20")


STRENGTHENED = {"front": ("knee_left", "knee_right"), "back": ("seat",)}


@part("reinforcement", "self", views=STRENGTHENED, classes=("trousers", "over-trousers"), layer=32)
def patch(pen: BoxPen, place: Place) -> None:
    pen.path("o", "M10 4C36 -2 64 -2 90 4C96 34 96 66 90 96C64 102 36 102 10 96C4 66 4 34 10 4Z")
    pen.path("t", "M16 10C38 5 62 5 84 10C89 36 89 64 84 90C62 95 38 95 16 90C11 64 11 36 16 10Z")


@part("reinforcement", "contrast", views=STRENGTHENED, classes=("trousers", "over-trousers"), layer=32)
def patch_of_other_cloth(pen: BoxPen, place: Place) -> None:
    patch(pen, place)
    pen.path("e", "M18 40L48 10M16 66L72 10M20 88L84 24M46 90L88 50M70 90L88 74")


@part("reinforcement", "double", views=STRENGTHENED, classes=("trousers", "over-trousers"), layer=32)
def doubled(pen: BoxPen, place: Place) -> None:
    pen.path("e", "M0 0C36 -8 64 -8 100 0M0 100C36 108 64 108 100 100")
    pen.path("t", "M0 8C36 0 64 0 100 8M0 92C36 100 64 100 100 92")
