"""Making a part of a picture unreadable for good, as a name on a label."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from random import SystemRandom

from PIL import Image

CELLS, NOISE = 4, 10


@dataclass(frozen=True)
class Area:
    """A rectangle in shares of the picture's width and height, from its upper left corner.

    Raises ValueError where it is empty or has no part of the picture in it.
    """

    x: float
    y: float
    w: float
    h: float

    def __post_init__(self) -> None:
        inside = self.x < 1 and self.y < 1 and self.x + self.w > 0 and self.y + self.h > 0
        if not (self.w > 0 and self.h > 0 and inside):  # also what is not a number at all
            raise ValueError(f"Nothing of the picture lies in {self}.")

    def in_pixels(self, width: int, height: int) -> tuple[int, int, int, int]:
        """Left, top, right, bottom: every pixel that the area touches, inside the picture."""
        left, top = max(0, int(self.x * width)), max(0, int(self.y * height))
        right, bottom = ceil((self.x + self.w) * width), ceil((self.y + self.h) * height)
        return left, top, max(left + 1, min(right, width)), max(top + 1, min(bottom, height))


def hide(image: Image.Image, areas: Sequence[Area]) -> None:
    """Blurs the areas of the picture itself beyond recovery.

    A soft blur can be undone, and mosaics of known letters have been read back by trying words. So no more than four
    mean colours along the longer side are kept, and noise that no one can know lies on each.
    """
    for area in areas:
        box = area.in_pixels(*image.size)
        image.paste(smeared(image.crop(box)), box)


def smeared(part: Image.Image) -> Image.Image:
    longer = max(part.size)
    cells = tuple(max(1, round(CELLS * side / longer)) for side in part.size)
    chance = SystemRandom()
    few = part.resize(cells, Image.Resampling.BOX)
    noisy = bytes(min(255, max(0, value + chance.randint(-NOISE, NOISE))) for value in few.tobytes())
    return Image.frombytes("RGB", cells, noisy).resize(part.size, Image.Resampling.BICUBIC)
