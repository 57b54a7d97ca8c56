"""Upper garments from the front and from behind."""

from collections.abc import Callable, Mapping

from catalogue.figures.halves import across, closed, strokes
from catalogue.figures.pen import BoxPen, Pen
from catalogue.figures.silhouettes import silhouette
from catalogue.figures.upper_cuts import (
    ARMHOLE,
    CUTS,
    HIP_JACKET,
    NECK_BACK,
    NECK_FRONT,
    SHOULDER,
    Cut,
    has_sleeves,
    is_hip_length,
)

Boxes = dict[str, tuple[float, float, float, float]]
BACK_NECK_SEEN = "M0 112C18 112 34 110 44 104C37 126 18 142 0 142"
ARMHOLE_SEAM = f"M104 124{ARMHOLE}"
DRAGS = "M124 226C118 238 110 246 100 250M127 232C134 238 142 240 150 239"


def trunk_and_sleeves(pen: Pen, cut: Cut, neck: str, profile: Mapping[str, str]) -> BoxPen:
    """One outline; the seam of the armhole where nothing is said about it."""
    page = cut.page(pen)
    sleeved = has_sleeves(cut, profile)
    page.path("o", closed(neck + SHOULDER + (cut.sleeve.fitting(profile) if sleeved else ARMHOLE) + cut.side))
    if profile.get("hem_finish") == "plain":
        page.path("t", across(cut.stitches))
    if "sleeve_set" not in profile:
        if sleeved:
            page.path("e", strokes(ARMHOLE_SEAM))
        else:
            page.path("t", strokes("M98 123C89 150 91 194 116 224"))
    return page


def front(cut: Cut) -> Callable[[Pen, Mapping[str, str]], None]:
    def draw(pen: Pen, profile: Mapping[str, str]) -> None:
        cut.page(pen).path("o", closed(BACK_NECK_SEEN))
        page = trunk_and_sleeves(pen, cut, NECK_FRONT, profile)
        sleeved = has_sleeves(cut, profile)
        page.path("f", strokes(DRAGS if sleeved else DRAGS[: DRAGS.index("M", 1)]))

    return draw


def back(cut: Cut) -> Callable[[Pen, Mapping[str, str]], None]:
    def draw(pen: Pen, profile: Mapping[str, str]) -> None:
        page = trunk_and_sleeves(pen, cut, NECK_BACK, profile)
        sleeved = has_sleeves(cut, profile)
        page.path("f", strokes(DRAGS if sleeved else DRAGS[: DRAGS.index("M", 1)]))
        if "collar" not in profile:
            page.path("t", across("M0 116C20 116 36 114 46 109"))

    return draw


def beside(cut: Cut, left: int, boxes: Mapping[str, tuple[float, float, float, float]]) -> Boxes:
    """Each box on both sides. `left`: 1 where the wearer's left lies at the viewer's right, else -1."""
    found = {}
    for name, (x, y, w, h) in boxes.items():
        for side, at in (("left", left), ("right", -left)):
            found[f"{name}_{side}"] = cut.box(x if at > 0 else -x - w, y, w, h)
    return found


def front_regions(cut: Cut) -> Boxes:
    skirt = min(cut.waist + 18, cut.hem - 100)
    found = {
        "collar": (-50, 60, 100, 100),
        "throat": (-30, 126, 60, 32),
        "centre_front": (-16, 142, 32, cut.hem - 142),
        "front_edge": (-30, 142, 60, cut.hem - 142),
        "chest_centre": (-52, 206, 104, 92),
        "waist": (-118, cut.waist - 9, 236, 18),
        "hem": (-cut.wide, cut.low - 32, 2 * cut.wide, 32),
        "cloth": (-234, 104, 468, cut.hem - 104),
    }
    return {name: cut.box(*box) for name, box in found.items()} | beside(
        cut,
        1,
        {
            "shoulder": (44, 98, 64, 34),
            "armhole": (90, 120, 40, 110),
            # Clear of the armhole's rows of stitches, which come in to 89 at its waist.
            "chest": (25, 180, 58, 72),
            "chest_flap": (25, 180, 58, 21),
            "pocket_corner": (70, 240, 16, 16),
            "skirt": (30, skirt, 74, min(100, cut.low - 40 - skirt)),
            "side_seam": (106, 230, 16, cut.low - 40 - 230),
            "cuff": cut.sleeve.cuff_box,
        },
    )


def back_regions(cut: Cut) -> Boxes:
    found = {
        "collar": (-50, 60, 100, 100),
        "yoke": (-104, 112, 208, 48),
        "shoulder_blades": (-92, 136, 184, 90),
        "centre_pleat": (-20, 112, 40, cut.waist - 122),
        "waist_back": (-118, cut.waist - 9, 236, 18),
        "hem": (-cut.wide, cut.low - 32, 2 * cut.wide, 32),
        "hem_centre": (-24, cut.hem - 96, 48, 96),
        "cloth": (-234, 104, 468, cut.hem - 104),
    }
    return {name: cut.box(*box) for name, box in found.items()} | beside(
        cut,
        -1,
        {
            "shoulder": (44, 98, 64, 34),
            "armhole": (90, 120, 40, 110),
            "side_pleat": (62, 112, 40, cut.waist - 122),
            "hem_side": (cut.wide - 30, cut.low - 84, 30, 84),
            "elbow": cut.sleeve.elbow_box,
            "cuff": cut.sleeve.cuff_box,
        },
    )


def quilting(cut: Cut, view: str) -> Boxes:
    """Where a liner's quilting is seen from outside: each front, or the whole back."""
    low = cut.low - 170
    if view == "back":
        return {"quilting": cut.box(-92, 144, 184, low + 6)}
    return beside(cut, 1, {"quilting": (14, 150, 82, low)})


def points(cut: Cut, *, left: int) -> dict[str, tuple[float, float]]:
    found = {"neck_front": cut.point(0, 142), "neck_back": cut.point(0, 111)}
    for name, x, y in (
        ("neck", 44, 104), ("shoulder", 104, 124), ("underarm", 121, 219), ("waist", 118, cut.waist),
        ("hem", cut.wide, cut.low), ("cuff", 208, 351),
    ):  # fmt: skip
        found |= {f"{name}_left": cut.point(left * x, y), f"{name}_right": cut.point(-left * x, y)}
    for name, (x, y) in cut.sleeve.points.items() if cut.sleeves else ():
        found |= {f"{name}_left": cut.point(left * x, y), f"{name}_right": cut.point(-left * x, y)}
    return found


def registered(garment: str, cut: Cut, when: Callable[[Mapping[str, str]], bool] | None = None) -> None:
    for view, drawn, regions, left in (("front", front, front_regions, 1), ("back", back, back_regions, -1)):
        boxes = regions(cut) | (quilting(cut, view) if garment == "liner" else {})
        silhouette((garment,), view, size=cut.size, regions=boxes, points=points(cut, left=left), when=when)(drawn(cut))


for garment, a_cut in CUTS.items():
    registered(garment, a_cut)
registered("jacket", HIP_JACKET, is_hip_length)
