"""What a lost part leaves behind: thread ends, needle holes, cloth that has not faded, torn edges.

Common practice, no source. One picture for each kind of part, of the size of an answer's picture.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from catalogue.figures.closeups import hatch, sheet, wording
from catalogue.figures.parts import PICTURE
from catalogue.figures.pen import BoxPen, Pen

Drawing = Callable[[BoxPen], None]


@dataclass(frozen=True)
class LeftBehind:
    """What to look for, in words, and as SVG content in a box of 96 by 64."""

    words: str
    svg: str


DRAWN: dict[str, tuple[str, Drawing]] = {}
KIND_OF: dict[str, str] = {}
ANY_PART = "sewn-on piece"


def leaves(kind: str, words: str, *features: str) -> Callable[[Drawing], Drawing]:
    """Registers what a kind of part leaves, and the features whose part is of that kind."""

    def registered(draw: Drawing) -> Drawing:
        DRAWN[kind] = words, draw
        KIND_OF.update(dict.fromkeys(features, kind))
        return draw

    return registered


@cache
def left_behind(feature: str) -> LeftBehind:
    """What the lost part of a feature leaves; of a part that is not known, what any piece leaves that was sewn on."""
    words, draw = DRAWN[KIND_OF.get(feature, ANY_PART)]
    pen = Pen()
    draw(sheet(pen.in_box(PICTURE)))
    return LeftBehind(words, pen.svg)


def cloth(page: BoxPen) -> None:
    """A piece of the garment, its edges beyond the picture."""
    page.path("o", "M2 4C30 2 66 6 94 3V60C66 63 30 58 2 61Z")


def holes(*points: tuple[float, float]) -> str:
    """Needle holes that no thread fills, for solid ink."""
    return "".join(f"M{x:g} {y:g}H{x + 2:g}V{y + 2:g}H{x:g}Z" for x, y in points)


def row(x0: float, y0: float, x1: float, y1: float, count: int) -> list[tuple[float, float]]:
    """So many holes at equal distances between two points, both among them."""
    steps = [n / (count - 1) for n in range(count)]
    return [(round(x0 + (x1 - x0) * step, 1), round(y0 + (y1 - y0) * step, 1)) for step in steps]


def thread_end(x: float, y: float) -> str:
    """A broken thread that hangs from the cloth."""
    return f"M{x:g} {y:g}C{x + 6:g} {y - 5:g} {x + 1:g} {y + 7:g} {x + 7:g} {y + 5:g}"


@leaves(
    ANY_PART,
    "a patch of unfaded cloth, needle holes round it, ends of thread",
    *("chest_pockets", "lower_pockets", "sleeve_pocket", "inside_pocket", "thigh_pocket", "reinforcement"),
    *("bag_divider", "glove_palm", "chest_pocket_form"),
)
def patch(page: BoxPen) -> None:
    cloth(page)
    page.path("f", hatch(28, 12, 40, 40, 45, 3))
    around = row(26, 10, 26, 52, 10) + row(68, 10, 68, 52, 10) + row(31, 52, 63, 52, 8)
    page.path("k", holes(*around))
    page.path("e", thread_end(27, 11) + thread_end(69, 11) + thread_end(69, 53))


@leaves(
    "tab or strap",
    "holes of a sewn box at its end, a darker strip, and the button that it met",
    *("throat_tab", "shoulder_strap", "chin_strap", "bag_strap", "wrist_fastening", "bag_closure"),
)
def tab(page: BoxPen) -> None:
    cloth(page)
    page.path("f", hatch(20, 22, 46, 20, 45, 3))
    box = row(8, 22, 20, 22, 4) + row(8, 40, 20, 40, 4) + row(8, 28, 8, 34, 2) + row(20, 28, 20, 34, 2) + [(14, 31)]
    page.path("k", holes(*box))
    page.path("e", thread_end(10, 23) + thread_end(21, 40))
    page.circle("b", 76, 32, 8)
    page.circle("k", 73, 32, 1.3)
    page.circle("k", 79, 32, 1.3)


@leaves("hanger loop", "two torn spots under the neck seam, with stitch holes and a stump of tape", "hanger")
def hanger(page: BoxPen) -> None:
    page.path("o", "M2 14C30 22 66 22 94 14V62H2Z")
    page.path("e", "M2 20C30 28 66 28 94 20")
    page.path("t", "M2 17C30 25 66 25 94 17")
    page.path("b", "M24 24L33 25L32 36L29 33L27 37L24 34Z")
    page.path("k", holes(*row(62, 27, 70, 27, 3), *row(62, 32, 70, 32, 3)))
    page.path("e", thread_end(68, 30) + "M62 38L66 36L69 39L73 37")


@leaves(
    "label",
    "a frame of needle holes, darker cloth within, a shred of its edge under the thread",
    *("label_kind", "treatment_label", "label_place", "label_thread", "needle_holes"),
)
def label(page: BoxPen) -> None:
    cloth(page)
    page.path("f", hatch(20, 18, 56, 28, 45, 3))
    page.path("b", "M18 14H78V18L72 20L66 17L58 21L50 18L42 20L34 17L26 21L18 18Z")
    page.path("t", "M20 16H76")
    page.path("k", holes(*row(17, 24, 17, 47, 5), *row(77, 24, 77, 47, 5), *row(24, 47, 70, 47, 8)))
    page.path("e", thread_end(78, 47))


@leaves("print", "a label washed blank: hold it against the light", *("stock_no", "size_system"))
def washed_print(page: BoxPen) -> None:
    page.path("b", "M8 10H88V54H8Z")
    page.path("t", "M11 13H85V51H11Z")
    page.path("u", wording(20, 24, 56, 44, 50, gap=8))


@leaves("ink", "the ghost of a stamp: a torch held flat to the cloth shows it", "property_mark")
def faded_ink(page: BoxPen) -> None:
    cloth(page)
    page.circle("u", 46, 32, 18)
    page.circle("u", 46, 32, 9)
    page.path("f", "M52 20L60 12M34 44L28 52")


@leaves("collar or hood", "buttons round the neck, or a cut edge with old holes below it", "collar")
def collar(page: BoxPen) -> None:
    page.path("o", "M2 20L28 8C32 34 64 34 68 8L94 20V62H2Z")
    page.path(
        "e",
        "M28 8L31 12M29 15L33 17M32 21L36 21M37 26L40 24M43 29L44 26M53 29L52 26M59 26L56 24M64 21L60 21M67 15L63 17",
    )
    page.path("k", holes((24, 15), (26, 22), (31, 29), (38, 34), (47, 36), (56, 34), (63, 29), (68, 22), (70, 15)))


@leaves("lining", "a cut edge of other cloth along the seams, and rows of old holes", "lining", "glove_lining")
def lining(page: BoxPen) -> None:
    page.path("o", "M2 4H94V60H2Z")
    page.path("e", "M20 4V60M76 4V60")
    page.path(
        "b",
        "M20 4H30L27 11L31 18L26 26L30 33L27 41L31 49L27 60H20ZM76 4H66L69 12L65 20L70 28L66 36L69 45L65 52L69 60H76Z",
    )
    page.path("t", "M17 4V60M79 4V60")
    page.path("e", "M30 18L35 20M29 33L34 32M65 20L60 21M66 36L61 39")
    page.path("k", holes(*row(36, 9, 59, 9, 6)))


@leaves(
    "row of buttons",
    "tufts of thread at even distances, and pairs of holes",
    *("liner_fixing", "front_buttons", "button_fix", "button_material", "flap_fastening"),
)
def buttons_gone(page: BoxPen) -> None:
    page.path("o", "M2 2H60V62H2Z")
    page.path("t", "M54 2V62")
    for y in (10, 28, 46):
        page.path("e", f"M34 {y + 2}L29 {y - 4}M35 {y + 2}L36 {y - 5}M36 {y + 2}L42 {y - 3}")
        page.path("k", holes((32, y + 4), (37, y + 4)))


@leaves("cord", "an empty channel with its eyelets: feel for it", "waist_draw", "ankle")
def cord(page: BoxPen) -> None:
    cloth(page)
    page.path("t", "M2 24C30 22 66 26 94 23M2 42C30 40 66 44 94 41")
    for x in (36, 60):
        page.circle("b", x, 33, 5)
        page.circle("k", x, 33, 2.4)
    page.path("f", "M12 26C13 32 12 36 13 39M22 26C23 32 22 36 23 39M76 26C77 32 76 36 77 39M86 26C87 32 86 36 87 39")


@leaves("eyelets", "a torn round hole, the ring pressed into the cloth, or a darn", "underarm_vent", "crown_vents")
def eyelets(page: BoxPen) -> None:
    cloth(page)
    page.circle("f", 28, 32, 13)
    page.path("k", "M22 27L28 29L33 25L34 32L38 36L31 37L27 42L25 36L19 34Z")
    page.path("e", hatch(58, 22, 22, 20, 0, 3) + hatch(58, 22, 22, 20, 90, 3))
    page.path("f", "M54 32C54 14 84 14 84 32C84 50 54 50 54 32Z")


@leaves("sleeve", "a frayed or newly bound armhole, with the holes of the old seam", "sleeve_set")
def sleeve(page: BoxPen) -> None:
    page.path("o", "M14 2L58 12C50 28 52 46 66 58L64 64H2V10Z")
    page.path("e", "M57 14L65 15M54 20L62 24M53 27L61 27M53 34L60 38M55 41L63 41M58 48L64 53M62 54L69 55")
    page.path("k", holes((50, 13), (46, 20), (45, 27), (45, 34), (47, 41), (50, 48), (54, 54)))


@leaves("flap", "a row of needle holes along the edge, an edge that was cut", "ear_flaps", "bag_flap", "brim")
def flap(page: BoxPen) -> None:
    page.path("o", "M14 44C14 14 30 4 50 4C72 4 84 18 84 44C60 50 38 50 14 44Z")
    page.path("t", "M15 34C38 40 60 40 83 34")
    page.path("k", holes(*row(30, 43, 66, 43, 9)))
    page.path("e", "M30 48L32 53M38 48L37 54M46 49L48 54M54 49L53 54M62 48L64 53M68 48L68 52")


@leaves("vent", "a slit that was sewn shut: another thread, other stitches than in the hem", "hem_vent")
def vent(page: BoxPen) -> None:
    page.path("o", "M2 2H94V54C66 58 30 58 2 54Z")
    page.path("t", "M2 49C30 53 66 53 94 49")
    page.path("e", "M48 2V57M44 16L52 19M43 23L53 25M45 30L51 33M43 37L53 38M44 44L52 47")


@leaves("bar of stitches", "two close rows of needle holes at the corner", "bartack")
def bar(page: BoxPen) -> None:
    page.path("o", "M2 2H94V62H2Z")
    page.path("e", "M30 62V22H94M30 32H94")
    page.path("k", holes(*row(18, 18, 46, 18, 8), *row(20, 23, 48, 23, 8)))
    page.path("e", thread_end(48, 20))


def zip_taken_out(page: BoxPen, x: float, width: float) -> None:
    """Two front edges, each with a strip that has not faded and the holes that held the tape; the gap begins at x."""
    page.path("o", f"M{x - width} 2H{x}V62H{x - width}ZM{x + 8} 2H{x + 8 + width}V62H{x + 8}Z")
    page.path("f", hatch(x - 9, 3, 8, 58, 45, 4) + hatch(x + 9, 3, 8, 58, 45, 4))
    page.path("k", holes(*row(x - 11, 4, x - 11, 58, 7), *row(x + 17, 4, x + 17, 58, 7)))


@leaves(
    "closure",
    "tufts of thread and empty buttonholes; of a zip, darker strips and rows of needle holes along both edges",
    *("front_closure", "fly"),
)
def closure(page: BoxPen) -> None:
    page.path("o", "M2 2H22V62H2ZM26 2H46V62H26Z")
    for y in (12, 32, 52):
        page.path("e", f"M8 {y}H17M35 {y}L31 {y - 6}M36 {y}L37 {y - 7}M37 {y}L41 {y - 5}")
        page.path("k", holes((33, y + 2), (37, y + 2)))
    zip_taken_out(page, 69, 18)


@leaves(
    "zip", "darker strips along both edges, rows of needle holes, shreds of the tape under the stitches", "zip_teeth"
)
def zip_gone(page: BoxPen) -> None:
    zip_taken_out(page, 44, 42)
    page.path("b", "M33 50L44 51L42 55L44 58L33 60Z")
    page.path("e", thread_end(33, 22) + thread_end(62, 40))


@leaves(
    "stud",
    "a torn hole, or the mark of a ring pressed round a small hole",
    *("trade_name", "stud_material"),
)
def stud(page: BoxPen) -> None:
    cloth(page)
    page.path("t", "M2 10C30 8 66 12 94 9")
    for radius in (14, 11):
        page.circle("f", 28, 36, radius)
    page.circle("k", 28, 36, 2.5)
    page.path("k", "M62 36L66 29L70 32L77 27L76 34L82 38L75 40L73 46L69 41L63 44L66 38Z")


@leaves(
    "storm flap",
    "a long darker strip beside the front edge, and the row of needle holes that held it",
    "closure_cover",
)
def storm_flap(page: BoxPen) -> None:
    page.path("o", "M2 2H66V62H2Z")
    page.path("t", "M61 2V62")
    page.path("f", hatch(30, 3, 26, 58, 45, 3))
    page.path("k", holes(*row(27, 3, 27, 59, 11)))
    page.path("e", thread_end(28, 16) + thread_end(28, 44))


@leaves(
    "pocket flap",
    "a row of needle holes above the pocket's mouth, a darker strip, and the button that it met",
    "flap_shape",
)
def pocket_flap(page: BoxPen) -> None:
    page.path("o", "M2 2H94V62H2Z")
    page.path("o", "M22 28H74V62H22Z")
    page.path("t", "M22 33H74M27 33V62M69 33V62")
    page.path("f", hatch(22, 17, 52, 10, 45, 3))
    page.path("k", holes(*row(22, 14, 72, 14, 10)))
    page.path("e", thread_end(66, 16))
    page.circle("b", 48, 46, 6)
    page.circle("k", 48, 46, 1.5)


@leaves(
    "cuff or band",
    "a cut edge that frays, and above it the creases of the old seam and its holes",
    *("cuff", "hem_finish"),
)
def band(page: BoxPen) -> None:
    page.path("o", "M18 2L14 46C36 52 60 52 82 46L78 2")
    page.path("f", "M26 8C25 18 24 26 24 36M38 6C38 16 37 28 37 39M58 6C58 16 59 28 59 39M70 8C71 18 72 26 72 36")
    page.path("k", holes(*row(17, 40, 44, 43, 7), *row(50, 43, 77, 40, 7)))
    page.path("e", "M20 48L19 55M28 50L30 57M36 50L35 58M44 51L46 58M52 51L51 58M60 50L62 57M68 50L67 56M76 48L78 54")


@leaves(
    "belt loops",
    "darker bars across the waistband with needle holes at both ends; tufts of thread where buttons were",
    "waist_fix",
)
def loops(page: BoxPen) -> None:
    page.path("o", "M2 14C32 18 64 18 94 14V62H2Z")
    page.path("e", "M2 40C32 44 64 44 94 40")
    page.path("t", "M2 18C32 22 64 22 94 18M2 36C32 40 64 40 94 36")
    page.path("f", hatch(22, 19, 8, 21, 45, 3) + hatch(66, 19, 8, 21, 45, 3))
    page.path("k", holes(*row(20, 12, 30, 12, 4), *row(20, 46, 30, 46, 4), *row(64, 12, 74, 12, 4)))
    page.path("k", holes(*row(64, 46, 74, 46, 4), (46, 30), (51, 30)))
    page.path("e", "M48 28L44 21M49 28L50 20M50 28L55 22")
