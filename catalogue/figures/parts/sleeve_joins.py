"""How a sleeve joins the body, and the second layer at its elbow.

Units of the flat: x from the middle line, y as upper_cuts counts it.
"""

from catalogue.figures import miniatures
from catalogue.figures.closeups import hatch
from catalogue.figures.halves import aslant, corner_at, mirrored, strokes, within_quad
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen
from catalogue.figures.upper_cuts import (
    ARMHOLE,
    NO_SLEEVES,
    on_sleeve,
)

WHOLE = (0, 0, 100, 100)
ARMHOLES = {"front": ("armhole_left",), "back": ("armhole_left",)}
INNER_ROW = "M99 123C90 150 92 194 116 224"


def join_page(pen: BoxPen, place: Place) -> BoxPen:
    return corner_at(pen, 90, 120)


@part("sleeve_set", "set_in", frame=WHOLE, views=ARMHOLES, layer=26)
def set_in(pen: BoxPen, place: Place) -> None:
    if place.small:
        page = miniatures.arms_out(pen)
        page.path("e", strokes(f"M23 10{miniatures.SHORT_ARMHOLE}M25 11C19 16 18 22 21 30"))
        page.path("t", strokes("M20 9C14 15 13 23 16 30"))
        return
    page = join_page(pen, place)
    page.path("e", f"M104 124{ARMHOLE}")
    page.path("t", INNER_ROW)


@part("sleeve_set", "raglan", frame=WHOLE, views=ARMHOLES, layer=26)
def raglan(pen: BoxPen, place: Place) -> None:
    """The seam runs from the neck to under the arm."""
    if place.small:
        page = miniatures.arms_out(pen)
        page.path("e", strokes("M9 6C12 15 15 23 19 29M11 6C14 14 17 22 21 29.5"))
        page.path("t", strokes("M6 9C9 18 12 26 16 31"))
        return
    page = join_page(pen, place)
    neck = "M42 109" if place.view == "back" else "M40 116"
    page.path("e", neck + "C64 140 92 176 121 219")
    page.path("t", "M37 119C60 145 87 180 115 222")


@part("sleeve_set", "gusset", frame=WHOLE, views=ARMHOLES, layer=26)
def gusset(pen: BoxPen, place: Place) -> None:
    """No seam round the arm: a lozenge of cloth is let in under it."""
    if place.small:
        page = miniatures.arms_out(pen)
        lozenge = "M12 18L30 33C25 35 22 39 19 46Z"
        page.path("o", lozenge + mirrored(lozenge))
        page.path("e", strokes("M14 26L24 35M15 32L21 38M15 22L28 33"))
        # The piece by itself, and where it goes.
        page.path("o", "M-38 46L-32 53L-38 61L-44 53Z")
        page.path("e", "M-42 51L-35 58M-40 48L-33 55M-44 53L-38 60M-31 46L-25 41M-25 46V41H-30")
        return
    page = join_page(pen, place)
    page.path("e", "M117 264C113 236 107 206 101 178C120 198 136 230 147 266")
    page.path("t", "M112 266C108 238 102 208 95 176M103 173C125 196 141 230 152 264")


@part("sleeve_set", "removed", frame=WHOLE, views=ARMHOLES, layer=26)
def sleeve_taken_off(pen: BoxPen, place: Place) -> None:
    """A raw edge with its threads, and the holes of the seam that held the sleeve."""
    if place.small:
        page = miniatures.arms_out(pen, sleeves=False)
        page.path("u", strokes("M26 10C34 14 42 21 47 27L40 40C34 36 27 32 22 30"))
        page.path("e", strokes("M23 10L28 12M19 14L25 15M18 18L23 20M17 22L23 22M18 26L23 28M19 29L24 32M18 20L25 25"))
        miniatures.scissors(page, 34, 52)
        miniatures.scissors(page, -34, 52)
        return
    page = join_page(pen, place)
    page.path("e", FRAYED)
    page.path("u", INNER_ROW)


FRAYED = (
    "M102 128L111 130M101 134L108 140M99 142L108 143M98 151L105 157M97 160L107 162M98 169L105 176"
    "M100 178L109 179M102 187L108 194M105 196L114 197M110 205L116 212M115 212L124 213"
)


