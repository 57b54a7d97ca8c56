"""Caps with a peak and hoods with a cape over the neck.

From the side the wearer's left is seen, so the face is at the viewer's left.
"""

from collections.abc import Mapping

from catalogue.figures.halves import across, closed, strokes
from catalogue.figures.pen import Box, BoxPen, Pen
from catalogue.figures.silhouettes import silhouette

CAP, HOOD = (500, 380), (500, 470)
# The peak from the front, as its right half, in units from the middle of its upper edge.
PEAK = "M0 8C50 8 96 12 122 24C136 31 140 42 133 52C104 84 54 96 0 96"
CAPE = "C108 280 168 286 186 346C194 376 198 404 200 430C140 448 60 454 0 454"
HOOD_OUTLINE = "M0 42C64 42 106 84 112 150C115 190 106 220 102 246" + CAPE


def page_of(pen: Pen) -> BoxPen:
    """Units of the drawing, with x counted from its middle line."""
    return pen.in_box(Box(250, 0, 100, 100))


def plain(pen: Pen) -> BoxPen:
    return pen.in_box(Box(0, 0, 100, 100))


@silhouette(
    ("cap",),
    "front",
    size=CAP,
    regions={
        "peak": (110, 226, 280, 100),
        "front_panel": (160, 100, 180, 120),
        "cloth": (124, 70, 252, 250),
        "ear_left": (340, 110, 48, 240),
        "ear_right": (112, 110, 48, 240),
    },
)
def cap_front(pen: Pen, profile: Mapping[str, str]) -> None:
    """A soft crown on a band; its top falls a little over the front."""
    page = page_of(pen)
    page.path("o", closed("M0 74C62 72 104 90 116 122C124 156 124 212 122 252L0 252"))
    page.path("e", across("M0 128C52 130 92 124 117 126") + across("M0 194C52 190 98 196 124 206") + "M0 76V128")
    page.path(
        "t", across("M0 134C52 136 92 130 118 132") + across("M0 188C52 184 98 190 124 200") + "M5 76V126M-5 76V126"
    )
    page.path("f", strokes("M70 96C84 100 94 108 100 116M40 142C44 156 44 168 40 180M88 140C92 154 93 166 90 182"))
    if "peak_rows" not in profile:
        page.within(0, 226, 100, 100).path("o", closed(PEAK))


@silhouette(
    ("cap",),
    "side_left",
    size=CAP,
    regions={
        "crown": (150, 116, 210, 84),
        "flap": (176, 96, 170, 260),
        "chin": (176, 256, 160, 116),
        "cloth": (34, 74, 370, 240),
    },
)
def cap_side(pen: Pen, profile: Mapping[str, str]) -> None:
    page = plain(pen)
    page.path("o", "M122 232C96 240 58 262 34 292Q30 302 42 304C84 298 124 282 166 268Z")
    page.path("t", "M44 296C80 288 118 272 150 258")
    page.path(
        "o", "M120 264C108 216 112 146 140 112C176 76 300 64 356 112C392 146 402 204 396 262C320 276 200 278 120 264Z"
    )
    page.path("e", "M140 112C190 142 306 142 356 112M117 212C200 226 316 224 397 206M250 133V219")
    page.path(
        "t",
        "M136 117C190 148 308 148 360 117M117 206C200 220 316 218 397 200M120 258C200 271 320 270 396 256M255 133V218",
    )
    page.path("f", "M170 150C166 168 166 186 172 202M346 146C352 164 352 180 346 196M214 92C240 86 268 86 290 90")


@silhouette(
    ("cap",),
    "back",
    size=CAP,
    regions={
        "back_seam": (234, 120, 32, 140),
        "cloth": (124, 74, 252, 190),
        "ear_left": (112, 110, 48, 240),
        "ear_right": (340, 110, 48, 240),
    },
)
def cap_back(pen: Pen, profile: Mapping[str, str]) -> None:
    page = page_of(pen)
    page.path("o", closed("M0 86C58 84 102 92 114 120C122 156 124 210 122 248C90 262 44 270 0 270"))
    page.path("e", across("M0 122C52 124 92 120 114 120") + across("M0 214C52 214 98 208 123 200") + "M0 122V270")
    page.path(
        "t", across("M0 128C52 130 92 126 115 126") + across("M0 208C52 208 98 202 123 194") + "M5 124V269M-5 124V269"
    )
    page.path("t", across("M0 264C44 264 90 256 122 242"))
    page.path("f", strokes("M60 140C66 158 66 176 60 194M92 136C98 154 98 170 94 188"))


INSIDE = {
    "label": (210, 120, 80, 46),
    "back": (146, 76, 208, 170),
    "sweatband": (92, 236, 316, 62),
    "side_seam_left": (330, 110, 40, 110),
    "cloth": (80, 46, 340, 260),
}


def looked_into(page: BoxPen) -> None:
    """Turned up and looked into: the lined crown within the sweatband, the front nearest."""
    page.path("o", closed("M0 40C104 40 168 96 168 172C168 248 104 306 0 306"))
    page.path("e", closed("M0 58C92 58 146 104 146 168C146 234 92 262 0 262"))
    page.path("t", closed("M0 64C88 64 139 108 139 168C139 229 88 256 0 256") + across("M0 298C92 298 156 252 162 184"))
    page.path("e", closed("M0 96C54 96 86 120 86 156C86 192 54 214 0 214"))
    page.path("e", strokes("M86 156L146 168M56 112L88 80M56 202L96 238"))
    page.path("t", strokes("M86 162L146 174M60 116L93 84"))
    page.path("f", strokes("M20 268C22 280 22 288 20 302M64 260C70 272 74 282 76 292M110 240C118 250 126 258 130 264"))


