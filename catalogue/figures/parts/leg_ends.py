"""How the legs of trousers end, and the second layers on their knees and seat."""

from catalogue.figures import miniatures
from catalogue.figures.closeups import hatch
from catalogue.figures.halves import closed
from catalogue.figures.parts import Place, part
from catalogue.figures.parts.trousers import WHOLE, moved, thighs, units
from catalogue.figures.pen import BoxPen

ENDS = {"front": ("leg_end_left",), "back": ("leg_end_back_left",)}
# The small picture is taken to be as wide as the end of a trouser leg.
LEG = 120


def leg_page(pen: BoxPen, place: Place, *, cut: bool = False) -> tuple[BoxPen, float]:
    """Units from the upper inner corner of the leg's end, and its width."""
    if not place.small:
        return units(pen), pen.box.w
    page = moved(pen.sheet(168, 112), 24, 20)
    if not cut:
        page.path("o", "M32 50C30 64 20 71 0 75C-16 78 -16 90 -4 90H92V50Z")
        page.path("e", "M-11 84H92")
        page.path("o", f"M-8 -40L0 58C40 62 84 61 {LEG} 54L{LEG - 3} -40")
    return page, LEG


def hem(page: BoxPen, w: float, *, rows: tuple[float, ...] = (42,)) -> None:
    page.path(
        "t", "".join(f"M0 {y + 3}C{w * 0.34:.0f} {y + 6} {w * 0.7:.0f} {y + 5} {w - 1:.0f} {y - 2}" for y in rows)
    )


@part("ankle", "plain", views=ENDS, layer=46, frame=WHOLE)
def plain_end(pen: BoxPen, place: Place) -> None:
    page, w = leg_page(pen, place)
    hem(page, w)
    page.path("f", "M30 4C34 16 34 26 32 36M92 0C88 12 88 22 90 34")


@part("ankle", "tab_button", views=ENDS, layer=46, frame=WHOLE)
def ankle_tab(pen: BoxPen, place: Place) -> None:
    """The tab draws the leg in; a second button waits for a looser fit."""
    page, w = leg_page(pen, place)
    hem(page, w, rows=(46,))
    if place.view == "back":
        return
    page.path("b", f"M{w - 2} 18L44 21Q36 28 44 36L{w - 1} 33Z")
    page.path("t", f"M{w - 3} 22L47 25Q42 28 47 32L{w - 3} 29")
    page.circle("b", 53, 28.5, 5)
    page.circle("e", 53, 28.5, 1.4)
    page.circle("b", 24, 30, 5)
    page.circle("e", 24, 30, 1.4)
    page.path("f", "M34 26C30 16 30 8 34 -2M40 38C36 42 36 46 38 50M54 16C60 8 62 2 62 -8")


@part("ankle", "cord", views=ENDS, layer=46, frame=WHOLE)
def ankle_cord(pen: BoxPen, place: Place) -> None:
    """A channel round the hem, gathered; the cord comes out of an eyelet at the outside seam."""
    page, w = leg_page(pen, place)
    hem(page, w, rows=(36, 47))
    folds = "".join(
        f"M{x} 34C{x + 3} 26 {x - 3} 18 {x} {6 - x % 5 * 2}" for x in range(14, 100, 24 if place.small else 14)
    )
    page.path("f", folds + "".join(f"M{x} 42L{x + 1} 48M{x + 5} 54V58" for x in range(10, 100, 12)))
    page.circle("b", w - 14, 41, 4)
    page.path("e", f"M{w - 14} 41C{w - 2} 46 {w + 6} 54 {w + 4} 64M{w - 14} 41C{w - 8} 50 {w - 6} 60 {w - 10} 66")
    page.path("k", f"M{w + 2} 62H{w + 7}V70H{w + 2}ZM{w - 13} 64L{w - 8} 65L{w - 9} 73L{w - 14} 72Z")


