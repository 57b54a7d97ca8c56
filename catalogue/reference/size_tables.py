"""The order in which size tables are read."""

import re

from catalogue.reference.words import Measured

LETTERS = ("xs", "s", "m", "l", "xl", "xxl")
PLACES = {what: place for place, what in enumerate(Measured.values)}


def in_a_table(mark: str, what: str) -> tuple:
    """Sorts marks by the numbers in them, letters by size, others by their text; lengths as they are taken."""
    numbers = [int(found) for found in re.findall(r"\d{1,9}", mark)]
    letters = mark.strip().casefold()
    return (numbers, LETTERS.index(letters) if letters in LETTERS else len(LETTERS), mark, PLACES[what])
