"""Small bodies that the picture of an answer stands on, in units of the small picture."""

from catalogue.figures.halves import closed
from catalogue.figures.pen import BoxPen


def torso(pen: BoxPen) -> None:
    """A front, 40 wide and 58 high, without sleeves; the origin is the middle of the neck, the hem lies at 56."""
    pen.path(
        "o",
        "M-8 1C-12 4 -17 5 -21 8C-18 15 -17 20 -18 28C-17 38 -18 48 -19 56C-8 58 8 58 19 56"
        "C18 48 17 38 18 28C17 20 18 15 21 8C17 5 12 4 8 1C5 6 -5 6 -8 1Z",
    )


def collar(pen: BoxPen) -> None:
    """A turned-over collar on the torso."""
    pen.path("o", "M-8 1C-5 -3 5 -3 8 1C11 4 11 8 9 12L0 6L-9 12C-11 8 -11 4 -8 1Z")


def breast(pen: BoxPen) -> None:
    """A breast from the neck to below the pockets, with the beginning of both sleeves and the front edge."""
    pen.path("o", "M37 5C30 9 22 11 14 14C7 17 3 26 -1 42L-4 70H100L97 42C93 26 89 17 82 14C74 11 66 9 59 5Z")
    pen.path("e", "M15 14C22 24 23 34 21 44V66M81 14C74 24 73 34 75 44V66M45 14V66")
    pen.path("f", "M21 44C19 52 16 58 14 62M75 44C77 52 80 58 82 62")
    pen.path("o", "M37 5C42 1 54 1 59 5C63 10 62 16 59 20L48 14L37 20C34 16 33 10 37 5Z")


def sides(pen: BoxPen, y: float = 60) -> None:
    """The wearer's right and left, written where they lie in a front or inside view."""
    page = pen.unflipped()
    page.text(6, y, "R", size=16)
    page.text(90, y, "L", size=16)


def sleeved(pen: BoxPen) -> None:
    """A front with both sleeves, filling the small picture; the sleeves lie 9 to 26 and 70 to 87 across."""
    pen.path("o", "M31 7C22 9 17 13 14 20L3 58L17 62L29 30ZM65 7C74 9 79 13 82 20L93 58L79 62L67 30Z")
    pen.path("o", "M39 3C36 5 33 6 30 8C31 18 31 26 30 34V68H66V34C65 26 65 18 66 8C63 6 60 5 57 3C53 8 43 8 39 3Z")
    pen.path("e", "M45 12V64")
    pen.path("o", "M39 3C43 0 53 0 57 3C60 6 59 11 57 14L48 9L39 14C37 11 36 6 39 3Z")


def opened(pen: BoxPen) -> None:
    """A garment opened flat, its inside up: the back in the middle, a front at either hand."""
    pen.path(
        "o",
        "M38 6C42 10 54 10 58 6C68 6 78 7 86 9C92 10 94 14 95 20L96 60"
        "C70 64 26 64 0 60L1 20C2 14 4 10 10 9C18 7 28 6 38 6Z",
    )
    pen.path("e", "M27 8C30 16 30 24 28 32V62M69 8C66 16 66 24 68 32V62")
    pen.path("t", "M3 56C28 60 68 60 93 56")
    pen.path("f", "M38 6C42 4 54 4 58 6")


def raised_sleeve(pen: BoxPen) -> BoxPen:
    """A front with its sleeve raised, so that one looks under the arm, which lies at (43, 41)."""
    page = pen.sheet(96, 64)
    page.path("o", "M0 16C6 14 10 10 12 5C24 9 34 10 44 8L94 1V24C74 27 54 31 43 41C41 48 40 56 40 64H0")
    page.path("f", "M52 30C60 26 66 24 72 24M38 50C34 48 30 47 26 47")
    return page


def absent(pen: BoxPen, ghost: str, *crosses: tuple[float, float], reach: float = 5) -> None:
    """Where something would be that is not there: its outline dotted, a cross on it."""
    pen.path("u", ghost)
    marks = (
        f"M{x - reach:g} {y - reach:g}L{x + reach:g} {y + reach:g}M{x + reach:g} {y - reach:g}" for x, y in crosses
    )
    ends = (f"L{x - reach:g} {y + reach:g}" for x, y in crosses)
    pen.path("e", "".join(mark + end for mark, end in zip(marks, ends, strict=True)))


def scissors(pen: BoxPen, x: float, y: float, turn: int = 1) -> None:
    """Open scissors whose blades meet at the point and lead away from it downwards. `turn`: 1 to the right, else -1."""
    page = pen.within(x, y, 100 * turn, 100)
    page.path("k", "M-4 -14L1 -1L3 0L1 -6ZM4 -14L-1 -1L-3 0L-1 -6Z")
    page.path("e", "M-1 1C-8 1 -8 10 -4 10C0 10 0 4 -1 1ZM1 1C8 1 8 10 4 10C0 10 0 4 1 1Z")


def sparkle(x: float, y: float, reach: float) -> str:
    """A glint on metal, for solid ink."""
    r, d = reach, reach / 5
    return (
        f"M{x:g} {y - r:g}L{x + d:g} {y - d:g}L{x + r:g} {y:g}L{x + d:g} {y + d:g}"
        f"L{x:g} {y + r:g}L{x - d:g} {y + d:g}L{x - r:g} {y:g}L{x - d:g} {y - d:g}Z"
    )


# A front with its arms held out, from its middle line: the neck and shoulder, then sleeve or armhole, then the side.
NECK_AND_SHOULDER = "M0 12C5 12 8 9 9 5C14 6 19 8 23 10"
NECK_BEHIND = "M0 7C5 7 8 6 9 5C14 6 19 8 23 10"
SLEEVE_HELD_OUT = "C32 14 40 20 46 26L39 40C32 35 26 31 19 29"
SHORT_ARMHOLE = "C17 15 16 22 19 29"
SIDE = "C18 40 19 52 20 62L0 62"


def arms_out(pen: BoxPen, *, sleeves: bool = True, behind: bool = False) -> BoxPen:
    """A front with its arms held out, or without sleeves, or from behind; the pen given counts x from the middle."""
    page = pen.sheet(96, 64).within(48, 0, 100, 100)
    neck = NECK_BEHIND if behind else NECK_AND_SHOULDER
    page.path("o", closed(neck + (SLEEVE_HELD_OUT if sleeves else SHORT_ARMHOLE) + SIDE))
    if not behind:
        page.path("e", "M0 12V62")
    return page
