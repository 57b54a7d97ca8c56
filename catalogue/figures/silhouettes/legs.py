"""Trousers and over-trousers: from the front, from behind, and opened flat with the inside of the seat in view."""

from collections.abc import Mapping

from catalogue.figures.halves import across, closed, strokes
from catalogue.figures.pen import Box, BoxPen, Pen
from catalogue.figures.silhouettes import silhouette

SIZE = (500, 640)
# Each half is drawn from the middle of the crotch outwards, in units from the line through the middle.
WAIST = "M0 26C40 26 84 24 116 18L120 42"
SIDE = "C140 84 151 124 155 170C159 220 165 440 167 612"
INSEAM = "C40 460 20 310 9 216C7 206 4 201 0 200"
HEM = "C130 619 84 620 47 616"
# The same trousers that somebody has cut off above the knee.
SHORT_SIDE = "C140 84 151 124 155 170C158 204 160 260 161 322"
SHORT_HEM = "L142 328L128 325L112 331L96 327L78 332L60 328L42 332L24 330"
SHORT_HEM_INSIDE = "L120 328L96 325L70 331L46 327L24 330"
SHORT_INSEAM = "C18 282 13 246 9 216C7 206 4 201 0 200"
STORM_SIDE = "C150 80 164 130 168 180C173 300 177 440 178 612"
STORM_SHORT_SIDE = "C150 80 164 130 168 180C170 224 171 270 172 322"
STORM_HEM = "C136 620 84 621 42 616"
STORM_INSEAM = "C36 460 20 310 9 224C7 214 4 210 0 209"

FRONT_REGIONS = {
    "cloth": (80, 12, 340, 608),
    "waistband": (130, 18, 240, 28),
    "fly": (238, 24, 48, 168),
    "side_pocket_left": (324, 42, 82, 98),
    "side_pocket_right": (94, 42, 82, 98),
    "thigh_left": (304, 232, 88, 104),
    "thigh_right": (108, 232, 88, 104),
    "knee_left": (276, 344, 136, 104),
    "knee_right": (88, 344, 136, 104),
    "leg_end_left": (297, 558, 120, 61),
    "leg_end_right": (83, 558, 120, 61),
    "pocket_corner_left": (385, 122, 20, 20),
    "pocket_corner_right": (95, 122, 20, 20),
    "outside_seam_left": (400, 180, 22, 370),
    "outside_seam_right": (78, 180, 22, 370),
}
BACK_REGIONS = {
    "cloth": (80, 12, 340, 608),
    "waistband_back": (130, 12, 240, 30),
    "seat": (152, 74, 196, 158),
    "hip_pocket_left": (150, 76, 72, 68),
    "hip_pocket_right": (278, 76, 72, 68),
    "leg_left": (92, 250, 120, 290),
    "leg_right": (288, 250, 120, 290),
    "leg_end_back_left": (83, 558, 120, 61),
    "leg_end_back_right": (297, 558, 120, 61),
}
INSIDE_REGIONS = {
    "cloth": (80, 12, 340, 608),
    "label": (217, 38, 66, 26),
    "back": (150, 78, 200, 130),
    "side_seam_left": (372, 240, 20, 340),
    "side_seam_right": (108, 240, 20, 340),
    "fly_inside": (404, 58, 52, 130),
    "pocket_bag_left": (352, 84, 60, 104),
    "pocket_bag_right": (88, 84, 60, 104),
}


def middle(pen: Pen) -> BoxPen:
    """A pen in units of the drawing, with x counted from the line through the middle."""
    return pen.in_box(Box(SIZE[0] / 2, 0, 100, 100))


def is_cut_short(profile: Mapping[str, str]) -> bool:
    return profile.get("ankle") == "cut"


def leg_folds(page: BoxPen, profile: Mapping[str, str]) -> None:
    """Where the cloth bends at the fork, and at the knee if there is one."""
    fork = "M12 206C34 196 58 194 84 200M14 226C30 220 44 219 58 222"
    knee = "M50 372C70 382 96 384 116 378M128 396C112 404 92 404 76 399M60 412C72 417 84 418 96 416"
    page.path("f", strokes(fork if is_cut_short(profile) or "reinforcement" in profile else fork + knee))