@silhouette(("cap",), "inside", size=CAP, regions=INSIDE)
def cap_inside(pen: Pen, profile: Mapping[str, str]) -> None:
    page = page_of(pen)
    page.path("o", closed("M0 258C60 258 110 244 142 232C150 268 140 316 100 342C70 356 30 362 0 362"))
    page.path("t", across("M0 352C30 352 66 348 94 334C124 316 138 284 138 252"))
    looked_into(page)


def hood_cape(page: BoxPen) -> None:
    """The seam at the neck, the hem, and how the cape falls."""
    page.path("e", across("M0 264C44 264 82 258 102 246"))
    page.path("t", across("M0 270C46 270 86 264 106 252") + across("M0 446C60 446 140 440 199 422"))
    page.path("f", strokes("M60 290C68 334 72 384 70 438M120 292C138 330 148 376 150 428M24 300C28 330 30 356 28 380"))


@silhouette(
    ("hood",),
    "front",
    size=HOOD,
    regions={
        "face_opening": (172, 92, 156, 164),
        "neck_cape": (90, 270, 320, 170),
        "chin": (184, 240, 132, 34),
        "cloth": (50, 42, 400, 412),
    },
)
def hood_front(pen: Pen, profile: Mapping[str, str]) -> None:
    """Through the opening the inside of the back shows."""
    page = page_of(pen)
    page.path("o", closed(HOOD_OUTLINE))
    page.path("e", "M0 268V454" + strokes("M56 62C82 92 96 130 92 172"))
    hood_cape(page)
    page.path("b", closed("M0 92C52 92 80 126 78 172C76 216 46 252 0 254"))
    page.path("e", closed("M0 102C46 102 70 132 68 172C66 210 40 242 0 244") + "M0 102V236")
    page.path("t", closed("M0 84C58 84 88 120 86 172C84 222 52 260 0 262"))
    page.path("f", strokes("M22 112C34 140 36 190 24 230M48 130C54 156 54 186 46 212"))


@silhouette(
    ("hood",),
    "side_left",
    size=HOOD,
    regions={"crown": (200, 76, 150, 130), "chin": (162, 244, 86, 29), "cloth": (110, 46, 330, 400)},
)
def hood_side(pen: Pen, profile: Mapping[str, str]) -> None:
    page = plain(pen)
    head = "M150 112C170 68 224 42 284 48C354 56 392 112 388 184C387 216 380 238 372 254"
    cape = "C388 282 418 336 430 428C334 456 204 454 112 430C116 376 134 318 172 276"
    page.path("o", head + cape + "C170 254 156 238 150 214C140 180 138 146 150 112Z")
    page.path("e", "M163 98C224 62 312 78 344 142C360 178 360 224 350 266M172 276C238 292 318 284 372 254")
    page.path("e", "M164 108C154 146 156 182 165 212C171 234 184 252 186 278")
    page.path(
        "t",
        "M170 106C160 146 162 182 171 211C176 230 190 250 193 278"
        "M168 106C226 70 308 84 338 145C354 180 354 224 344 266",
    )
    page.path("t", "M176 282C240 298 322 290 376 260M113 422C204 446 334 448 429 420")
    page.path("f", "M214 306C196 346 186 392 184 438M284 304C284 350 282 396 278 446M344 290C360 334 370 384 372 436")
    page.path("f", "M366 214C352 226 334 232 316 232M224 132C246 122 270 124 288 136")


@silhouette(("hood",), "back", size=HOOD, regions={"back_seam": (234, 50, 32, 210), "cloth": (50, 42, 400, 412)})
def hood_back(pen: Pen, profile: Mapping[str, str]) -> None:
    page = page_of(pen)
    page.path("o", closed(HOOD_OUTLINE))
    page.path("e", "M0 264V454" + strokes("M26 43C44 90 48 190 40 262"))
    page.path("t", strokes("M32 44C50 90 54 190 46 261"))
    hood_cape(page)
    page.path("f", strokes("M104 196C90 212 78 220 64 224M76 110C84 130 86 150 84 170"))


@silhouette(
    ("hood",),
    "inside",
    size=HOOD,
    regions={
        "label": (210, 208, 80, 44),
        "label_alt_left": (316, 362, 72, 40),
        "label_alt_right": (112, 362, 72, 40),
        "back": (160, 60, 180, 190),
        "sweatband": (140, 250, 220, 30),
        "side_seam_left": (276, 60, 34, 190),
        "cloth": (50, 42, 400, 412),
    },
)
def hood_inside(pen: Pen, profile: Mapping[str, str]) -> None:
    """Turned inside out, the back in view: turnings stand beside every seam."""
    page = page_of(pen)
    page.path("o", closed(HOOD_OUTLINE))
    page.path("e", strokes("M26 43C44 90 48 190 40 262M36 44C54 92 58 190 50 261M10 274L10 442") + "M0 264V442")
    page.path("e", across("M0 254C44 254 82 248 104 236") + across("M0 440C60 440 140 434 199 416"))
    hood_cape(page)
    page.path("t", strokes("M31 44C49 92 53 190 45 261M5 272L5 440"))
