"""Optical repairs: letters that stand for figures. Where a letter only looks like a figure, the reader says so."""

import re

# Of the first kind: the two are drawn alike (Unicode's confusables table has O/0 and 1/I/l).
ALIKE = {"O": "0", "o": "0", "D": "0", "Q": "0", "I": "1", "l": "1", "|": "1"}
# Guesses by shape, good for a proposal only: common practice, no source.
BY_SHAPE = {"B": "8", "S": "5", "Z": "2", "G": "6", "T": "7"}
LOOKS_LIKE_FIGURE = "0-9ODQIl|BSZGT"
MOST_REPAIRS = 4
FIGURE = re.compile("[0-9]")
TO_FIGURES = str.maketrans(ALIKE | BY_SHAPE)
LETTERS_OF_FIGURES = {"0": "o", "1": "li", "2": "z", "5": "s", "6": "g", "7": "t", "8": "b"}


def as_figures(printed: str) -> str:
    """The same characters with every look-alike as the figure it may stand for."""
    return printed.translate(TO_FIGURES)


def repairs_in(printed: str) -> int:
    """How many letters would have to be read as figures."""
    return 0 if printed.isdigit() else sum(character in ALIKE or character in BY_SHAPE for character in printed)


def guesses_in(printed: str) -> int:
    """How many of them are guesses by shape."""
    return 0 if printed.isdigit() else sum(character in BY_SHAPE for character in printed)


def true_figures(printed: str) -> int:
    return len(FIGURE.findall(printed))


def spellings(word: str, most: int = 64) -> list[str]:
    """A folded word with each figure in it as the letters that it may stand for; itself left out."""
    if not any(c.isdigit() for c in word) or not any(c.isalpha() for c in word):
        return []
    found = [""]
    for character in word:
        choices = LETTERS_OF_FIGURES.get(character, "" if character.isdigit() else character)
        found = [start + choice for start in found for choice in choices][:most]
    return found
