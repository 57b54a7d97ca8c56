"""The right glove of a pair: its back, its palm, and its cuff looked into.

The fingers and the cuff are drawn apart from the hand, for they are what a record may say.
"""

from collections.abc import Mapping

from catalogue.figures.pen import Box, BoxPen, Pen
from catalogue.figures.silhouettes import silhouette

SIZE, CUFF = (500, 570), (500, 420)
# Drawn as the back of the right hand, thumb at the viewer's left; open where the fingers and the cuff join it.
HAND = (
    "M174 238C172 254 168 270 160 286C146 262 128 234 112 208C96 184 62 198 74 228C92 272 120 312 148 340"
    "C172 364 184 380 188 402L338 402C346 350 358 300 352 246"
)
FINGERS = {
    "fingers": (
        "M174 238C170 190 168 130 172 98C175 72 208 72 212 98C216 130 220 180 222 222C223 170 223 110 226 70"
        "C229 44 263 44 266 70C268 112 269 170 270 222C273 170 275 120 279 92C283 68 316 70 315 96"
        "C314 140 313 190 312 230C317 196 322 166 327 146C332 124 363 128 361 152C359 190 355 220 352 246"
    ),
    "mitten": "M174 238C160 150 180 52 262 48C344 46 366 140 352 246",
    "trigger": (
        "M174 238C170 190 168 130 172 98C175 72 208 72 212 98C216 130 219 180 221 222"
        "C222 140 226 60 288 58C352 58 368 150 352 246"
    ),
    "half": (
        "M174 238C171 206 170 180 170 160L215 154C218 180 220 200 222 222C223 190 223 160 224 138L268 138"
        "C269 166 269 196 270 222C272 196 274 172 276 150L317 158C315 182 313 206 312 230"
        "C316 210 320 196 324 182L361 192"
        "C358 210 355 230 352 246"
    ),
}
CUFFS = {
    "short": "M188 402L338 402C340 420 342 440 345 462C300 472 226 472 181 462C184 440 186 420 188 402Z",
    "gauntlet": "M188 402L338 402C348 450 364 500 382 538C326 558 200 558 144 538C162 500 178 450 188 402Z",
}
CUFF_ROWS = {
    "short": "M182 452C226 462 300 462 344 452",
    "gauntlet": "M149 527C204 547 322 547 377 527M150 519C204 539 322 539 374 519",
}


def page_of(pen: Pen, view: str) -> BoxPen:
    """Units of the drawing; the palm is the mirror image of the back."""
    return pen.in_box(Box(400, 0, 100, 100), flipped=True) if view == "palm" else pen.in_box(Box(0, 0, 100, 100))


def draw_fingers(page: BoxPen, form: str) -> None:
    """The fingers, open where they join the hand."""
    page.path("o", FINGERS[form])
    if form == "half":
        page.path("e", "M170 170L216 164M224 148H269M276 160L316 168M322 192L359 202")
        page.path("t", "M171 176L216 170M224 154H269M276 166L315 174M321 198L358 208")
    elif form == "fingers":
        page.path(
            "f", "M186 150C194 154 202 154 208 150M238 128C246 132 254 132 260 128M288 144C296 148 304 148 308 144"
        )


def draw_cuff(page: BoxPen, length: str) -> None:
    page.path("o", CUFFS[length])
    page.path("t", CUFF_ROWS[length])
    folds = "M220 412C218 426 216 440 216 452M306 412C308 426 310 440 310 450"
    if length == "gauntlet":
        folds = "M214 414C206 450 196 484 188 512M312 414C320 450 330 484 338 512M262 420C262 450 262 480 262 508"
    page.path("f", folds)


def glove(page: BoxPen, profile: Mapping[str, str]) -> None:
    page.path("o", HAND)
    if "glove_form" not in profile:
        draw_fingers(page, "fingers")
    if "glove_cuff" not in profile:
        draw_cuff(page, "short")


