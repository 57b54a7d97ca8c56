"""Collars and hoods: from the front, from behind, and standing up at the neck of a garment laid open.

Right halves: x from the middle line, y from the top of the region; the neck lies at (44, 44), its front at (0, 82) and
its back at (0, 51).
"""

from catalogue.figures.halves import across, closed, from_middle, mirrored, strokes
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import Box, BoxPen

VIEWS = {"front": ("collar",), "back": ("collar",), "inside": ("collar",)}
FRAME = (22, 2, 54, 81)
HOOD_FRAME = (31, 34, 38, 57)
LAYER = 60
NECK = "C-37 66 -18 82 0 82C18 82 37 66 44 44"
TO_NECK_BEHIND = "L44 44C34 49 18 51 0 51"


def half_of(pen: BoxPen, place: Place, *, hood: bool = False) -> BoxPen:
    """The pen for halves; in the small picture the shoulders are drawn first. A hood keeps below the sheet's edge."""
    page = from_middle(pen)
    if place.small:
        page.path("o", f"M44 44C30 54 -30 54 -44 44{NECK}")
        page.path("o", f"M-44 44{NECK}L120 70L120 150L-120 150L-120 70Z")
        return page
    room = pen.box.y + 0.82 * pen.box.h - 4
    needed = 1.36 * pen.box.h
    if hood and room < needed:
        flat = room / needed
        low = pen.box.y + 0.82 * pen.box.h
        return BoxPen(page.pen, Box(page.box.x, low - 0.82 * pen.box.h * flat, page.box.w, pen.box.h * flat))
    return page


@part("collar", "none", views=VIEWS, frame=FRAME, layer=LAYER)
def cut_edge(pen: BoxPen, place: Place) -> None:
    page = half_of(pen, place)
    if place.view in ("back", "inside"):
        page.path("e", across("M0 57C20 57 36 55 48 49"))
    else:
        page.path("e", across("M0 88C22 88 42 70 49 46"))
        page.path("t", across("M0 91C24 91 45 73 52 47"))


@part("collar", "stand", views=VIEWS, frame=FRAME, layer=LAYER)
def stand(pen: BoxPen, place: Place) -> None:
    page = half_of(pen, place)
    if place.view == "back":
        page.path("o", closed(f"M0 14C24 14 38 16 41 20{TO_NECK_BEHIND}"))
        page.path("t", across("M0 19C24 19 38 20 42 25") + across("M0 46C18 46 34 44 43 40"))
    elif place.view == "inside":
        page.path("o", closed(f"M0 20C22 20 38 16 52 8{TO_NECK_BEHIND}"))
        page.path("t", across("M0 25C22 25 38 21 50 14"))
    else:
        page.path("o", closed("M0 8C24 8 38 12 40 18C39 42 22 56 0 58"))
        page.path("f", across("M0 16C22 16 34 20 37 26"))
        front = "M0 82C18 82 37 66 44 44L40 18C39 42 22 56 0 58Z"
        page.path("o", front + mirrored(front))
        page.path("t", strokes("M3 62C22 60 38 48 41 28M3 78C17 77 34 63 41 44"))


def leaf_behind(page: BoxPen) -> None:
    page.path("o", closed("M0 25C20 25 33 27 40 34C49 42 55 53 58 66C40 72 18 75 0 75"))
    page.path("t", across("M0 70C18 70 36 68 53 62C50 53 45 45 38 38"))


def opened_leaf(page: BoxPen) -> None:
    """The collar turned up, its stand below."""
    page.path("o", closed(f"M0 4C26 4 46 0 64 -8L52 30{TO_NECK_BEHIND}"))
    page.path("e", across("M0 28C20 28 38 26 53 20"))
    page.path("t", across("M0 9C26 9 44 5 59 -1L51 22"))


def neck_within(page: BoxPen, place: Place, foot: str) -> None:
    """The inside of the back of a collar, and the seam by which it is set."""
    page.path("o", closed(f"M0 16C24 16 36 20 40 40{foot}"))
    page.path("e", across("M0 46C18 46 30 44 37 36"))
    if not place.small:
        page.path("t", across("M0 42C18 42 30 40 37 32"))


@part("collar", "fall", views=VIEWS, frame=FRAME, layer=LAYER)
def fall(pen: BoxPen, place: Place) -> None:
    page = half_of(pen, place)
    if place.view == "back":
        leaf_behind(page)
    elif place.view == "inside":
        opened_leaf(page)
    else:
        neck_within(page, place, "C30 58 16 74 0 82")
        leaves(page)


