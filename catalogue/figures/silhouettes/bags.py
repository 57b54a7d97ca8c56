"""Bags: each form has its own front and back; the inside, the flap and the strap are seen from near."""

from collections.abc import Callable, Mapping

from catalogue.figures.halves import across, closed, strokes
from catalogue.figures.pen import Box, BoxPen, Pen
from catalogue.figures.silhouettes import silhouette

SIZE, NEAR = (500, 480), (500, 420)
# The front of each form, and its outline as the right half, in units from the middle line.
FRONTS = {
    "haversack": (100, 170, 300, 256),
    "rucksack": (126, 112, 248, 330),
    "holdall": (50, 196, 400, 210),
    "pouch": (160, 170, 180, 216),
    "sack": (150, 130, 200, 320),
}
OUTLINES = {
    "haversack": "M0 168C60 166 110 168 148 172L152 386C152 416 140 428 118 430C80 433 40 434 0 434",
    "rucksack": "M0 106C54 106 104 110 116 132C124 200 128 330 126 408C126 438 116 446 92 448C60 451 30 452 0 452",
    "holdall": "M0 194C80 192 150 194 178 204C198 226 204 290 202 356C200 396 190 404 166 408C110 412 50 413 0 413",
    "pouch": "M0 168C36 167 66 168 88 172L92 358C92 380 84 388 68 390C44 392 22 393 0 393",
    "sack": "M0 132C22 134 44 134 60 128C66 142 74 150 84 166C98 196 102 250 102 320L100 424C96 444 60 458 0 458",
}


def middle(pen: Pen) -> BoxPen:
    """Units of the drawing, with x counted from its middle line."""
    return pen.in_box(Box(250, 0, 100, 100))


def carried(page: BoxPen, form: str) -> None:
    """What each is carried by, behind its body."""
    if form == "haversack":
        page.path("o", across("M0 28C90 28 150 84 150 188") + "L140 190C138 96 84 42 0 42C-84 42 -138 96 -140 190Z")
        page.path("t", across("M0 35C88 35 144 90 145 186"))
    elif form == "rucksack":
        page.path(
            "o",
            strokes(
                "M56 112C110 110 160 150 166 220C168 300 160 360 132 412L118 410C142 350 148 300 146 230"
                "C142 176 104 140 60 138Z"
            ),
        )
        page.path("b", "M-26 108C-26 82 26 82 26 108H16C16 94 -16 94 -16 108Z")
    elif form == "holdall":
        page.path("o", "M-92 214C-92 90 92 90 92 214H78C78 106 -78 106 -78 214Z")
    elif form == "pouch":
        page.path("f", "M-160 186H160M-160 224H160")
        page.path("b", "M-62 160H-40V244H-62ZM40 160H62V244H40Z")


def front_of(page: BoxPen, profile: Mapping[str, str], form: str, *, small: bool = False) -> None:
    """On a page whose x is counted from the middle line. `small`: without what is too fine for a small picture."""
    if profile.get("bag_strap") != "none":
        carried(page, form)
    if form == "rucksack":
        page.path("o", strokes("M122 250C150 250 158 262 158 280L158 400C158 424 144 432 122 434Z"))
    page.path("o", closed(OUTLINES[form]))
    x, y, w, h = FRONTS[form]
    half, foot = w / 2, y + h
    bend = half - 14
    if not small:
        page.path("f", strokes(f"M{half - 24} {y + 60}Q{bend} {y + h // 2} {half - 22} {foot - 60}"))
    if form == "holdall":
        page.path("e", strokes("M150 196C162 240 162 360 150 409") + across("M0 214C60 213 120 214 152 218"))
        page.path("t", across("M0 208C60 207 120 208 150 212") + across("M0 220C60 219 120 220 153 224"))
        page.path("o", "M-92 190L-92 330H-74V190M92 190V330H74V190")
        page.path("t", "M-92 318H-74L-92 330M74 318H92L74 330")
    elif form == "sack":
        page.path("e", across("M0 166C30 170 60 166 84 166"))
        page.path(
            "f",
            strokes(
                "M8 136L6 164M22 136L20 164M38 135L38 164M52 134L58 164M14 172C16 190 16 206 14 224M48 172"
                "C56 190 60 206 60 222"
            ),
        )
    else:
        page.path("t", across(f"M0 {y + 8}C{half * 0.4:.0f} {y + 7} {half * 0.7:.0f} {y + 8} {half - 4} {y + 11}"))
        page.path(
            "e", across(f"M0 {foot - 24}C{half * 0.4:.0f} {foot - 23} {half * 0.8:.0f} {foot - 26} {half} {foot - 30}")
        )


