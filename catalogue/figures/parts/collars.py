"""Collars and hoods, from the front and from behind, and the tab across the throat.

The box reaches from shoulder seam to shoulder seam and from the top of a raised collar to the front of the neck.
"""

from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

BOTH = {"front": ("collar",), "back": ("collar",)}
FRAME = (25, 34, 50, 58)
BACK_OF_NECK = "M8 38C16 10 34 2 50 2C66 2 84 10 92 38C80 62 66 70 50 70C34 70 20 62 8 38Z"
STAND_LINE = "M14 40C26 26 40 21 50 21C60 21 74 26 86 40"
LEAF_RIGHT = "M92 38C106 62 112 94 106 130C82 124 62 108 50 90C70 84 84 64 92 38Z"
LEAF_LEFT = "M8 38C-6 62 -12 94 -6 130C18 124 38 108 50 90C30 84 16 64 8 38Z"
LEAF_STITCHES = "M96 54C104 76 106 98 101 120C84 114 68 102 57 89M4 54C-4 76 -6 98 -1 120C16 114 32 102 43 89"


def shoulders(pen: BoxPen, place: Place) -> None:
    """In the small picture, the shoulders that the collar sits on."""
    if place.small:
        pen.path("o", "M8 38C-8 46 -26 52 -44 58V132H144V58C126 52 108 46 92 38C84 74 68 94 50 98C32 94 16 74 8 38Z")


def from_behind(pen: BoxPen, shape: str, lines: str = "") -> None:
    pen.path("o", shape)
    if lines:
        pen.path("t", lines)


@part("collar", "none", views=BOTH, frame=FRAME, layer=60)
def cut_edge(pen: BoxPen, place: Place) -> None:
    shoulders(pen, place)
    if place.view == "back":
        pen.path("t", "M6 56C24 66 76 66 94 56")
        return
    pen.path("t", "M2 46C12 84 30 104 50 107C70 104 88 84 98 46")


@part("collar", "stand", views=BOTH, frame=FRAME, layer=60)
def stand(pen: BoxPen, place: Place) -> None:
    shoulders(pen, place)
    if place.view == "back":
        from_behind(pen, "M8 52L12 6C30 -4 70 -4 88 6L92 52C66 60 34 60 8 52Z", "M13 14C30 4 70 4 87 14")
        return
    pen.path("o", "M11 10C26 -2 74 -2 89 10C74 24 26 24 11 10Z")
    pen.path("o", "M11 10C24 34 40 44 50 46V98C30 92 14 68 8 38Z")
    pen.path("o", "M89 10C76 34 60 44 46 46V98C70 94 86 68 92 38Z")
    pen.path("t", "M12 18C26 42 40 51 50 53M88 18C76 38 62 48 50 52")


@part("collar", "fall", views=BOTH, frame=FRAME, layer=60)
def fall(pen: BoxPen, place: Place) -> None:
    shoulders(pen, place)
    if place.view == "back":
        from_behind(pen, "M8 40C20 2 80 2 92 40L100 84C66 98 34 98 0 84Z", "M5 80C34 91 66 91 95 80")
        return
    pen.path("o", BACK_OF_NECK)
    pen.path("e", STAND_LINE)
    pen.path("o", LEAF_LEFT)
    pen.path("o", LEAF_RIGHT)
    pen.path("t", LEAF_STITCHES)


@part("collar", "convertible", views=BOTH, frame=(25, 24, 50, 48), layer=60)
def convertible(pen: BoxPen, place: Place) -> None:
    shoulders(pen, place)
    if place.view == "back":
        fall(pen, place)
        return
    pen.path("o", BACK_OF_NECK)
    pen.path("e", STAND_LINE)
    for lapel, leaf in (
        ("M17 66L-4 96L6 156L50 172C46 140 36 104 17 66Z", "M8 38C-4 52 -12 68 -14 82L12 92C26 84 20 62 8 38Z"),
        ("M83 66L104 96L94 156L50 172C54 140 64 104 83 66Z", "M92 38C104 52 112 68 114 82L88 92C74 84 80 62 92 38Z"),
    ):
        pen.path("o", lapel)
        pen.path("o", leaf)
    pen.path("t", "M1 98L11 150L44 163M99 98L89 150L56 163")