@part("sleeve_set", "none", frame=WHOLE, views=ARMHOLES, layer=26)
def made_without(pen: BoxPen, place: Place) -> None:
    """The edge of the armhole bound."""
    if place.small:
        page = miniatures.arms_out(pen, sleeves=False)
        page.path("e", strokes("M19 9C12 15 12 23 15 31"))
        page.path("t", strokes("M17 8C9 15 9 24 12 33"))
        return
    page = join_page(pen, place)
    page.path("e", "M98 122C89 150 91 194 115 222")
    page.path("t", "M94 120C85 150 87 196 111 225")


ELBOWS = {"back": ("elbow_left",), "sleeve_left": ("elbow",), "sleeve_right": ("elbow",)}
PATCH = "M8 14C26 2 74 2 92 14C99 40 99 70 90 90C72 101 28 101 10 90C1 70 1 40 8 14Z"
PATCH_STITCHES = "M13 19C30 9 70 9 87 19C93 42 93 67 85 85C69 94 31 94 15 85C7 67 7 42 13 19Z"


# A bent arm in the small picture, and where its elbow lies.
BENT = "M30 -4C38 18 44 30 52 33L94 20V52C78 58 62 64 48 62C30 58 14 36 2 6"
AT_ELBOW = ((26, 26), (52, 38), (52, 61), (22, 52))


def on_elbow(pen: BoxPen, place: Place, kind: str, data: str) -> None:
    """Percent of the elbow: upright on a lifted sleeve, aslant on the flat."""
    if place.small:
        pen.sheet(96, 64).path(kind, within_quad(data, AT_ELBOW))
    elif place.view == "back":
        if place.profile.get("sleeve_set") in NO_SLEEVES:
            return  # on a lifted sleeve it shows where the sleeve was; here it would hang in the air
        page, quad = on_sleeve("elbow", pen, place.points, place.side)
        page.path(kind, within_quad(data, quad))
    else:
        corner_at(pen, 136, 216).path(kind, aslant(data, (152, 222), (98, 2), (4, 92)))


@part("reinforcement", "none", frame=WHOLE, layer=32)
def bare_elbow(pen: BoxPen, place: Place) -> None:
    if not place.small:
        return
    page = pen.sheet(96, 64)
    page.path("o", BENT)
    page.path("f", "M52 33C48 38 44 40 38 41M56 32C54 37 51 40 46 43")
    page.path("t", "M88 22V54")
    if place.profile.get("reinforcement") == "none":
        miniatures.absent(page, within_quad(PATCH, AT_ELBOW), (36, 45), reach=6)


@part("reinforcement", "self", frame=WHOLE, views=ELBOWS, layer=32)
def elbow_patch(pen: BoxPen, place: Place) -> None:
    bare_elbow(pen, place)
    on_elbow(pen, place, "o", PATCH)
    on_elbow(pen, place, "t", PATCH_STITCHES)


@part("reinforcement", "contrast", frame=WHOLE, views=ELBOWS, layer=32)
def elbow_patch_of_other_cloth(pen: BoxPen, place: Place) -> None:
    """Hatched, so that it is seen to be another cloth."""
    elbow_patch(pen, place)
    on_elbow(pen, place, "e", "M14 56L44 16M16 80L64 16M30 86L80 20M48 88L90 32M68 88L90 60")


@part("reinforcement", "double", frame=WHOLE, views=ELBOWS, layer=32)
def doubled_panel(pen: BoxPen, place: Place) -> None:
    """A second layer over the whole width of the sleeve."""
    bare_elbow(pen, place)
    if place.small:
        page = pen.sheet(96, 64)
        page.path("e", "M36 12L11 22M80 24V58")
        page.path("t", "M38 17L14 27M76 26V58M14 27C24 44 34 56 48 58C60 60 68 56 76 54M38 17C42 30 46 38 52 38L76 30")
        page.path("f", hatch(18, 28, 60, 26, 45, 5))
        return
    left, right, lower_left = (-12, 112, -12) if place.view == "back" else (-50, 113, -35)
    upper = f"M{left} 4C20 -4 80 -4 {right} 4"
    lower = f"M{lower_left} 98C20 106 80 106 {right} 98"
    on_elbow(pen, place, "e", upper + lower)
    rows = f"M{left + 1} 10C20 2 80 2 {right} 10M{lower_left} 91C20 99 80 99 {right} 91"
    on_elbow(pen, place, "t", rows)
