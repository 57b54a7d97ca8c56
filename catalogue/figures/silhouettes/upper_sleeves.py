"""One sleeve of an upper garment, lifted a little from the side that it is sewn to, and seen from without."""

from collections.abc import Callable, Mapping

from catalogue.figures.pen import Box, Pen
from catalogue.figures.silhouettes import silhouette
from catalogue.figures.upper_cuts import CUFFS_DRAWN_IN, CUTS, NO_SLEEVES

SIZE = WIDTH, HEIGHT = (340, 500)
# The body's side with a torn edge where the drawing ends; the sleeve; the armhole between them.
BODY = (
    "M150 14C148 50 122 96 84 150C76 200 74 250 78 296C62 300 52 290 40 296C28 302 18 294 10 298"
    "C2 260 16 220 8 180C2 150 16 110 9 80"
    "C6 60 12 40 10 22C50 6 110 2 150 14Z"
)
SLEEVE = (
    "M150 14C206 10 246 34 258 90C266 140 268 330 266 470C240 484 170 486 144 472"
    "C136 390 114 256 84 150C122 96 148 50 150 14Z"
)
# The same sleeve where a knitted or elastic cuff, narrower than itself, draws it in.
DRAWN_IN = (
    "M150 14C206 10 246 34 258 90C266 140 270 330 269 408C268 422 263 429 252 431L248 474C230 482 184 482 165 475"
    "L158 431C148 430 141 424 139 412C131 340 112 246 84 150C122 96 148 50 150 14Z"
)
HANGING = "M96 168C108 178 122 182 136 180M98 150C114 154 130 152 144 144"
REGIONS = {
    "upper_outer": (150, 84, 108, 108),
    "elbow": (136, 216, 128, 92),
    "lower": (152, 316, 108, 88),
    "cuff": (138, 404, 136, 76),
    "underarm": (52, 104, 72, 96),
    "sleeve_seam": (96, 186, 32, 200),
    "cloth": (84, 14, 200, 468),
}


def sleeve(flipped: bool) -> Callable[[Pen, Mapping[str, str]], None]:
    def draw(pen: Pen, profile: Mapping[str, str]) -> None:
        left = WIDTH - 100 if flipped else 0
        page = pen.in_box(Box(left, 0, 100, 100), flipped=flipped)
        page.path("o", BODY)
        page.path("e", "M66 174C58 210 58 254 62 297")
        if profile.get("sleeve_set") in NO_SLEEVES:
            page.path("f", SLEEVE)
            return
        page.path("o", DRAWN_IN if profile.get("cuff") in CUFFS_DRAWN_IN else SLEEVE)
        page.path("f", HANGING)

    return draw


def at_the_other_side(boxes: Mapping[str, tuple[float, float, float, float]]) -> dict:
    return {name: (WIDTH - x - w, y, w, h) for name, (x, y, w, h) in boxes.items()}


with_sleeves = tuple(garment for garment, cut in CUTS.items() if cut.sleeves)
silhouette(with_sleeves, "sleeve_left", size=SIZE, regions=REGIONS)(sleeve(flipped=False))
silhouette(with_sleeves, "sleeve_right", size=SIZE, regions=at_the_other_side(REGIONS))(sleeve(flipped=True))
