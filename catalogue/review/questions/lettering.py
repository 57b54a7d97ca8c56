"""Letters by which the views of a question are called: A to Z, then AA, AB and on to ZZ. Pure."""

from collections.abc import Iterable
from itertools import product
from string import ascii_uppercase

LETTERS = (*ascii_uppercase, *map("".join, product(ascii_uppercase, repeat=2)))


def next_letter(used: Iterable[str]) -> str:
    """The one behind all that were ever used, so that what was said of a view is never read of another; empty where
    there is none left."""
    places = {letter: place for place, letter in enumerate(LETTERS)}
    after = 1 + max((places[one] for one in used if one in places), default=-1)
    return LETTERS[after] if after < len(LETTERS) else ""
