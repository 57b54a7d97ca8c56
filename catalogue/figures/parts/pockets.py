"""Breast pockets: which there are, how they are made, the shape of their flaps and how the flaps are fastened."""

from catalogue.figures import hardware, miniatures
from catalogue.figures.hardware import in_units, moved
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen, number

WHOLE = (0, 0, 100, 100)
FLAPLESS = ("", "none")
# The height of a welt.
LIP = 13
# On which of the wearer's sides the record of the breast pockets puts one.
SHOWN_ON = {"left": ("left",), "right": ("right",), "both": ("left", "right"), "centre": ("centre",)}


@part("chest_pockets", "none", "left", "right", "both", "centre", layer=41, frame=WHOLE)
def which_breasts(pen: BoxPen, place: Place) -> None:
    """On the flat the outline of the pocket, on top of what its form draws: all there is where no form is recorded."""
    state = place.profile["chest_pockets"]
    if not place.small:
        if state != "none":
            page, w, h = breast_pocket(pen, place)
            page.path("e", outline(place, w, h))
        return
    page = pen.unflipped().sheet(96, 64)
    miniatures.breast(page)
    if state in ("right", "both"):
        small_pocket(moved(page, 25, 30), 17)
    if state in ("left", "both"):
        small_pocket(moved(page, 54, 30), 17)
    if state == "centre":
        small_pocket(moved(page, 32, 32), 32)
    if state == "none":
        ghost = "M{0} 30H{1}V52H{0}Z"
        miniatures.absent(page, ghost.format(25, 42) + ghost.format(54, 71), (33.5, 41), (62.5, 41))
    miniatures.sides(page)


def small_pocket(page: BoxPen, width: int) -> None:
    middle = width / 2
    page.path("o", f"M0 4V20C0 23 1 24 3 24H{width - 3}C{width - 1} 24 {width} 23 {width} 20V4Z")
    page.path("o", f"M-1 0H{width + 1}V6L{number(middle)} 11L-1 6Z")


# --- the form of a breast pocket ---


def breast_pocket(pen: BoxPen, place: Place) -> tuple[BoxPen, float, float]:
    """A pen in units with its origin at the pocket's upper corner, and the pocket's width and height."""
    if place.small:
        return moved(pen.sheet(96, 64), 20, 6), 56, 52
    return in_units(pen), round(pen.box.w), round(pen.box.h)


def outline(place: Place, w: float, h: float) -> str:
    """The edge of a breast pocket of the recorded form."""
    form = place.profile.get("chest_pocket_form", "patch")
    if form == "bellows":
        return strip_edge(w, h)
    if form == "welt":
        top = lip_top(place, h)
        return f"M0 {top + 3}L{w} {top}V{top + LIP}L0 {top + LIP + 3}Z"
    if form == "slant_zip":
        return f"M13 2L{w - 4} {h - 16}L{w - 15} {h - 6}L2 12Z"
    return patch_edge(w, h)


def patch_edge(w: float, h: float) -> str:
    return f"M0 0V{h - 9}Q0 {h} 9 {h}H{w - 9}Q{w} {h} {w} {h - 9}V0Z"


def strip_edge(w: float, h: float) -> str:
    """The folded strip under a bellows pocket, drawn in at the mouth."""
    return f"M5 0L-2 9V{h + 2}H{w + 2}V9L{w - 5} 0Z"


def lip_top(place: Place, h: float) -> int:
    """A welt lies a little below the region's top, or so high that the flap comes out under it."""
    if place.small:
        return 12
    return round(h * 0.14) if shows_mouth(place) else -8


def bag(page: BoxPen, w: float, h: float, *, mouth: bool = True) -> None:
    """A patch with rounded lower corners, stitched on; `mouth`: its upper hem is seen."""
    page.path("o", patch_edge(w, h))
    hem = f"M0 9H{w}" if mouth else ""
    page.path("t", f"M4 3V{h - 10}Q4 {h - 4} 10 {h - 4}H{w - 10}Q{w - 4} {h - 4} {w - 4} {h - 10}V3{hem}")


def shows_mouth(place: Place) -> bool:
    return place.profile.get("flap_shape", "") in FLAPLESS


@part("chest_pocket_form", "patch", layer=40, frame=WHOLE)
def patch(pen: BoxPen, place: Place) -> None:
    page, w, h = breast_pocket(pen, place)
    bag(page, w, h, mouth=shows_mouth(place))


@part("chest_pocket_form", "patch_pleat", layer=40, frame=WHOLE)
def pleated(pen: BoxPen, place: Place) -> None:
    """A patch with a box pleat down its middle."""
    page, w, h = breast_pocket(pen, place)
    bag(page, w, h, mouth=shows_mouth(place))
    middle, half = w / 2, max(5, w * 0.09)
    left, right, foot = number(middle - half), number(middle + half), number(h - 0.5)
    page.path("b", f"M{left} 0V{foot}H{right}V0Z")
    page.path("f", f"M{number(middle)} 0V{foot}")
    page.path("t", f"M{number(middle - half + 3)} 2V{h - 4}M{number(middle + half - 3)} 2V{h - 4}")


