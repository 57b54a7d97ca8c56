"""A hash that near copies of a picture share, and the search for it among many.

The method is the common one by cosine transform: a grey picture of 32 by 32, the 8 by 8 coefficients of its lowest
frequencies, a bit for each that lies above their median. (Zauner, "Implementation and benchmarking of perceptual image
hash functions", 2010, describes it; from memory.) Two pictures of one shot mostly differ in 0 to 4 bits. Different
pieces of one kind in the same pose come as near as 6, so it is a hint to a moderator and never a refusal.
"""

from collections.abc import Sequence
from math import cos, pi
from operator import mul
from statistics import median

from PIL import Image

SIDE, CORNER = 32, 8
NEAR = 4
WAVES = [[cos(pi * wave * (2 * at + 1) / (2 * SIDE)) for at in range(SIDE)] for wave in range(CORNER)]


def perceptual_hash(image: Image.Image) -> int:
    """64 bits as a signed number, as databases store it; the picture must be upright."""
    grey = image.convert("L").resize((SIDE, SIDE), Image.Resampling.LANCZOS).tobytes()
    rows = [grey[at : at + SIDE] for at in range(0, SIDE * SIDE, SIDE)]
    across = [[sum(map(mul, row, wave)) for row in rows] for wave in WAVES]  # by wave along x, then by row
    corner = [sum(map(mul, column, wave)) for wave in WAVES for column in across]
    middle = median(corner)
    bits = 0
    for value in corner:
        bits = bits << 1 | (value > middle)
    return bits - 2**64 if bits >= 2**63 else bits


def distance(one: int, other: int) -> int:
    """How many of the 64 bits differ; signed or unsigned."""
    return ((one ^ other) & (2**64 - 1)).bit_count()


def nearest(sought: int, hashes: Sequence[int], *, within: int = NEAR) -> list[tuple[int, int]]:
    """Places in `hashes` of those near to the one sought, each with its distance.

    `hashes`: signed numbers, a list or a numpy array. The nearest come first; those equally near in the order given.
    """
    import numpy as np  # here, since the child that hashes pictures must stay small

    known = np.asarray(hashes, dtype=np.int64)
    apart = np.bitwise_count((known ^ np.int64(sought)).view(np.uint64))
    places = np.flatnonzero(apart <= within)
    order = np.argsort(apart[places], kind="stable")
    return [(int(place), int(apart[place])) for place in places[order]]
