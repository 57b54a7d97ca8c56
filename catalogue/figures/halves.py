"""Shapes that are drawn as their right half, x counted from the middle line."""

import re
from functools import lru_cache

from catalogue.figures.pen import number

PIECE = re.compile(r"([MLCQZ])([^MLCQZ]*)")
Step = tuple[str, list[tuple[float, float]]]


def steps_of(data: str) -> list[Step]:
    """The commands of a path (absolute M L C Q Z), each with its points."""
    found = []
    for command, rest in PIECE.findall(data):
        numbers = [float(word) for word in re.findall(r"-?\d*\.?\d+", rest)]
        found.append((command, list(zip(numbers[::2], numbers[1::2], strict=True))))
    return found


def written(steps: list[Step]) -> str:
    return "".join(command + " ".join(f"{number(x)} {number(y)}" for x, y in points) for command, points in steps)


@lru_cache(maxsize=1024)
def mirrored(data: str) -> str:
    """The same shape on the other side of the middle line."""
    return written([(command, [(-x, y) for x, y in points]) for command, points in steps_of(data)])


def strokes(half: str) -> str:
    """A stroke and its mirror image."""
    return half + mirrored(half)


@lru_cache(maxsize=1024)
def closed(half: str) -> str:
    """One outline from its right half, which leads from the middle line back to the middle line."""
    steps = steps_of(half)
    ends = [points[-1] for _, points in steps]
    back = [
        (command, [(-x, y) for x, y in [*reversed(points[:-1]), ends[turn]]])
        for turn, (command, points) in reversed(list(enumerate(steps[1:])))
    ]
    return written(steps + back) + "Z"