@part("ankle", "zip_gusset", views=ENDS, layer=46, frame=WHOLE)
def ankle_zip(pen: BoxPen, place: Place) -> None:
    """A zip up the outside seam, half open, with a wedge of cloth behind it."""
    page, w = leg_page(pen, place)
    hem(page, w)
    page.path("b", f"M{w - 13} 0L{w - 46} 59L{w} 54L{w - 8} 0Z")
    page.path("f", f"M{w - 14} 10L{w - 30} 56M{w - 11} 8L{w - 16} 55")
    along = range(4, 57, 5)
    page.path("e", "".join(f"M{w - 18 - y * 0.55:.0f} {y}L{w - 12 - y * 0.55:.0f} {y + 3}" for y in along))
    page.path("e", "".join(f"M{w - 18} {y}H{w - 11}" for y in range(-36, -4, 4)))
    page.path("t", f"M{w - 24} -38V0L{w - 54} 56")
    page.path(
        "b", f"M{w - 19} -8H{w - 10}L{w - 11} 1H{w - 18}ZM{w - 16} -4H{w - 13}L{w - 11} 13Q{w - 14} 17 {w - 18} 13Z"
    )


@part("ankle", "foot_loop", views=ENDS, layer=46, frame=WHOLE)
def foot_loop(pen: BoxPen, place: Place) -> None:
    """A strap under the foot, sewn to both seams inside the hem."""
    page, w = leg_page(pen, place)
    if place.small:
        page.path("b", "M12 56C14 102 104 102 106 54L96 55C92 92 26 92 23 57Z")
        hem(page, w)
        page.path("e", "M12 44L24 56M24 44L12 56M95 43L106 54M106 42L95 55")
        return
    page.path("b", f"M12 60C20 82 {w - 22} 80 {w - 14} 57L{w - 24} 58C{w - 30} 70 30 72 24 60Z")
    page.path("t", f"M18 60C26 77 {w - 27} 76 {w - 19} 58")
    hem(page, w)
    page.path("e", f"M12 48L24 58M24 48L12 58M{w - 24} 46L{w - 13} 56M{w - 13} 46L{w - 24} 56")


@part("ankle", "cut", views=ENDS, layer=46, frame=WHOLE)
def cut_short(pen: BoxPen, place: Place) -> None:
    """A frayed edge, and faintly the length that is gone."""
    page, w = leg_page(pen, place, cut=True)
    if not place.small:
        page.path("u", f"M-26 -224C-18 -160 -4 -40 0 58C40 62 80 61 {w - 2} 54L{w - 8} -230")
        page.path(
            "e",
            "".join(
                f"M{x} {-224 - x % 3 * 2}l".replace("l", f"L{x + 2} {-216 + x % 4 * 2}") for x in range(-20, 108, 9)
            ),
        )
        return
    page.path("o", "M-8 -40L-5 14L8 9L22 17L36 10L52 18L66 9L82 16L96 9L108 15L119 8L117 -40")
    page.path("e", "".join(f"M{x} {12 + x % 3}L{x + 2} {22 + x % 4 * 2}" for x in range(0, 118, 8)))
    # The bare leg in its shoe, and the length that is gone.
    page.path("e", "M30 20C34 40 36 56 34 72M90 18C88 40 88 56 90 72")
    page.path("o", "M34 66C30 72 20 74 0 78C-16 80 -16 90 -4 90H92V66Z")
    page.path("u", f"M-4 30L0 62H{LEG}V26")
    miniatures.scissors(pen.sheet(96, 64), 88, 36)


KNEES = {"front": ("knee_left",)}
SEAT = {"back": ("seat",)}
LEGS = ("trousers", "over-trousers")
# From the seam on the inside of the leg to the seam on its outside.
PANEL_TOP = "M-1 2C40 8 96 6 134 0"
PANEL_FOOT = "M9 104C46 110 100 108 138 101"
# A saddle over both halves of the seat, whose inner edges follow the legs.
SADDLE = "M0 6C34 6 70 14 86 44C94 88 84 130 48 154L12 152C9 134 6 127 0 127"
SADDLE_ROW = "M0 12C32 12 65 19 80 47C87 88 78 124 45 148L17 146"


