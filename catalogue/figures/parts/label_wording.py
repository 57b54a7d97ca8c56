"""What is written on labels: stock numbers, marks, sizes, treatment. All numbers and marks are invented."""

from math import cos, radians, sin

from catalogue.figures import miniatures
from catalogue.figures.closeups import WHOLE, line, loom_letters, sewn_label, sheet, wording
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

NUMBERS = {
    "ledger": "C/14/57",
    "stores": "27-114-06",
    "old_form": "A/00/00",
    "new_form": "00-000-00",
}
BARS = "2132112312211321"


@part("stock_no", "none", *NUMBERS, detail=True, frame=WHOLE)
def numbered(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    sewn_label(page, 4, 6, 88, 52)
    number = NUMBERS.get(place.profile["stock_no"], "")
    page.path("e", wording(16, 14, 64, 40) + wording(16, 50, 50))
    if number:
        page.text(48, 38, number, size=15)
    else:
        miniatures.absent(page, "M14 24H82V44H14Z", (48, 34), reach=6)


@part("stock_no", "bar", "coded", detail=True, frame=WHOLE)
def with_a_bar_code(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    sewn_label(page, 4, 6, 88, 52)
    bars, x = "", 22
    for turn, width in enumerate(BARS):
        if turn % 2 == 0:
            bars += f"M{x} 13H{x + int(width)}V38H{x}Z"
        x += int(width) + 1
    page.path("k", bars)
    page.text(48, 51, "27114128" if place.profile["stock_no"] == "bar" else "00000000", size=13)


def stamped_cloth(page: BoxPen) -> None:
    page.path("o", "M3 5C30 2 66 2 93 5V59C66 62 30 62 3 59Z")
    page.path("f", "M10 12C14 24 14 40 10 52M86 12C82 24 82 40 86 52")


@part("property_mark", "none", detail=True, frame=WHOLE)
def no_mark(pen: BoxPen, place: Place) -> None:
    """A torch held flat to the cloth, and nothing comes out."""
    page = sheet(pen)
    stamped_cloth(page)
    page.path("o", "M1 27H13L19 22V40L13 35H1ZM13 27V35")
    page.path("f", "M24 25L86 10M26 29L88 24M26 33L88 38M24 37L86 52")
    miniatures.absent(page, "M50 32C50 14 78 14 78 32C78 50 50 50 50 32Z", (64, 32), reach=7)


@part("property_mark", "wheel", detail=True, frame=WHOLE)
def wheel(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    stamped_cloth(page)
    page.circle("e", 48, 32, 24)
    page.circle("e", 48, 32, 20)
    spokes = ""
    for turn in range(0, 360, 45):
        x, y = cos(radians(turn)), sin(radians(turn))
        spokes += line((48 + 5 * x, 32 + 5 * y), (48 + 20 * x, 32 + 20 * y))
    page.path("e", spokes)
    page.circle("e", 48, 32, 5)
    page.circle("k", 48, 32, 2)


WAVE = "M22 {y}C28 {up} 34 {up} 40 {y}C46 {down} 50 {down} 56 {y}C62 {up} 68 {up} 74 {y}"


@part("property_mark", "wave", detail=True, frame=WHOLE)
def letters_over_a_wave(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    stamped_cloth(page)
    page.text(48, 36, "SF", size=28)
    page.path("e", "".join(WAVE.format(y=y, up=y - 8, down=y + 8) for y in (46, 51)))


@part("property_mark", "woven_in", detail=True, frame=WHOLE)
def woven_into_the_label(pen: BoxPen, place: Place) -> None:
    """The letters stand in the threads of a label that is ribbed all over."""
    page = sheet(pen)
    page.path("b", "M4 8H92V56H4Z")
    page.path("f", "".join(f"M4 {y}H92" for y in range(10, 56, 2)))
    page.path("e", "M9 8V56M87 8V56M4 12H92M4 52H92")
    page.path("k", loom_letters("SF", 30, 17, 4))


@part("property_mark", "mark_old", detail=True, frame=WHOLE)
def older_mark(pen: BoxPen, place: Place) -> None:
    """A mark that no society has named yet: a lozenge in a ring."""
    page = sheet(pen)
    stamped_cloth(page)
    page.circle("e", 48, 32, 24)
    page.path("e", "M48 13L64 32L48 51L32 32Z")
    page.circle("k", 48, 32, 4)


@part("property_mark", "mark_new", detail=True, frame=WHOLE)
def later_mark(pen: BoxPen, place: Place) -> None:
    """A mark that no society has named yet: two rings that overlap."""
    page = sheet(pen)
    stamped_cloth(page)
    for x in (38, 58):
        page.circle("e", x, 32, 17)
        page.circle("e", x, 32, 13)


SIZES = {"inches": "38 IN", "number": "SIZE 4", "cm": "160/74"}


@part("size_system", "none", detail=True, frame=WHOLE)
def no_size(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    sewn_label(page, 4, 6, 88, 52)
    page.path("e", wording(16, 13, 64, 40))
    miniatures.absent(page, "M22 24H74V52H22Z", (48, 38), reach=7)


@part("size_system", *SIZES, detail=True, frame=WHOLE)
def sized(pen: BoxPen, place: Place) -> None:
    state = place.profile["size_system"]
    page = sheet(pen)
    sewn_label(page, 4, 6, 88, 52)
    page.text(48, 36, SIZES[state], size=20)
    page.path("e", {"number": wording(24, 45, 48, 30), "inches": inch_rule(), "cm": centimetre_rule()}[state])


def inch_rule() -> str:
    """Halves, quarters and eighths: what only an inch is divided into."""
    heights = (8, 3, 5, 3, 6, 3, 5, 3)
    return "M14 42H82" + "".join(f"M{14 + 4 * n} 42V{42 + heights[n % 8]}" for n in range(18))


def centimetre_rule() -> str:
    """Tenths, with a longer line at the half."""
    heights = (8, 3, 3, 3, 3, 5, 3, 3, 3, 3)
    return "M14 42H82" + "".join(f"M{16 + 3 * n} 42V{42 + heights[n % 10]}" for n in range(22))


@part("size_system", "letters", detail=True, frame=WHOLE)
def sized_by_letters(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    sewn_label(page, 4, 6, 88, 52)
    for x, letter in ((24, "S"), (48, "M"), (72, "L")):
        page.text(x, 40, letter, size=22)
    page.rect("e", 37, 18, 22, 28, round=3)


def second_label(page: BoxPen) -> None:
    """The foot of the main label, and the second one below it."""
    page.path("b", "M10 1H86V11H10Z")
    page.path("e", "M18 4H60M18 7H48")
    sewn_label(page, 14, 15, 68, 46)


@part("treatment_label", "none", detail=True, frame=WHOLE)
def main_label_alone(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    page.path("b", "M10 1H86V23H10Z")
    page.path("t", "M13 1V20H83V1")
    page.path("e", wording(20, 5, 50, 36, 44))
    miniatures.absent(page, "M14 29H82V61H14Z", (48, 45), reach=7)


@part("treatment_label", "repellent", detail=True, frame=WHOLE)
def against_insects(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    second_label(page)
    page.path("e", "M40 34L33 29L32 24M39 40H30L27 36M39 45L30 49L28 54M42 51L36 57M56 34L63 29L64 24")
    page.path("e", "M57 40H66L69 36M57 45L66 49L68 54M54 51L60 57")
    page.path("k", "M48 29C56 29 58 38 57 44C56 51 52 54 48 54C44 54 40 51 39 44C38 38 40 29 48 29Z")
    page.path("k", "M44 28C44 23 52 23 52 28Z")
    page.path("b", "M22 21L25 18L74 55L71 58Z")


@part("treatment_label", "proofed", detail=True, frame=WHOLE)
def against_water(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    second_label(page)
    page.path("k", "M26 42C27 24 69 24 70 42C66 38 59 38 55 42C52 38 44 38 41 42C37 38 30 38 26 42ZM47 28V24H49V28Z")
    page.path(
        "e", "M48 40V54C48 59 41 59 41 54M25 20L22 27M35 18L33 24M61 18L63 24M71 20L74 27M22 34L20 40M74 34L76 40"
    )


@part("treatment_label", "flame", detail=True, frame=WHOLE)
def against_flames(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    second_label(page)
    right = "M49 19C52 28 63 32 62 44C61 52 55 56 48 56"
    page.path("k", right + "C40 56 34 51 34 43C34 36 39 33 40 26C44 29 44 32 44 36C48 32 50 26 49 19Z")
    page.path("b", "M48 38C50 43 55 44 54 49C53 53 51 54 48 54C44 54 42 51 42 48C42 44 47 43 48 38Z")


@part("treatment_label", "care_symbols", detail=True, frame=WHOLE)
def washing_symbols(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    second_label(page)
    page.path("e", "M19 28L22 46H38L41 28C37 33 34 25 30 30C26 34 23 25 19 28M22 53H74")
    page.path("e", "M47 46H77C77 38 73 34 66 34H54ZM54 34C54 30 55 28 58 28H70C73 28 74 31 74 36")