def back_of(page: BoxPen, profile: Mapping[str, str], form: str) -> None:
    x, y, w, h = FRONTS[form]
    half, foot = w / 2, y + h
    page.path("o", closed(OUTLINES[form]))
    page.path("t", across(f"M0 {y + 8}C{half * 0.4:.0f} {y + 7} {half * 0.6:.0f} {y + 8} {half * 0.7:.0f} {y + 11}"))
    page.path(
        "e", across(f"M0 {foot - 44}C{half * 0.4:.0f} {foot - 43} {half * 0.8:.0f} {foot - 46} {half} {foot - 50}")
    )
    page.path(
        "f", strokes(f"M{half - 30} {y + 60}C{half - 20} {y + 90} {half - 20} {foot - 120} {half - 28} {foot - 80}")
    )
    if profile.get("bag_strap") == "none":
        return
    if form == "rucksack":
        page.path(
            "o",
            strokes(
                "M22 130C46 124 70 150 76 200C82 260 84 300 80 330L92 400L78 404L62 334"
                "C66 300 62 240 54 204C48 176 34 164 20 160Z"
            ),
        )
        page.path(
            "t",
            strokes(
                "M24 138C44 134 62 156 68 202C74 260 76 300 72 328M22 153C38 156 52 174 60 202C68 240 72 296 69 328"
            ),
        )
        page.path("b", "M-26 130H26V162H-26Z")
    elif form == "pouch":
        page.path("b", "M-62 176H-40V290H-62ZM40 176H62V290H40Z")
        page.path(
            "e",
            "M-62 184L-40 196M-40 184L-62 196M40 184L62 196M62 184L40 196M-62 276L-40 288"
            "M-40 276L-62 288M40 276L62 288M62 276L40 288",
        )
    elif form == "haversack":
        page.path("o", across("M0 28C90 28 150 84 150 220") + "L140 220C138 96 84 42 0 42C-84 42 -138 96 -140 220Z")
        page.path("e", strokes("M140 200L150 200M140 220L150 200M150 220L140 200"))


def front_regions(form: str) -> dict[str, tuple[float, float, float, float]]:
    x, y, w, h = FRONTS[form]
    return {
        "body": (x, y, w, h),
        "front_pocket": (x + w * 0.2, y + h * 0.42, w * 0.6, h * 0.46),
        "mouth": (x, y - 6, w, 30),
        "pocket_corner": (x + w * 0.78, y + h * 0.4, 26, 26),
        "side_pocket_left": (min(x + w, 450), y + h * 0.42, 40, h * 0.5),
        "side_pocket_right": (max(x - 40, 10), y + h * 0.42, 40, h * 0.5),
        "cloth": (x, y, w, h),
    }


def back_regions(form: str) -> dict[str, tuple[float, float, float, float]]:
    x, y, w, h = FRONTS[form]
    return {
        "back_panel": (x, y, w, h - 46),
        "back_pad": (x + w * 0.15, y + 30, w * 0.7, h * 0.5),
        "base": (x, y + h - 46, w, 52),
        "belt_loops": (x + w * 0.14, y, w * 0.72, 40),
        "cloth": (x, y, w, h),
    }


def is_form(form: str) -> Callable[[Mapping[str, str]], bool]:
    return lambda profile: profile.get("bag_form") == form


def registered(form: str, when: Callable[[Mapping[str, str]], bool] | None) -> None:
    """Registers the front and the back of one form; the first of all stands where no form is recorded."""
    for view, regions, draw in (("front", front_regions, front_of), ("back", back_regions, back_of)):
        silhouette(("bag",), view, size=SIZE, regions=regions(form), when=when)(
            lambda pen, profile, draw=draw: draw(middle(pen), profile, form)
        )