class Knees:
    """One knee of the flat; in the small picture both, on legs that are seen from the fork down."""

    def __init__(self, pen: BoxPen, place: Place) -> None:
        self.pages = [units(pen)]
        if place.small:
            page = thighs(pen)
            self.pages = [page.within(x, 268, 90, 84) for x in (22, -146)]

    def path(self, kind: str, data: str) -> None:
        for page in self.pages:
            page.path(kind, data)


@part("reinforcement", "none", views=KNEES, classes=LEGS, layer=32, frame=WHOLE)
def no_second_layer(pen: BoxPen, place: Place) -> None:
    if place.small:
        page = Knees(pen, place)
        page.path("u", KNEE_PATCH)
        page.path("e", "M50 34L86 70M86 34L50 70")
    elif place.profile.get("ankle") != "cut":
        Knees(pen, place).path("f", "M26 30C50 40 76 42 96 36M108 54C90 62 70 62 54 57M36 70C50 75 62 76 74 74")


KNEE_PATCH = "M18 8Q66 14 114 6Q124 52 119 96Q72 102 26 97Q16 52 18 8Z"


@part("reinforcement", "self", views=KNEES, classes=LEGS, layer=32, frame=WHOLE)
def knee_patch(pen: BoxPen, place: Place) -> None:
    page = Knees(pen, place)
    page.path("o", KNEE_PATCH)
    page.path("t", "M24 14Q66 19 109 12Q117 52 113 90Q72 96 31 91Q22 52 24 14Z")


@part("reinforcement", "contrast", views=KNEES, classes=LEGS, layer=32, frame=WHOLE)
def knee_patch_of_another_cloth(pen: BoxPen, place: Place) -> None:
    """On paper and not on the garment's own cloth, with a hatch of its own."""
    page = Knees(pen, place)
    page.path("b", KNEE_PATCH)
    page.path("e", hatch(24, 14, 88, 78, 45, 22 if place.small else 8))
    page.path("t", "M22 12Q66 17 111 10Q120 52 115 92Q72 98 29 93Q20 52 22 12Z")


@part("reinforcement", "double", views=KNEES, classes=LEGS, layer=32, frame=WHOLE)
def doubled_knee(pen: BoxPen, place: Place) -> None:
    """A second panel from seam to seam, held by rows of stitches across it."""
    page = Knees(pen, place)
    page.path("e", PANEL_TOP + PANEL_FOOT)
    page.path(
        "t",
        "M0 7C40 13 96 11 134 5M2 28C42 36 98 34 135 27M4 52C44 60 98 58 136 51M7 76C46 83 98 81 137 75"
        "M9 99C46 105 100 103 138 96",
    )


def seat_page(pen: BoxPen) -> BoxPen:
    return moved(units(pen), pen.box.w / 2, 0)


@part("reinforcement", "self", views=SEAT, classes=LEGS, layer=32)
def seat_patch(pen: BoxPen, place: Place) -> None:
    page = seat_page(pen)
    page.path("o", closed(SADDLE))
    page.path("t", closed(SADDLE_ROW + "C13 138 8 121 0 121"))
    page.path("e", "M0 6V127")


@part("reinforcement", "contrast", views=SEAT, classes=LEGS, layer=32)
def seat_patch_of_another_cloth(pen: BoxPen, place: Place) -> None:
    page = seat_page(pen)
    page.path("b", closed(SADDLE))
    page.path("f", hatch(-70, 30, 140, 86, 45, 9))
    page.path("t", closed(SADDLE_ROW + "C13 138 8 121 0 121"))
    page.path("e", "M0 6V127")


@part("reinforcement", "double", views=SEAT, classes=LEGS, layer=32)
def doubled_seat(pen: BoxPen, place: Place) -> None:
    """The panel reaches from side seam to side seam."""
    page = seat_page(pen)
    page.path("e", "M-137 10C-80 28 80 28 137 10M-156 166C-110 180 -60 182 -16 172M156 166C110 180 60 182 16 172")
    page.path("t", "M-139 16C-80 34 80 34 139 16M-156 160C-110 174 -60 176 -15 166M156 160C110 174 60 176 15 166")
