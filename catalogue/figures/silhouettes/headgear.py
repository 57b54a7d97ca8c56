"""Caps with a peak, hats with a brim, and hoods that cover the neck.

From the side the wearer's left is seen, so the face is at the viewer's left.
"""

from collections.abc import Mapping

from catalogue.figures.halves import closed, strokes
from catalogue.figures.pen import Box, BoxPen, Pen
from catalogue.figures.silhouettes import silhouette

SIZE = (500, 360)
INSIDE = {
    "label": (206, 132, 88, 54), "back": (134, 70, 232, 190), "sweatband": (92, 250, 316, 50),
    "side_seam_left": (338, 90, 24, 150), "cloth": (110, 60, 280, 230),
}  # fmt: skip


def page_of(pen: Pen) -> BoxPen:
    return pen.in_box(Box(250, 0, 100, 100))


def plain(pen: Pen) -> BoxPen:
    return pen.in_box(Box(0, 0, 100, 100))


@silhouette(("cap",), "front", size=SIZE, regions={
    "peak": (128, 222, 244, 66), "front_panel": (160, 90, 180, 130), "cloth": (130, 60, 240, 220),
})  # fmt: skip
def cap_front(pen: Pen, profile: Mapping[str, str]) -> None:
    page = page_of(pen)
    page.path("o", closed("M0 62C66 62 118 96 124 226C84 240 42 244 0 244"))
    page.path("e", strokes("M0 62C40 82 72 130 78 236") + "M-123 210C-80 226 80 226 123 210")
    page.path("t", strokes("M6 66C46 88 80 134 86 234") + "M-123 203C-80 219 80 219 123 203")
    page.path("o", closed("M0 240C46 240 88 234 120 222C138 232 140 248 130 262C94 284 44 290 0 290"))
    page.path("t", "M-126 254C-90 276 90 276 126 254")


@silhouette(("cap",), "side_left", size=SIZE, regions={
    "crown": (140, 70, 210, 130), "flap": (190, 200, 140, 92), "chin": (196, 252, 120, 80),
    "cloth": (110, 60, 270, 190),
})  # fmt: skip
def cap_side(pen: Pen, profile: Mapping[str, str]) -> None:
    page = plain(pen)
    page.path("o", "M104 222C92 232 62 244 34 264C40 274 60 276 84 270C110 262 128 250 140 240Z")
    page.path("t", "M44 266C70 266 100 252 130 238")
    crown = "M104 222C104 130 162 62 250 62C340 62 392 120 392 226C392 236 390 244 386 250"
    page.path("o", f"{crown}C290 238 200 238 128 244C112 242 104 234 104 222Z")
    page.path("e", "M105 212C200 198 300 200 391 216M250 62C214 96 202 150 202 202M252 62C300 90 326 146 330 205")
    page.path("t", "M105 204C200 190 300 192 390 208M256 64C306 94 332 148 336 205")
    page.circle("b", 250, 60, 6)


@silhouette(("cap",), "back", size=SIZE, regions={"back_seam": (232, 70, 36, 160), "cloth": (130, 60, 240, 190)})
def cap_back(pen: Pen, profile: Mapping[str, str]) -> None:
    page = page_of(pen)
    page.path("o", closed("M0 62C66 62 118 96 124 226C122 240 118 250 112 258C74 250 36 248 0 248"))
    page.path("e", "M0 62V248M-123 212C-80 206 80 206 123 212" + strokes("M4 62C50 88 78 140 80 210"))
    page.path("t", "M5 64V246")


@silhouette(("cap",), "inside", size=SIZE, regions=INSIDE)
def cap_inside(pen: Pen, profile: Mapping[str, str]) -> None:
    """Seen from below: the band in front, the crown behind it."""
    page = page_of(pen)
    page.path("o", closed("M0 54C96 54 156 108 160 214C160 280 96 312 0 312"))
    page.path("o", closed("M0 80C84 80 132 122 136 206C130 262 80 284 0 284"))
    page.path("e", strokes("M0 80C30 130 60 200 66 276") + "M0 80V284")
    page.path("t", "M-148 232C-100 312 100 312 148 232")


@silhouette(("hat",), "front", size=SIZE, regions={
    "brim_front": (40, 196, 420, 84), "cloth": (60, 60, 380, 210),
})  # fmt: skip
def hat_front(pen: Pen, profile: Mapping[str, str]) -> None:
    page = page_of(pen)
    page.path("o", closed("M0 184C80 184 160 192 210 222C196 262 100 282 0 282"))
    page.path("o", closed("M0 66C56 66 82 72 88 92C98 130 102 170 104 212C70 228 36 232 0 232"))
    page.path("e", "M-87 96C-50 84 50 84 87 96M-103 196C-60 214 60 214 103 196")
    page.path("t", "M-194 232C-150 262 150 262 194 232M-170 224C-120 250 120 250 170 224")


