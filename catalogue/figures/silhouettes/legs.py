"""Trousers and over-trousers from the front, from behind and opened at the waist."""

from collections.abc import Mapping

from catalogue.figures.halves import closed, strokes
from catalogue.figures.pen import Box, BoxPen, Pen
from catalogue.figures.silhouettes import silhouette

LEGS = ("trousers", "over-trousers")
SIZE, MIDDLE = (500, 570), 250
OUTLINE = "M0 44L82 38L87 68C106 112 114 160 112 214L102 520C82 530 52 532 30 526L8 236C6 224 3 218 0 216"
KNEES = "M96 348C84 356 70 358 58 354M34 344C44 352 54 354 62 350M92 366C82 372 72 372 64 370"


def page_of(pen: Pen) -> BoxPen:
    return pen.in_box(Box(MIDDLE, 0, 100, 100))


@silhouette(
    LEGS,
    "front",
    size=SIZE,
    regions={
        "waistband": (162, 36, 176, 34), "fly": (240, 70, 40, 132), "cloth": (150, 40, 200, 480),
        "side_pocket_left": (318, 74, 38, 96), "side_pocket_right": (144, 74, 38, 96),
        "thigh_left": (282, 212, 66, 92), "thigh_right": (152, 212, 66, 92),
        "knee_left": (276, 318, 76, 84), "knee_right": (148, 318, 76, 84),
        "leg_end_left": (276, 478, 80, 50), "leg_end_right": (144, 478, 80, 50),
        "pocket_corner_left": (340, 146, 16, 16), "pocket_corner_right": (144, 146, 16, 16),
        "outside_seam_left": (344, 180, 16, 290), "outside_seam_right": (140, 180, 16, 290),
    },
)  # fmt: skip
def front(pen: Pen, profile: Mapping[str, str]) -> None:
    page = page_of(pen)
    page.path("o", closed(OUTLINE))
    page.path("e", "M-87 68C-40 76 40 76 87 68M0 74V216" + strokes("M66 73L104 152"))
    page.path(
        "t",
        "M-86 62C-40 70 40 70 86 62M-84 46C-40 52 40 52 84 46" + strokes("M60 74L101 160M34 514C56 520 80 518 102 508"),
    )
    page.path("f", strokes(KNEES + "M12 236C28 252 44 262 60 266M20 222C40 232 60 236 76 234"))


@silhouette(
    LEGS,
    "back",
    size=SIZE,
    regions={
        "waistband_back": (162, 36, 176, 34), "seat": (170, 130, 160, 112), "cloth": (150, 40, 200, 480),
        "hip_pocket_left": (170, 92, 62, 72), "hip_pocket_right": (268, 92, 62, 72),
        "leg_left": (146, 250, 78, 220), "leg_right": (276, 250, 78, 220),
        "leg_end_back_left": (144, 478, 80, 50), "leg_end_back_right": (276, 478, 80, 50),
    },
)  # fmt: skip
def back(pen: Pen, profile: Mapping[str, str]) -> None:
    page = page_of(pen)
    page.path("o", closed(OUTLINE))
    page.path("e", "M-87 68C-40 62 40 62 87 68M0 64C2 110 -4 170 0 216" + strokes("M42 68L46 98"))
    page.path("t", "M-86 62C-40 56 40 56 86 62M4 64C6 110 0 170 4 214" + strokes("M34 514C56 520 80 518 102 508"))
    page.path("f", strokes("M12 236C24 248 36 254 52 256M94 372C82 366 70 366 60 370M36 380C46 374 56 374 64 378"))


@silhouette(
    LEGS,
    "inside",
    size=(500, 570),
    regions={
        "label": (262, 48, 62, 40), "back": (172, 84, 156, 130), "fly_inside": (232, 96, 44, 118),
        "side_seam_left": (338, 130, 18, 340), "side_seam_right": (144, 130, 18, 340),
        "pocket_bag_left": (282, 96, 56, 110), "pocket_bag_right": (162, 96, 56, 110), "cloth": (150, 40, 200, 480),
    },
)  # fmt: skip
def inside(pen: Pen, profile: Mapping[str, str]) -> None:
    """Turned inside out: the back of the waist stands up behind the front, the bags of the pockets show."""
    page = page_of(pen)
    page.path("o", closed("M0 22L84 28L88 68L0 74"))
    page.path("o", closed(OUTLINE.replace("M0 44L82 38L87 68", "M0 74C40 74 64 72 88 66L88 68")))
    page.path("e", strokes("M34 70C30 120 34 170 44 200C60 208 78 204 92 194L100 130"))
    page.path("e", "M0 74V216M22 72V150C20 180 10 194 0 200" + strokes("M96 150C104 200 104 240 100 300L92 526"))
    page.path("t", strokes("M90 160C98 200 98 240 94 300L86 526M34 514C56 520 74 520 90 514"))