@silhouette(("trousers",), "front", size=SIZE, regions=FRONT_REGIONS)
def trousers_front(pen: Pen, profile: Mapping[str, str]) -> None:
    """With slanting side pockets, whose lower corners a bartack may hold."""
    page = middle(pen)
    if is_cut_short(profile):
        page.path("o", closed(WAIST + SHORT_SIDE + SHORT_HEM + SHORT_INSEAM))
    else:
        page.path("o", closed(WAIST + SIDE + HEM + INSEAM))
    back_waist = across("M0 20C40 20 84 20 116 18")
    page.path(
        "e", back_waist + across("M0 49C44 49 88 47 121 42") + strokes("M84 46C98 84 120 118 148 136") + "M0 49V200"
    )
    page.path("t", strokes("M78 47C92 88 116 124 149 143"))
    page.path("t", across("M0 45C44 45 88 43 119 38"))
    leg_folds(page, profile)


@silhouette(("trousers",), "back", size=SIZE, regions=BACK_REGIONS)
def trousers_back(pen: Pen, profile: Mapping[str, str]) -> None:
    """The seat seam, felled, and a dart in either half."""
    page = middle(pen)
    side, rest = (SHORT_SIDE, SHORT_HEM + SHORT_INSEAM) if is_cut_short(profile) else (SIDE, HEM + INSEAM)
    page.path("o", closed("M0 12C40 12 84 14 116 18L120 42" + side + rest))
    page.path("e", across("M0 37C44 37 88 39 120 42") + "M0 12V200" + strokes("M62 38L64 88"))
    page.path("t", across("M0 33C44 33 88 35 119 38") + "M6 37V203M-6 37V203")
    page.path("f", strokes("M12 210C34 224 62 226 92 216M16 232C34 242 52 243 70 238M120 130C128 150 132 172 132 196"))
    if not is_cut_short(profile):
        page.path("f", strokes("M48 378C70 372 96 372 120 380M62 396C78 392 92 392 106 396"))


def storm_rest(profile: Mapping[str, str]) -> str:
    """Over-trousers from the waistband down to the fork, whole or cut off."""
    if is_cut_short(profile):
        return STORM_SHORT_SIDE + SHORT_HEM + SHORT_INSEAM.replace("0 200", "0 209")
    return STORM_SIDE + STORM_HEM + STORM_INSEAM


@silhouette(
    ("over-trousers",),
    "front",
    size=SIZE,
    regions=FRONT_REGIONS
    | {"waistband": (120, 18, 260, 26), "leg_end_left": (292, 558, 136, 61), "leg_end_right": (72, 558, 136, 61)},
)
def over_trousers_front(pen: Pen, profile: Mapping[str, str]) -> None:
    """Wide and plain, to go over what is worn: no pockets, a felled seam down the front."""
    page = middle(pen)
    page.path("o", closed("M0 26C40 26 90 24 128 18L132 40" + storm_rest(profile)))
    page.path("e", across("M0 20C44 20 92 20 128 18") + across("M0 47C48 47 96 45 133 40") + "M0 47V209")
    page.path("t", across("M0 43C48 43 96 41 131 36"))
    page.path("f", strokes("M12 216C36 206 62 204 90 210M14 236C32 230 48 229 64 232M58 70C62 100 62 130 56 160"))
    if not is_cut_short(profile):
        page.path(
            "f", strokes("M52 372C74 384 104 386 126 379M138 398C120 408 96 408 78 402M104 470C112 510 116 530 116 552")
        )


@silhouette(
    ("over-trousers",),
    "back",
    size=SIZE,
    regions=BACK_REGIONS
    | {
        "waistband_back": (120, 12, 260, 28),
        "leg_end_back_left": (72, 558, 136, 61),
        "leg_end_back_right": (292, 558, 136, 61),
    },
)
def over_trousers_back(pen: Pen, profile: Mapping[str, str]) -> None:
    page = middle(pen)
    page.path("o", closed("M0 12C44 12 92 14 128 18L132 40" + storm_rest(profile)))
    page.path("e", across("M0 35C48 35 96 37 132 40") + "M0 35V209")
    page.path("t", across("M0 31C48 31 96 33 131 36") + "M6 36V212M-6 36V212")
    page.path("f", strokes("M12 220C36 234 66 236 98 226M66 70C72 104 72 134 64 164"))
    if not is_cut_short(profile):
        page.path(
            "f", strokes("M48 380C72 372 100 372 126 381M62 398C80 393 96 393 112 398M104 470C112 510 116 530 116 552")
        )


