"""Peaks, flaps, vents and straps of caps, hats and hoods, and the brims of hats."""

from math import cos, pi, sin

from catalogue.figures import miniatures
from catalogue.figures.halves import across, closed
from catalogue.figures.parts import Place, part
from catalogue.figures.parts.trousers import WHOLE, moved, units
from catalogue.figures.pen import BoxPen
from catalogue.figures.silhouettes.hats import draw_brim
from catalogue.figures.silhouettes.headgear import PEAK

ROWS = {"r3": 3, "r5": 5, "r7": 7}


@part("peak_rows", *ROWS, layer=40, frame=WHOLE)
def stitched_peak(pen: BoxPen, place: Place) -> None:
    """The peak from the front, its rows of stitches even between the seam and the edge."""
    if place.small:
        page = moved(pen.sheet(348, 232), 174, 124)
        page.path("o", closed("M0 -120C90 -120 132 -70 122 26L0 6"))
        page.path("e", "M-123 0Q0 -24 123 0")
    else:
        page = moved(units(pen), pen.box.w / 2, 0)
    page.path("o", closed(PEAK))
    rows = ROWS[place.profile["peak_rows"]]
    data = ""
    for row in range(1, rows + 1):
        t = row / (rows + 0.7)
        bend = f"{50 + 10 * t:.0f} {8 + 84 * t:.0f} {98 + 8 * t:.0f} {13 + 58 * t:.0f}"
        data += across(f"M0 {8 + 86 * t:.0f}C{bend} {123 + 8 * t:.0f} {26 + 25 * t:.0f}")
    page.path("t", data)
    if place.small:
        page.text(0, -44, {3: "≤3", 5: "4–6", 7: "≥7"}[rows], size=15)


def cap_page(pen: BoxPen, place: Place) -> BoxPen:
    """Units from the upper corner of the side of the cap; the small picture shows the whole side."""
    if not place.small:
        return units(pen)
    page = moved(pen.sheet(480, 320), 196, 36)
    page.path("o", "M-54 136C-80 144 -118 166 -142 196Q-146 206 -134 208C-92 202 -52 186 -10 172Z")
    page.path("o", "M-56 168C-68 120 -64 50 -36 16C0 -20 124 -32 180 16C216 50 226 108 220 166C144 180 24 182 -56 168Z")
    page.path("e", "M-36 16C14 46 130 46 180 16M-59 116C24 130 140 128 221 110")
    return page


@part("ear_flaps", "none", layer=42, frame=WHOLE)
def no_flaps(pen: BoxPen, place: Place) -> None:
    page = cap_page(pen, place)
    if place.small:
        page.path("t", "M-56 160C24 174 144 172 220 158")
        miniatures.absent(page, "M6 175C14 204 42 262 86 262C140 262 172 204 168 171", (87, 214), reach=20)


@part("ear_flaps", "fold_down", layer=42, frame=WHOLE)
def flaps_folded_down(pen: BoxPen, place: Place) -> None:
    """Drawn let down; dotted, where the flap lies when it is folded up inside."""
    page = cap_page(pen, place)
    page.path("o", "M6 175C60 178 116 176 168 171C172 204 150 242 112 254C78 262 42 246 24 218C14 204 8 190 6 175Z")
    page.path("t", "M14 181C62 184 114 182 160 178C160 206 142 236 110 247C80 253 48 240 31 214C22 202 16 192 14 181Z")
    page.path("u", "M12 168C20 142 46 124 84 122C122 122 150 140 160 166")
    page.path("b", "M84 253C82 262 88 268 84 280L90 281C94 268 88 262 91 254")


@part("ear_flaps", "tie_top", layer=42, frame=WHOLE)
def flaps_tied_over(pen: BoxPen, place: Place) -> None:
    """Turned up over the side of the crown, its tape led to a bow on top."""
    page = cap_page(pen, place)
    page.path("o", "M-14 172C-20 134 6 94 66 80C82 77 96 78 108 82C162 98 186 134 180 168C116 178 48 178 -14 172Z")
    page.path("t", "M-5 166C-8 136 14 100 68 88C82 85 94 85 106 90C152 103 174 134 172 162C116 171 52 172 -5 166Z")
    page.path("b", "M81 79C78 54 74 20 72 -12L80 -13C83 20 87 54 90 78Z")
    page.path("b", "M76 -12C58 -34 34 -28 36 -17C38 -6 60 -4 76 -12C92 -34 116 -30 114 -19C112 -8 92 -4 76 -12Z")
    page.path("b", "M73 -11L54 12L60 16L77 -6L98 14L103 9L80 -12Z")


