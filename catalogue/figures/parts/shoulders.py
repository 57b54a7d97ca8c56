"""What lies on the shoulders and across the throat of an upper garment.

Units of the flat: x from the middle line, y as upper_cuts counts it.
"""

from catalogue.figures import miniatures
from catalogue.figures.closeups import hatch
from catalogue.figures.halves import aslant, closed, corner_at, crop, mirrored
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

WHOLE = (0, 0, 100, 100)
SHOULDERS = {"front": ("shoulder_left",), "back": ("shoulder_left",)}
BUTTON = 3.2


def shoulder_page(pen: BoxPen, place: Place) -> BoxPen:
    """In the small picture, the shoulder from the collar to the head of the sleeve."""
    if not place.small:
        return corner_at(pen, 44, 98)
    page = crop(pen, 30, 84, 108)
    page.path("o", "M20 180L30 134C36 126 41 116 44 104C62 110 84 116 104 124C122 128 136 136 150 150L150 180Z")
    page.path("e", "M104 124C98 140 96 156 98 180")
    page.path("t", "M99 122C93 138 91 156 93 180")
    page.path("o", "M10 80L38 88C44 94 48 106 48 116C48 124 47 132 44 140C34 140 22 138 10 134Z")
    return page


@part("shoulder_strap", "none", frame=WHOLE, views=SHOULDERS, layer=54)
def bare_shoulder(pen: BoxPen, place: Place) -> None:
    page = shoulder_page(pen, place)
    if place.small:
        miniatures.absent(page, "M105 122L62 106L53 111L56 121L99 139", (78, 120), reach=6)


@part("shoulder_strap", "sewn_button", frame=WHOLE, views=SHOULDERS, layer=54)
def strap(pen: BoxPen, place: Place) -> None:
    """From the seam of the sleeve to the collar, pointed at the neck."""
    page = shoulder_page(pen, place)
    page.path("o", "M105 122L62 106L53 111L56 121L99 139Z")
    page.path("t", "M101 125L63 110L57 113L59 118L97 134Z")
    page.circle("b", 65, 115, BUTTON)
    if place.small:
        page.circle("k", 65, 115, 0.9)


@part("shoulder_strap", "slide", frame=WHOLE, views=SHOULDERS, layer=54)
def loop(pen: BoxPen, place: Place) -> None:
    """A short loop across the shoulder, held down at both its ends."""
    page = shoulder_page(pen, place)
    page.path("o", "M71 110L87 115L81 137L65 131Z")
    page.path("t", "M72 114L84 118M68 127L80 131")
    page.path("f", "M76 115L71 129")


@part("shoulder_strap", "chest_tab", frame=WHOLE, views={"front": ("chest_centre",)}, layer=54)
def chest_tab(pen: BoxPen, place: Place) -> None:
    """One tab on the middle of the breast, its foot sewn in, its point buttoned up."""
    if place.small:
        miniatures.breast(pen.sheet(96, 64))
        page = crop(pen, -70, 172, 136)
    else:
        page = corner_at(pen, -52, 206)
    page.path("o", "M-11 240L-11 204L0 196L11 204L11 240Z")
    page.path("t", "M-7 236L-7 206L0 201L7 206L7 236Z")
    page.path("e", "M-7 236L7 228M7 236L-7 228M-7 228L7 228")
    page.circle("b", 0, 209, BUTTON)


def throat_page(pen: BoxPen, place: Place) -> BoxPen:
    """In the small picture, the points of a collar that meet at the throat."""
    if not place.small:
        return corner_at(pen, -30, 126)
    page = crop(pen, -54, 110, 108)
    page.path("o", closed("M0 142L80 90L80 200L0 200"))
    page.path("e", "M-12 142L-12 200")
    page.path("t", "M-8 146L-8 200")
    leaf = "M1 143C16 134 30 120 38 100L70 100C66 124 64 144 58 164C38 163 16 154 1 143Z"
    page.path("o", leaf + mirrored(leaf))
    return page


@part("throat_tab", "none", frame=WHOLE, layer=62)
def no_throat_tab(pen: BoxPen, place: Place) -> None:
    page = throat_page(pen, place)
    if place.small:
        miniatures.absent(page, "M33 137H-23L-31 145L-23 153H33", (19, 145), reach=6)


def tab(page: BoxPen, tip: float) -> None:
    """From the wearer's left over to the right, in every garment."""
    page.path("o", f"M33 137L{tip + 8} 137L{tip} 145L{tip + 8} 153L33 153Z")
    page.path("t", f"M29 140L{tip + 9} 140L{tip + 4} 145L{tip + 9} 150L29 150Z")


