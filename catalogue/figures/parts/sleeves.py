"""Cuffs, on a lifted sleeve and at the ends of the flat's sleeves, and what lets air in under the arm."""

from catalogue.figures import miniatures
from catalogue.figures.closeups import hatch, sheet
from catalogue.figures.halves import corner_at, steps_of, within_quad
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen
from catalogue.figures.upper_cuts import on_sleeve

WHOLE = (0, 0, 100, 100)
CUFFS = {
    "sleeve_left": ("cuff",),
    "sleeve_right": ("cuff",),
    "front": ("cuff_left",),
    "back": ("cuff_left",),
}


# Out of the sleeve in the small picture, so that it is not taken for a hem at the waist.
HAND = (
    "M58 20C61 10 67 4 76 4C81 5 80 11 76 12C73 13 72 17 73 21H88C92 21 92 27 88 27H78H91C95 27 95 33 91 33H79"
    "H90C94 33 94 39 90 39H78H85C89 39 89 45 85 45H70C66 45 62 45 58 44Z"
)


# The sleeve's end in the small picture, and where a cuff lies in each: its upper inner and outer corner, lower outer
# and inner corner; then the same of a sleeve that its cuff draws in.
END = "M0 -1C10 2 20 6 30 8L61 7C66 22 66 42 61 57L30 56C20 58 10 62 0 65"
END_DRAWN_IN = (
    "M0 -4C14 -3 26 -2 33 3C38 7 38 13 38 17L62 19C65 27 65 37 62 45L38 47C38 51 38 57 33 61C26 66 14 67 0 68"
)
SMALL = ((30, 56), (30, 8), (61, 7), (61, 57)), ((38, 47), (38, 17), (62, 19), (62, 45))
LIFTED = ((140, 430), (267, 429), (266, 470), (144, 472)), ((158, 431), (252, 431), (248, 474), (165, 475))


class Cuff:
    """Percent of a cuff, wherever it lies: (0, 0) its upper inner corner, (100, 100) its lower outer one."""

    def __init__(self, pen: BoxPen, place: Place, *, drawn_in: bool = False) -> None:
        self.on_flat = place.view in ("front", "back")
        self.radius = 4 if place.small else 4.4
        if place.small:
            self.page = sheet(pen)
            self.page.path("o", HAND)
            self.page.path("o", END_DRAWN_IN if drawn_in else END)
            self.page.path("f", "M0 22C7 23 11 26 13 30M0 44C6 43 10 41 12 38")
            self.quad = SMALL[drawn_in]
        elif self.on_flat:
            name = "drawn_cuff" if drawn_in else "cuff"
            self.page, self.quad = on_sleeve(name, pen, place.points, place.side)
        else:
            self.page = corner_at(pen, 138, 404)
            self.quad = LIFTED[drawn_in]

    def path(self, kind: str, data: str) -> None:
        self.page.path(kind, within_quad(data, self.quad, whole=self.on_flat))

    def button(self, x: float, y: float) -> None:
        [(_, [(left, top)])] = steps_of(within_quad(f"M{x} {y}", self.quad))
        self.page.circle("b", left, top, 2.6 if self.on_flat else self.radius)

    def fine(self, data: str) -> None:
        """Stitches that are too close together at the size of the flat."""
        if not self.on_flat:
            self.path("t", data)


@part("cuff", "plain", views=CUFFS, layer=44, frame=WHOLE)
def plain(pen: BoxPen, place: Place) -> None:
    Cuff(pen, place).path("t", "M1 58C34 72 66 70 98 56")


@part("cuff", "band_button", views=CUFFS, layer=44, frame=WHOLE)
def band(pen: BoxPen, place: Place) -> None:
    """A band that the sleeve is pleated into, its end over its beginning, and the slit above it."""
    cuff = Cuff(pen, place)
    cuff.path("e", "M0 3C34 14 66 14 100 3M66 12L66 108")
    cuff.fine("M1 15C34 26 66 26 99 15M3 92C34 104 66 104 98 92M72 20L72 102")
    cuff.path("e", "M66 10L66 -70M22 9L24 -34M34 12L35 -30")
    cuff.fine("M72 8L72 -74L60 -74L60 10")
    cuff.button(82, 60)
    cuff.path("e", "M76 60L90 59")


TAB, TAB_STITCHES = "M12 20L68 20L78 42L68 64L12 64Z", "M17 27L65 27L71 42L65 57L17 57Z"


@part("cuff", "tab_button", views=CUFFS, layer=44, frame=WHOLE)
def tab_buttoned(pen: BoxPen, place: Place) -> None:
    """A pointed tab, and a second button to draw it tighter."""
    cuff = Cuff(pen, place)
    cuff.path("t", "M2 80C34 92 66 92 98 78")
    cuff.path("o", TAB)
    cuff.fine(TAB_STITCHES)
    cuff.button(64, 42)
    cuff.path("e", "M57 42L71 42")
    if not cuff.on_flat:
        cuff.button(88, 41)