@part("chest_pocket_form", "bellows", layer=40, frame=WHOLE)
def bellows(pen: BoxPen, place: Place) -> None:
    """A patch that stands on a folded strip: the fold shows at both sides and below, mitred at the corners."""
    if place.small:
        page = pen.sheet(96, 64)
        standing_out(page)
        page.path("o", "M12 13H60V28L36 34L12 28Z")
        page.circle("b", 36, 27, 2.5)
        return
    page, w, h = breast_pocket(pen, place)
    expanding(page, w, h, mouth=shows_mouth(place))


def standing_out(page: BoxPen) -> None:
    """The small picture: the pocket drawn off the cloth, so that the folds of its strip open."""
    page.path("f", "M4 4V62M92 4V62")
    page.path("o", "M14 14H58L62 10L66 13L70 8L74 11L80 6V48L74 54L70 50L66 56L62 53L58 60H14Z")
    page.path("e", "M62 10V53M66 13V56M70 8V50M74 11V54")
    page.path("o", "M14 14H58V60H14Z")
    page.path("t", "M18 21H54M18 18V56H54V18")


def expanding(page: BoxPen, w: float, h: float, *, mouth: bool) -> None:
    page.path("o", strip_edge(w, h))
    page.path("f", f"M3 6V{h - 3}H{w - 3}V6")
    page.path("e", f"M7 {h - 8}L-2 {h + 2}M{w - 7} {h - 8}L{w + 2} {h + 2}")
    page.path("o", f"M5 0L8 9V{h - 8}H{w - 8}V9L{w - 5} 0Z")
    hem = f"M8 9H{w - 8}" if mouth else ""
    page.path("t", f"M12 11V{h - 12}H{w - 12}V11{hem}")


@part("chest_pocket_form", "welt", layer=40, frame=WHOLE)
def welted(pen: BoxPen, place: Place) -> None:
    """Set in: only the lip shows, stitched down at both ends; the bag behind it is felt, not seen."""
    page, w, h = breast_pocket(pen, place)
    top = lip_top(place, h)
    foot = top + LIP
    page.path("o", outline(place, w, h))
    page.path("t", f"M3 {top + 6}V{foot}M{w - 3} {top + 3}V{foot - 3}M4 {foot - 1}L{w - 4} {foot - 4}")
    if place.small:
        page.path("f", f"M4 {foot + 3}V{h - 5}Q4 {h} 9 {h}H{w - 9}Q{w - 4} {h} {w - 4} {h - 5}V{foot}")


@part("chest_pocket_form", "slant_zip", layer=40, frame=WHOLE)
def slanted(pen: BoxPen, place: Place) -> None:
    """Set in aslant, the upper end towards the front edge, closed by a zip between two folded edges."""
    page, w, h = breast_pocket(pen, place)
    x0, y0, x1, y1 = 8, 8, w - 10, h - 12
    page.path("o", outline(place, w, h))
    page.path("t", f"M{x0 + 6} {y0 - 11}L{x1 + 11} {y1 - 4}L{x1 - 6} {y1 + 11}L{x0 - 11} {y0 + 4}Z")
    hardware.chain(page, (x0, y0), (x1, y1), pitch=4.5, half=2.5)
    hardware.puller(moved(page, x0 + 4, y0 + 4), 1.2)
    if place.small:
        page.path("f", "M-18 -6V58M74 -6V58")
        page.path("u", f"M2 14V50Q2 54 8 54H48Q54 54 54 48V{h - 8}")


# --- flaps ---


def flap_place(pen: BoxPen, place: Place) -> tuple[BoxPen, float, float]:
    """A pen in units at the flap's upper corner, and the flap's width and height, before any point.

    Across the breast, flap and pocket have one region; the flap takes the top of it.
    """
    if place.small:
        return moved(pen.sheet(96, 64), 20, 14), 56, 24
    w, h = round(pen.box.w), pen.box.h
    return in_units(pen), w, round(min(h, w * 0.32) if h > w * 0.5 else h)


def lower_edge(shape: str, w: float, h: float, inset: float = 0) -> str:
    """From the right upper corner of a flap, down and along its lower edge to the left upper corner."""
    left, right, middle = inset - 2, w + 2 - inset, number(w / 2)
    foot = h - inset
    if shape == "point":
        return f"V{foot - 4}L{middle} {foot + 7}L{left} {foot - 4}V"
    if shape == "round":
        turn = max(4, 10 - inset)
        return f"V{foot - turn}Q{right} {foot} {right - turn} {foot}H{left + turn}Q{left} {foot} {left} {foot - turn}V"
    if shape == "scallop":
        a, b, high, tip = number(w * 0.32), number(w * 0.68), foot - 8, foot + 9
        down = f"V{foot + 1}C{right - 6} {high} {b} {high} {middle} {tip}"
        return f"{down}C{a} {high} {left + 6} {high} {left} {foot + 1}V"
    return f"V{foot}H{left}V"


