"""The cuts of upper garments: one shoulder, neck and sleeve for all of them, and below the arm a side of their own.

Right halves: x counts from the middle line, y in units of a drawing whose neck lies at NECK. About 4.2 units are a
centimetre of a garment of a middle size (common practice, no source).
"""

from collections.abc import Mapping
from dataclasses import dataclass

from catalogue.figures.halves import led_back, steps_of, written
from catalogue.figures.pen import Box, BoxPen, Pen

WIDTH, MIDDLE, NECK = 500, 250, 104
NO_SLEEVES = ("removed", "none")
DRAWN_IN = ("band_button", "elastic", "knitted")
CUFFS_DRAWN_IN = ("elastic", "knitted")

NECK_FRONT = "M0 142C18 142 37 126 44 104"
NECK_BACK = "M0 111C18 111 34 109 44 104"
SHOULDER = "C62 110 84 116 104 124"
ARMHOLE = "C95 150 97 192 121 219"

Quad = tuple[tuple[float, float], tuple[float, float], tuple[float, float], tuple[float, float]]
CORNERS = ("upper_inner", "upper_outer", "lower_outer", "lower_inner")


@dataclass(frozen=True)
class Sleeve:
    """`plain` leads from the tip of the shoulder down and round the sleeve's end, back up to under the arm; `drawn_in`
    does where a knitted or elastic cuff, narrower than the sleeve, draws it in.

    `cuff`, `drawn_cuff`, `elbow`: where these lie, by their CORNERS; an elbow's -12 and 112 percent lie on the edges.
    `cuff_box`, `elbow_box`: their regions.
    """

    plain: str
    drawn_in: str
    cuff: Quad
    drawn_cuff: Quad
    elbow: Quad
    cuff_box: tuple[float, float, float, float]
    elbow_box: tuple[float, float, float, float]

    def fitting(self, profile: Mapping[str, str]) -> str:
        return self.drawn_in if profile.get("cuff") in CUFFS_DRAWN_IN else self.plain

    @property
    def points(self) -> dict[str, tuple[float, float]]:
        quads = {"cuff": self.cuff, "drawn_cuff": self.drawn_cuff, "elbow": self.elbow}
        return {
            f"{name}_{corner}": point
            for name, quad in quads.items()
            for corner, point in zip(CORNERS, quad, strict=True)
        }


def on_sleeve(name: str, pen: BoxPen, points: Mapping[str, tuple[float, float]], side: str) -> tuple[BoxPen, Quad]:
    """A pen and, in its coordinates, the corners of what is named, on a sleeve of the flat; the whole box where the
    flat has no such sleeve, as an outline that a society drew may have none."""
    found = [points.get(f"{name}_{corner}_{side}") for corner in CORNERS]
    if None in found:
        return pen, ((0, 0), (100, 0), (100, 100), (0, 100))
    a, b, c, d = found
    return BoxPen(pen.pen, Box(0, 0, 100, 100)), (a, b, c, d)


SLEEVE = Sleeve(
    plain="C126 131 150 146 168 176C188 210 216 284 234 338C219 350 201 359 182 363C167 320 140 266 121 219",
    drawn_in="C126 131 150 146 168 176C189 211 213 272 227 308C230 317 226 323 219 326L225 347C214 356 202 362 191 366"
    "L183 345C175 348 169 345 166 337C152 297 136 258 121 219",
    cuff=((170, 332), (225, 311), (234, 338), (182, 363)),
    drawn_cuff=((183, 345), (219, 326), (225, 347), (191, 366)),
    elbow=((136, 238), (185, 225), (209, 285), (162, 298)),
    cuff_box=(164, 308, 74, 60),
    elbow_box=(134, 218, 80, 84),
)
# Longer, to come over the cuff of what is worn below, and hanging closer to the side.
COAT_SLEEVE = Sleeve(
    plain="C126 131 148 143 160 168C176 204 204 314 214 390C200 399 182 405 164 407C156 352 140 274 121 219",
    drawn_in="C126 131 148 143 160 168C175 202 201 308 209 358C210 366 206 371 200 373L203 395C192 402 181 406 171 407"
    "L166 385C159 387 154 384 152 377C144 330 134 262 121 219",
    cuff=((159, 376), (209.5, 359), (214, 390), (164, 407)),
    drawn_cuff=((166, 385), (200, 373), (203, 395), (171, 407)),
    elbow=((138, 258), (180, 248), (194, 306), (153, 317)),
    cuff_box=(148, 354, 74, 60),
    elbow_box=(126, 240, 80, 84),
)