def leaves(page: BoxPen) -> None:
    leaf = "M1 83C16 74 34 58 38 40C39 28 34 19 22 16C42 17 54 30 58 48C62 66 62 84 58 102C38 102 16 94 1 83Z"
    page.path("o", leaf + mirrored(leaf))
    page.path("t", strokes("M10 82C30 91 42 96 54 97C57 82 57 66 53 50C50 36 46 28 40 23"))


@part("collar", "convertible", views=VIEWS, frame=(25, -4, 50, 75), layer=LAYER)
def convertible(pen: BoxPen, place: Place) -> None:
    """Worn open: the fronts turned back as lapels, a notch between them and the leaf."""
    page = half_of(pen, place)
    if place.view == "back":
        page.path("o", closed("M0 28C20 28 34 30 42 37C52 45 60 58 64 71C42 77 20 79 0 79"))
        page.path("t", across("M0 74C20 74 38 72 58 67C54 56 48 48 41 42"))
        page.path("e", "M0 28L0 79")
        return
    if place.view == "inside":
        opened_leaf(page)
        return
    neck_within(page, place, "C32 66 14 102 0 122")
    lapel = "M40 56C34 80 16 106 0 122C12 126 24 128 34 128C46 116 56 102 64 88L42 70Z"
    leaf = "M40 62C43 44 40 24 24 16C42 17 56 28 60 46L68 74C60 75 50 73 42 70Z"
    page.path("o", lapel + mirrored(lapel) + leaf + mirrored(leaf))
    if not place.small:
        page.path("t", strokes("M11 121C20 123 26 123 31 123C42 113 50 101 57 89L50 81M62 69L55 48C53 38 48 30 42 26"))


@part("collar", "hood_fixed", views=VIEWS, frame=HOOD_FRAME, layer=LAYER)
def hood_fixed(pen: BoxPen, place: Place) -> None:
    page = half_of(pen, place, hood=True)
    if place.view == "back":
        hood_behind(page)
        return
    if place.view == "inside":
        page.path("o", closed(f"M0 -50C32 -50 58 -36 60 -6C60 14 54 32 48 42{TO_NECK_BEHIND}"))
        page.path("e", strokes("M16 -48C22 -20 22 20 16 50"))
        page.path("t", across("M0 -43C30 -43 52 -30 54 -4C54 14 48 30 43 42"))
        return
    page.path("o", closed("M0 -54C38 -54 62 -26 62 6C62 26 54 38 46 46C38 68 18 84 0 86"))
    face(page, small=place.small)
    if place.small:
        page.path("t", across("M0 -44C32 -44 50 -16 50 14C50 44 30 66 8 81"))
    page.path("e", strokes("M17 73C24 90 16 102 20 116"))
    page.path("k", strokes("M18 115L23 115L22 126L17 126Z"))
    for x in (-17, 17):
        page.circle("b", x, 72, 0.03 * pen.box.w + 0.4)


def face(page: BoxPen, *, small: bool) -> None:
    """The opening of a raised hood, its channel, and the lining's seams within."""
    page.path("o", closed("M0 -36C26 -36 42 -12 42 14C42 42 22 64 0 78"))
    if not small:
        page.path("t", across("M0 -44C32 -44 50 -16 50 14C50 44 30 66 8 81"))
        page.path("f", strokes("M13 -33C20 -8 20 24 12 52M34 -8C30 10 30 30 22 48"))


def hood_behind(page: BoxPen) -> None:
    page.path("o", closed("M0 -54C38 -54 62 -26 62 6C62 26 54 38 44 45C32 52 16 54 0 54"))
    page.path("e", strokes("M18 -51C28 -20 28 20 20 52"))
    page.path("t", strokes("M22 -49C32 -20 32 20 24 50"))
    page.path("f", strokes("M54 30C48 34 42 36 36 35M56 20C50 24 44 26 40 25"))


