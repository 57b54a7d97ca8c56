"""Hats with a brim: the brim is drawn apart from the crown, for it is what a record may give the width of."""

from collections.abc import Mapping

from catalogue.figures.halves import across, closed, strokes
from catalogue.figures.pen import Pen
from catalogue.figures.silhouettes import silhouette
from catalogue.figures.silhouettes.headgear import INSIDE, looked_into, page_of

SIZE, TOP = (500, 380), (500, 470)
CROWN = "M0 80C24 86 50 74 74 80C94 88 100 132 106 172C108 190 109 202 110 216"
SIDE_CROWN = "M0 76C30 84 66 70 96 80C116 90 122 134 126 172C128 190 129 202 129 216"


def brim_from_front(reach: float, *, side: bool = False) -> tuple[str, str, str]:
    """The brim round the foot of the crown, drooping to its tips: outline, binding, rows. `reach`: to the tip."""
    foot, join = (129, 222) if side else (110, 232)
    # How far the brim comes down towards the viewer, and how far its tips hang.
    fall = (reach - foot) * (0.28 if side else 0.36)
    low, tip = join + fall, 204 + fall * 0.7
    a, b = round(reach * 0.46), round(reach * 0.86)
    outline = (
        f"M0 {join}C{foot // 2} {join} {foot - 18} {join - 5} {foot} 216L{foot - 3} 194"
        f"C{foot + 20} 196 {reach - 22} {tip - 16:.0f} {reach - 2} {tip - 4:.0f}"
        f"Q{reach + 3} {tip + 2:.0f} {reach - 4} {tip + 6:.0f}C{b} {tip + 16:.0f} {a} {low:.0f} 0 {low:.0f}"
    )

    def row(by: int) -> str:
        end = f"{reach - 2 * by + 4} {tip + 5 - by * 0.7:.0f}"
        return across(f"M0 {low - by:.0f}C{a} {low - by:.0f} {b} {tip + 16 - by:.0f} {end}")

    return closed(outline), row(5), "".join(row(by) for by in range(11, int(fall) - 6, 7))


# The foot of a crown from above: half its width, and half its length from the face to the back of the head.
CROWN_WIDE, CROWN_LONG = 92, 112


def brim_from_above(reach: float) -> tuple[str, str, str]:
    """A ring round the crown, whose hole is drawn the other way round; its binding, its rows of stitches. `reach`: half
    its length."""
    hole = "M0 120C-51 120 -92 170 -92 232C-92 294 -51 344 0 344C51 344 92 294 92 232C92 170 51 120 0 120Z"
    turns = range(12, int(reach) - CROWN_LONG - 5, 15)
    return ring(reach) + hole, ring(reach - 6), "".join(ring(reach - by) for by in turns)


def ring(reach: float) -> str:
    """Half an oval, mirrored, everywhere as far from the foot of the crown. `reach`: half its length."""
    wide = reach - (CROWN_LONG - CROWN_WIDE)
    return closed(
        f"M0 {232 - reach:.0f}C{wide * 0.55:.0f} {232 - reach:.0f} {wide} {232 - reach * 0.55:.0f} {wide} 232"
        f"C{wide} {232 + reach * 0.55:.0f} {wide * 0.55:.0f} {232 + reach:.0f} 0 {232 + reach:.0f}"
    )


def draw_brim(page, view: str, *, narrow: bool) -> None:
    """The brim as a view shows it, on a page whose x is counted from the middle line."""
    if view == "top":
        outline, bound, rows = brim_from_above(166 if narrow else 216)
    elif view == "side_left":
        outline, bound, rows = brim_from_front(178 if narrow else 236, side=True)
    else:
        outline, bound, rows = brim_from_front(158 if narrow else 222)
    page.path("o", outline)
    page.path("e", bound)
    page.path("t", rows)