@part("collar", "hood_fixed", views=BOTH, frame=(27, 46, 46, 50), layer=60)
def hood_fixed(pen: BoxPen, place: Place) -> None:
    shoulders(pen, place)
    pen.path("o", "M4 50C-12 -10 12 -62 50 -64C88 -62 112 -10 96 50C84 84 68 100 50 102C32 100 16 84 4 50Z")
    if place.view == "back":
        pen.path("e", "M50 -64V102")
        pen.path("t", "M54 -62V100")
        return
    pen.path("o", "M19 44C10 4 26 -38 50 -40C74 -38 90 4 81 44C74 72 62 88 50 92C38 88 26 72 19 44Z")
    pen.path("f", "M26 40C20 8 32 -22 50 -24C68 -22 80 8 74 40")
    pen.path("t", "M14 46C4 4 22 -44 50 -46C78 -44 96 4 86 46C78 76 64 92 50 97")


@part("collar", "hood_button", views=BOTH, frame=(25, 38, 50, 54), layer=60)
def hood_buttoned_on(pen: BoxPen, place: Place) -> None:
    shoulders(pen, place)
    pen.path("o", "M-2 44C-8 0 20 -34 50 -36C80 -34 108 0 102 44C84 30 66 26 50 26C34 26 16 30 -2 44Z")
    pen.path("f", "M16 22C18 0 32 -16 50 -18C68 -16 82 0 84 22")
    fall(pen, Place(view=place.view))
    radius = min(3.2, 0.045 * pen.box.w)
    for x, y in ((22, 52), (36, 62), (50, 65), (64, 62), (78, 52)):
        pen.circle("b", x, y if place.view != "back" else y + 14, radius)


@part("collar", "hood_stowed", views=BOTH, frame=FRAME, layer=60)
def hood_stowed(pen: BoxPen, place: Place) -> None:
    shoulders(pen, place)
    if place.view == "back":
        from_behind(pen, "M-2 46C8 -6 92 -6 102 46C96 92 4 92 -2 46Z", "M4 56C24 76 76 76 96 56")
        pen.path("e", "M2 50C24 70 76 70 98 50")
        return
    pen.path("o", "M-2 44C0 6 26 -8 50 -8C74 -8 100 6 102 44C94 88 72 104 50 106C28 104 6 88 -2 44Z")
    pen.path("o", "M18 42C24 22 38 15 50 15C62 15 76 22 82 42C74 64 62 71 50 72C38 71 26 64 18 42Z")
    pen.path("e", "M6 56C16 78 32 88 50 89C68 88 84 78 94 56M9 52C20 74 34 83 50 84C66 83 80 74 91 52")
    pen.path("f", "M8 30C14 14 26 4 38 0M92 30C86 14 74 4 62 0")


@part("throat_tab", "button", layer=62, frame=(20, 25, 60, 50))
def throat_buttoned(pen: BoxPen, place: Place) -> None:
    throat(pen, place)
    pen.circle("b", 20, 50, min(3.4, 0.07 * pen.box.w))
    pen.circle("b", 84, 50, min(3.4, 0.07 * pen.box.w))


@part("throat_tab", "hook_loop", layer=62, frame=(20, 25, 60, 50))
def throat_hook_and_loop(pen: BoxPen, place: Place) -> None:
    throat(pen, place)
    pen.path("f", "M66 30L74 70M74 30L82 70M82 30L90 70M90 30L94 52M60 44L66 70")


@part("throat_tab", "buckle", layer=62, frame=(20, 25, 60, 50))
def throat_buckled(pen: BoxPen, place: Place) -> None:
    throat(pen, place)
    pen.rect("b", 40, 6, 26, 88, round=1.5)
    pen.path("e", "M53 6V94M53 50H80")


@part("throat_tab", "none", layer=62, frame=(20, 25, 60, 50))
def no_throat_tab(pen: BoxPen, place: Place) -> None:
    if place.small:
        pen.path("o", "M-20 -20H45V120H-20Z")
        pen.path("o", "M120 -20H45V120H120Z")
        pen.path("t", "M53 -20V120")


def throat(pen: BoxPen, place: Place) -> None:
    no_throat_tab(pen, place)
    pen.path("o", "M4 22H90C97 22 102 36 102 50C102 64 97 78 90 78H4Z")
    pen.path("t", "M8 32H88C92 32 96 40 96 50C96 60 92 68 88 68H8Z")
