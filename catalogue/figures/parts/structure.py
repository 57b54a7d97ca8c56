"""How an upper garment is built: shoulders, back, waist, hem, sleeves and what strengthens them."""

from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

BUTTON = 3.4


def cloth(pen: BoxPen, place: Place, left: float = -12, top: float = -14, right: float = 112, low: float = 114) -> None:
    """In the small picture, the cloth behind a part."""
    if place.small:
        pen.path("o", f"M{left} {top}H{right}V{low}H{left}Z")


def button(pen: BoxPen, x: float, y: float) -> None:
    pen.circle("b", x, y, min(BUTTON, 0.09 * pen.box.h + 1))


def ribs(pen: BoxPen, step: int = 5) -> None:
    pen.path("e", "".join(f"M{x} 4V96" for x in range(step, 100, step)))


def gathers(pen: BoxPen) -> None:
    pen.path("e", "".join(f"M{x} 8C{x + 3} 34 {x - 3} 66 {x} 92" for x in range(5, 100, 9)))


# Shoulders. In the box of a shoulder the neck lies at the inner end (0), the sleeve at the outer (100).
@part("shoulder_strap", "none", layer=64, frame=(14, 30, 72, 50))
def bare_shoulder(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-10 -10C30 10 70 26 112 60V130H-10Z")
        pen.path("t", "M-10 4C30 24 66 40 96 66V130")


@part("shoulder_strap", "sewn_button", layer=64, frame=(14, 30, 72, 50))
def strap(pen: BoxPen, place: Place) -> None:
    bare_shoulder(pen, place)
    pen.path("o", "M10 6L98 52L92 92L4 46C-2 42 2 8 10 6Z")
    pen.path("t", "M14 16L90 56L87 80L11 40Z")
    button(pen, 16, 30)


@part("shoulder_strap", "slide", layer=64, frame=(14, 30, 72, 50))
def loop(pen: BoxPen, place: Place) -> None:
    bare_shoulder(pen, place)
    pen.path("o", "M42 18L66 30L60 76L36 64Z")
    pen.path("t", "M46 25L52 70M57 30L51 75")


@part("shoulder_strap", "chest_tab", views={"front": ("chest_centre",)}, layer=64, frame=(20, 10, 60, 80))
def chest_tab(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-30 -12H50V112H-30Z")
        pen.path("o", "M130 -12H50V112H130Z")
        pen.path("t", "M56 -12V112")
    pen.path("o", "M38 20H62V66L50 76L38 66Z")
    pen.path("t", "M42 24H58V63L50 70L42 63Z")
    pen.circle("b", 50, 62, min(BUTTON, 0.05 * pen.box.w))


# Back
@part("back_fullness", "plain", layer=30, frame=(14, 12, 72, 76))
def plain_back(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path(
            "o", "M20 -4C36 4 64 4 80 -4C94 2 104 8 112 16C106 40 106 70 112 110H-12C-6 70 -6 40 -12 16C-4 8 6 2 20 -4Z"
        )


@part("back_fullness", "box_pleat", views={"back": ("shoulder_blades",)}, layer=30, frame=(14, 12, 72, 76))
def box_pleat(pen: BoxPen, place: Place) -> None:
    plain_back(pen, place)
    pen.path("e", "M43 10V130M57 10V130M4 10H96")
    pen.path("t", "M4 15H96M43 24L57 24")
    pen.path("f", "M50 26V120")


@part("back_fullness", "bellows", views={"back": ("shoulder_blades",)}, layer=30, frame=(14, 12, 72, 76))
def bellows(pen: BoxPen, place: Place) -> None:
    plain_back(pen, place)
    pen.path("e", "M4 0C14 30 14 70 6 118M96 0C86 30 86 70 94 118M10 0C22 34 22 70 12 118M90 0C78 34 78 70 88 118")
    pen.path("t", "M4 4H12M88 4H96M7 112H13M87 112H93")


@part("back_fullness", "yoke_gather", views={"back": ("shoulder_blades",)}, layer=30, frame=(14, 12, 72, 76))
def yoke(pen: BoxPen, place: Place) -> None:
    plain_back(pen, place)
    pen.path("e", "M-4 16C30 22 70 22 104 16")
    pen.path("t", "M-4 11C30 17 70 17 104 11")
    pen.path("f", "".join(f"M{x} 22C{x + 2} 40 {x - 1} 52 {x + 1} {70 if x % 2 else 56}" for x in range(30, 72, 5)))


@part("hem_vent", "none", layer=34, frame=(20, 14, 60, 72))
def closed_hem(pen: BoxPen, place: Place) -> None:
    cloth(pen, place, -30, -20, 130, 100)
    if place.small:
        pen.path("t", "M-30 92H130")


@part("hem_vent", "centre", layer=34, frame=(20, 14, 60, 72))
def centre_vent(pen: BoxPen, place: Place) -> None:
    closed_hem(pen, place)
    pen.path("e", "M50 -10V40L46 104M50 40L60 104")
    pen.path("t", "M56 34L66 100M44 40H56")


@part("hem_vent", "side", views={"back": ("hem_side_left", "hem_side_right")}, layer=34, frame=(34, 14, 40, 72))
def side_vent(pen: BoxPen, place: Place) -> None:
    cloth(pen, place, -60, -20, 100, 100)
    pen.path("e", "M88 20C80 50 74 76 70 104")
    pen.path("t", "M76 20C70 50 64 76 60 100")


@part("hem_vent", "side_button", views={"back": ("hem_side_left", "hem_side_right")}, layer=34, frame=(34, 14, 40, 72))
def side_vent_buttoned(pen: BoxPen, place: Place) -> None:
    side_vent(pen, place)
    button(pen, 80, 46)
    button(pen, 74, 72)


# Waist and hem
WAIST = {"front": ("waist",), "back": ("waist_back",)}


@part("waist_draw", "none", views=WAIST, layer=36, frame=(6, 36, 88, 30))
def no_waist(pen: BoxPen, place: Place) -> None:
    cloth(pen, place, -4, -90, 104, 190)


@part("waist_draw", "cord_out", views=WAIST, layer=36, frame=(6, 36, 88, 30))
def cord_outside(pen: BoxPen, place: Place) -> None:
    channel(pen, place)
    if place.view == "back":
        return
    pen.circle("b", 40, 50, min(2.6, 0.16 * pen.box.h))
    pen.circle("b", 60, 50, min(2.6, 0.16 * pen.box.h))
    pen.path("e", "M40 50C36 110 44 160 38 230M60 50C66 110 56 170 64 250M37 232L39 262M64 252L63 282")


@part("waist_draw", "cord_in", views=WAIST, layer=36, frame=(6, 36, 88, 30))
def cord_inside(pen: BoxPen, place: Place) -> None:
    channel(pen, place)
    pen.path("f", "".join(f"M{x} 10C{x + 1} 34 {x - 1} 60 {x} 90" for x in range(8, 98, 12)))


@part("waist_draw", "tabs", views=WAIST, layer=36, frame=(6, 30, 88, 36))
def waist_tabs(pen: BoxPen, place: Place) -> None:
    cloth(pen, place, -4, -70, 104, 170)
    for outer, inner, hold in ((3, 22, 15), (97, 78, 85)):
        tip = inner + (4 if inner < 50 else -4)
        pen.path("o", f"M{outer} 0H{inner}L{tip} 50L{inner} 100H{outer}Z")
        button(pen, hold + (5 if inner < 50 else -5), 50)


@part("waist_draw", "elastic", views=WAIST, layer=36, frame=(6, 36, 88, 30))
def waist_elastic(pen: BoxPen, place: Place) -> None:
    channel(pen, place)
    gathers(pen)


def channel(pen: BoxPen, place: Place) -> None:
    cloth(pen, place, -4, -90, 104, 190)
    pen.path("t", "M0 0C30 10 70 10 100 0M0 92C30 102 70 102 100 92")


HEM = {"front": ("hem",), "back": ("hem",)}


@part("hem_finish", "plain", views=HEM, layer=38, frame=(6, 40, 88, 30))
def hem_plain(pen: BoxPen, place: Place) -> None:
    cloth(pen, place, 0, -120, 100, 100)
    if place.small:
        pen.path("t", "M0 70H100")


@part("hem_finish", "cord", views=HEM, layer=38, frame=(6, 40, 88, 30))
def hem_cord(pen: BoxPen, place: Place) -> None:
    cloth(pen, place, 0, -120, 100, 100)
    pen.path("t", "M1 20C30 36 70 36 99 20")
    pen.path("e", "M47 76C44 110 50 130 46 156M53 76C57 110 50 136 55 160")
    pen.circle("b", 47, 70, min(2.4, 0.1 * pen.box.h))
    pen.circle("b", 53, 70, min(2.4, 0.1 * pen.box.h))


@part("hem_finish", "band_button", views=HEM, layer=38, frame=(6, 40, 88, 30))
def waistband(pen: BoxPen, place: Place) -> None:
    cloth(pen, place, 0, -120, 100, 100)
    pen.path("o", "M0 0C30 14 70 14 100 0V72C70 104 30 104 0 72Z")
    pen.path("t", "M1 12C30 26 70 26 99 12M1 62C30 92 70 92 99 62")
    if place.view != "back":
        pen.path("e", "M46 9V98M56 10V98")
        button(pen, 51, 54)


@part("hem_finish", "elastic", views=HEM, layer=38, frame=(6, 40, 88, 30))
def hem_elastic(pen: BoxPen, place: Place) -> None:
    cloth(pen, place, 0, -120, 100, 100)
    pen.path("e", "M0 4C30 18 70 18 100 4")
    gathers(pen)


@part("hem_finish", "knitted", views=HEM, layer=38, frame=(6, 40, 88, 30))
def hem_knitted(pen: BoxPen, place: Place) -> None:
    cloth(pen, place, 0, -120, 100, 4)
    pen.path("o", "M3 0C30 14 70 14 97 0L93 84C70 106 30 106 7 84Z")
    ribs(pen, 4)


# Sleeves. In the box of an armhole the shoulder lies at the top, the body at the inner side (0).
@part("sleeve_set", "set_in", layer=26, frame=(40, 8, 34, 84))
def set_in(pen: BoxPen, place: Place) -> None:
    sleeve_beside(pen, place)
    pen.path("e", "M75 3C22 36 18 70 54 98")
    pen.path("t", "M60 6C8 38 4 68 38 98")


@part("sleeve_set", "raglan", layer=26, frame=(40, 8, 34, 84))
def raglan(pen: BoxPen, place: Place) -> None:
    sleeve_beside(pen, place, seam=False)
    pen.path("e", "M-130 -8C-60 14 0 56 54 98" if place.small else "M-250 -19C-140 10 -30 52 54 98")
    pen.path("t", "M-146 -2C-76 20 -16 60 38 101" if place.small else "M-262 -12C-152 17 -44 56 40 101")


@part("sleeve_set", "gusset", layer=26, frame=(40, 8, 34, 84))
def gusset(pen: BoxPen, place: Place) -> None:
    sleeve_beside(pen, place, seam=False)
    pen.path("o", "M54 60L100 84L62 122L10 92Z")
    pen.path("t", "M54 68L88 85L61 113L22 91Z")


@part("sleeve_set", "removed", layer=26, frame=(40, 8, 34, 84))
def sleeve_taken_off(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-120 -8C-40 4 20 8 75 3C22 36 18 70 54 98V120H-120Z")
    pen.path("e", "M75 3L64 14L70 22L46 30L54 40L36 48L44 58L32 66L42 76L38 86L54 98")
    pen.path("f", "M64 14L76 12M54 40L68 38M44 58L58 58M42 76L56 78")


@part("sleeve_set", "none", layer=26, frame=(40, 8, 34, 84))
def made_without(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-120 -8C-40 4 20 8 75 3C22 36 18 70 54 98V120H-120Z")
    pen.path("t", "M62 6C10 38 6 68 40 98M50 6C-2 38 -6 68 28 98")


def sleeve_beside(pen: BoxPen, place: Place, *, seam: bool = True) -> None:
    """In the small picture, the trunk and the head of its sleeve."""
    if place.small:
        pen.path("o", "M54 98C120 110 190 120 210 112C190 60 150 12 75 3C20 8 -40 2 -120 -8V120H54Z")


@part("reinforcement", "none", layer=32, frame=(28, 12, 44, 76))
def bare_elbow(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M2 -30L96 -30L112 130L-14 130Z")
        pen.path("f", "M16 40C36 52 54 52 70 44M12 56C30 64 46 64 60 60")


ELBOWS = {"back": ("elbow_left", "elbow_right")}


@part("reinforcement", "self", views=ELBOWS, layer=32, frame=(28, 12, 44, 76))
def elbow_patch(pen: BoxPen, place: Place) -> None:
    bare_elbow(pen, place)
    pen.path("o", "M14 10C34 0 66 0 84 8C94 36 98 66 94 92C70 104 36 104 18 94C8 64 6 36 14 10Z")
    pen.path("t", "M20 16C38 8 62 8 79 14C88 40 91 66 88 87C68 96 40 96 24 88C15 62 14 38 20 16Z")


@part("reinforcement", "contrast", views=ELBOWS, layer=32, frame=(28, 12, 44, 76))
def elbow_patch_of_other_cloth(pen: BoxPen, place: Place) -> None:
    elbow_patch(pen, place)
    pen.path("e", "M26 34L44 14M22 58L64 14M24 78L80 20M34 90L86 36M54 92L90 56M74 92L90 78")


@part("reinforcement", "double", views=ELBOWS, layer=32, frame=(28, 12, 44, 76))
def doubled_panel(pen: BoxPen, place: Place) -> None:
    bare_elbow(pen, place)
    pen.path("e", "M2 -26C34 -18 66 -18 98 -26M-6 120C34 128 68 128 106 120")
    pen.path("t", "M2 -16C34 -8 66 -8 98 -16M-5 110C34 118 68 118 105 110M10 -14L0 108M90 -14L102 108")
