"""Soft and rough fields of chance numbers, as arrays of 32-bit floats; and blurs of such arrays."""

from functools import lru_cache
from hashlib import sha256

import numpy as np
from PIL import Image, ImageDraw

Array = np.ndarray


def stretched(field: Array, size: tuple[int, int]) -> Array:
    """The field at another width and height, smoothly."""
    return np.asarray(Image.fromarray(field).resize(size, Image.Resampling.BICUBIC))


def soft(chance: np.random.Generator, size: tuple[int, int], pitch: float, across: float | None = None) -> Array:
    """Hills about `pitch` pixels apart (`across`: apart vertically, if otherwise); mean 0, deviation about 1."""
    columns = max(2, round(size[0] / pitch)) + 3
    rows = max(2, round(size[1] / (across or pitch))) + 3
    return stretched(chance.standard_normal((rows, columns), dtype=np.float32), size) * 1.35


def creased(
    chance: np.random.Generator, size: tuple[int, int], count: int, length: float, *, lean: float = 0.0
) -> Array:
    """Single creases, each highest in its middle and gone at its ends; some stand up, some lie deep; about -1 to 1.

    `length`: of the longest, in pixels. `lean`: 1 where most of them run down the picture, -1 across it.
    """
    found = []
    quarter = max(2, size[0] // 2), max(2, size[1] // 2)
    for up in (1, -1):
        sheet = Image.new("L", quarter)
        pen = ImageDraw.Draw(sheet)
        for _ in range(count // 2):
            angle = chance.uniform(0, np.pi) if not lean else chance.normal(np.pi / 2 if lean > 0 else 0, 0.5)
            far, bow = length / 2 * chance.uniform(0.3, 1), chance.normal(0, 0.12)
            at = np.linspace(-0.5, 0.5, 13)
            x = quarter[0] * chance.uniform(0, 1) + far * (np.cos(angle) * at - np.sin(angle) * bow * (1 - 4 * at * at))
            y = quarter[1] * chance.uniform(0, 1) + far * (np.sin(angle) * at + np.cos(angle) * bow * (1 - 4 * at * at))
            strong = chance.uniform(60, 255)
            for n in range(12):
                share = 1 - (2 * (n + 0.5) / 12 - 1) ** 2
                width = 1 + round(far / 32 * share)
                pen.line([x[n], y[n], x[n + 1], y[n + 1]], fill=round(strong * share), width=width)
        found.append(up * np.asarray(sheet, np.float32) / 255)
    few = softened(blurred(found[0] + found[1], 2.2), 1)
    return stretched(few, size)


def blurred(field: Array, radius: float) -> Array:
    """A blur so wide that it may go by a smaller picture and back."""
    height, width = field.shape
    few = max(2, round(width / radius)), max(2, round(height / radius))
    return stretched(np.asarray(Image.fromarray(field).resize(few, Image.Resampling.BOX)), (width, height))


def softened(field: Array, times: int = 1) -> Array:
    """A blur of a pixel or two: each becomes the mean of its neighbours, so many times."""
    for _ in range(times):
        padded = np.pad(field, 1, mode="edge")
        field = 0.25 * (padded[1:-1, :-2] + padded[1:-1, 2:]) + 0.5 * field
        padded = np.pad(field, 1, mode="edge")
        field = 0.25 * (padded[:-2, 1:-1] + padded[2:, 1:-1]) + 0.5 * field
    return field


@lru_cache(maxsize=1)
def grain_field() -> Array:
    return np.random.default_rng(0).standard_normal((1200, 1200), dtype=np.float32)


def grained(chance: np.random.Generator, size: tuple[int, int]) -> Array:
    """A chance number for each pixel: a piece out of one large field, since drawing each anew takes long."""
    field = grain_field()
    left, top = (int(chance.integers(side - wanted + 1)) for side, wanted in zip(field.shape[::-1], size, strict=True))
    return field[top : top + size[1], left : left + size[0]]


def seeded(*words: str) -> np.random.Generator:
    """Chance numbers that are the same for the same words, on every machine."""
    return np.random.default_rng(int.from_bytes(sha256("|".join(words).encode()).digest()[:8], "big"))
