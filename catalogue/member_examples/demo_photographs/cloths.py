"""Colour and weave of cloth, and the two invented prints."""

from collections.abc import Mapping
from functools import lru_cache

import numpy as np
from PIL import Image, ImageDraw

from catalogue.member_examples.demo_photographs.noise import Array, blurred, grained, seeded, soft, softened, stretched

# sRGB of new cloth by the recorded colour group.
COLOURS = {
    "slate": (84, 98, 116), "moss": (90, 93, 67), "drab": (142, 128, 92), "sand": (192, 172, 132),
    "grey": (128, 130, 130), "orange": (196, 104, 58), "yellow": (198, 172, 76), "silver": (170, 173, 172),
    "mix": (120, 118, 100),
}  # fmt: skip
BUTTONS = {
    "corozo": (150, 122, 86), "horn": (82, 66, 52), "urea": (88, 92, 74), "brass": (176, 146, 78),
    "polyester": (70, 74, 66), "nylon": (60, 66, 60),
}  # fmt: skip
LING = ((171, 160, 134), (104, 82, 62), (92, 100, 66), (118, 108, 122))  # bone, brown, moss, violet-grey
SHINGLE = ((98, 102, 104), (134, 138, 138), (164, 166, 162), (74, 78, 82), (186, 174, 146))  # four greys and buff
# Pixels of one repeat of a print: for whole views, and for close ones.
FAR, NEAR = 448, 1344
Colour = tuple[int, int, int]
REPEAT = {"true": 61.0, "copy": 41.0}  # centimetres; copies print at about two thirds
# Centimetres to a unit of the drawing: flats are drawn as large as they can be, whatever the size of the piece.
CENTIMETRES = {"cap": 0.075, "hat": 0.085, "hood": 0.11, "bag": 0.1, "glove": 0.06}
USUAL_CENTIMETRES = 0.25


def base_colour(states: Mapping[str, str]) -> Array:
    return np.array(COLOURS.get(states.get("colour", ""), COLOURS["moss"]), dtype=np.float32)


def cloth_colours(states: Mapping[str, str], where: tuple[Array, Array], level: Array, shift: float) -> Array:
    """Colour of the cloth at each point, (h, w, 3). `where`: in centimetres; every piece of cloth is cut anew."""
    repeat = REPEAT["copy" if states.get("print_repeat", "").startswith("short") else "true"]
    across, down = where
    centimetre = 1 / max(1e-6, float(across[0, 1] - across[0, 0]))
    tile = tile_of(states.get("cloth_pattern", "plain_dyed"), FAR if centimetre * repeat < 2 * FAR else NEAR)
    if tile is None:
        return np.broadcast_to(base_colour(states), (*level.shape, 3))
    side = len(tile)
    coarse = round(centimetre * repeat / side)
    if coarse > 1:  # nearer than the tile is fine: fewer points of it, enlarged smoothly
        few = printed(
            tile, (across[::coarse, ::coarse], down[::coarse, ::coarse]), level[::coarse, ::coarse], repeat, shift
        )
        enlarged = Image.fromarray(few.astype(np.uint8)).resize(level.shape[::-1], Image.Resampling.BICUBIC)
        return np.asarray(enlarged, np.float32)
    return printed(tile, where, level, repeat, shift)


def printed(tile: Array, where: tuple[Array, Array], level: Array, repeat: float, shift: float) -> Array:
    side, cut = len(tile), np.floor(level) * 19
    u = ((where[0] + cut + shift) * (side / repeat)).astype(int) % side
    v = ((where[1] + cut * 1.7 + shift) * (side / repeat)).astype(int) % side
    return tile[v, u]


@lru_cache(maxsize=8)
def tile_of(pattern: str, side: int = FAR) -> Array | None:
    """One repeat of a print, (side, side, 3), whose edges meet; None for plain cloth."""
    if pattern == "ling":
        return ling(side)
    if pattern == "shingle":
        return shingle(side)
    if pattern == "other_print":
        return ling(side)[::-1, :, ::-1]
    return None