def body(pen: Pen, profile: Mapping[str, str], view: str, crown: str) -> None:
    page = page_of(pen)
    foot, top = (129, 120) if view == "side_left" else (110, 100)
    page.path("o", closed(crown + ("C112 226 60 230 0 230" if foot == 129 else "C96 234 52 240 0 240")))
    page.path(
        "e",
        across(f"M0 96C40 100 {top - 20} 96 {top - 5} 103")
        + across(f"M0 200C{foot * 0.5:.0f} 200 {foot - 20} 196 {foot - 5} 188"),
    )
    page.path(
        "t",
        across(f"M0 102C40 106 {top - 20} 102 {top - 5} 109")
        + across(f"M0 194C{foot * 0.5:.0f} 194 {foot - 20} 190 {foot - 6} 182"),
    )
    page.path("f", strokes(f"M{foot - 46} 120C{foot - 38} 140 {foot - 38} 158 {foot - 44} 176"))
    if "brim" not in profile:
        draw_brim(page, view, narrow=False)


@silhouette(
    ("hat",),
    "front",
    size=SIZE,
    regions={"brim_front": (26, 186, 448, 78), "chin": (150, 236, 200, 130), "cloth": (30, 70, 440, 192)},
)
def hat_front(pen: Pen, profile: Mapping[str, str]) -> None:
    body(pen, profile, "front", CROWN)


@silhouette(
    ("hat",),
    "side_left",
    size=SIZE,
    regions={
        "crown": (140, 106, 220, 80),
        "brim": (12, 186, 476, 66),
        "chin": (190, 226, 130, 140),
        "cloth": (20, 70, 460, 180),
    },
)
def hat_side(pen: Pen, profile: Mapping[str, str]) -> None:
    body(pen, profile, "side_left", SIDE_CROWN)
    page_of(pen).path("e", "M2 102V190")


@silhouette(
    ("hat",),
    "back",
    size=SIZE,
    regions={"back_seam": (234, 84, 32, 140), "brim_back": (26, 186, 448, 78), "cloth": (30, 70, 440, 192)},
)
def hat_back(pen: Pen, profile: Mapping[str, str]) -> None:
    body(pen, profile, "back", CROWN)
    page = page_of(pen)
    page.path("e", "M0 100V232")
    page.path("t", "M5 104V192M-5 104V192")


@silhouette(
    ("hat",),
    "top",
    size=TOP,
    regions={
        "brim_stitching": (54, 16, 392, 432),
        "crown_top": (180, 150, 140, 164),
        "cloth": (54, 16, 392, 432),
    },
)
def hat_top(pen: Pen, profile: Mapping[str, str]) -> None:
    """The wearer faces down the page."""
    page = page_of(pen)
    if "brim" not in profile:
        draw_brim(page, "top", narrow=False)
    page.path("o", closed("M0 120C51 120 92 170 92 232C92 294 51 344 0 344"))
    page.path("e", closed("M0 140C40 140 72 181 72 232C72 283 40 324 0 324") + "M-92 232H-72M72 232H92M0 120V140")
    page.path("t", closed("M0 147C36 147 65 185 65 232C65 279 36 317 0 317"))
    page.path("f", "M-8 186C-22 206 -26 244 -10 280M10 182C26 206 28 246 12 284")


@silhouette(("hat",), "inside", size=SIZE, regions=INSIDE | {"cloth": (20, 10, 460, 350)})
def hat_inside(pen: Pen, profile: Mapping[str, str]) -> None:
    """Turned up and looked into, with the underside of the brim all round."""
    page = page_of(pen)
    reach = 24 if profile.get("brim") == "narrow" else 52
    side, top, foot = 168 + reach, 40 - reach * 0.7, 306 + reach * 1.1

    def oval(by: int) -> str:
        width = side - by
        bend, above, below = round(width * 0.6), round(top + by), round(foot - by)
        return closed(f"M0 {above}C{bend} {above} {width} 92 {width} 172C{width} 252 {bend} {below} 0 {below}")

    page.path("o", oval(0))
    page.path("t", oval(8))
    looked_into(page)