@part("throat_tab", "button", frame=WHOLE, layer=62)
def throat_buttoned(pen: BoxPen, place: Place) -> None:
    page = throat_page(pen, place)
    tab(page, -31)
    page.circle("b", -17, 145, BUTTON)
    page.path("e", "M-24 145L-11 145")
    page.path("e", "M25 140L25 150")


@part("throat_tab", "hook_loop", frame=WHOLE, layer=62)
def throat_hook_and_loop(pen: BoxPen, place: Place) -> None:
    """The tab lifted a little at its end, so that the tape below it shows."""
    page = throat_page(pen, place)
    page.path("b", "M-34 136L-6 136L-6 154L-34 154Z")
    dots = "".join(f"M{x} {y}L{x + 2} {y + 2}" for x in range(-31, -8, 5) for y in (139, 144, 149))
    page.path("e", dots)
    tab(page, -16)


@part("throat_tab", "buckle", frame=WHOLE, layer=62)
def throat_buckled(pen: BoxPen, place: Place) -> None:
    page = throat_page(pen, place)
    tab(page, -32)
    page.path("b", "M-12 132L8 132L8 158L-12 158ZM-8 137L4 137L4 153L-8 153Z")
    page.path("e", "M4 145L-12 145")
    for x in (13, 19, -19):
        page.circle("k", x, 145, 1.1)


NECK = {"inside": ("neck_back",)}


def neck_page(pen: BoxPen, place: Place) -> BoxPen:
    """In the small picture, the inside of the neck and shoulders, the cloth hatched."""
    if not place.small:
        return corner_at(pen, -26, 108)
    page = crop(pen, -39, 96, 78)
    page.path("o", "M-54 116C-44 112 -34 104 -28 97C-20 111 20 111 28 97C34 104 44 112 54 116V170H-54Z")
    page.path("e", "M-32 101C-22 118 22 118 32 101")
    page.path("f", hatch(-38, 118, 76, 30, 45, 7))
    return page


def on_a_hook(page: BoxPen, place: Place) -> None:
    """In the small picture, the hook that the loop is hung on."""
    if place.small:
        page.path("b", "M-3 90V128C-3 137 12 137 12 128V121H8V128C8 132 1 132 1 128V90Z")


@part("hanger", "none", views=NECK, frame=WHOLE, layer=58)
def no_hanger(pen: BoxPen, place: Place) -> None:
    page = neck_page(pen, place)
    if place.small:
        miniatures.absent(page, "M-24 110C-24 132 24 132 24 110", (0, 124), reach=5)


@part("hanger", "tape", views=NECK, frame=WHOLE, layer=58)
def hanger_of_tape(pen: BoxPen, place: Place) -> None:
    """A flat woven tape: its ends turned in and sewn with a row each."""
    page = neck_page(pen, place)
    page.path("b", "M-24 110L-16 111C-14 122 14 122 16 111L24 110C24 132 -24 132 -24 110Z")
    page.path("f", "M-19 118C-10 128 10 128 19 118M-17 115C-9 124 9 124 17 115")
    page.path("e", "M-23 114L-16 115M23 114L16 115")
    on_a_hook(page, place)


@part("hanger", "self", views=NECK, frame=WHOLE, layer=58)
def hanger_of_cloth(pen: BoxPen, place: Place) -> None:
    """A folded strip of the garment's cloth, which its lines say, topstitched along its edge."""
    page = neck_page(pen, place)
    page.path("b", "M-25 110L-14 111C-13 119 13 119 14 111L25 110C25 134 -25 134 -25 110Z")
    page.path("t", "M-22 112C-21 130 21 130 22 112")
    page.path("f", "".join(f"M{x} {y}L{x + 8} {y - 8}" for x, y in WEAVE))
    page.path("e", "M-24 111L-14 116M-14 111L-24 116M24 111L14 116M14 111L24 116")
    on_a_hook(page, place)


@part("hanger", "cord", views=NECK, frame=WHOLE, layer=58)
def hanger_of_cord(pen: BoxPen, place: Place) -> None:
    """A round cord, twisted, its ends sewn into the seam."""
    page = neck_page(pen, place)
    page.path("b", "M-22 110L-18 110C-16 124 16 124 18 110L22 110C22 129 -22 129 -22 110Z")
    twist = "".join(aslant("M0 100L60 0", (x, y), (4, 0), (0, 4)) for x, y in TWIST)
    page.path("e", twist)
    on_a_hook(page, place)


WEAVE = ((-24, 120), (-19, 124), (-13, 127), (-6, 128), (2, 128), (9, 126), (15, 121))
TWIST = ((-20, 112), (-17, 116), (-13, 119), (-8, 121), (-3, 121), (3, 121), (8, 119), (13, 117), (17, 113))