def meeting(chance: np.random.Generator, side: int, columns: int, rows: int) -> Array:
    """A soft field of so many hills whose left edge meets its right and whose top meets its bottom."""
    wide = np.tile(chance.standard_normal((rows, columns), dtype=np.float32), (2, 2))
    margin = side // 2
    return stretched(wide, (2 * side, 2 * side))[margin : margin + side, margin : margin + side]


def ling(side: int) -> Array:
    """Sprigs of heather in three colours, in tufts on bone, over a shade of moss."""
    chance = seeded("ling")
    whole = 2 * side
    picture = Image.new("RGB", (whole, whole), LING[0])
    shade = meeting(chance, side, 11, 6) + 0.3 * meeting(chance, side, 45, 28)
    mask = Image.fromarray(np.where(shade > 0.25, 150, 0).astype(np.uint8)).resize(picture.size)
    picture.paste((150, 144, 112), mask=mask)
    pen = ImageDraw.Draw(picture)
    for turn in range(330):
        x, y = chance.uniform(0, whole, 2)
        sprig(pen, chance, (x, y), whole, LING[1 + turn % 3])
    tile = np.asarray(picture.reduce(2), np.float32)
    return np.stack([softened(tile[:, :, c]) for c in range(3)], axis=2)


def sprig(
    pen: ImageDraw.ImageDraw, chance: np.random.Generator, foot: tuple[float, float], whole: int, colour: Colour
) -> None:
    """A bent stem with bells along it; drawn once more where it leaves the tile, so that the edges meet."""
    (x, y), unit = foot, whole / 896
    lean, tall = chance.normal(0, 0.4), chance.uniform(34, 62) * unit
    stem = [(x + lean * tall * t * t, y - tall * t) for t in np.linspace(0, 1, 6)]
    bells = [
        (
            x + lean * tall * t * t + chance.choice((-1, 1)) * chance.uniform(3, 8) * unit,
            y - tall * t,
            chance.uniform(3, 6) * unit,
        )
        for t in np.linspace(0.3, 1, 8)
    ]
    for dx in (-whole, 0, whole):
        for dy in (0, whole):
            pen.line([(a + dx, b + dy) for a, b in stem], fill=colour, width=round(4 * unit))
            for a, b, r in bells:
                pen.ellipse((a + dx - r, b + dy - r * 1.5, a + dx + r, b + dy + r * 1.5), fill=colour)


def shingle(side: int) -> Array:
    """Pebbles of several sizes, each in one colour, sand between them."""
    chance = seeded("shingle")
    count, unit = 620, side / 448
    reach = round(34 * unit)
    spots = chance.uniform(0, side, (count, 2))
    large = chance.uniform(0.75, 1.5, count) * unit
    nearest = np.full((side, side), 1e9, dtype=np.float32)
    second, owner = nearest.copy(), np.zeros((side, side), dtype=int)
    around = np.arange(-reach, reach + 1)
    for place, ((x, y), size) in enumerate(zip(spots.tolist(), large.tolist(), strict=True)):
        rows, columns = int(y) + around, int(x) + around
        apart = (np.hypot((columns - x)[None, :], 1.35 * (rows - y)[:, None]) / size).astype(np.float32)
        here = np.ix_(rows % side, columns % side)
        old, closer = nearest[here], apart < nearest[here]
        second[here] = np.where(closer, old, np.minimum(second[here], apart))
        owner[here] = np.where(closer, place, owner[here])
        nearest[here] = np.minimum(old, apart)
    colours = np.array(SHINGLE, dtype=np.float32)[chance.choice(len(SHINGLE), count, p=(0.28, 0.24, 0.2, 0.12, 0.16))]
    tile = colours[owner] * (1.06 - 0.10 * np.clip(nearest / 12, 0, 1))[:, :, None]
    tile[nearest > 0.80 * second] = (116, 114, 106)
    return np.stack([softened(tile[:, :, c]) for c in range(3)], axis=2)


