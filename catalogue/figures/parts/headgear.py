"""Peaks, flaps, vents, brims and straps of caps, hats and hoods."""

from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

ROWS = {"r3": 3, "r5": 5, "r7": 7}


@part("peak_rows", "r3", "r5", "r7", layer=40, frame=(6, 22, 88, 56))
def stitched_peak(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M2 4C30 26 70 26 98 4C108 30 102 70 96 78C70 104 30 104 4 78C-2 70 -8 30 2 4Z")
    rows = ROWS[place.profile.get("peak_rows", "r5")]
    for row in range(rows):
        y = 84 - row * 62 / max(rows - 1, 1)
        pen.path(
            "t", f"M{3 + row * 0.4:.0f} {y - 18:.0f}C30 {y + 6:.0f} 70 {y + 6:.0f} {97 - row * 0.4:.0f} {y - 18:.0f}"
        )


def side_of_cap(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-16 30C-16 -40 30 -70 58 -70C96 -70 120 -30 120 30Z")
        pen.path("o", "M-14 22C-26 30 -44 36 -56 46C-44 52 -20 46 -2 30Z")
        pen.path("t", "M-16 22H120")


FLAP = (34, 42, 44, 44)


@part("ear_flaps", "none", layer=42, frame=FLAP)
def no_flaps(pen: BoxPen, place: Place) -> None:
    side_of_cap(pen, place)


@part("ear_flaps", "fold_down", layer=42, frame=FLAP)
def flaps_folded_down(pen: BoxPen, place: Place) -> None:
    side_of_cap(pen, place)
    pen.path("o", "M4 24C30 30 80 30 118 20C120 60 96 96 56 100C24 98 4 66 4 24Z")
    pen.path("t", "M10 32C34 36 80 36 112 28C112 62 90 88 56 92C30 90 12 62 10 32Z")


@part("ear_flaps", "tie_top", layer=42, frame=FLAP)
def flaps_tied_over(pen: BoxPen, place: Place) -> None:
    side_of_cap(pen, place)
    pen.path("o", "M8 26C2 -10 20 -42 52 -48C88 -48 112 -20 112 24C80 30 40 32 8 26Z")
    pen.path("t", "M15 20C11 -8 26 -34 53 -40C82 -40 104 -16 105 17")
    pen.path("e", "M52 -48C44 -62 34 -64 30 -72M52 -48C60 -64 72 -62 76 -72M46 -56C50 -60 56 -60 60 -56")


VENT = (20, 16, 60, 64)


def crown_panel(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-10 104C-10 30 20 -14 50 -14C80 -14 110 30 110 104Z")
        pen.path("e", "M50 -14V104")


@part("crown_vents", "none", layer=44, frame=VENT)
def no_vents(pen: BoxPen, place: Place) -> None:
    crown_panel(pen, place)


@part("crown_vents", "sewn_eyelets", layer=44, frame=VENT)
def sewn_vents(pen: BoxPen, place: Place) -> None:
    crown_panel(pen, place)
    for x in (26, 74):
        pen.circle("b", x, 52, 5.4)
        pen.circle("k", x, 52, 1.7)
        w, h = 540 / pen.box.w, 540 / pen.box.h
        around = ((-1, 0), (1, 0), (0, -1), (0, 1), (-0.7, -0.7), (0.7, 0.7), (-0.7, 0.7), (0.7, -0.7))
        ends = [(x + a * w, 52 + b * h, x + a * w * 0.45, 52 + b * h * 0.45) for a, b in around]
        pen.path("e", "".join(f"M{a:.1f} {b:.1f}L{c:.1f} {d:.1f}" for a, b, c, d in ends))


@part("crown_vents", "metal_eyelets", layer=44, frame=VENT)
def metal_vents(pen: BoxPen, place: Place) -> None:
    crown_panel(pen, place)
    for x in (26, 74):
        pen.circle("k", x, 52, 5.8)
        pen.circle("b", x, 52, 2.6)


@part("crown_vents", "mesh", layer=44, frame=VENT)
def net_panel(pen: BoxPen, place: Place) -> None:
    crown_panel(pen, place)
    pen.path("o", "M12 20H88V84H12Z")
    down = "".join(f"M{x} 20V84" for x in range(21, 88, 9))
    pen.path("e", down + "".join(f"M12 {y}H88" for y in range(30, 84, 10)))


@part("brim", "narrow", "wide", layer=46, frame=(8, 10, 84, 82))
def brim_from_the_side(pen: BoxPen, place: Place) -> None:
    reach = 24 if place.profile.get("brim") == "narrow" else 0
    if place.small:
        pen.path("o", f"M{reach} 62C24 48 76 48 {100 - reach} 60C80 76 20 76 {reach} 62Z")
        pen.path("o", "M30 58C30 30 33 14 37 8C44 2 56 2 63 8C67 14 70 30 70 57C60 63 40 63 30 58Z")
        pen.path("e", f"M{reach} 92H29M{reach} 86V98M29 86V98M29 66V84")
        return
    pen.path("t", f"M{reach * 0.55 + 7:.0f} 62C30 88 70 88 {93 - reach * 0.55:.0f} 58")


CHIN = (22, 10, 56, 80)


def head_side(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-30 26C-30 -14 10 -24 50 -24C90 -24 130 -14 130 26C90 34 10 34 -30 26Z")


@part("chin_strap", "none", layer=48, frame=CHIN)
def no_strap(pen: BoxPen, place: Place) -> None:
    head_side(pen, place)


@part("chin_strap", "self", layer=48, frame=CHIN)
def cloth_strap(pen: BoxPen, place: Place) -> None:
    head_side(pen, place)
    pen.path("o", "M10 20C14 70 34 100 50 100C66 100 86 70 90 20L102 20C98 80 74 114 50 114C26 114 2 80 -2 20Z")
    pen.path("t", "M4 24C8 78 30 107 50 107C70 107 92 78 96 24")
    pen.rect("b", 66, 74, 20, 26, round=2)


@part("chin_strap", "cord", layer=48, frame=CHIN)
def cord_strap(pen: BoxPen, place: Place) -> None:
    head_side(pen, place)
    pen.path("e", "M8 20C14 60 38 80 48 86M92 20C86 60 62 80 52 86M12 20C18 56 40 76 50 82M88 20C82 56 60 76 50 82")
    pen.rect("b", 42, 80, 16, 16, round=3)
    pen.path("e", "M46 96C44 108 48 112 44 124M54 96C56 108 52 114 57 126")


@part("chin_strap", "elastic", layer=48, frame=CHIN)
def elastic_strap(pen: BoxPen, place: Place) -> None:
    head_side(pen, place)
    pen.path("o", "M6 20C12 74 32 98 50 98C68 98 88 74 94 20L101 20C96 80 74 108 50 108C26 108 4 80 -1 20Z")
    pen.path(
        "e",
        "M4 40L12 38M8 58L16 54M16 76L23 70M27 92L33 84M42 100L44 94"
        "M58 100L56 94M73 92L67 84M84 76L77 70M92 58L84 54M96 40L88 38",
    )