registered("haversack", None)
for other in ("rucksack", "holdall", "pouch", "sack"):
    registered(other, is_form(other))


@silhouette(
    ("bag",),
    "inside",
    size=NEAR,
    regions={
        "label": (196, 64, 108, 50),
        "divider": (86, 186, 328, 150),
        "inside_pocket": (150, 140, 200, 70),
        "lining": (76, 156, 348, 180),
        "main_seam_inside": (84, 180, 24, 130),
        "cloth": (50, 40, 400, 350),
    },
)
def bag_inside(pen: Pen, profile: Mapping[str, str]) -> None:
    """Opened and looked into from above, the back with the label standing up behind."""
    page = middle(pen)
    page.path(
        "o", closed("M0 44C70 42 130 44 168 50C176 90 182 120 186 168C190 250 184 320 170 362C110 384 50 388 0 388")
    )
    page.path("t", across("M0 52C66 50 124 52 161 57"))
    page.path("o", closed("M0 150C80 148 140 154 176 172C182 230 176 290 164 330C110 348 50 352 0 352"))
    page.path("t", closed("M0 142C84 140 146 146 182 166C189 230 184 296 169 338C112 356 50 360 0 360"))
    page.path(
        "e",
        strokes("M176 172L148 200M164 330L142 304")
        + closed("M0 182C70 180 120 186 148 200C152 240 148 274 142 304C96 316 46 318 0 318"),
    )


@silhouette(
    ("bag",),
    "flap",
    size=NEAR,
    regions={
        "flap": (62, 60, 376, 250),
        "flap_edge": (66, 286, 368, 30),
        "fastening": (190, 236, 120, 130),
        "flap_pocket": (140, 110, 220, 120),
        "cloth": (50, 40, 400, 360),
    },
)
def bag_flap(pen: Pen, profile: Mapping[str, str]) -> None:
    """The upper part of the bag; the flap itself is drawn over it."""
    page = middle(pen)
    page.path("o", closed("M0 52C80 50 140 52 182 58C190 160 194 280 194 404L0 404"))
    page.path("e", across("M0 74C80 72 140 74 184 80"))
    page.path("t", across("M0 66C80 64 140 66 183 72"))
    page.path("f", strokes("M160 330C166 350 168 370 166 392M90 340C94 356 94 370 92 384"))


@silhouette(
    ("bag",),
    "strap",
    size=(500, 340),
    regions={
        "strap": (118, 96, 372, 60),
        "anchor": (36, 74, 120, 110),
        "adjuster": (214, 82, 76, 76),
        "pad": (320, 72, 150, 96),
        "cloth": (20, 60, 200, 260),
    },
)
def bag_strap(pen: Pen, profile: Mapping[str, str]) -> None:
    """One upper corner of the bag, and the strap that leads away from it."""
    page = pen.in_box(Box(0, 0, 100, 100))
    page.path("o", "M18 104C50 94 90 92 132 98C146 100 152 108 152 122L150 300C148 318 132 322 112 322L14 322")
    page.path("t", "M20 112C52 102 90 100 130 106C140 108 144 112 144 124L142 298C141 310 130 314 112 314L14 314")
    if profile.get("bag_strap") == "none":
        return
    page.path(
        "o",
        "M120 100C180 92 240 108 300 104C360 100 430 96 492 104L492 146C430 138 360 142 300 146"
        "C240 150 180 134 120 142Z",
    )
    page.path(
        "t",
        "M122 106C180 98 240 114 300 110C360 106 430 102 492 110M122 136C180 128 240 144 300 140"
        "C360 136 430 132 492 140",
    )
    page.path("b", "M222 88H282Q288 88 288 94V154Q288 160 282 160H222Q216 160 216 154V94Q216 88 222 88Z")
    page.path("e", "M228 98H276V150H228ZM248 98V150M258 98V150")
    page.path(
        "b", "M322 92C360 76 420 74 468 90C474 112 474 136 468 158C420 172 360 170 322 154C318 132 318 112 322 92Z"
    )
    page.path(
        "t", "M330 99C364 84 418 82 461 96C466 114 466 134 461 151C418 163 364 162 330 147C327 130 327 114 330 99Z"
    )
