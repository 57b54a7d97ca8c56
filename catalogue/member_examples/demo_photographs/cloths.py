"""Colour and weave of cloth, and the two invented prints."""

from collections.abc import Mapping
from functools import lru_cache

import numpy as np

from catalogue.member_examples.demo_photographs.noise import Array, blurred, seeded, soft, softened, stretched

# sRGB of new cloth by the recorded colour group.
COLOURS = {
    "slate": (84, 98, 116), "moss": (96, 102, 66), "drab": (142, 128, 92), "sand": (192, 172, 132),
    "grey": (128, 130, 130), "orange": (196, 104, 58), "yellow": (198, 172, 76), "silver": (170, 173, 172),
    "mix": (120, 118, 100),
}  # fmt: skip
BUTTONS = {
    "corozo": (150, 122, 86), "horn": (82, 66, 52), "urea": (88, 92, 74), "brass": (176, 146, 78),
    "polyester": (70, 74, 66), "nylon": (60, 66, 60),
}  # fmt: skip
LING = ((171, 160, 134), (104, 82, 62), (92, 100, 66), (118, 108, 122))  # bone, brown, moss, violet-grey
SHINGLE = ((98, 102, 104), (134, 138, 138), (164, 166, 162), (74, 78, 82), (186, 174, 146))  # four greys and buff
TILE = 320
REPEAT = {"true": 225.0, "copy": 148.0}  # units of the drawing; copies print at about two thirds


def base_colour(states: Mapping[str, str]) -> Array:
    return np.array(COLOURS.get(states.get("colour", ""), COLOURS["moss"]), dtype=np.float32)


def cloth_colours(states: Mapping[str, str], where: tuple[Array, Array], level: Array, shift: float) -> Array:
    """Colour of the cloth at each point, (h, w, 3). `where`: units of the drawing; every piece of cloth is cut anew."""
    pattern = states.get("cloth_pattern", "plain_dyed")
    tile = tile_of(pattern)
    if tile is None:
        return np.broadcast_to(base_colour(states), (*level.shape, 3))
    repeat = REPEAT["copy" if states.get("print_repeat", "").startswith("short") else "true"]
    across, down = where
    cut = np.floor(level) * 77
    u = ((across + cut + shift) / repeat * TILE).astype(int) % TILE
    v = ((down + cut * 1.7 + shift) / repeat * TILE).astype(int) % TILE
    return tile[v, u]


@lru_cache(maxsize=4)
def tile_of(pattern: str) -> Array | None:
    """One repeat of a print, (TILE, TILE, 3), whose edges meet; None for plain cloth."""
    if pattern == "ling":
        return ling()
    if pattern == "shingle":
        return shingle()
    if pattern == "other_print":
        return ling()[::-1, :, ::-1]
    return None


def meeting(chance: np.random.Generator, pitch: float, across: float) -> Array:
    """A soft field whose left edge meets its right and whose top meets its bottom."""
    margin = TILE // 2
    wide = np.tile(chance.standard_normal((round(TILE / across), round(TILE / pitch)), dtype=np.float32), (2, 2))
    return stretched(wide, (2 * TILE, 2 * TILE))[margin : margin + TILE, margin : margin + TILE]


def ling() -> Array:
    """Tufts of heather, brushed upwards: moss and brown over bone, with violet-grey between."""
    chance = seeded("ling")
    tile = np.empty((TILE, TILE, 3), dtype=np.float32)
    tile[:] = LING[0]
    for colour, pitch, across, above in ((3, 26, 52, 0.35), (2, 20, 44, 0.42), (1, 13, 34, 0.55), (0, 9, 20, 1.25)):
        brushed = meeting(chance, pitch, across) + 0.35 * meeting(chance, 3, 9)
        tile[brushed > above] = LING[colour]
    return np.stack([softened(tile[:, :, c]) for c in range(3)], axis=2)


def shingle() -> Array:
    """Pebbles of several sizes, each in one colour, dark between them."""
    chance = seeded("shingle")
    count = 260
    spots = chance.uniform(0, TILE, (count, 2)).astype(np.float32)
    large = chance.uniform(0.75, 1.5, count).astype(np.float32)
    rows, columns = np.mgrid[0:TILE, 0:TILE].astype(np.float32)
    nearest = np.full((TILE, TILE), 1e9, dtype=np.float32)
    second, owner = nearest.copy(), np.zeros((TILE, TILE), dtype=int)
    for place, ((x, y), size) in enumerate(zip(spots, large, strict=True)):
        dx = np.abs(columns - x)
        dy = np.abs(rows - y)
        apart = np.hypot(np.minimum(dx, TILE - dx), 1.35 * np.minimum(dy, TILE - dy)) / size
        closer = apart < nearest
        second = np.where(closer, nearest, np.minimum(second, apart))
        owner = np.where(closer, place, owner)
        nearest = np.minimum(nearest, apart)
    colours = np.array(SHINGLE, dtype=np.float32)[chance.choice(len(SHINGLE), count, p=(0.28, 0.24, 0.2, 0.12, 0.16))]
    tile = colours[owner]
    tile[second - nearest < 1.5 + soft(chance, (TILE, TILE), 30) * 0.7] = (66, 70, 72)
    return np.stack([softened(tile[:, :, c]) for c in range(3)], axis=2)


def weave(chance: np.random.Generator, states: Mapping[str, str], size: tuple[int, int], scale: float) -> Array:
    """Lighter and darker threads, about 1 with small deviations. `scale`: pixels to a unit of the drawing."""
    kind = states.get("weave", "plain")
    width, height = size
    grain = chance.standard_normal((height, width), dtype=np.float32)
    if kind in ("coated", "sateen"):
        return 1 + 0.008 * softened(grain)
    if kind == "pile":
        return 1 + 0.045 * soft(chance, size, 1.6 * scale) + 0.02 * softened(grain)
    along = grain + np.roll(grain, (1, 1), (0, 1)) + np.roll(grain, (2, 2), (0, 1))
    if kind == "herringbone":
        against = grain + np.roll(grain, (1, -1), (0, 1)) + np.roll(grain, (2, -2), (0, 1))
        band = max(4, round(3.2 * scale))
        columns = np.arange(width) // band % 2
        return 1 + 0.021 * np.where(columns, along, against) + 0.014 * (columns * 2 - 1)[None, :]
    if kind == "ripstop":
        net = 1 + 0.022 * grain
        pitch = max(4, round(2.6 * scale))
        net[::pitch] *= 0.94
        net[:, ::pitch] *= 0.94
        return net
    if kind in ("twill22", "drill"):
        return 1 + 0.021 * along
    return 1 + 0.028 * softened(grain)


def wear(chance: np.random.Generator, condition: str, relief_height: Array, covered: Array) -> Array:
    """How much lighter worn cloth is: on what stands out, along edges, and in patches. 0 for new, about 0.2 for poor."""
    much = {"unissued": 0.0, "very good": 0.25, "good": 0.55, "worn": 1.0, "poor": 1.4}.get(condition, 0.5)
    if not much:
        return np.zeros_like(covered)
    size = covered.shape[1], covered.shape[0]
    stands_out = np.clip(relief_height - blurred(relief_height, 9), 0, 2)
    edges = np.clip(1 - blurred(covered, 14), 0, 1) * covered
    patches = soft(chance, size, size[0] / 4) * 0.05 + soft(chance, size, size[0] / 11) * 0.02
    return much * (0.07 * stands_out + 0.16 * edges + patches)
