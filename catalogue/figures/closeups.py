"""What close-up pictures share: their sheet, hatches, a snip of cloth, a lens, labels, letters, an opened garment."""

from math import cos, radians, sin

from catalogue.figures.halves import across, closed, strokes
from catalogue.figures.pen import BoxPen

# The whole small picture is the sheet of a close-up.
WHOLE = (0, 0, 100, 100)


def sheet(pen: BoxPen) -> BoxPen:
    """The small picture in its own units, 96 by 64."""
    return pen.sheet(96, 64)


def line(*points: tuple[float, float]) -> str:
    """The path through the points, in whole numbers where they are whole."""
    (x, y), *rest = points
    return f"M{short(x)} {short(y)}" + "".join(f"L{short(a)} {short(b)}" for a, b in rest)


def short(value: float) -> str:
    return f"{round(value, 1):g}"


def hatch(x: float, y: float, w: float, h: float, degrees: float, pitch: float) -> str:
    """Parallel lines across a rectangle: 0 stands upright, 90 lies flat, 45 rises to the right."""
    dx, dy = sin(radians(degrees)), -cos(radians(degrees))
    nx, ny = -dy, dx
    corners = [a * nx + b * ny for a in (x, x + w) for b in (y, y + h)]
    middle = (min(corners) + max(corners)) / 2
    count = int((max(corners) - min(corners)) / pitch / 2)
    found = []
    for turn in range(-count, count + 1):
        ends = within(x, y, w, h, (middle + turn * pitch) * nx, (middle + turn * pitch) * ny, dx, dy)
        if ends:
            found.append(line(*ends))
    return "".join(found)


def within(x: float, y: float, w: float, h: float, px: float, py: float, dx: float, dy: float) -> list:
    """The two ends, within the rectangle, of the line through a point in a direction; nothing where it misses."""
    low, high = -1e6, 1e6
    for start, step, least, most in ((px, dx, x, x + w), (py, dy, y, y + h)):
        if abs(step) < 1e-9:
            if not least <= start <= most:
                return []
            continue
        first, last = sorted(((least - start) / step, (most - start) / step))
        low, high = max(low, first), min(high, last)
    if high - low < 1.5:
        return []
    return [(px + low * dx, py + low * dy), (px + high * dx, py + high * dy)]


def dashed(x: float, y: float, w: float, h: float, degrees: int, pitch: float, dash: tuple[int, int]) -> str:
    """Upright or flat lines across a rectangle, broken into strokes, every other line half a step further on."""
    stroke, step = dash[0], sum(dash)
    flat = degrees == 90
    across, along = (h, w) if flat else (w, h)
    found = ""
    for turn in range(int(across / pitch)):
        side = (y if flat else x) + pitch / 2 + turn * pitch
        for start in range(turn % 2 * step // 2, int(along - stroke) + 1, step):
            first = (x if flat else y) + start
            ends = f"{short(first)} {short(side)}H" if flat else f"{short(side)} {short(first)}V"
            found += f"M{ends}{short(first + stroke)}"
    return found


def pinked(pen: BoxPen, x: float = 6, y: float = 8, w: float = 84, h: float = 48) -> None:
    """A snip of cloth, cut along the top and the foot with pinking shears."""
    pen.path("o", snip(x, y, w, h))


def snip(x: float = 6, y: float = 8, w: float = 84, h: float = 48) -> str:
    """The outline of such a snip."""
    teeth = int(w / 6)
    top = "".join(f"L{short(x + n * 6 + 3)} {short(y - 3)}L{short(x + n * 6 + 6)} {short(y)}" for n in range(teeth))
    foot = "".join(
        f"L{short(x + w - n * 6 - 3)} {short(y + h + 3)}L{short(x + w - n * 6 - 6)} {short(y + h)}"
        for n in range(teeth)
    )
    return f"M{short(x)} {short(y)}{top}V{short(y + h)}{foot}Z"


def pick_glass(pen: BoxPen) -> None:
    """The frame of a thread counter, the lens that cloth is looked at through, with its graduated edge."""
    ticks = "".join(f"M{x} 58V61" for x in range(12, 90, 12))
    pen.path("e", f"M1 2H95V62H1ZM5 7H91V58H5Z{ticks}")


def sewn_label(pen: BoxPen, x: float, y: float, w: float, h: float) -> None:
    """A label laid on the cloth and sewn down all round."""
    pen.rect("b", x, y, w, h, round=1)
    pen.path("t", f"M{short(x + 3)} {short(y + 3)}H{short(x + w - 3)}V{short(y + h - 3)}H{short(x + 3)}Z")


def wording(x: float, y: float, *widths: float, gap: float = 5) -> str:
    """Lines of print too small to be read, one below the other."""
    return "".join(f"M{short(x)} {short(y + n * gap)}H{short(x + width)}" for n, width in enumerate(widths))


# Letters in steps, as a loom makes them.
LOOM = {
    "S": ("1111", "1", "1111", "   1", "1111"),
    "F": ("1111", "1", "111", "1", "1"),
}


def loom_letters(word: str, x: float, y: float, unit: float) -> str:
    """A word in letters four steps wide and five high, each step half as high again as wide."""
    found = ""
    for place, letter in enumerate(word):
        for down, row in enumerate(LOOM[letter]):
            left = x + (place * 5 + len(row) - len(row.strip())) * unit
            top = y + down * unit * 1.5
            found += f"M{left:g} {top:g}H{left + len(row.strip()) * unit:g}V{top + unit * 1.5:g}H{left:g}Z"
    return found


# From the middle of the back round one front, back to the middle: neck, shoulders, neck of the front, edge, hem.
OPENED = "M0 13C5 13 10 11 12 7L24 12L34 7C35 14 39 19 44 19L46 58C38 61 30 59 24 57C16 60 8 61 0 61"


def opened_garment(page: BoxPen) -> None:
    """A garment opened flat, its inside up: the back in the middle, the fronts to both sides, the armholes between."""
    half = page.within(48, 0, 100, 100)
    half.path("o", closed(OPENED))
    half.path("e", strokes("M24 12C20 18 20 25 24 31C28 25 28 18 24 12ZM24 31L24 57") + across("M0 17C6 17 12 15 15 9"))
    half.path("t", strokes("M38 20L41 58"))


def opened_crown(page: BoxPen) -> None:
    """A cap or hat from below: the crown's inside with the band round it, the peak or brim behind."""
    page.path("o", "M24 44C10 50 10 60 48 62C86 60 86 50 72 44Z")
    page.path("o", "M16 30C16 12 30 3 48 3C66 3 80 12 80 30C80 46 66 55 48 55C30 55 16 46 16 30Z")
    page.path("e", "M24 30C24 18 34 11 48 11C62 11 72 18 72 30C72 41 62 47 48 47C34 47 24 41 24 30Z")


def opened_legs(page: BoxPen) -> None:
    """Trousers turned inside out, from the waist to above the knee: the turnings of the seams show."""
    page.path("o", "M22 4C38 7 58 7 74 4L84 62H53L48 34L43 62H12Z")
    page.path("e", "M21 13C38 16 58 16 75 13M48 15V34")


def opened_hood(page: BoxPen) -> None:
    """A hood from the front: its inside within the opening for the face."""
    page.path("o", "M48 2C24 2 14 22 16 44C17 54 12 58 8 62H88C84 58 79 54 80 44C82 22 72 2 48 2Z")
    page.path("o", "M48 10C32 10 26 24 27 40C28 50 34 56 40 62H56C62 56 68 50 69 40C70 24 64 10 48 10Z")
