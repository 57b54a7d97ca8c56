"""Pockets below the waist, on a sleeve and inside, and how the corners of pockets are secured."""

from catalogue.figures import hardware, miniatures
from catalogue.figures.closeups import opened_garment
from catalogue.figures.hardware import in_units, moved
from catalogue.figures.parts import Place, part
from catalogue.figures.parts.pockets import SHOWN_ON, WHOLE, bag, draw_flap, expanding, standing_out
from catalogue.figures.pen import BoxPen, number

# --- below the waist ---

# An inset pocket lies lower than a patch, so that lip and flap keep clear of a cord or belt at the waist.
INSET = 0.16
# The width of the lip of a slit for the hands.
SLIT = 12


def lower_pocket(pen: BoxPen, place: Place) -> tuple[BoxPen, float, float]:
    """A pen in units at the pocket's upper corner nearest the front edge, and its width and height."""
    if place.small:
        return moved(pen.sheet(96, 64), 19, 6), 58, 52
    w = round(pen.box.w)
    return in_units(pen), w, min(round(pen.box.h), round(w * 1.1))


@part("lower_pockets", "none", layer=40, frame=WHOLE)
def no_lower_pocket(pen: BoxPen, place: Place) -> None:
    """The skirt of a front, empty."""
    if place.small:
        miniatures.absent(small_skirt(pen), "M24 6H72V50H24ZM24 20H72", (48, 32), reach=7)


def small_skirt(pen: BoxPen) -> BoxPen:
    """Front edge, side seam and hem about the place of a lower pocket."""
    page = pen.sheet(96, 64)
    page.path("o", "M6 -4V59C36 63 62 62 92 57C90 36 88 16 87 -4Z")
    page.path("t", "M10 -4V64M7 55C36 58 62 57 91 53")
    return page


@part("lower_pockets", "patch", layer=40, frame=WHOLE)
def lower_patch(pen: BoxPen, place: Place) -> None:
    """A plain patch, open at the top."""
    page, w, h = lower_pocket(pen, place)
    if place.small:
        page, w, h = moved(small_skirt(pen), 24, 6), 48, 44
    bag(page, w, h)


@part("lower_pockets", "inset_flap", layer=40, frame=WHOLE)
def inset_with_flap(pen: BoxPen, place: Place) -> None:
    """Only the flap shows, coming out under the lip of its slit."""
    page, w, h = lower_pocket(pen, place)
    page = moved(page, 0, h * INSET)
    if place.small:
        page, w = moved(small_skirt(pen), 20, 12), 56
        page.path("f", "M3 20V32Q3 38 9 38H47Q53 38 53 32V20")
    draw_flap(page, "round", w, 26)
    page.path("o", f"M-5 -5H{w + 5}V2H-5Z")


@part("lower_pockets", "bellows", layer=40, frame=WHOLE)
def lower_bellows(pen: BoxPen, place: Place) -> None:
    """A pocket on a folded strip, with a flap over its mouth."""
    page, w, h = lower_pocket(pen, place)
    if place.small:
        page = small_skirt(pen)
        standing_out(moved(page, 15, 2, 0.85))
        page.path("o", "M25 13H66V27L64 29H27L25 27Z")
        page.path("t", "M29 16H62V26H29Z")
        return
    expanding(page, w, h, mouth=False)
    draw_flap(page, "square", w, min(28, h * 0.36))