@dataclass(frozen=True)
class Cut:
    """`side` leads from under the arm down and along the hem to the middle line.

    `low`: where the side ends; `hem`: the lowest point of the middle line; `wide`: half the hem; `waist`: the height
    of the waist; `lift`: how far the drawing is moved up, where no hood needs the room.
    """

    side: str
    low: float
    hem: float
    wide: float
    waist: float
    lift: float = 0
    sleeves: bool = True
    sleeve: Sleeve = SLEEVE

    @property
    def size(self) -> tuple[float, float]:
        return WIDTH, max(self.hem, 362 if self.sleeves else 0) + 12 - self.lift

    @property
    def stitches(self) -> str:
        """The right half of a row of stitches above the hem, along its curve."""
        steps = steps_of(f"M121 219{self.side}")
        last = next(n for n, (_, points) in enumerate(steps) if points[-1][1] == self.low)
        found = led_back([("M", [steps[last][1][-1]]), *steps[last + 1 :]])
        raised = [(command, [(-x, y - 9) for x, y in points]) for command, points in found]
        end = raised[-1][1][-1]
        raised[-1][1][-1] = (end[0] - 1.5, end[1])
        return written([("M", [(0, self.hem - 9)]), *raised])

    def page(self, pen: Pen, *, flipped: bool = False) -> BoxPen:
        """Units of the drawing, x from the middle line."""
        return pen.in_box(Box(MIDDLE - 100 * flipped, -self.lift, 100, 100), flipped=flipped)

    def box(self, x: float, y: float, w: float, h: float) -> tuple[float, float, float, float]:
        """A region from its place beside the middle line."""
        return MIDDLE + x, y - self.lift, w, h

    def point(self, x: float, y: float) -> tuple[float, float]:
        return MIDDLE + x, y - self.lift


def has_sleeves(cut: Cut, profile: Mapping[str, str]) -> bool:
    return cut.sleeves and profile.get("sleeve_set") not in NO_SLEEVES


HOODLESS = 46
WAIST_JACKET = Cut(
    "C120 262 122 296 122 318C122 329 117 333 110 334C111 345 110 357 109 366C72 373 34 375 0 375",
    low=366, hem=375, wide=109, waist=302, lift=HOODLESS,
)  # fmt: skip
HIP_JACKET = Cut(
    "C116 268 118 340 125 420C84 427 38 430 0 430", low=420, hem=430, wide=125, waist=296, lift=HOODLESS
)  # fmt: skip
CUTS = {
    "jacket": WAIST_JACKET,
    "pullover": Cut("C116 268 119 350 128 438C84 446 38 449 0 449", low=438, hem=449, wide=128, waist=312),
    "shirt": Cut(
        "C115 268 115 340 119 406C106 410 96 436 62 441C40 444 18 444 0 444",
        low=406, hem=444, wide=119, waist=298, lift=HOODLESS,
    ),
    "coat": Cut("C115 276 124 430 158 610C106 621 46 624 0 624", low=610, hem=624, wide=158, waist=312,
                sleeve=COAT_SLEEVE),
    "waistcoat": Cut(
        "C116 268 118 320 122 386C84 392 38 395 0 395", low=386, hem=395, wide=122, waist=296, lift=HOODLESS,
        sleeves=False,
    ),
    "liner": Cut(
        "C117 268 119 330 124 402C84 408 38 411 0 411", low=402, hem=411, wide=124, waist=296, lift=HOODLESS
    ),
}  # fmt: skip


def is_hip_length(profile: Mapping[str, str]) -> bool:
    """A jacket whose hem is no band ends at the hip."""
    return "hem_finish" in profile and profile["hem_finish"] not in DRAWN_IN
