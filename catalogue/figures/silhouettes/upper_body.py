"""Upper garments from the front, from behind, opened flat, and their sleeves.

Drawn as right halves: x counts from the middle line of the drawing, y from its top. The other half is the mirror image.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from catalogue.figures.halves import closed, mirrored, strokes
from catalogue.figures.pen import Box, BoxPen, Pen
from catalogue.figures.silhouettes import silhouette

WIDTH, MIDDLE = 500, 250
SHOULDER, UNDERARM = (122, 104), (117, 216)
NO_SLEEVES = ("removed", "none")
ARM = "M122 104C150 111 166 128 173 160L215 384C216 392 213 396 205 398L165 405C158 406 154 402 152 395L117 216Z"
ARM_FOLDS = "M150 232C158 246 166 254 178 258M168 262C176 266 186 266 194 262M140 190C142 204 147 214 154 222"
NECK_FRONT = "M0 122C20 120 38 104 44 78"
NECK_BACK = "M0 86C20 86 36 84 44 78"
SHOULDER_LINE = "C70 84 98 93 122 104C109 138 108 176 117 216"


@dataclass(frozen=True)
class Cut:
    """How long a garment is, how wide at the hem, where its waist lies, and whether it has sleeves at all."""

    hem: float
    wide: float
    waist: float
    sleeves: bool = True

    @property
    def side(self) -> str:
        """From the underarm to the hem and along it to the middle line."""
        soft = (self.hem - 216) / 3
        return (
            f"C116 {216 + soft:.0f} {self.wide - 6:.0f} {self.hem - soft:.0f} {self.wide} {self.hem - 8:.0f}"
            f"C{self.wide * 0.7:.0f} {self.hem:.0f} {self.wide * 0.4:.0f} {self.hem + 4:.0f} 0 {self.hem + 4:.0f}"
        )


CUTS = {
    "jacket": Cut(hem=432, wide=112, waist=398),
    "pullover": Cut(hem=486, wide=122, waist=352),
    "shirt": Cut(hem=476, wide=116, waist=344),
    "coat": Cut(hem=610, wide=140, waist=338),
    "waistcoat": Cut(hem=446, wide=112, waist=338, sleeves=False),
    "liner": Cut(hem=448, wide=112, waist=338),
}


def halves(pen: Pen) -> BoxPen:
    """Units of the drawing, x from the middle line."""
    return pen.in_box(Box(MIDDLE, 0, 100, 100))


def body(pen: Pen, cut: Cut, neck: str, profile: Mapping[str, str]) -> BoxPen:
    """Sleeves behind, the trunk over them, its seams and the stitches along them."""
    page = halves(pen)
    if cut.sleeves and profile.get("sleeve_set") not in NO_SLEEVES:
        for path in (ARM, mirrored(ARM)):
            page.path("o", path)
        page.path("f", ARM_FOLDS + mirrored(ARM_FOLDS))
        cuffs(page, profile.get("cuff", ""))
    page.path("o", closed(neck + SHOULDER_LINE + cut.side))
    return page


def cuffs(page: BoxPen, state: str) -> None:
    """The ends of the sleeves as far as they show at this size."""
    if state == "plain":
        page.path("t", strokes("M150 384C170 382 194 378 213 371"))
    elif state == "band_button":
        page.path("e", strokes("M146 366C168 364 190 360 209 353"))
        page.path("t", strokes("M147 372C168 370 190 366 210 359"))
        for x in (-196, 196):
            page.circle("b", x, 376, 3)
    elif state in ("tab_button", "tab_hook_loop"):
        page.path("o", strokes("M208 350L168 358L164 366L170 371L211 364Z"))
    elif state in ("elastic", "knitted"):
        page.path("e", strokes("M146 366C168 364 190 360 209 353M156 370L162 398M168 368L174 396"))
        page.path("e", strokes("M180 366L187 394M192 363L199 391M203 359L210 386"))


def hem_stitches(page: BoxPen, cut: Cut, profile: Mapping[str, str]) -> None:
    """A row above the hem, along its curve, where the cloth ends in a hem."""
    if profile.get("hem_finish") in ("band_button", "knitted", "elastic"):
        return
    low, wide = cut.hem - 8, cut.wide
    curve = f"C{wide * 0.4:.0f} {low:.0f} {wide * 0.7:.0f} {low - 4:.0f} {wide - 1} {low - 10:.0f}"
    page.path("t", strokes(f"M0 {low:.0f}{curve}"))


def trunk_folds(page: BoxPen, cut: Cut) -> None:
    """Where cloth gathers under the arms and hangs at one side."""
    low = cut.hem - 40
    hanging = f"M96 {low:.0f}C94 {low - 18:.0f} 95 {low - 34:.0f} 98 {low - 46:.0f}"
    page.path("f", f"M106 226C100 240 92 248 84 252M-104 232C-98 244 -90 250 -82 253{hanging}")


def front(cut: Cut) -> Callable[[Pen, Mapping[str, str]], None]:
    def draw(pen: Pen, profile: Mapping[str, str]) -> None:
        page = body(pen, cut, NECK_FRONT, profile)
        page.path("e", "M-44 78C-22 92 22 92 44 78M-44 78C-24 74 24 74 44 78")
        hem_stitches(page, cut, profile)
        trunk_folds(page, cut)

    return draw


def back(cut: Cut) -> Callable[[Pen, Mapping[str, str]], None]:
    def draw(pen: Pen, profile: Mapping[str, str]) -> None:
        page = body(pen, cut, NECK_BACK, profile)
        hem_stitches(page, cut, profile)
        trunk_folds(page, cut)

    return draw


def opened(cut: Cut) -> Callable[[Pen, Mapping[str, str]], None]:
    """Laid open, the inside up: the back in the middle, the fronts folded out to its sides."""

    def draw(pen: Pen, profile: Mapping[str, str]) -> None:
        page = halves(pen)
        low = cut.hem
        neck = "M0 86C18 86 30 84 38 78C58 84 78 93 94 104"
        armholes = "C86 138 88 182 100 216C112 182 116 140 124 104"
        fronts = f"C146 96 168 88 190 80C196 112 208 134 228 150L230 {low:.0f}"
        page.path("o", closed(f"{neck}{armholes}{fronts}C180 {low + 6:.0f} 60 {low + 6:.0f} 0 {low + 4:.0f}"))
        page.path("e", strokes(f"M100 216C104 290 104 {low - 60:.0f} 102 {low + 4:.0f}M204 146L206 {low + 2:.0f}"))
        stitches = f"M0 {low - 10:.0f}C80 {low - 10:.0f} 160 {low - 8:.0f} 229 {low - 14:.0f}"
        page.path("t", strokes(f"M210 148L212 {low:.0f}{stitches}"))

    return draw


def sleeve(pen: Pen, profile: Mapping[str, str]) -> None:
    """The outer side of one sleeve, its head at the top."""
    if profile.get("sleeve_set") in NO_SLEEVES:
        return
    page = halves(pen)
    page.path("o", closed("M0 36C46 38 84 66 112 122C104 128 100 132 98 140L76 448C50 456 24 458 0 458"))
    page.path("t", strokes("M0 44C42 46 78 72 104 124"))
    page.path("f", "M-84 226C-66 240 -50 244 -34 240M-80 262C-60 268 -46 266 -30 258M82 234C68 246 56 250 44 248")


def front_regions(cut: Cut) -> dict[str, tuple[float, float, float, float]]:
    low, waist = cut.hem, cut.waist
    skirt = max(min(waist + 26, low - 128), 268)
    found = {
        "collar": (198, 50, 104, 74),
        "throat": (226, 96, 48, 28),
        "centre_front": (238, 122, 24, low - 122),
        "front_edge": (226, 122, 48, low - 122),
        "chest_centre": (198, 196, 104, 96),
        "waist": (134, waist, 232, 18),
        "hem": (250 - cut.wide, low - 26, 2 * cut.wide, 28),
        "cloth": (100, 70, 300, low - 70),
    }
    for side, at in (("left", 1), ("right", -1)):
        found |= {
            f"shoulder_{side}": beside(at, 46, 78, 74, 32),
            f"armhole_{side}": beside(at, 104, 100, 24, 118),
            f"chest_{side}": beside(at, 30, 168, 68, 76),
            f"chest_flap_{side}": beside(at, 30, 168, 68, 22),
            f"pocket_corner_{side}": beside(at, 86, 232, 14, 14),
            f"skirt_{side}": beside(at, 32, skirt, 68, min(92, low - skirt - 26)),
            f"side_seam_{side}": beside(at, 104, 222, 14, low - 250),
        }
    return found


def beside(at: int, x: float, y: float, w: float, h: float) -> tuple[float, float, float, float]:
    """A box that begins so far from the middle line, at the viewer's right (1) or left (-1)."""
    return (MIDDLE + x if at > 0 else MIDDLE - x - w), y, w, h