@part("lower_pockets", "hand_warmer", layer=40, frame=WHOLE)
def hand_warmer(pen: BoxPen, place: Place) -> None:
    """An upright slit with a lip, leaning towards the side seam at its foot."""
    page, w, h = lower_pocket(pen, place)
    if place.small:
        page, w, h = moved(small_skirt(pen), 22, 4), 50, 46
        page.path("f", "M19 3C4 4 0 14 0 26V40H36")
    (x0, _), (x1, foot) = slit_ends(w, h)
    a, b, c, d = (number(value) for value in (x0, x1, x0 + SLIT, x1 + SLIT))
    low = number(foot)
    page.path("o", f"M{a} 2L{c} 0L{d} {low}L{b} {number(foot + 2)}Z")
    inner = SLIT - 4
    ends = (
        f"M{number(x0 + 1)} 6L{number(x0 + SLIT + 1)} 4M{number(x1 - 1)} {number(foot - 2)}L{number(x1 + inner)} {low}"
    )
    page.path("t", f"M{number(x0 + inner)} 3L{number(x1 + inner)} {number(foot - 1)}{ends}")


def slit_ends(w: float, h: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """The left end of a hand-warmer's upper and of its lower end."""
    return (w * 0.34, 2), (w * 0.72, h * 0.92)


# --- on a sleeve ---

SLEEVES = {"sleeve_left": ("upper_outer",), "sleeve_right": ("upper_outer",)}


@part("sleeve_pocket", "none", "left", "right", "pen_left", views=SLEEVES, layer=40, frame=WHOLE)
def sleeve_pocket(pen: BoxPen, place: Place) -> None:
    """A patch with a flap, or three narrow slots, on the outer face of the upper sleeve."""
    state = place.profile["sleeve_pocket"]
    if place.small:
        return small_sleeve_pocket(pen.unflipped(), state)
    page = in_units(pen)
    w, h = round(pen.box.w), round(pen.box.h)
    if state == "pen_left":
        pen_slots(moved(page, w * 0.3, h * 0.12), w * 0.4, h * 0.8)
    elif state != "none":
        wide, high = w * 0.52, min(h * 0.8, w * 0.58)
        spot = moved(page, w * 0.24, h * 0.14)
        bag(spot, round(wide), round(high), mouth=False)
        draw_flap(spot, "square", round(wide), round(high * 0.36))
    return None


def pen_slots(page: BoxPen, w: float, h: float) -> None:
    """Three slots side by side, closed below."""
    a, b = number(w / 3), number(2 * w / 3)
    w, h = round(w), round(h)
    page.path("o", f"M0 0V{h - 3}L3 {h}H{w - 3}L{w} {h - 3}V0Z")
    page.path("e", f"M{a} 0V{h}M{b} 0V{h}")
    page.path("t", f"M0 6H{w}M3 8V{h - 3}H{w - 3}V8")


def small_sleeve_pocket(pen: BoxPen, state: str) -> None:
    """Both sleeves of a front; the pocket sits on the wearer's side."""
    miniatures.sleeved(pen.sheet(96, 64))
    page = BoxPen(pen.pen, pen.box, state == "right").sheet(96, 64)
    if state == "pen_left":
        page.path("o", "M72 25L84 22L91 44L79 47Z")
        page.path("e", "M76 24L83 46M80 23L87 45M73 29L86 26")
    elif state != "none":
        page.path("o", "M73 25L84 22L90 41L79 44Z")
        page.path("o", "M72 25L85 21L87 28L81 34L74 31Z")
    else:
        ghost = "M73 25L84 22L90 41L79 44Z"
        miniatures.absent(page, ghost + "M23 25L12 22L6 41L17 44Z", (81, 33), (15, 33), reach=4)
    miniatures.sides(pen.sheet(96, 64), 12)


# --- inside ---


@part("inside_pocket", "none", "left", "right", "both", layer=40, frame=WHOLE)
def inside_pocket(pen: BoxPen, place: Place) -> None:
    """A patch on the inside of the front, its mouth held by a bound edge."""
    state = place.profile["inside_pocket"]
    if place.small:
        return small_inside_pocket(pen.unflipped(), state)
    if state == "none":
        return None
    page, w, h = in_units(pen), pen.box.w, pen.box.h
    wide, high = round(w * 0.66), round(min(h * 0.34, w * 0.95))
    spot = moved(page, w * 0.15, h * 0.12)
    bag(spot, wide, high, mouth=False)
    spot.path("e", f"M0 5H{wide}")
    spot.path("t", f"M0 9H{wide}")
    return None


def small_inside_pocket(pen: BoxPen, state: str) -> None:
    """The garment opened flat, its inside up, a folded paper looking out of each pocket there is."""
    page = pen.sheet(96, 64)
    opened_garment(page)
    for x, side in ((3, "right"), (73, "left")):
        if state in (side, "both"):
            spot = moved(page, x, 28)
            spot.path("b", "M5 2L7 -7L16 -5L15 2Z")
            spot.path("o", "M0 0V15Q0 18 3 18H17Q20 18 20 15V0Z")
            spot.path("k", "M0 0H20V4H0Z")
    if state == "none":
        miniatures.absent(page, "M3 28H23V46H3ZM73 28H93V46H73Z", (13, 37), (83, 37))
    page.text(14, 56, "R", size=11)
    page.text(82, 56, "L", size=11)


# --- strain points ---

CORNERS = {"front": ("chest_flap_left", "chest_centre", "skirt_left", "pocket_corner_left")}


@part("bartack", "none", "bartack", "rivet", "box_x", views=CORNERS, layer=46, frame=WHOLE)
def strain_point(pen: BoxPen, place: Place) -> None:
    """At both ends of the mouth of each pocket that is there; on trousers at the one corner that is named."""
    state = place.profile["bartack"]
    if place.small:
        return small_corner(pen, state)
    for x, y in strained(pen, place):
        secure(in_units(pen), state, x, y)
    return None


def strained(pen: BoxPen, place: Place) -> list[tuple[float, float]]:
    """The points that the record of the pockets gives something to secure at, in units of the box."""
    w, h, record = pen.box.w, pen.box.h, place.profile
    if place.region.startswith("pocket_corner"):
        return [] if {"chest_pockets", "lower_pockets"} & record.keys() else [(w / 2 - 5, h / 2)]
    if place.region.startswith("skirt"):
        form, high = record.get("lower_pockets", "none"), min(round(h), round(w * 1.1))
        if form == "hand_warmer":
            return [(x + 1, y) for x, y in slit_ends(w, high)]
        y = 2 + high * INSET if form == "inset_flap" else 2
        return [] if form == "none" else [(1, y), (w - 11, y)]
    if place.side not in SHOWN_ON.get(record.get("chest_pockets", "none"), ()):
        return []
    if record.get("chest_pocket_form") == "slant_zip":
        pocket = place.regions.get(place.region.replace("_flap", ""))
        return [(-3, 2), (w - 13, (pocket.h if pocket else w) - 6)]
    return [(1, 2), (w - 11, 2)]


def secure(page: BoxPen, state: str, x: float, y: float) -> None:
    """Ten units wide, its upper left corner near the point."""
    if state == "bartack":
        hardware.bar(page, x, y, 10)
    elif state == "rivet":
        hardware.rivet(page, x + 5, y + 2, 3)
    elif state == "box_x":
        hardware.crossed_box(page, x, y - 1, 10, 9)


def small_corner(pen: BoxPen, state: str) -> None:
    """A pocket whose mouth is secured at both its ends, more strongly than it would be at this size."""
    page = pen.sheet(96, 64)
    page.path("o", "M16 14H80V56Q80 61 75 61H21Q16 61 16 56Z")
    page.path("t", "M20 16V55Q20 57 23 57H73Q76 57 76 55V16M16 22H80")
    if state == "none":
        miniatures.absent(page, "M8 7H28V21H8ZM68 7H88V21H68Z", (18, 14), (78, 14))
        return
    for x in (18, 78):
        if state == "bartack":
            hardware.bar(page, x - 11, 14, 22, 5)
        elif state == "rivet":
            hardware.rivet(page, x + (5 if x < 48 else -5), 18, 7)
        elif state == "box_x":
            hardware.crossed_box(page, x - 2 if x < 48 else x - 16, 15, 18, 16)
