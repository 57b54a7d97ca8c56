"""The front closure: what holds the two fronts together, as far as its cover lets it show.

Drawn down the region `centre_front`. The wearer's left front lies on top, so the edge that is seen lies at the
viewer's left of the middle, on every garment; nothing here stands mirrored.
"""

from dataclasses import dataclass

from catalogue.figures import closure_pictures, hardware, miniatures
from catalogue.figures.hardware import in_units, moved, spread
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen, number

# Counted with the collar button; the last band has no upper end, so seven stand for it.
COUNTS = {"n4": 4, "n5": 5, "n6": 6, "n7": 7}
# States whose opening ends on the breast, so that the garment is pulled over the head.
SHORT = ("neck_buttons", "toggles", "neck_zip")
COVERED = ("fly", "flap_single", "flap_double")
# Half the width of a buttoned front edge, and how far a zip's stitches lie from its teeth.
HALF, BESIDE = 13.0, 10.0
# How much of a storm flap's foot is turned back.
TURNED = 28.0
# How far a buttonhole reaches to either side of its button's middle.
HOLE = 9.0


@dataclass(frozen=True)
class Opening:
    """Where a front opens, in units from the region's top: its middle line, its foot, and whether it ends there."""

    middle: float
    foot: float
    short: bool

    @classmethod
    def of(cls, pen: BoxPen, place: Place) -> "Opening":
        """A short opening ends well above the waist, and above a pocket across the breast."""
        if place.profile.get("front_closure") not in SHORT:
            return cls(pen.box.w / 2, pen.box.h, False)
        foot = pen.box.h * 0.36
        pocket = place.regions.get("chest_centre")
        if pocket and place.profile.get("chest_pockets") == "centre":
            foot = min(foot, pocket.y - 7 - pen.box.y)
        return cls(pen.box.w / 2, round(foot), True)


def is_covered(place: Place) -> bool:
    return place.profile.get("closure_cover") in COVERED


def last_under_flap(opening: Opening, place: Place) -> list[tuple[float, float]]:
    """The one place that a storm flap leaves to be seen, where its foot is turned back; none under a fly."""
    if place.profile.get("closure_cover") == "fly":
        return []
    return [(opening.middle - 8, opening.foot - 8)]


@part("front_closure", "buttons", "neck_buttons", layer=30, frame=(0, 0, 100, 100))
def buttoned(pen: BoxPen, place: Place) -> None:
    """Buttons down the edge, or none of them where they are covered."""
    if place.small:
        return closure_pictures.buttons(pen, place.profile["front_closure"] in SHORT)
    page, opening = in_units(pen.unflipped()), Opening.of(pen, place)
    edge(page, opening)
    if is_covered(place):
        return hardware.buttons(page, last_under_flap(opening, place), 4.6)
    if "front_buttons" not in place.profile or opening.short:
        row_of_buttons(page, opening, place)
    return None


def row_of_buttons(page: BoxPen, opening: Opening, place: Place) -> None:
    points = down_the_middle(opening, place)
    hardware.buttonholes(page, points, HOLE)
    hardware.buttons(page, points, 5)


def down_the_middle(opening: Opening, place: Place) -> list[tuple[float, float]]:
    """Where the buttons sit: on a full opening as many as are recorded."""
    if opening.short:
        places = spread(15, opening.foot - 17, 3 if opening.foot > 80 else 2)
    else:
        places = spread(15, opening.foot - 34, COUNTS.get(place.profile.get("front_buttons", ""), 5))
    return [(opening.middle, y) for y in places]


def edge(page: BoxPen, opening: Opening) -> None:
    """The edge of the upper front with its row of stitches, and the row that holds the facing."""
    left, right, foot = opening.middle - HALF, opening.middle + HALF, number(opening.foot)
    if opening.short:
        page.path("e", f"M{left} 0V{foot}H{right}V0")
        page.path("t", f"M{left + 3} 0V{foot}M{right - 3} 0V{foot}M{left} {opening.foot - 9:.0f}H{right}")
    else:
        page.path("e", f"M{left} 0V{foot}")
        page.path("t", f"M{left + 3} 0V{foot}M{right} 0V{foot}")


@part("front_closure", "zip", "neck_zip", layer=30, frame=(0, 0, 100, 100))
def zipped(pen: BoxPen, place: Place) -> None:
    """Teeth between two folded edges, stitches beside them, the slider at the top."""
    if place.small:
        return closure_pictures.zip_chain(pen, place.profile["front_closure"] in SHORT)
    page, opening = in_units(pen.unflipped()), Opening.of(pen, place)
    if not is_covered(place):
        return zip_line(page, opening.middle, 4, opening.foot, ends=opening.short)
    if not last_under_flap(opening, place):
        return edge(page, opening)
    top, foot = int(opening.foot - TURNED - 8), opening.foot - 1
    return zip_line(page, opening.middle - 4, top, foot, ends=opening.short, slider=False)