# A flap seen along its edge, from the front and from behind.
EDGE_ON = {"front": ("ear_left",), "back": ("ear_left",)}


@part("ear_flaps", "fold_down", views=EDGE_ON, layer=30)
def flap_hanging_edge_on(pen: BoxPen, place: Place) -> None:
    """Hanging behind the peak, or beside the back of the head."""
    page = moved(units(pen), -90, -110)
    page.path("o", "M121 244C133 266 136 304 126 332C118 350 101 352 95 336C91 318 91 282 91 250L121 244Z")
    page.path("t", "M119 262C127 282 128 306 119 328C114 338 105 340 102 331")


@part("ear_flaps", "tie_top", views=EDGE_ON, layer=30)
def flap_tied_edge_on(pen: BoxPen, place: Place) -> None:
    """Standing away from the crown; its tape along the crown to half a bow."""
    page = moved(units(pen), -90, -110)
    page.path("o", "M122 240C136 212 138 160 122 120L115 122C124 160 124 204 122 240Z")
    page.path("e", "M120 121C106 86 62 66 4 66M116 125C104 92 62 73 4 73")
    page.path("b", "M2 68C16 48 42 50 40 60C38 70 18 74 2 68Z")
    page.path("b", "M2 70L20 88L27 83L8 66Z")


def crown_page(pen: BoxPen, place: Place) -> BoxPen:
    """Units from the middle of the crown's side; the small picture comes near to the side panel."""
    if not place.small:
        return moved(units(pen), pen.box.w / 2, pen.box.h / 2)
    page = moved(pen.sheet(216, 144), 108, 90)
    page.path("o", "M-112 60C-106 -20 -88 -66 -50 -76C-20 -82 20 -82 50 -76C88 -66 106 -20 112 60Z")
    page.path("e", "M-93 -36C-40 -22 40 -22 93 -36")
    page.path("t", "M-95 -30C-40 -16 40 -16 95 -30M-111 36C-40 48 40 48 111 36")
    return page


# Where the two eyelets of a side lie, from the middle of the crown's side.
EYELETS = ((-36, -2), (36, -2))


@part("crown_vents", "none", layer=38, frame=WHOLE)
def no_vents(pen: BoxPen, place: Place) -> None:
    if place.small:
        rings = "".join(
            f"M{x - 22} -2C{x - 22} -31 {x + 22} -31 {x + 22} -2C{x + 22} 27 {x - 22} 27 {x - 22} -2" for x in (-36, 36)
        )
        miniatures.absent(crown_page(pen, place), rings, *EYELETS, reach=9)


@part("crown_vents", "sewn_eyelets", layer=38, frame=WHOLE)
def sewn_vents(pen: BoxPen, place: Place) -> None:
    """A hole bound with thread: the stitches stand out like rays."""
    page = crown_page(pen, place)
    near, far, rays = (5, 15, 14) if place.small else (3, 8, 9)
    data = ""
    for x, y in EYELETS:
        page.circle("b", x, y, near * page.box.w / 100)
        for turn in range(rays):
            a, b = cos(2 * pi * turn / rays), sin(2 * pi * turn / rays)
            data += f"M{x + near * a:.1f} {y + near * b:.1f}L{x + far * a:.1f} {y + far * b:.1f}"
    page.path("e", data)


@part("crown_vents", "metal_eyelets", layer=38, frame=WHOLE)
def metal_vents(pen: BoxPen, place: Place) -> None:
    """A set ring: two clean circles round a dark hole."""
    page = crown_page(pen, place)
    size = page.box.w / 100 * (1 if place.small else 0.6)
    for x, y in EYELETS:
        page.circle("b", x, y, 15 * size)
        page.circle("k", x, y, 8 * size)
    if place.small:
        page.path("f", "M-46 -6C-44 -12 -40 -14 -36 -14M26 -6C28 -12 32 -14 36 -14")


