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


def ribbon(run: tuple[tuple[int, int], ...]) -> str:
    """A strip of cloth that runs along a curve, its far edge behind and above the near one."""
    near = curve(run)
    far = curve(tuple((x + 18, y - 10) for x, y in reversed(run)))
    return near + "L" + far[1:] + "Z"


def curve(run: tuple[tuple[int, int], ...]) -> str:
    (x, y), *rest = run
    return f"M{x} {y}" + "".join(("C" if n % 3 == 0 else " ") + f"{a} {b}" for n, (a, b) in enumerate(rest))


# Where the near edge of the strip runs: over the edge of the block and down, or out into the air.
LIGHT = ((2, 24), (14, 24), (24, 24), (32, 24), (38, 24), (38, 30), (37, 38), (36, 46), (40, 52), (37, 62))
MEDIUM = ((2, 24), (14, 24), (24, 24), (32, 24), (44, 24), (52, 36), (55, 56))
HEAVY = ((2, 22), (14, 22), (24, 22), (32, 22), (48, 22), (62, 28), (74, 38))


def block(page: BoxPen) -> None:
    page.path("o", "M2 24H32L50 14V62H2Z")
    page.path("e", "M32 24V62")
    page.path("f", hatch(4, 28, 26, 32, 45, 6))


@part("hand", "light", detail=True, frame=WHOLE)
def light_hand(pen: BoxPen, place: Place) -> None:
    """Limp: it falls down the edge and lies in small folds."""
    page = sheet(pen)
    block(page)
    page.path("o", ribbon(LIGHT))
    page.path("e", "M43 21C45 32 40 42 46 58M48 18C50 30 45 40 51 55M53 16C54 28 50 40 56 52")


@part("hand", "medium", detail=True, frame=WHOLE)
def medium_hand(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    block(page)
    page.path("o", ribbon(MEDIUM))
    page.path("e", "M2 27H32C42 27 49 38 52 57L55 56")
    page.path("f", "M50 17C60 22 65 34 68 48")


@part("hand", "heavy", detail=True, frame=WHOLE)
def heavy_hand(pen: BoxPen, place: Place) -> None:
    """Stiff and thick: it stands out from the edge like a board."""
    page = sheet(pen)
    block(page)
    page.path("o", ribbon(HEAVY))
    page.path("o", "M2 22H32C48 22 62 28 74 38L70 45C60 35 48 29 32 29H2Z")
    page.path("e", "M70 45L74 38L92 28V34L70 45")
