"""The cloth as the eye and the hand know it: print, colour, length of the repeat, weight."""

from catalogue.figures.closeups import WHOLE, dashed, hatch, pinked, sheet, snip
from catalogue.figures.cloth_fills import HATCHES, sprig, stone
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen


@part("cloth_pattern", "plain_dyed", detail=True, frame=WHOLE)
def plain_cloth(pen: BoxPen, place: Place) -> None:
    """One colour throughout, with the fold that shows it is cloth."""
    page = sheet(pen)
    pinked(page)
    page.path("f", "M18 14C30 26 34 40 30 52M26 12C36 20 42 30 42 40M70 50C66 40 68 28 78 16")


@part("cloth_pattern", "ling", detail=True, frame=WHOLE)
def sprigs_of_ling(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    pinked(page)
    page.path("e", sprig(20, 33) + sprig(62, 33) + sprig(41, 55, -1))


@part("cloth_pattern", "shingle", detail=True, frame=WHOLE)
def stones_of_shingle(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    pinked(page)
    upper = stone(10, 10, 20, 14) + stone(34, 12, 14, 10) + stone(54, 10, 30, 14)
    lower = stone(12, 41, 30, 13) + stone(48, 42, 14, 10) + stone(66, 40, 20, 14)
    page.path("e", upper + stone(10, 27, 14, 12) + stone(28, 26, 28, 14) + stone(62, 27, 22, 11) + lower)


@part("cloth_pattern", "other_print", detail=True, frame=WHOLE)
def another_print(pen: BoxPen, place: Place) -> None:
    """Splinters and dabs: neither plant nor stone."""
    page = sheet(pen)
    pinked(page)
    page.path("k", "M12 14L30 12L24 24ZM48 12L62 20L44 26ZM74 14L86 18L76 30ZM14 34L26 40L12 50Z")
    page.path("k", "M36 34L52 38L38 44ZM62 32L66 46L54 52ZM74 40L86 38L80 52ZM30 46L42 52L28 54Z")


@part("cloth_pattern", "print_a", detail=True, frame=WHOLE)
def brushed_print(pen: BoxPen, place: Place) -> None:
    """A first print that no society has named yet: long strokes of a brush."""
    page = sheet(pen)
    pinked(page)
    page.path("k", "M8 22C24 12 36 20 52 12C40 22 26 18 8 26ZM44 28C60 20 74 24 88 14C80 28 62 26 44 31Z")
    page.path("k", "M10 42C26 34 34 40 48 34C40 44 26 42 10 46ZM42 50C58 42 72 46 88 36C78 50 60 50 42 54Z")


@part("cloth_pattern", "print_b", detail=True, frame=WHOLE)
def rippled_print(pen: BoxPen, place: Place) -> None:
    """A second print that no society has named yet: ripples."""
    page = sheet(pen)
    pinked(page)
    page.path(
        "e", "".join(f"M7 {y}C20 {y - 9} 34 {y + 9} 48 {y}C62 {y - 9} 76 {y + 9} 89 {y}" for y in range(14, 56, 6))
    )


@part("colour", *HATCHES, detail=True, frame=WHOLE)
def dyed(pen: BoxPen, place: Place) -> None:
    """A snip in its own colour, under the hatch that stands for it where there is no colour."""
    one = HATCHES[place.profile["colour"]]
    lines = (
        dashed(8, 10, 80, 44, one.degrees, one.pitch + 1, one.dash)
        if one.dash
        else hatch(8, 10, 80, 44, one.degrees, one.pitch)
    )
    sheet(pen).dyed(one.tone, snip(), lines=lines)


@part("colour", "mix", detail=True, frame=WHOLE)
def of_several_colours(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    page.dyed(HATCHES["sand"].tone, snip())
    page.dyed(HATCHES["moss"].tone, stone(11, 13, 26, 14) + stone(57, 9, 28, 16) + stone(36, 34, 34, 18))
    page.dyed("#2b2722", stone(28, 20, 24, 14) + stone(64, 26, 22, 13) + stone(10, 36, 24, 14))


@part("print_repeat", "short", "long", detail=True, frame=WHOLE)
def same_motif_again(pen: BoxPen, place: Place) -> None:
    """A tape of 70 cm under the cloth, the mark at 52, and the arrow from a motif to its like."""
    page = sheet(pen)
    end = 55 if place.profile["print_repeat"] == "short" else 83
    page.path("o", "M2 2H94V34H2Z")
    page.path("e", sprig(10, 28) + sprig(end, 28))
    page.path("e", f"M10 39H{end}M14 36L10 39L14 42M{end - 4} 36L{end} 39L{end - 4} 42M10 30V42M{end} 30V42")
    page.path("b", "M2 46H94V62H2Z")
    page.path("e", "".join(f"M{10 + n * 12} 46V52M{16 + n * 12} 46V49" for n in range(7)))
    page.path("k", "M71 46H73V62H71Z")
    page.text(62, 60, "52", size=10)


def over_an_edge(pen: BoxPen, at: int) -> BoxPen:
    """The edge of a table, over which a strip of the cloth is pushed, and below a measure from feather to iron weight
    with the pointer at the state."""
    page = sheet(pen)
    page.path("o", "M1 15H34V21H1Z")
    page.path("e", "M6 21V44M28 21V44M24 56H70M24 53V59M47 53V59M70 53V59")
    page.path("k", f"M{at} 54L{at - 5} 45H{at + 5}Z")
    page.path("e", "M1 63L20 45M5 60C3 55 10 44 21 43C21 52 11 62 5 60ZM9 57L9 52M13 54L17 54M13 52L13 48")
    page.path("k", "M77 63L80 52H90L93 62L92 63Z")
    page.path("e", "M82 52C80 45 90 45 88 52")
    return page


@part("hand", "light", detail=True, frame=WHOLE)
def light_hand(pen: BoxPen, place: Place) -> None:
    """Limp: it falls straight down the edge and lies in small folds."""
    page = over_an_edge(pen, 24)
    page.path(
        "o",
        "M2 15L16 4H42C50 4 47 12 50 18C47 24 52 30 49 42C46 36 45 46 42 41C40 46 39 38 36 44"
        "C38 32 33 26 36 20C36 16 36 15 33 15Z",
    )
    page.path("e", "M40 10C44 18 38 28 42 41M45 8C48 18 43 26 45 40")


@part("hand", "medium", detail=True, frame=WHOLE)
def medium_hand(pen: BoxPen, place: Place) -> None:
    page = over_an_edge(pen, 47)
    page.path("o", "M2 15L16 4H46C64 4 72 16 76 32L60 41C56 26 48 15 32 15Z")
    page.path("f", "M46 8C58 12 64 22 68 34")


@part("hand", "heavy", detail=True, frame=WHOLE)
def heavy_hand(pen: BoxPen, place: Place) -> None:
    """Stiff and thick: it stands out from the edge like a board."""
    page = over_an_edge(pen, 70)
    page.path("o", "M2 15L16 4H70C80 4 88 6 94 9L82 18V24C74 20 66 20 56 20H34V21H2Z")
    page.path("e", "M2 15H58C68 15 76 16 82 18M82 24L94 15V9")