@silhouette(
    ("glove",),
    "back",
    size=SIZE,
    regions={
        "back_of_hand": (178, 230, 172, 150),
        "fingers": (164, 44, 204, 196),
        "thumb": (66, 192, 110, 150),
        "knuckles": (172, 206, 182, 44),
        "wrist_back": (186, 378, 156, 48),
        "cuff_back": (140, 402, 246, 156),
        "cloth": (64, 44, 324, 512),
    },
)
def glove_back(pen: Pen, profile: Mapping[str, str]) -> None:
    page = page_of(pen, "back")
    glove(page, profile)
    page.path("f", "M100 216C118 244 138 272 156 298M196 384C210 374 224 370 238 370M330 384C318 376 306 372 294 372")


@silhouette(
    ("glove",),
    "palm",
    size=SIZE,
    regions={
        "palm": (150, 232, 176, 160),
        "fingers_palm": (132, 44, 204, 196),
        "thumb_palm": (324, 192, 110, 150),
        "wrist_palm": (158, 378, 156, 48),
        "cuff_palm": (114, 402, 246, 156),
        "cloth": (112, 44, 324, 512),
    },
)
def glove_palm(pen: Pen, profile: Mapping[str, str]) -> None:
    """The thumb is set in: its seam runs round the ball of the hand."""
    page = page_of(pen, "palm")
    glove(page, profile)
    page.path("e", "M174 244C196 252 214 278 212 312C210 340 200 362 190 388")
    page.path("t", "M174 251C192 259 207 282 206 312C204 338 196 356 188 380")
    page.path("f", "M222 258C250 268 300 268 340 252M226 284C262 298 306 298 342 282M330 384C310 374 290 372 270 376")


def cuff_regions(wrist: float) -> dict[str, tuple[float, float, float, float]]:
    return {
        "wrist": (164, wrist - 24, 172, 48),
        "cuff_edge": (108, wrist + 24, 284, 290 - wrist),
        "inside_cuff": (96, 276, 308, 96),
        "hanger_cuff": (376, 320, 60, 40),
        "cloth": (92, 10, 316, 370),
    }


def cuff_looked_into(pen: Pen, wrist: int, half: int) -> None:
    """`wrist`: how high its seam lies. `half`: half the width of the open end."""
    page = pen.in_box(Box(250, 0, 100, 100))
    top = f"M-92 16C-60 26 -30 6 0 16C30 26 60 6 92 14C90 {wrist * 0.5:.0f} 80 {wrist - 20} 76 {wrist}"
    page.path(
        "o",
        f"{top}C84 {wrist + 70} {half - 24} 270 {half} 322C{half} 392 {-half} 392 {-half} 322"
        f"C{24 - half} 270 -84 {wrist + 70} -76 {wrist}C-80 {wrist - 20} -90 {wrist * 0.5:.0f} -92 16Z",
    )
    page.path("e", f"M-76 {wrist}C-40 {wrist + 10} 40 {wrist + 10} 76 {wrist}")
    page.path("b", f"M{-half} 322C{-half} 256 {half} 256 {half} 322C{half} 376 {-half} 376 {-half} 322Z")
    page.path("t", f"M{8 - half} 312C{16 - half} 262 {half - 16} 262 {half - 8} 312")
    page.path(
        "f",
        f"M-50 {wrist + 20}C-58 {wrist + 60} -70 240 -84 262M50 {wrist + 20}C58 {wrist + 60} 70 240 84 262"
        f"M-30 30C-34 50 -34 60 -32 76",
    )


@silhouette(("glove",), "cuff", size=CUFF, regions=cuff_regions(176))
def short_cuff(pen: Pen, profile: Mapping[str, str]) -> None:
    cuff_looked_into(pen, 176, 120)


@silhouette(
    ("glove",),
    "cuff",
    size=CUFF,
    regions=cuff_regions(84),
    when=lambda profile: profile.get("glove_cuff") == "gauntlet",
)
def gauntlet(pen: Pen, profile: Mapping[str, str]) -> None:
    cuff_looked_into(pen, 84, 150)