@part("crown_vents", "mesh", layer=38, frame=WHOLE)
def net_panel(pen: BoxPen, place: Place) -> None:
    page = crown_page(pen, place)
    page.path("o", "M-68 -20Q0 -6 68 -20L72 20Q0 34 -72 20Z")
    tops = {x: round(-13 - 7 * (x / 68) ** 2) for x in range(-60, 61, 12)}
    down = "".join(f"M{x} {top}V{top + 40}" for x, top in tops.items())
    page.path("e", down + "".join(f"M-70 {y}Q0 {y + 14} 70 {y}" for y in (-10, 0, 10)))
    page.path("t", "M-74 -26Q0 -12 74 -26M-78 26Q0 40 78 26")


BRIMS = {"front": ("brim_front",), "back": ("brim_back",), "side_left": ("brim",), "top": ("brim_stitching",)}


@part("brim", "narrow", "wide", views=BRIMS, layer=20, frame=WHOLE)
def brim(pen: BoxPen, place: Place) -> None:
    """In the small picture from the side, with the measure from the seam of the crown to the edge."""
    narrow = place.profile["brim"] == "narrow"
    if not place.small:
        # A brim is drawn in units of the whole drawing, for it lies round a crown that the body draws.
        draw_brim(moved(units(pen), 250 - pen.box.x, -pen.box.y), place.view, narrow=narrow)
        return
    page = moved(pen.sheet(486, 324), 243, -32)
    page.path("o", "M-129 216C-126 150 -122 94 -96 80C-66 70 -30 84 0 76C30 84 66 70 96 80C122 94 126 150 129 216Z")
    page.path("e", "M-126 194C-60 204 60 204 126 194")
    draw_brim(page, "side_left", narrow=narrow)
    tip = 178 if narrow else 236
    page.path(
        "e", f"M129 230V298M{tip} 250V298M129 284H{tip}M139 278L129 284L139 290M{tip - 10} 278L{tip} 284L{tip - 10} 290"
    )


HANGING = {"side_left": ("chin",), "front": ("chin",)}


def strap_page(pen: BoxPen) -> tuple[BoxPen, bool]:
    """Units over a strap 130 by 130 that hangs, or 130 by 44 that lies across: whether it hangs is asked of its box."""
    hangs = pen.box.h > pen.box.w * 0.6
    return pen.sheet(130, 130 if hangs else 44), hangs


def worn(pen: BoxPen) -> BoxPen:
    """The small picture: a head in a hat, with room for what goes under its chin."""
    page = pen.sheet(96, 64)
    page.path("o", "M32 16C31 34 32 46 38 51C44 57 52 57 58 51C64 46 65 34 64 16Z")
    page.path("f", "M44 42C46 44 50 44 52 42M48 28V35L45 36")
    page.path("k", "M40 27H43V30H40ZM53 27H56V30H53Z")
    page.path("o", "M31 16C30 4 38 1 48 1C58 1 66 4 65 16Z")
    page.path("o", "M14 19C30 11 66 11 82 19C66 24 30 24 14 19Z")
    return page


@part("chin_strap", "none", layer=48, frame=WHOLE)
def no_strap(pen: BoxPen, place: Place) -> None:
    if place.small:
        miniatures.absent(worn(pen), "M28 22C26 46 34 62 48 62C62 62 70 46 68 22", (48, 58), reach=5)


@part("chin_strap", "self", views=HANGING, layer=48, frame=WHOLE)
def cloth_strap(pen: BoxPen, place: Place) -> None:
    if place.small:
        page = worn(pen)
        page.path("b", "M26 21C24 50 34 63 48 63C62 63 72 50 70 21L63 22C65 46 58 56 48 56C38 56 31 46 33 22Z")
        page.path("t", "M29 23C28 48 36 59.5 48 59.5C60 59.5 68 48 67 23")
        page.path("b", "M60 36L74 38L73 48L59 46ZM63 39L71 40L70 45L62 44Z")
        return
    page, hangs = strap_page(pen)
    if not hangs:
        page.path("b", "M0 8C40 18 84 18 118 10Q130 18 121 28C84 36 40 36 0 26Z")
        page.path("t", "M2 13C40 23 84 23 116 15Q122 19 117 23C84 31 40 31 2 21")
        page.circle("b", 108, 20, 4 * page.box.w / 100)
        return
    page.path("b", "M4 10C8 70 28 118 64 122C102 120 122 70 126 10H112C108 62 92 104 64 108C38 104 22 62 18 10Z")
    page.path("t", "M8 12C12 70 32 114 64 118C98 114 118 66 122 12M14 12C18 64 36 108 64 112C94 108 112 62 116 12")
    page.path("b", "M90 74L120 86L112 108L82 96Z")
    page.path("e", "M95 81L112 88L108 100L91 93Z")


