"""Cuffs and what lets air in under the arm, on the outer side of a sleeve."""

from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

FRAME = (16, 30, 68, 56)
CUFF = {"sleeve_left": ("cuff",), "sleeve_right": ("cuff",)}
ARMPIT = {"sleeve_left": ("underarm",), "sleeve_right": ("underarm",)}


def end_of_sleeve(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-8 -50L4 100H96L108 -50Z")


@part("cuff", "plain", views=CUFF, layer=44, frame=FRAME)
def plain(pen: BoxPen, place: Place) -> None:
    end_of_sleeve(pen, place)
    pen.path("t", "M3 56C34 66 66 66 97 56")


@part("cuff", "band_button", views=CUFF, layer=44, frame=FRAME)
def band(pen: BoxPen, place: Place) -> None:
    end_of_sleeve(pen, place)
    pen.path("e", "M70 -48V4M76 -48V4")
    pen.path("o", "M0 4C34 14 66 14 100 4L96 94C66 104 34 104 4 94Z")
    pen.path("t", "M3 16C34 26 66 26 97 16M6 84C34 93 66 93 94 84")
    pen.path("e", "M73 9V98")
    pen.circle("b", 83, 54, min(4.4, 0.09 * pen.box.h))


@part("cuff", "tab_button", views=CUFF, layer=44, frame=FRAME)
def tab_buttoned(pen: BoxPen, place: Place) -> None:
    plain(pen, place)
    tab(pen)
    pen.circle("b", 71, 22, min(4.2, 0.09 * pen.box.h))


@part("cuff", "tab_hook_loop", views=CUFF, layer=44, frame=FRAME)
def tab_hook_and_loop(pen: BoxPen, place: Place) -> None:
    plain(pen, place)
    tab(pen)
    pen.path("e", "M56 6L64 38M62 6L70 38M68 6L76 38M74 8L80 34")


def tab(pen: BoxPen) -> None:
    pen.path("o", "M8 0H74C84 2 86 12 86 22C86 32 84 42 74 44H10Z")
    pen.path("t", "M13 7H72C78 8 80 14 80 22C80 30 78 36 72 37H14Z")


@part("cuff", "elastic", views=CUFF, layer=44, frame=FRAME)
def elastic(pen: BoxPen, place: Place) -> None:
    end_of_sleeve(pen, place)
    pen.path("t", "M1 20C34 32 66 32 99 20")
    pen.path("e", "".join(f"M{x} 30C{x + 3} 50 {x - 3} 74 {x} 96" for x in range(9, 96, 9)))


@part("cuff", "knitted", views=CUFF, layer=44, frame=FRAME)
def knitted(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-8 -50L2 14H98L108 -50Z")
    pen.path("o", "M4 8C34 18 66 18 96 8L88 104C66 112 34 112 12 104Z")
    pen.path("e", "".join(f"M{x} 18L{x + (50 - x) * 0.1:.0f} 100" for x in range(12, 92, 8)))


UNDERARM = (22, 12, 56, 76)


def seam_of_armhole(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-40 -14H50C46 40 60 80 96 114H-40Z")
        pen.path("o", "M50 -14H140V114H96C60 80 46 40 50 -14Z")


@part("underarm_vent", "none", views=ARMPIT, layer=46, frame=UNDERARM)
def closed(pen: BoxPen, place: Place) -> None:
    seam_of_armhole(pen, place)


PLACES = ((38, 22), (74, 26), (30, 52), (66, 60), (46, 84))


@part("underarm_vent", "sewn_eyelets", views=ARMPIT, layer=46, frame=UNDERARM)
def sewn_eyelets(pen: BoxPen, place: Place) -> None:
    seam_of_armhole(pen, place)
    for x, y in PLACES[:4]:
        pen.circle("b", x, y, 4.6)
        pen.circle("k", x, y, 1.5)
        around = ((-1, 0), (1, 0), (0, -1), (0, 1))
        w, h = 460 / pen.box.w, 460 / pen.box.h
        pen.path(
            "e",
            "".join(f"M{x + a * w * 0.5:.1f} {y + b * h * 0.5:.1f}L{x + a * w:.1f} {y + b * h:.1f}" for a, b in around),
        )


@part("underarm_vent", "metal_eyelets", views=ARMPIT, layer=46, frame=UNDERARM)
def metal_eyelets(pen: BoxPen, place: Place) -> None:
    seam_of_armhole(pen, place)
    for x, y in PLACES[:4]:
        pen.circle("k", x, y, 5)
        pen.circle("b", x, y, 2.2)


@part("underarm_vent", "mesh_gusset", views=ARMPIT, layer=46, frame=UNDERARM)
def net_gusset(pen: BoxPen, place: Place) -> None:
    seam_of_armhole(pen, place)
    pen.path("o", "M50 2L96 50L50 98L4 50Z")
    lines = [f"M{50 - k} {2 + k}L{96 - k} {50 + k}M{50 + k} {2 + k}L{4 + k} {50 + k}" for k in (11, 22, 33)]
    pen.path("e", "".join(lines))


@part("underarm_vent", "zip", views=ARMPIT, layer=46, frame=UNDERARM)
def underarm_zip(pen: BoxPen, place: Place) -> None:
    seam_of_armhole(pen, place)
    pen.path("e", "M38 4C34 40 44 72 70 96M52 2C48 38 58 68 82 92")
    pen.path(
        "e", "".join(f"M{42 + s * s * 0.35:.0f} {10 + 9 * s}L{50 + s * s * 0.35:.0f} {8 + 9 * s}" for s in range(9))
    )
    pen.rect("b", 37, 0, 18, 12, round=1)
