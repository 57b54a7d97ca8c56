"""Upper garments laid open, the inside up: the back in the middle, the fronts folded out, the sleeves behind."""

from collections.abc import Callable, Mapping

from catalogue.figures.halves import across, closed, strokes
from catalogue.figures.pen import Pen
from catalogue.figures.silhouettes import silhouette
from catalogue.figures.silhouettes.upper_body import Boxes, beside
from catalogue.figures.upper_cuts import CUTS, DRAWN_IN, HIP_JACKET, NO_SLEEVES, WIDTH, Cut, is_hip_length

EDGE = 232
ARMHOLE = "M113 124C99 150 102 198 117 221C131 198 129 150 113 124Z"
SHORT_OPENING = ("neck_buttons", "toggles", "neck_zip")


def opened(cut: Cut, *, over_the_head: bool = False) -> Callable[[Pen, Mapping[str, str]], None]:
    """`over_the_head`: the front has no opening below the breast, and is drawn as parted there, with a torn edge."""

    def draw(pen: Pen, profile: Mapping[str, str]) -> None:
        page = cut.page(pen)
        closed_below = over_the_head and profile.get("front_closure", "neck_buttons") in SHORT_OPENING
        low = cut.hem - 6
        top = "M0 111C18 111 34 109 44 104C64 111 92 118 113 124C134 118 160 110 181 104C188 128 206 143 "
        if closed_below:
            third = (low - 250) / 3
            torn = "".join(
                f"C{EDGE + 6} {250 + third * turn + 10:.0f} {EDGE - 6} {250 + third * turn + third - 10:.0f} "
                f"{EDGE} {250 + third * (turn + 1):.0f}"
                for turn in range(3)
            )
            edge = f"{EDGE} 144L{EDGE} 250{torn}"
        else:
            edge = f"{EDGE} 144L{EDGE} {low:.0f}"
        page.path("o", closed(f"{top}{edge}C170 {cut.hem} 90 {cut.hem} 0 {cut.hem}"))
        page.path("e", strokes(ARMHOLE + f"M117 221C113 270 114 {low - 60:.0f} 116 {cut.hem - 1:.0f}"))
        page.path("t", strokes(f"M110 232C108 280 109 {low - 60:.0f} 110 {cut.hem - 2:.0f}"))
        page.path("e", across("M0 134C26 134 46 126 58 108"))
        foot = 250 if closed_below else low
        page.path("e", strokes(f"M170 107C178 134 194 152 212 158L212 {foot:.0f}" + f"L{EDGE} 250" * closed_below))
        end = EDGE - 1 if closed_below else 212
        if profile.get("hem_finish") in DRAWN_IN:
            page.path("e", across(f"M0 {cut.hem - 36}L{EDGE} {cut.hem - 38}"))
        page.path("t", across(f"M0 {cut.hem - 14}C90 {cut.hem - 14} 170 {cut.hem - 14} {end} {low - 12}"))
        if profile.get("sleeve_set") not in NO_SLEEVES and cut.sleeves:
            page.path("f", strokes("M108 144C107 164 109 186 115 204M117 142C121 160 121 180 118 198"))

    return draw


def regions(cut: Cut) -> Boxes:
    found = {
        "collar": (-50, 60, 100, 100),
        "neck_back": (-26, 108, 52, 24),
        "label": (-30, 136, 60, 34),
        "back": (-104, 134, 208, cut.hem - 156),
        "waist_channel": (-110, cut.waist - 9, 220, 18),
        "cloth": (-EDGE, 104, 2 * EDGE, cut.hem - 104),
    }
    return {name: cut.box(*box) for name, box in found.items()} | beside(
        cut,
        1,
        {
            "front": (122, 170, 86, cut.hem - 194),
            "front_edge": (206, 158, 26, cut.hem - 182),
            "side_seam": (106, 226, 20, cut.hem - 236),
            "label_alt": (138, 196, 56, 34),
        },
    )


def registered(garment: str, cut: Cut, when: Callable[[Mapping[str, str]], bool] | None = None) -> None:
    points = {"neck_left": cut.point(44, 104), "neck_right": cut.point(-44, 104), "neck_back": cut.point(0, 111)}
    size = (WIDTH, cut.hem + 12 - cut.lift)
    draw = opened(cut, over_the_head=garment == "pullover")
    silhouette((garment,), "inside", size=size, regions=regions(cut), points=points, when=when)(draw)


for a_garment, a_cut in CUTS.items():
    registered(a_garment, a_cut)
registered("jacket", HIP_JACKET, is_hip_length)