def weave(
    chance: np.random.Generator, states: Mapping[str, str], size: tuple[int, int], scale: float, near: float
) -> Array:
    """Lighter and darker threads, about 1 with small deviations.

    `scale`: pixels to a unit of the drawing; `near`: to a centimetre, of which the threads themselves come to be seen.
    """
    kind = states.get("weave", "plain")
    width, height = size
    grain = grained(chance, size)
    rough = 1.8 if near > 14 else 1.0
    if near > 30:
        return 1 + threads(kind, size, near) + 0.012 * softened(grain)
    if kind in ("coated", "sateen"):
        return 1 + 0.008 * softened(grain)
    if kind == "pile":
        return 1 + 0.045 * soft(chance, size, 1.6 * scale) + 0.02 * softened(grain)
    along = grain + np.roll(grain, (1, 1), (0, 1)) + np.roll(grain, (2, 2), (0, 1))
    if kind == "herringbone":
        against = grain + np.roll(grain, (1, -1), (0, 1)) + np.roll(grain, (2, -2), (0, 1))
        band = max(4, round(3.2 * scale))
        columns = np.arange(width) // band % 2
        return 1 + 0.017 * rough * np.where(columns, along, against) + 0.014 * (columns * 2 - 1)[None, :]
    if kind == "ripstop":
        net = 1 + 0.018 * grain
        pitch = max(4, round(2.6 * scale))
        net[::pitch] *= 0.94
        net[:, ::pitch] *= 0.94
        return net
    if kind in ("twill22", "drill"):
        return 1 + 0.017 * rough * along
    return 1 + 0.024 * rough * softened(grain)


def threads(kind: str, size: tuple[int, int], near: float) -> Array:
    """The threads of a weave from near by, about 0. `near`: pixels to a centimetre; some twenty threads lie in one."""
    columns, rows = np.arange(size[0], dtype=np.float32)[None, :], np.arange(size[1], dtype=np.float32)[:, None]
    pitch = 2 * np.pi / max(3.0, near / 15)
    strong = min(0.09, 0.03 + near / 1600)
    if kind == "coated":
        return np.zeros((size[1], size[0]), np.float32)
    if kind == "pile":
        return strong * np.sin(columns * pitch * 0.7 + 2 * np.sin(rows * pitch * 0.31)) * np.sin(rows * pitch * 0.63)
    if kind == "herringbone":
        lean = np.where(columns // max(12, round(near * 0.8)) % 2, 1, -1)
        return strong * np.sin((rows + lean * columns) * pitch * 0.8) + 0.02 * lean
    if kind in ("twill22", "drill"):
        return strong * np.sin((rows + columns) * pitch * 0.8)
    if kind == "sateen":
        return strong * 0.4 * np.sin(columns * pitch) * np.ones_like(rows)
    net = strong * 0.8 * np.sin(rows * pitch * 1.2) * np.sin(columns * pitch * 1.2)
    if kind == "ripstop":
        cell = max(8, round(near * 0.55))
        net = net - 0.1 * ((columns % cell < cell / 9) | (rows % cell < cell / 9))
    return net


def wear(chance: np.random.Generator, condition: str, relief_height: Array, covered: Array) -> Array:
    """How much lighter worn cloth is: on what stands out, at edges, in patches. 0 for new, about 0.2 for poor."""
    much = {"unissued": 0.0, "very good": 0.25, "good": 0.55, "worn": 1.0, "poor": 1.4}.get(condition, 0.5)
    if not much:
        return np.zeros_like(covered)
    size = covered.shape[1], covered.shape[0]
    few = -(-size[0] // 2), -(-size[1] // 2)
    height, cover = relief_height[::2, ::2], covered[::2, ::2]
    stands_out = np.clip(height - blurred(height, 5), 0, 2)
    edges = np.clip(1 - blurred(cover, 7), 0, 1) * cover
    patches = soft(chance, few, few[0] / 4) * 0.05 + soft(chance, few, few[0] / 11) * 0.02
    return stretched(much * (0.07 * stands_out + 0.16 * edges + patches).astype(np.float32), size)
