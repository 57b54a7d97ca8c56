"""The hood of a pullover or coat, from its side: raised, buttoned on, or rolled into the collar."""

from collections.abc import Mapping

from catalogue.figures.pen import Box, Pen
from catalogue.figures.silhouettes import silhouette

SIZE = (400, 400)
PAGE = Box(0, 0, 100, 100)
SHOULDERS = (
    "M120 300C84 316 50 330 24 338"
    "L24 390C120 396 270 396 370 390L370 340C344 330 310 312 286 294C240 318 170 322 120 300Z"
)
HOOD = (
    "M120 300C104 240 92 170 104 116C112 60 168 22 230 30"
    "C300 40 330 110 322 178C316 226 300 262 286 294C240 318 170 322 120 300Z"
)


@silhouette(
    ("pullover", "coat"),
    "hood",
    size=SIZE,
    regions={
        "hood_edge": (92, 64, 44, 236),
        "hood_crown": (160, 26, 150, 110),
        "hood_neck": (112, 270, 190, 50),
        "cloth": (92, 28, 236, 292),
    },
)
def hood(pen: Pen, profile: Mapping[str, str]) -> None:
    page = pen.in_box(PAGE)
    page.path("o", SHOULDERS)
    collar = profile.get("collar", "hood_fixed")
    if collar in ("hood_fixed", "hood_button"):
        page.path("o", HOOD)
        page.path("e", "M128 302C112 244 100 172 113 118C120 84 146 54 176 40M160 42C210 66 236 150 232 316")
        page.path("t", "M136 304C121 246 110 172 122 122C129 92 152 64 180 48M166 40C217 66 243 150 239 315")
        page.path(
            "f", "M300 200C286 236 272 262 262 276M276 232C266 252 256 266 248 272M150 284C160 262 168 240 170 220"
        )
        page.path("e", "M136 288C128 304 138 326 128 352M146 292C142 312 150 330 146 346")
        page.path("b", "M124 350H132V364H124ZM142 344H150V358H142Z")
        page.circle("b", 136, 286, 4)
    if collar == "hood_button":
        page.path("o", "M118 292C170 316 240 312 288 286L296 316C240 344 168 346 112 324Z")
        page.path("t", "M114 316C170 338 240 336 293 309")
        for x, y in ((140, 314), (182, 323), (226, 322), (266, 310)):
            page.circle("b", x, y, 4.5)
    elif collar == "hood_stowed":
        rolled = (
            "M116 302C108 270 118 244 138 240C190 226 250 226 276 238C294 246 298 272 290 296C240 322 170 324 116 302Z"
        )
        page.path("o", rolled)
        page.path("e", "M114 282C170 304 240 302 293 274M114 290C170 312 240 310 293 282")
        page.path("t", "M114 286C170 308 240 306 293 278")
        page.path("f", "M140 252C190 240 240 240 276 252M132 264C180 254 244 252 284 262")
        page.rect("b", 134, 288, 8, 18, round=2)