@part("chin_strap", "cord", views=HANGING, layer=48, frame=WHOLE)
def cord_strap(pen: BoxPen, place: Place) -> None:
    """A cord through a slider, its knotted ends below."""
    if place.small:
        page = worn(pen)
        page.path(
            "e", "M29 21C27 36 36 48 46 53M31 21C30 34 38 46 48 50M67 21C69 36 60 48 50 53M65 21C66 34 58 46 48 50"
        )
        page.path("b", "M43 48H53V56H43Z")
        page.path("e", "M46 56L42 61M50 56L54 61M44 52H52")
        page.path("k", "M41 59L45 61L43 64H39ZM52 61L56 59L58 64H54Z")
        return
    page, hangs = strap_page(pen)
    if not hangs:
        page.path(
            "e", "M0 14C30 24 50 22 62 20M0 19C30 29 50 27 62 25M130 14C100 24 80 22 68 20M130 19C100 29 80 27 68 25"
        )
        page.path("b", "M58 14H72V30H58ZM61 30C58 38 60 40 56 44M69 30C72 38 70 40 74 44")
        return
    page.path(
        "e", "M8 10C12 46 40 76 59 86M13 10C18 44 44 70 62 80M122 10C118 46 90 76 71 86M117 10C112 44 86 70 68 80"
    )
    page.path("b", "M56 78H74Q78 78 78 82V96Q78 100 74 100H56Q52 100 52 96V82Q52 78 56 78Z")
    page.path(
        "e",
        "M60 100C58 112 60 116 54 128M64 100C62 112 64 116 59 129"
        "M66 100C68 112 66 116 72 127M70 100C72 112 70 116 77 126",
    )
    page.path("k", "M52 124L62 128L58 136L48 132ZM69 126L79 122L83 130L73 134Z")


@part("chin_strap", "elastic", views=HANGING, layer=48, frame=WHOLE)
def elastic_strap(pen: BoxPen, place: Place) -> None:
    """A narrow band, puckered all along; in the small picture with the way it gives."""
    if place.small:
        page = worn(pen)
        page.path("b", "M27 21C25 50 36 62 48 62C60 62 71 50 69 21L63 22C65 46 58 56 48 56C38 56 31 46 33 22Z")
        page.path("e", puckers())
        page.path("e", "M22 50L8 58M15 59L7 58L11 52M74 50L88 58M81 59L89 58L85 52")
        return
    page, hangs = strap_page(pen)
    if not hangs:
        page.path("b", "M0 12C40 24 90 24 130 12V24C90 36 40 36 0 24Z")
        page.path(
            "e",
            "".join(f"M{x} {21 - abs(65 - x) / 9:.0f}L{x + 2} {33 - abs(65 - x) / 9:.0f}" for x in range(6, 128, 8)),
        )
        return
    page.path("b", "M8 10C12 74 32 112 64 116C98 112 118 74 122 10H111C107 66 92 100 64 104C38 100 24 66 19 10Z")
    data = ""
    for turn in range(1, 22):
        a, b = cos(pi * turn / 22), sin(pi * turn / 22)
        data += f"M{65 + 47 * a:.0f} {14 + 92 * b:.0f}L{64 + 56 * a:.0f} {15 + 101 * b:.0f}"
    page.path("e", data)


def puckers() -> str:
    """Strokes across a strap from hat to chin to hat, as elastic is rucked."""
    found = ""
    for turn in range(1, 24):
        a, b = cos(pi * turn / 24), sin(pi * turn / 24)
        found += f"M{48 + 15.5 * a:.0f} {22 + 34 * b:.0f}L{48 + 21 * a:.0f} {22 + 40 * b:.0f}"
    return found