def back_regions(cut: Cut) -> dict[str, tuple[float, float, float, float]]:
    low = cut.hem
    found = {
        "yoke": (150, 92, 200, 46),
        "shoulder_blades": (158, 130, 184, 96),
        "collar": (198, 50, 104, 44),
        "hem": (250 - cut.wide, low - 26, 2 * cut.wide, 28),
        "centre_pleat": (236, 138, 28, 130),
        "waist_back": (134, cut.waist, 232, 18),
        "hem_centre": (226, low - 92, 48, 92),
        "cloth": (100, 70, 300, low - 70),
    }
    for side, at in (("left", -1), ("right", 1)):  # from behind
        found |= {
            f"side_pleat_{side}": beside(at, 84, 128, 26, 120),
            f"hem_side_{side}": beside(at, cut.wide - 26, low - 92, 26, 88),
            f"elbow_{side}": beside(at, 146, 226, 46, 66),
        }
    return found


def inside_regions(cut: Cut) -> dict[str, tuple[float, float, float, float]]:
    low = cut.hem
    found = {
        "neck_back": (226, 80, 48, 24),
        "label": (218, 106, 64, 36),
        "back": (156, 90, 188, low - 96),
        "waist_channel": (152, min(cut.waist, low - 40), 196, 18),
        "cloth": (20, 80, 460, low - 80),
    }
    for side, at in (("left", 1), ("right", -1)):
        found |= {
            f"front_{side}": beside(at, 110, 150, 90, low - 160),
            f"front_edge_{side}": beside(at, 206, 150, 24, low - 156),
            f"side_seam_{side}": beside(at, 94, 222, 16, low - 230),
            f"label_alt_{side}": beside(at, 124, 190, 56, 36),
        }
    return found