@part("cuff", "tab_hook_loop", views=CUFFS, layer=44, frame=WHOLE)
def tab_hook_and_loop(pen: BoxPen, place: Place) -> None:
    """A square tab that ends on the tape below it."""
    cuff = Cuff(pen, place)
    cuff.path("t", "M2 80C34 92 66 92 98 78")
    cuff.path("b", "M50 18L95 18L95 64L50 64Z")
    dots = [f"M{x} {y}L{x + 3} {y + 6}" for x in (72, 79, 86) for y in (24, 38, 52)]
    cuff.path("e", "".join(dots[1::3] if cuff.on_flat else dots))
    cuff.path("o", "M14 22L66 22L66 60L14 60Z")
    cuff.fine("M19 29L61 29L61 53L19 53Z")


# The folds of a sleeve above what draws it in.
GATHERED = "M14 -4L6 -34M34 2L30 -44M64 2L66 -46M86 -4L92 -36"


@part("cuff", "elastic", views=CUFFS, layer=44, frame=WHOLE)
def elastic(pen: BoxPen, place: Place) -> None:
    """Rows of stitches that hold the elastic, the cloth rucked between them."""
    if place.small:
        return frilled(sheet(pen))
    cuff = Cuff(pen, place, drawn_in=True)
    cuff.path("e", "M0 0C34 10 66 10 100 0")
    cuff.path("t", "M1 34C34 44 66 44 98 34M2 68C34 78 66 78 98 68")
    step = 14 if cuff.on_flat else 8
    cuff.path("e", "".join(f"M{x} 7Q{x + 5} 56 {x} {106 - abs(50 - x) / 8:.0f}" for x in range(9, 96, step)))
    cuff.path("f", GATHERED)
    return None


def frilled(page: BoxPen) -> None:
    """The small picture: a channel drawn in by its elastic, and the edge that stands out beyond it."""
    page.path("o", HAND)
    page.path(
        "o",
        "M0 -4C14 -3 26 -2 32 4C36 9 38 14 41 19C46 17 51 15 57 14C60 18 56 21 59 25"
        "C62 28 57 31 59 35C61 39 57 41 59 45C60 48 58 50 57 51C51 49 46 47 41 45C38 50 36 56 32 60C26 66 14 67 0 68",
    )
    page.path("t", "M40 19C43 28 43 37 40 45M47 17C50 28 50 37 47 47")
    page.path("e", "M38 22L52 20M41 27H55M41 32H53M41 37H55M38 42L52 44")
    page.path("f", "M36 14L22 8M38 22L20 18M40 32H16M38 42L20 46M36 50L22 56")


@part("cuff", "knitted", views=CUFFS, layer=44, frame=WHOLE)
def knitted(pen: BoxPen, place: Place) -> None:
    """A ribbed tube, narrower than the sleeve that is gathered on to it."""
    cuff = Cuff(pen, place, drawn_in=True)
    cuff.path("e", "M0 0C34 10 66 10 100 0")
    step = 13 if cuff.on_flat or place.small else 7
    cuff.path(
        "e",
        "".join(
            f"M{x} {8 - abs(50 - x) / 7:.0f}L{50 + (x - 50) * 0.97:.0f} {108 - abs(50 - x) / 7:.0f}"
            for x in range(7, 96, step)
        ),
    )
    cuff.path("f", GATHERED)


NET_SLEEVE, NET_BODY = "C104 146 112 174 118 198", "L56 198C62 168 76 140 98 118Z"
NET = (
    "M92 125L105 146M84 134L110 164M77 145L115 185M72 156L80 168M92 180L112 202"
    "M68 167L78 183M64 178L77 198M60 190L72 208"
    "M100 126L66 172M103 138L86 160M80 168L60 194M106 150L89 172"
    "M77 184L64 203M110 162L92 186M113 174L95 198M116 187L98 210"
)
UNDER_THE_ARM = {"sleeve_left": ("underarm",), "sleeve_right": ("underarm",)}
ON_FLAT = {"front": ("armhole_left",)}
EYELETS = ((62, 138), (66, 166), (106, 148), (104, 178))


def armpit(pen: BoxPen, place: Place) -> BoxPen:
    """In the small picture, a raised sleeve with the seam that joins it to the body."""
    if not place.small:
        return corner_at(pen, 52, 104)
    page = miniatures.raised_sleeve(pen)
    page.path("e", "M40 9C36 20 38 32 43 41")
    page.path("t", "M37 9C33 20 35 33 40 42")
    return page


# Two of the eyelets round the armpit, from near.
SMALL_EYELETS = ((64, 22), (29, 47))


@part("underarm_vent", "none", views=UNDER_THE_ARM, layer=46, frame=WHOLE)
def closed_armpit(pen: BoxPen, place: Place) -> None:
    page = armpit(pen, place)
    if place.small:
        miniatures.absent(page, "M30 34C26 20 44 14 62 20C72 28 56 34 48 40C44 50 32 50 30 34Z", (44, 31), reach=5)