@part("collar", "hood_button", views=VIEWS, frame=HOOD_FRAME, layer=LAYER)
def hood_buttoned_on(pen: BoxPen, place: Place) -> None:
    """The hood's neck band is buttoned over the collar, whose points show below it."""
    page = half_of(pen, place, hood=True)
    radius = 0.03 * pen.box.w + 0.4
    if place.view == "inside":
        opened_leaf(page)
        buttons, seat = ((0, 40), (18, 39), (34, 36)), ""
    elif place.view == "back":
        hood_behind(page)
        page.path("o", closed("M0 52C20 52 36 50 48 42L58 68C40 76 18 78 0 78"))
        page.path("t", across("M0 73C18 73 36 71 53 65"))
        seat = closed("M0 46C20 46 38 43 50 35L55 50C40 60 18 62 0 62")
        buttons = ((0, 54), (20, 53), (39, 47))
    else:
        page.path("o", closed("M0 -54C36 -54 58 -26 58 4C58 18 54 26 50 32L0 84"))
        face(page, small=place.small)
        leaf = "M1 83C20 76 36 54 42 36L54 34C60 50 62 78 57 104C38 104 16 96 1 83Z"
        page.path("o", leaf + mirrored(leaf))
        if not place.small:
            page.path("t", strokes("M14 86C30 94 42 98 53 99C56 84 56 70 54 58"))
        band = "M44 18L58 20C56 48 36 80 10 94L0 84C24 72 42 44 44 18Z"
        seat = band + mirrored(band)
        buttons = ((47, 48), (22, 80)) if place.small else ((50, 36), (38, 62), (17, 82))
    if seat:
        page.path("o", seat)
    for x, y in buttons:
        for at in {x, -x}:
            page.circle("b", at, y, radius)


def on_its_way_in(page: BoxPen) -> None:
    """A thick collar with a zip along it; the hood, dashed, and the way that it goes into the collar."""
    page.path("o", "M0 64C4 56 16 51 28 49H68C80 51 92 56 96 64Z")
    page.path("t", "M30 29C18 14 30 2 48 2C66 2 78 14 66 29M37 29C32 18 38 9 48 9C58 9 64 18 59 29")
    page.path("o", "M27 54C21 46 21 36 26 29C40 36 56 36 70 29C75 36 75 46 69 54C56 62 40 62 27 54Z")
    page.path("e", "M23 41C40 49 56 49 73 41M23 45C40 53 56 53 73 45M35 44V51M41 46V53M48 46V53M55 46V53M61 44V51")
    page.path("k", "M26 41H32V48H26ZM28 48H31V58H28ZM46 14H50V22H54L48 30L42 22H46Z")


@part("collar", "hood_stowed", views=VIEWS, frame=(0, 0, 100, 100), layer=LAYER)
def hood_stowed(pen: BoxPen, place: Place) -> None:
    """A thick stand collar: the hood is rolled inside it, behind a zip along its outer face."""
    if place.small:
        return on_its_way_in(pen.sheet(96, 64))
    page = half_of(pen, place)
    if place.view == "inside":
        page.path("o", closed(f"M0 12C24 12 44 8 58 -2C62 14 58 32 48 42{TO_NECK_BEHIND}"))
        page.path("f", across("M0 22C22 22 42 18 56 10"))
        page.path("t", across("M0 45C16 45 32 43 46 36"))
        return None
    if place.view == "back":
        page.path("o", closed("M0 2C30 2 48 8 52 22C55 36 52 46 46 52C32 60 16 62 0 62"))
        page.path("f", strokes("M10 12C24 13 36 16 44 22M14 22C26 23 36 25 46 30"))
        zip_round(page, across("M0 38C22 38 40 36 53 30"), across("M0 45C22 45 40 43 52 38"))
        page.path("t", across("M0 41C22 41 40 39 52 34"))
        page.path("b", "M-46 36L-40 37L-41 56L-46 55Z")
        return None
    page.path("o", closed("M0 2C26 2 42 6 46 16C42 42 22 56 0 60"))
    page.path("f", across("M0 12C24 12 36 17 40 24"))
    front = "M0 86C24 86 46 70 52 48C55 34 53 22 46 14C44 42 22 56 0 60Z"
    page.path("o", front + mirrored(front))
    page.path("f", strokes("M46 24C44 40 34 54 22 60"))
    zip_round(page, strokes("M54 32C52 54 32 70 18 73"), strokes("M53 42C48 60 34 73 18 79"))
    page.path("t", strokes("M53 37C50 57 33 72 18 76"))
    page.path("b", "M18 72L12 74L14 92L19 91Z")
    return None


def zip_round(page: BoxPen, above: str, below: str) -> None:
    page.path("e", above + below)
