"""The teeth of a zip under a lens: the chain runs across the picture, its tapes above and below."""

from catalogue.figures.miniatures import sparkle
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen

WHOLE = (0, 0, 100, 100)


def tapes(pen: BoxPen) -> BoxPen:
    """The two woven tapes, with the cord along each that the teeth sit on."""
    page = pen.unflipped().sheet(96, 64)
    page.path("b", "M-3 4H99V24H-3ZM-3 40H99V60H-3Z")
    page.path("e", "M-3 20H99M-3 44H99")
    page.path("t", "M0 9H96M0 55H96")
    return page


@part("zip_teeth", "metal", detail=True, frame=WHOLE)
def metal(pen: BoxPen, place: Place) -> None:
    """Separate narrow teeth with square shoulders, clamped round the cord; those of either side lie by turns."""
    page = tapes(pen)
    data = ""
    for x in range(2, 96, 12):
        data += f"M{x} 17H{x + 5}V36H{x}ZM{x + 6} 28H{x + 11}V47H{x + 6}Z"
    page.path("b", data)
    page.path("f", "".join(f"M{x + 1} 24H{x + 4}M{x + 7} 40H{x + 10}" for x in range(2, 96, 12)))
    page.path("k", sparkle(17, 16, 9) + sparkle(73, 46, 9) + sparkle(56, 12, 6))


@part("zip_teeth", "moulded", detail=True, frame=WHOLE)
def moulded(pen: BoxPen, place: Place) -> None:
    """Thick blocks with round heads, as wide as the gaps between them."""
    page = tapes(pen)
    teeth = marks = ""
    for x in range(0, 110, 24):
        y = x + 12
        teeth += (
            f"M{x - 5} 15H{x + 5}V34Q{x + 5} 40 {x} 40Q{x - 5} 40 {x - 5} 34Z"
            f"M{y - 5} 49H{y + 5}V30Q{y + 5} 24 {y} 24Q{y - 5} 24 {y - 5} 30Z"
        )
        marks += f"M{x - 5} 23H{x + 5}M{y - 5} 41H{y + 5}"
    page.path("b", teeth)
    page.path("e", marks)


@part("zip_teeth", "coil", detail=True, frame=WHOLE)
def coil(pen: BoxPen, place: Place) -> None:
    """One thread along each tape, bent into narrow loops; those of either side lie by turns."""
    page = tapes(pen)
    upper, lower = "M-4 17", "M0 47"
    for x in range(-4, 100, 8):
        y = x + 4
        upper += f"V33Q{x + 1.5} 38 {x + 3} 33V17Q{x + 5.5} 13 {x + 8} 17"
        lower += f"V31Q{y + 1.5} 26 {y + 3} 31V47Q{y + 5.5} 51 {y + 8} 47"
    page.path("e", upper + lower)