@part("flap_shape", "square", "point", "scallop", "round", layer=42, frame=WHOLE)
def flap(pen: BoxPen, place: Place) -> None:
    """The flap over the pocket's mouth, a row of stitches inside its edge and one along the seam above."""
    page, w, h = flap_place(pen, place)
    shape = place.profile["flap_shape"]
    if place.small:
        under_flap(page, w)
    draw_flap(page, shape, w, h)


def draw_flap(page: BoxPen, shape: str, w: float, h: float) -> None:
    page.path("o", f"M-2 0H{w + 2}{lower_edge(shape, w, h)}0Z")
    page.path("t", f"M2 4H{w - 2}{lower_edge(shape, w, h, 4)}4")


def under_flap(page: BoxPen, w: float) -> None:
    """The upper part of the pocket, which runs out of the small picture."""
    page.path("e", f"M2 0V60M{w - 2} 0V60")
    page.path("t", f"M6 0V60M{w - 6} 0V60")


@part("flap_shape", "none", layer=42, frame=WHOLE)
def flapless(pen: BoxPen, place: Place) -> None:
    """An open mouth with its hem; on the flat the pocket itself shows it."""
    if not place.small:
        return
    page, w, _ = flap_place(pen, place)
    under_flap(page, w)
    page.path("o", f"M2 0C20 5 {w - 20} 5 {w - 2} 0V12H2Z")
    page.path("f", f"M2 0H{w - 2}")
    page.path("t", f"M2 11H{w - 2}")
    miniatures.absent(page, f"M-2 0V26H{w + 2}V0", (w / 2, 22), reach=6)


# --- how a flap is fastened ---


def fastening_place(pen: BoxPen, place: Place) -> tuple[BoxPen, float]:
    """A pen in units whose origin lies where one fastening sits on the flap, and the flap's width."""
    page, w, h = flap_place(pen, place)
    lower = {"point": 3, "scallop": 1}.get(place.profile.get("flap_shape", ""), -2)
    return moved(page, w / 2, h - 8 + lower), w


def small_closed(pen: BoxPen, place: Place) -> BoxPen:
    """For a fastening that shows on the closed flap: the origin is its middle."""
    page, w, h = flap_place(pen, place)
    under_flap(page, w)
    draw_flap(page, "square", w, h)
    return moved(page, w / 2, h - 10)


def small_lifted(pen: BoxPen) -> BoxPen:
    """For a fastening that hides: the flap is thrown up, its inside and the pocket's mouth are seen."""
    page = moved(pen.sheet(96, 64), 20, 26)
    under_flap(page, 56)
    page.path("o", "M2 0V8H54V0Z")
    page.path("o", "M0 0L-4 -22H60L56 0Z")
    page.path("f", "M0 0H56M1 -2L-1 -19H57L55 -2")
    return moved(page, 28, 0)


@part("flap_fastening", "button_exposed", layer=44, frame=WHOLE)
def buttoned(pen: BoxPen, place: Place) -> None:
    """A button on the pocket comes through a hole in the flap."""
    if place.small:
        spot = small_closed(pen, place)
        spot.path("e", "M0 -10V8")
        return hardware.buttons(spot, [(0, 0)], 6.5, holes=4)
    spot, _ = fastening_place(pen, place)
    spot.path("e", "M0 -7V6")
    return hardware.buttons(spot, [(0, 0)], 4.4)


@part("flap_fastening", "button_hidden", layer=44, frame=WHOLE)
def hidden(pen: BoxPen, place: Place) -> None:
    """The button holds a strip behind the flap: what shows is the row that sews the strip down."""
    if place.small:
        spot = small_lifted(pen)
        spot.path("b", "M-14 -3V-16H14V-3Z")
        spot.path("e", "M-6 -9H6")
        return hardware.buttons(spot, [(0, 22)], 7, holes=4)
    spot, w = fastening_place(pen, place)
    half = number(w * 0.2)
    spot.path("t", f"M-{half} 4V-8H{half}V4")
    return None


@part("flap_fastening", "stud", layer=44, frame=WHOLE)
def studded(pen: BoxPen, place: Place) -> None:
    """The cap of a press stud."""
    if place.small:
        return hardware.studs(small_closed(pen, place), [(0, -1)], 6.5)
    spot, _ = fastening_place(pen, place)
    return hardware.studs(spot, [(0, 0)], 4.4)


@part("flap_fastening", "hook_loop", layer=44, frame=WHOLE)
def taped(pen: BoxPen, place: Place) -> None:
    """Tape behind the flap at both ends, seen by its stitching."""
    if place.small:
        spot = small_lifted(pen)
        hardware.hook_tape(spot, -22, -15, 44, 9)
        return hardware.hook_tape(spot, -22, 14, 44, 10)
    spot, w = fastening_place(pen, place)
    for x in (6 - w / 2, w / 2 - 22):
        hardware.stitched_rect(spot, x, -7, 16, 8)
    return None


@part("flap_fastening", "open", layer=44, frame=WHOLE)
def unfastened(pen: BoxPen, place: Place) -> None:
    """Nothing holds the flap: neither it nor the pocket below carries anything."""
    if place.small:
        miniatures.absent(small_lifted(pen), "", (0, -11), (0, 22))