def zip_line(page: BoxPen, middle: float, top: float, foot: float, *, ends: bool, slider: bool = True) -> None:
    """`ends`: the zip ends on closed cloth, held by a square of stitches; else it runs out at the hem."""
    left, right, end = number(middle - 5), number(middle + 5), number(foot)
    outer_left, outer_right, below = number(middle - BESIDE), number(middle + BESIDE), number(foot + 5)
    if ends:
        page.path("e", f"M{left} {top}V{end}H{right}V{top}")
        page.path("t", f"M{outer_left} {top}V{below}H{outer_right}V{top}")
    else:
        page.path("e", f"M{left} {top}V{end}M{right} {top}V{end}")
        page.path("t", f"M{outer_left} {top}V{end}M{outer_right} {top}V{end}")
    hardware.chain(page, (middle, top + 2), (middle, foot - 2))
    if slider:
        hardware.puller(moved(page, middle, top + 6), 1.1)


@part("front_closure", "toggles", layer=30, frame=(0, 0, 100, 100))
def toggled(pen: BoxPen, place: Place) -> None:
    """A short opening, edge over edge, with bar buttons in cord loops across it."""
    if place.small:
        return closure_pictures.toggles(pen)
    page, opening = in_units(pen.unflipped()), Opening.of(pen, place)
    edge(page, opening)
    if is_covered(place):
        return hardware.buttons(page, last_under_flap(opening, place), 4.6)
    for y in spread(17, opening.foot - 20, 3 if opening.foot > 110 else 2):
        hardware.toggle(moved(page, opening.middle, y), 1.1)
    return None


@part("front_closure", "press_studs", layer=30, frame=(0, 0, 100, 100))
def studded(pen: BoxPen, place: Place) -> None:
    """Caps of press studs down the edge."""
    if place.small:
        return closure_pictures.studs(pen)
    page, opening = in_units(pen.unflipped()), Opening.of(pen, place)
    edge(page, opening)
    if is_covered(place):
        return hardware.studs(page, last_under_flap(opening, place), 4.6)
    return hardware.studs(page, [(opening.middle, y) for y in spread(16, opening.foot - 30, 6)], 5)


@part("front_closure", "hook_loop", layer=30, frame=(0, 0, 100, 100))
def taped(pen: BoxPen, place: Place) -> None:
    """The tape itself lies under the edge: what shows is its stitching."""
    if place.small:
        return closure_pictures.tapes(pen)
    page, opening = in_units(pen.unflipped()), Opening.of(pen, place)
    edge(page, opening)
    if is_covered(place):
        for x, y in last_under_flap(opening, place):
            hardware.hook_tape(page, x - 5, y - 20, 10, 26)
        return None
    for y in spread(12, opening.foot - 66, 5):
        hardware.stitched_rect(page, opening.middle - 7, y, 14, 26)


@part("front_closure", "ties", layer=30, frame=(0, 0, 100, 100))
def tied(pen: BoxPen, place: Place) -> None:
    """Two edges that do not overlap, held by bows of tape."""
    if place.small:
        return closure_pictures.bows(pen)
    page, opening = in_units(pen.unflipped()), Opening.of(pen, place)
    hardware.meeting_edges(page, opening.middle, opening.foot)
    left, right = opening.middle - 24, opening.middle + 24
    for y in spread(30, opening.foot - 60, 3):
        page.path("t", f"M{left} {y - 3:.0f}H{right}M{left} {y + 3:.0f}H{right}")
        hardware.bow(moved(page, opening.middle, y), 1.2)


@part("front_closure", "none", layer=30, frame=(0, 0, 100, 100))
def unclosed(pen: BoxPen, place: Place) -> None:
    """A liner's fronts hang side by side; where nothing opens, nothing is drawn."""
    if place.small:
        return closure_pictures.no_closure(pen)
    if "liner_fixing" in place.profile:
        opening = Opening.of(pen, place)
        hardware.meeting_edges(in_units(pen.unflipped()), opening.middle, opening.foot)


@part("front_buttons", *COUNTS, layer=29, frame=(0, 0, 100, 100))
def counted(pen: BoxPen, place: Place) -> None:
    """The buttons, where they show: so they are dashed where their number is not sure."""
    if not place.small:
        if place.profile.get("front_closure") == "buttons" and not is_covered(place):
            row_of_buttons(in_units(pen.unflipped()), Opening.of(pen, place), place)
        return
    count = COUNTS[place.profile["front_buttons"]]
    page = pen.unflipped().sheet(96, 64)
    body = moved(page, 34, 3, 1.04)
    miniatures.torso(body)
    body.path("e", "M-5 5V56.5")
    body.path("t", "M5 5V56.5")
    miniatures.collar(body)
    hardware.buttons(page, [(34, y) for y in spread(14, 57, count)], 2.7)
    page.text(77, 39, {4: "≤4", 7: "≥7"}.get(count, str(count)), size=20)


@part("front_buttons", *COUNTS, layer=33)
def felt(pen: BoxPen, place: Place) -> None:
    """Under a cover no button shows, but each presses a bump into the cloth over it."""
    if place.profile.get("front_closure") == "buttons" and is_covered(place):
        data = ""
        for x, y in down_the_middle(Opening.of(pen, place), place):
            top, foot = number(y - 6), number(y + 5)
            data += f"M{x - 6} {number(y)}C{x - 5} {top} {x + 3} {top} {x + 6} {number(y - 1)}M{x - 2} {foot}H{x + 3}"
        in_units(pen.unflipped()).path("f", data)