def quilting(cut: Cut, view: str) -> dict[str, tuple[float, float, float, float]]:
    """Where a liner's quilting is seen from outside: each front, or the whole back."""
    low = cut.hem - 132
    if view == "back":
        return {"quilting": (146, 116, 208, low)}
    return {"quilting_left": beside(1, 8, 116, 98, low), "quilting_right": beside(-1, 8, 116, 98, low)}


SLEEVE = {
    "upper_outer": (196, 96, 108, 110),
    "elbow": (186, 214, 128, 66),
    "lower": (184, 290, 132, 90),
    "cuff": (176, 404, 148, 54),
    "underarm": (146, 112, 50, 62),
    "sleeve_seam": (152, 180, 24, 250),
    "cloth": (140, 40, 220, 410),
}


def points(cut: Cut, neck: float) -> dict[str, tuple[float, float]]:
    found = {"neck_front": (MIDDLE, neck), "neck_back": (MIDDLE, 86.0)}
    for name, x, y in (
        ("neck", 44, 78), ("shoulder", *SHOULDER), ("underarm", *UNDERARM), ("waist", 114, cut.waist),
        ("hem", cut.wide, cut.hem - 8), ("cuff", 185, 398),
    ):  # fmt: skip
        found |= {f"{name}_right": (MIDDLE + x, y), f"{name}_left": (MIDDLE - x, y)}
    return found


for garment, a_cut in CUTS.items():
    size = (WIDTH, a_cut.hem + 16)
    before, behind = front_regions(a_cut), back_regions(a_cut)
    if garment == "liner":
        before |= quilting(a_cut, "front")
        behind |= quilting(a_cut, "back")
    silhouette((garment,), "front", size=size, regions=before, points=points(a_cut, 122))(front(a_cut))
    silhouette((garment,), "back", size=size, regions=behind, points=points(a_cut, 86))(back(a_cut))
    silhouette((garment,), "inside", size=size, regions=inside_regions(a_cut))(opened(a_cut))
    if a_cut.sleeves:
        for view in ("sleeve_left", "sleeve_right"):
            silhouette((garment,), view, size=(WIDTH, 480), regions=SLEEVE)(sleeve)