@silhouette(("hat",), "side_left", size=SIZE, regions={
    "crown": (146, 72, 208, 124), "brim": (30, 200, 440, 66), "chin": (190, 236, 120, 84), "cloth": (60, 60, 380, 190),
})  # fmt: skip
def hat_side(pen: Pen, profile: Mapping[str, str]) -> None:
    page = plain(pen)
    wide = 30 if profile.get("brim") != "narrow" else 84
    page.path("o", f"M{wide} 244C120 200 380 200 {500 - wide} 240C400 268 110 272 {wide} 244Z")
    page.path(
        "o", "M146 222C146 170 152 122 162 92C176 70 320 66 338 92C348 124 354 172 354 220C300 240 200 242 146 222Z"
    )
    page.path("e", "M161 96C210 82 290 82 339 96M147 206C210 222 300 222 354 204")
    page.path("t", f"M{wide + 24} 242C130 262 390 258 {476 - wide} 238")


@silhouette(("hat",), "top", size=(500, 460), regions={
    "brim_stitching": (40, 30, 420, 400), "crown_top": (166, 144, 168, 172), "cloth": (60, 50, 380, 360),
})  # fmt: skip
def hat_top(pen: Pen, profile: Mapping[str, str]) -> None:
    page = page_of(pen)
    page.path("o", closed("M0 30C130 30 206 120 206 230C206 340 130 430 0 430"))
    page.path(
        "t",
        closed("M0 50C116 50 186 132 186 230C186 328 116 410 0 410")
        + closed("M0 72C104 72 164 144 164 230C164 316 104 388 0 388"),
    )
    page.path("o", closed("M0 120C70 120 104 170 104 230C104 290 70 340 0 340"))
    page.path("e", closed("M0 136C58 136 88 178 88 230C88 282 58 324 0 324") + "M0 136V324")


@silhouette(("hat",), "back", size=SIZE, regions={"back_seam": (232, 70, 36, 150), "cloth": (60, 60, 380, 210)})
def hat_back(pen: Pen, profile: Mapping[str, str]) -> None:
    hat_front(pen, profile)
    page_of(pen).path("e", "M0 90V230")


@silhouette(("hat", "hood"), "inside", size=SIZE, regions=INSIDE)
def hat_inside(pen: Pen, profile: Mapping[str, str]) -> None:
    cap_inside(pen, profile)


@silhouette(("hood",), "front", size=(500, 440), regions={
    "face_opening": (176, 96, 148, 152), "neck_cape": (80, 268, 340, 136), "cloth": (100, 50, 300, 350),
})  # fmt: skip
def hood_front(pen: Pen, profile: Mapping[str, str]) -> None:
    page = page_of(pen)
    page.path(
        "o", closed("M0 42C84 42 118 104 116 176C114 226 104 252 110 270C140 292 166 330 174 392C110 410 50 414 0 414")
    )
    page.path("o", closed("M0 92C52 92 76 130 74 176C72 222 46 250 0 250"))
    page.path("t", closed("M0 82C58 82 86 126 84 176C82 228 52 260 0 260") + "M-172 382C-110 400 110 400 172 382")
    page.path("e", "M0 250V414M-110 270C-60 286 60 286 110 270")
    page.path("f", strokes("M120 300C126 330 128 360 126 396M70 292C74 330 74 366 72 404"))


@silhouette(("hood",), "side_left", size=(500, 440), regions={
    "crown": (150, 60, 220, 130), "chin": (150, 236, 110, 60), "cloth": (120, 50, 280, 340),
})  # fmt: skip
def hood_side(pen: Pen, profile: Mapping[str, str]) -> None:
    page = plain(pen)
    page.path(
        "o",
        "M176 96C200 56 270 36 322 62"
        "C378 92 392 150 380 208C374 236 380 256 396 280C414 310 420 350 416 396"
        "C320 416 200 414 126 392C128 340 146 300 184 276C178 250 160 210 162 168C162 140 166 116 176 96Z",
    )
    page.path("e", "M184 276C240 292 320 290 390 272M322 62C300 120 300 200 320 282")
    page.path(
        "t",
        "M186 100C174 130 172 160 178 190C182 220 192 250 196 272"
        "M128 382C200 402 320 404 415 386M328 66C308 120 308 200 328 280",
    )
    page.path("f", "M230 300C222 330 218 360 218 404M330 300C338 330 342 364 340 404")


@silhouette(("hood",), "back", size=(500, 440), regions={"back_seam": (230, 60, 40, 210), "cloth": (100, 50, 300, 350)})
def hood_back(pen: Pen, profile: Mapping[str, str]) -> None:
    page = page_of(pen)
    page.path(
        "o", closed("M0 42C84 42 118 104 116 176C114 226 104 252 110 270C140 292 166 330 174 392C110 410 50 414 0 414")
    )
    page.path("e", "M0 42V276M-110 270C-60 286 60 286 110 270")
    page.path("t", "M5 44V274M-172 382C-110 400 110 400 172 382")
    page.path("f", strokes("M120 300C126 330 128 360 126 396M60 294C64 330 64 366 62 406"))