def opened_legs(page: BoxPen, profile: Mapping[str, str]) -> None:
    """The inside of the back: turnings along the seams, the hem turned up."""
    waist = "M0 30C40 30 84 32 118 40C134 84 142 130 142 176"
    if is_cut_short(profile):
        page.path("o", closed(waist + "C142 230 141 280 140 320" + SHORT_HEM_INSIDE + SHORT_INSEAM))
        page.path("e", strokes("M132 200C132 240 131 280 130 320M16 230C20 262 24 294 30 322"))
    else:
        page.path(
            "o", closed(waist + "C144 290 146 440 147 612C120 618 70 619 38 615C33 460 18 310 9 216C7 206 4 201 0 200")
        )
        page.path(
            "e", strokes("M134 204C135 330 137 450 138 588M47 588C42 450 27 320 17 226M146 588C118 594 72 595 37 591")
        )
        page.path("t", strokes("M146 592C118 598 72 599 38 595"))
        page.path("f", strokes("M52 372C74 382 98 384 120 378M62 412C76 418 92 418 106 414"))
    page.path("e", across("M0 58C42 58 86 60 124 68") + "M0 30V200" + strokes("M8 60L8 206"))
    page.path("t", across("M0 62C42 62 86 64 125 72") + strokes("M4 60L4 202"))
    page.path("f", strokes("M60 130C76 150 84 172 84 196M14 214C34 224 56 226 80 218"))


@silhouette(("trousers", "over-trousers"), "inside", size=SIZE, regions=INSIDE_REGIONS)
def opened_trousers(pen: Pen, profile: Mapping[str, str]) -> None:
    """Opened at the fly and laid flat: the inside of the seat between the two fronts, which are folded outwards."""
    page = middle(pen)
    opened_legs(page, profile)
    page.path("o", strokes("M118 40C150 26 184 26 212 42C216 92 198 146 142 196C143 130 134 84 118 40Z"))
    page.path("e", strokes("M124 68C154 54 184 54 213 68M190 59C191 104 178 144 152 180"))
    page.path("t", strokes("M125 72C154 58 184 58 213 72M194 62C195 106 182 146 158 180"))
    page.path("e", strokes("M136 64C140 92 142 120 146 146C150 154 164 152 170 142C178 122 180 90 178 57"))
    page.path("t", strokes("M141 64C145 92 147 118 150 142C153 148 161 146 166 139C173 120 176 90 174 60"))


@silhouette(
    ("over-trousers",),
    "inside",
    size=SIZE,
    regions=INSIDE_REGIONS
    | {
        "label": (217, 19, 66, 26), "fly_inside": (226, 48, 48, 150),
        "pocket_bag_left": (300, 70, 70, 104), "pocket_bag_right": (130, 70, 70, 104),
        "side_seam_left": (398, 190, 24, 380), "side_seam_right": (78, 190, 24, 380),
    },
    when=lambda profile: profile.get("fly", "none") == "none",
)  # fmt: skip
def pulled_on_inside(pen: Pen, profile: Mapping[str, str]) -> None:
    """Without an opening there is nothing to lay open: turned inside out, the back in view."""
    page = middle(pen)
    page.path("o", closed("M0 18C44 18 92 20 128 24L132 46" + storm_rest(profile)))
    page.path("e", across("M0 44C48 44 96 46 133 50") + "M0 18V209" + strokes("M8 46L8 216"))
    page.path("t", across("M0 40C48 40 96 42 132 46") + strokes("M4 46L4 212"))
    page.path("f", strokes("M66 80C72 110 72 134 64 164M14 224C38 236 66 238 96 228"))
    if is_cut_short(profile):
        page.path("e", strokes("M159 200C160 240 161 280 161 324M16 240C20 268 24 296 30 324"))
        return
    page.path(
        "e", strokes("M160 200C164 320 168 450 169 588M51 590C45 460 30 330 16 240M178 588C138 596 84 597 40 592")
    )
    page.path("t", strokes("M178 592C138 600 84 601 41 596"))
    page.path("f", strokes("M56 376C78 386 104 388 130 381M66 412C82 418 98 418 114 413"))
