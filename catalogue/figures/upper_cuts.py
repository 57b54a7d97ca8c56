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
SLEEVE = "C126 131 150 146 168 176C189 211 216 283 234 338C219 350 201 359 182 363C167 320 140 266 121 219"
# The same sleeve where a knitted or elastic cuff, narrower than itself, draws it in.
SLEEVE_DRAWN_IN = (
    "C126 131 150 146 168 176C189 211 213 272 227 308C230 317 226 323 219 326L225 347C214 356 202 362 191 366L183 345"
    "C175 348 169 345 166 337C152 297 136 258 121 219"
)
# The end of a sleeve: upper inner and outer corner, lower outer and inner corner.
CUFF = ((170, 332), (225, 311), (234, 338), (182, 363))
CUFF_DRAWN_IN = ((183, 345), (219, 326), (225, 347), (191, 366))
ELBOW_CORNER, ELBOW_ACROSS, ELBOW_DOWN = (136, 240), (45, -15), (24, 60)


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


def sleeve_of(profile: Mapping[str, str]) -> str:
    """From the tip of the shoulder down and round the sleeve's end, back up to under the arm."""
    return SLEEVE_DRAWN_IN if profile.get("cuff") in CUFFS_DRAWN_IN else SLEEVE


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
    "coat": Cut("C115 276 124 430 158 610C106 621 46 624 0 624", low=610, hem=624, wide=158, waist=312),
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