@part("underarm_vent", "sewn_eyelets", views=UNDER_THE_ARM, layer=46, frame=WHOLE)
def sewn_eyelets(pen: BoxPen, place: Place) -> None:
    """Holes bound with thread: the stitches stand round each like rays."""
    page = armpit(pen, place)
    points, hole, start, end = (SMALL_EYELETS, 3, 4, 9) if place.small else (EYELETS, 2.6, 3, 7)
    rays = "".join(
        f"M{x + round(a * start)} {y + round(b * start)}L{x + round(a * end)} {y + round(b * end)}"
        for x, y in points
        for a, b in ((1, 0), (0.7, 0.7), (0, 1), (-0.7, 0.7), (-1, 0), (-0.7, -0.7), (0, -1), (0.7, -0.7))
    )
    page.path("e", rays)
    for x, y in points:
        page.circle("b", x, y, hole)


@part("underarm_vent", "metal_eyelets", views=UNDER_THE_ARM, layer=46, frame=WHOLE)
def metal_eyelets(pen: BoxPen, place: Place) -> None:
    """Set rings, flat and wide."""
    page = armpit(pen, place)
    points, ring, hole = (SMALL_EYELETS, 8, 4) if place.small else (EYELETS, 5.4, 2.4)
    for x, y in points:
        page.circle("b", x, y, ring)
        page.circle("k", x, y, hole)


@part("underarm_vent", "mesh_gusset", views=UNDER_THE_ARM, layer=46, frame=WHOLE)
def net_gusset(pen: BoxPen, place: Place) -> None:
    if place.small:
        page = armpit(pen, place)
        page.path("o", "M36 20L62 19C66 22 66 28 63 31C54 34 48 37 43 41C42 47 41 52 40 57C34 56 30 52 29 48Z")
        net = [hatch(*box, degrees, 4) for box in ((37, 21, 24, 12), (32, 35, 9, 18)) for degrees in (45, 135)]
        page.path("e", "".join(net))
        return
    page = armpit(pen, place)
    page.path("o", f"M98 118{NET_SLEEVE}L98 212C94 190 90 170 84 150C79 172 77 192 77 212{NET_BODY}")
    page.path("e", NET)


@part("underarm_vent", "zip", views=UNDER_THE_ARM, layer=46, frame=WHOLE)
def underarm_zip(pen: BoxPen, place: Place) -> None:
    """A zip from the seam of the armhole down the sleeve."""
    if place.small:
        page = armpit(pen, place)
        page.path("t", "M46 25L80 15L83 23L49 34Z")
        page.path("b", "M47 27L79 18L81 22L49 31Z")
        teeth = (f"M{51 + 3 * n} {27 - n * 0.85:.1f}L{52 + 3 * n} {29.5 - n * 0.85:.1f}" for n in range(9))
        page.path("e", "".join(teeth))
        page.path("k", "M46 27L51 26L52 31L47 32Z")
        return
    page = armpit(pen, place)
    page.path("b", "M96 128L108 122L124 196L110 200Z")
    page.path("t", "M91 128L105 205L130 198L113 117")
    teeth = "".join(f"M{99.5 + n * 1.9:.1f} {134 + n * 8}L{105.5 + n * 1.9:.1f} {132 + n * 8}" for n in range(8))
    page.path("e", teeth + "M102 128L117 198")
    page.path("k", "M99 126L106 124L108 132L101 134Z")
    page.path("b", "M102 134L106 133L109 150L104 151Z")


@part("underarm_vent", "sewn_eyelets", "metal_eyelets", views=ON_FLAT, layer=46)
def eyelets_on_the_flat(pen: BoxPen, place: Place) -> None:
    page = corner_at(pen, 90, 120)
    ring = "b" if place.profile.get("underarm_vent") == "sewn_eyelets" else "k"
    for x, y in ((105, 206), (111, 224), (126, 211)):
        page.circle(ring, x, y, 2)


@part("underarm_vent", "mesh_gusset", views=ON_FLAT, layer=46)
def net_on_the_flat(pen: BoxPen, place: Place) -> None:
    page = corner_at(pen, 90, 120)
    page.path("o", "M110 200C113 218 116 236 117 250L121 219L139 251C132 232 122 212 110 200Z")
    page.path("e", "M112 208L120 212M114 217L120 218M116 228L120 224M117 238L119 234M123 223L128 224M127 231L132 233")


@part("underarm_vent", "zip", views=ON_FLAT, layer=46)
def zip_on_the_flat(pen: BoxPen, place: Place) -> None:
    page = corner_at(pen, 90, 120)
    page.path("e", "M124 218L146 262M128 214L150 258M126 220L130 218M130 228L134 226M134 236L138 234M138 244L142 242")
