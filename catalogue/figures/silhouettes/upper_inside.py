"""Upper garments laid open, the inside up: the back in the middle, the fronts folded out on to the sleeves."""

from collections.abc import Callable, Mapping

from catalogue.figures.halves import across, closed, steps_of, strokes, written
from catalogue.figures.pen import Box, Pen
from catalogue.figures.silhouettes import silhouette
from catalogue.figures.silhouettes.upper_body import Boxes, beside
from catalogue.figures.upper_cuts import CUTS, DRAWN_IN, HIP_JACKET, MIDDLE, Cut, has_sleeves, is_hip_length

# How far the side seam and the front edge of a straight garment lie from the middle: at the hem, and at the neck.
SIDE, EDGE, NECK_EDGE = 119, 233, 227
FACING = 22
ARMHOLE = "M113 124C99 150 102 198 117 221C131 198 129 150 113 124Z"
SHORT_OPENING = ("neck_buttons", "toggles", "neck_zip")
# What of a sleeve is seen beside the front that lies on it.
SLEEVE = "M113 124C170 150 244 206 297 262C294 285 285 305 272 321C232 302 170 262 121 219"
SLEEVE_FOLDS = "M238 268C250 270 262 276 270 286"
# Half the width of the drawing, with sleeves and without.
WITH_SLEEVES, WITHOUT = 305, MIDDLE


def opened(cut: Cut, *, over_the_head: bool = False) -> Callable[[Pen, Mapping[str, str]], None]:
    """`over_the_head`: the front has no opening below the breast, and is drawn as parted there, with a torn edge."""

    def draw(pen: Pen, profile: Mapping[str, str]) -> None:
        page = pen.in_box(Box(middle_of(cut), -cut.lift, 100, 100))
        sleeved = has_sleeves(cut, profile)
        if sleeved:
            page.path("o", strokes(SLEEVE))
            page.path("f", strokes(SLEEVE_FOLDS))
        closed_below = over_the_head and profile.get("front_closure", "neck_buttons") in SHORT_OPENING
        low = cut.hem - 4
        parted = 250
        top = (
            f"M0 111C18 111 34 109 44 104C64 111 92 118 113 124C134 118 160 110 181 104C188 128 206 143 {NECK_EDGE} 144"
        )
        wide, side = EDGE + lean(cut), SIDE + flare(cut)
        edge = f"L{EDGE - 3} {parted}{torn(parted, low)}" if closed_below else f"L{wide:.0f} {low:.0f}"
        page.path("o", closed(top + edge + back_along(hem_line(cut, wide, 0))))
        bend = side - flare(cut) / 2
        page.path(
            "e", strokes(ARMHOLE + f"M117 221C112 270 {bend - 5:.0f} {cut.low - 60:.0f} {side:.0f} {cut.low:.0f}")
        )
        page.path("t", strokes(f"M111 232C106 280 {bend - 11:.0f} {cut.low - 60:.0f} {side - 7:.0f} {cut.low - 1:.0f}"))
        if sleeved:
            page.path("f", strokes("M112 146C108 166 110 186 117 206"))
        page.path("e", across("M0 134C26 134 46 126 58 108"))
        inner, foot = wide - FACING, parted if closed_below else low
        page.path(
            "e",
            strokes(
                f"M169 107C176 134 190 154 206 166L{inner:.0f} {foot:.0f}" + f"L{EDGE - 3} {parted}" * closed_below
            ),
        )
        if profile.get("hem_finish") in DRAWN_IN:
            page.path("e", across(hem_line(cut, wide - 1, 34)))
        page.path("t", across(hem_line(cut, wide - 2 if closed_below else inner, 11)))

    return draw


def torn(top: float, foot: float) -> str:
    """The ragged edge of a front that is only drawn as parted."""
    third = (foot - top) / 3
    waves = (
        f"C{EDGE + 5} {top + third * turn + 10:.0f} {EDGE - 7} {top + third * (turn + 1) - 10:.0f} "
        f"{EDGE} {top + third * (turn + 1):.0f}"
        for turn in range(3)
    )
    return "".join(waves)


def hem_line(cut: Cut, end: float, above: float) -> str:
    """From the middle of the back, up to the side seam and down again to the front edge; `above`: how far over it."""
    side = SIDE + flare(cut)
    hem, low, out = cut.hem - above, cut.low - above, end - side
    return (
        f"M0 {hem:.0f}C{side * 0.32:.0f} {hem:.0f} {side * 0.7:.0f} {low + (hem - low) * 0.75:.0f} {side:.0f} {low:.0f}"
        f"C{side + out * 0.3:.0f} {low + (hem - low) * 0.7:.0f} {side + out * 0.7:.0f} {hem - 3:.0f} "
        f"{end:.0f} {hem - 4:.0f}"
    )


def back_along(line: str) -> str:
    """The same line from its end to its beginning, to go on with."""
    steps = steps_of(line)
    ends = [points[-1] for _, points in steps]
    return written(
        [
            (command, [*reversed(points[:-1]), ends[turn]])
            for turn, (command, points) in reversed(list(enumerate(steps[1:])))
        ]
    )


def flare(cut: Cut) -> float:
    """How much further out the side seam of a coat lies at the hem than that of a straight garment."""
    return max(0, cut.wide - 130)


def lean(cut: Cut) -> float:
    """How much further out the front edge of a coat lies at the hem."""
    return 1.4 * flare(cut)


def middle_of(cut: Cut) -> float:
    return WITH_SLEEVES if cut.sleeves else WITHOUT


def regions(cut: Cut) -> Boxes:
    found = {
        "collar": (-50, 60, 100, 100),
        "neck_back": (-26, 108, 52, 24),
        "label": (-30, 136, 60, 34),
        "back": (-104, 134, 208, cut.hem - 156),
        "waist_channel": (-110, cut.waist - 9, 220, 18),
        "cloth": (-EDGE, 104, 2 * EDGE, cut.hem - 104),
    }
    boxes = {name: cut.box(*box) for name, box in found.items()} | beside(
        cut,
        1,
        {
            "front": (122 + flare(cut) / 2, 170, 86 - flare(cut) / 3, cut.hem - 194),
            "front_edge": (206, 158, 26 + lean(cut), cut.hem - 182),
            "side_seam": (106, 226, 20 + flare(cut), cut.hem - 236),
            "label_alt": (138, 196, 56, 34),
        },
    )
    return {name: (x + middle_of(cut) - MIDDLE, y, w, h) for name, (x, y, w, h) in boxes.items()}


def registered(garment: str, cut: Cut, when: Callable[[Mapping[str, str]], bool] | None = None) -> None:
    middle = middle_of(cut)
    points = {
        name: (middle + x, y - cut.lift)
        for name, x, y in (
            *(("neck_left", 44, 104), ("neck_right", -44, 104), ("neck_back", 0, 111)),
            # The middle of the facing, along which a liner is fixed.
            *(("facing_top_left", 219, 158), ("facing_top_right", -219, 158)),
            *(
                ("facing_foot_left", 219 + lean(cut), cut.hem - 24),
                ("facing_foot_right", -219 - lean(cut), cut.hem - 24),
            ),
        )
    }
    size = (2 * middle, cut.hem + 12 - cut.lift)
    draw = opened(cut, over_the_head=garment == "pullover")
    silhouette((garment,), "inside", size=size, regions=regions(cut), points=points, when=when)(draw)


for a_garment, a_cut in CUTS.items():
    registered(a_garment, a_cut)
registered("jacket", HIP_JACKET, is_hip_length)
