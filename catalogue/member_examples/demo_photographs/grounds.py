"""What a piece lies on while it is photographed: a table, a lawn, a sheet, a floor, a blanket, brown paper."""

from collections.abc import Callable

import numpy as np
from PIL import Image, ImageDraw, ImageFilter

from catalogue.member_examples.demo_photographs.noise import Array, blurred, creased, grained, soft, softened

Size = tuple[int, int]
Ground = Callable[[np.random.Generator, Size], Array]


def planks(chance: np.random.Generator, size: Size) -> Array:
    """A table of boards, each with its own tone and grain."""
    width, height = size
    board = round(height * chance.uniform(0.16, 0.24))
    first = chance.integers(0, board)
    rows = (np.arange(height) + first) // board
    tones = chance.normal(0, 9, rows.max() + 1)[rows].astype(np.float32)[:, None]
    grain = soft(chance, size, width / 3, 5) * 5 + soft(chance, size, width / 2, 2) * 3
    rings = np.sin(soft(chance, size, width / 1.5, board / 1.4) * 5) * 4
    gap = np.minimum((np.arange(height) + first) % board, 3).astype(np.float32)[:, None] / 3
    light = (tones + grain + rings) * (0.5 + 0.5 * gap) - 42 * (1 - gap)
    colour = np.array(((150, 112, 76), (122, 92, 68), (168, 140, 104), (96, 76, 62))[chance.integers(4)], np.float32)
    return colour + light[:, :, None] * np.array((1, 0.92, 0.8), np.float32)


def grass(chance: np.random.Generator, size: Size) -> Array:
    """A mown lawn, a little out of focus."""
    width, height = size
    half = width // 2, height // 2
    sheet = Image.new("RGB", half, (58, 72, 36))
    pen = ImageDraw.Draw(sheet)
    count = half[0] * half[1] // 42
    starts = np.stack([chance.uniform(0, half[0], count), chance.uniform(0, half[1], count)], axis=1)
    ways = np.stack([chance.normal(0, 7, count), chance.normal(-4, 6, count)], axis=1)
    tones = chance.normal(0, 13, (count, 1)) + np.array((84, 99, 54)) + chance.normal(0, 6, (count, 3))
    for start, way, tone in zip(starts.tolist(), ways.tolist(), tones.astype(int).clip(0, 255).tolist(), strict=True):
        pen.line([start[0], start[1], start[0] + way[0], start[1] + way[1]], fill=tuple(tone))
    lawn = np.asarray(sheet.filter(ImageFilter.GaussianBlur(0.7)).resize(size, Image.Resampling.BICUBIC), np.float32)
    return lawn * (1 + 0.10 * soft(chance, size, width / 4))[:, :, None]


def sheet(chance: np.random.Generator, size: Size) -> Array:
    """A bed sheet with its creases."""
    width, _ = size
    hills = blurred(creased(chance, size, 14, width / 2), 9) * 9 + soft(chance, size, width / 5) * 10
    light = slope(hills, 2.6)
    colour = np.array(((206, 204, 198), (196, 204, 210), (212, 204, 186))[chance.integers(3)], np.float32)
    return colour * (1 + light)[:, :, None]


def floor(chance: np.random.Generator, size: Size) -> Array:
    """Concrete or stone: clouds, pores, a joint."""
    width, height = size
    light = soft(chance, size, width / 5) * 6 + soft(chance, size, 16) * 3 + softened(noise(chance, size)) * 5
    colour = np.array(((146, 144, 138), (112, 116, 118), (168, 160, 148))[chance.integers(3)], np.float32)
    joint = int(chance.uniform(0.08, 0.92) * width)
    light[:, joint : joint + 4] -= 34
    return colour + light[:, :, None]


def blanket(chance: np.random.Generator, size: Size) -> Array:
    """A checked wool blanket."""
    width, height = size
    pitch = round(width * chance.uniform(0.14, 0.2))
    grounds = (((126, 60, 54), (72, 42, 44)), ((74, 88, 108), (48, 56, 74)), ((132, 122, 96), (88, 84, 70)))
    light_colour, dark_colour = (np.array(one, np.float32) for one in grounds[chance.integers(3)])
    columns, rows = (np.arange(side) % pitch for side in size)

    def bars(at: Array) -> Array:
        broad = np.clip((pitch * 0.18 - np.abs(at - pitch * 0.3)) / 3, 0, 1)
        thin = np.clip((2.5 - np.abs(at - pitch * 0.8)) / 2, 0, 1)
        return (broad + 0.8 * thin).astype(np.float32)

    check = (bars(columns)[None, :] + bars(rows)[:, None])[:, :, None] / 2
    wool = 1 + 0.05 * softened(noise(chance, size)) + slope(soft(chance, size, width / 5) * 9, 2)
    return (light_colour + (dark_colour - light_colour) * check) * wool[:, :, None]


def paper(chance: np.random.Generator, size: Size) -> Array:
    """Brown wrapping paper that was folded."""
    width, height = size
    light = slope(blurred(creased(chance, size, 12, width / 2), 5) * 7 + soft(chance, size, width / 4) * 6, 2)
    for at in (0.27, 0.73):
        ridge = np.exp(-np.abs(np.arange(width) - at * width) / 2.5).astype(np.float32)
        light = light + 0.08 * np.gradient(ridge)[None, :] * 3
    flecks = 0.012 * softened(noise(chance, size)) + 0.012 * soft(chance, size, 60, 3)
    return np.array((176, 146, 108), np.float32) * (1 + light + flecks)[:, :, None]


def noise(chance: np.random.Generator, size: Size) -> Array:
    return grained(chance, size)


def slope(hills: Array, strength: float) -> Array:
    """Light from the upper left on hills: how much lighter, about 0."""
    down, across = np.gradient(hills)
    return np.clip(-(across + 0.7 * down) * strength / 10, -0.3, 0.2)


GROUNDS: tuple[Ground, ...] = (planks, sheet, floor, blanket, paper, grass, planks)
