"""From a printed word to a fibre: names in eight languages, codes, and near misses."""

from dataclasses import dataclass
from functools import lru_cache

from identification.label_reading.repairs import spellings
from identification.label_reading.tables import fibre_codes, fibre_words, folded

NEAR, AHEAD = 90, 10
SHORT = 4


@dataclass(frozen=True)
class Fibre:
    """What a word stands for: one name, or several owners of a code, and how it was arrived at."""

    names: tuple[str, ...]
    reason: str | None = None
    changed: int = 0


def may_be_like(one: str, other: str, wanted: float) -> bool:
    """Whether two words can be so like at all, by the letters they share: a cheap look before counting."""
    most = wanted * (len(one) + len(other)) / 200
    return min(len(one), len(other)) >= most and sum(min(one.count(c), other.count(c)) for c in set(one)) >= most


def likeness(one: str, other: str) -> float:
    """Twice the longest common subsequence over both lengths, in percent (the normalised indel similarity)."""
    row = [0] * (len(other) + 1)
    for letter in one:
        before = 0
        for place, character in enumerate(other, 1):
            kept = row[place]
            row[place] = before + 1 if letter == character else max(row[place], row[place - 1])
            before = kept
    return 200 * row[-1] / (len(one) + len(other)) if one or other else 100.0


def letters_of(word: str) -> int:
    """The set of a word's letters as bits."""
    bits = 0
    for character in word:
        bits |= 1 << (ord(character) % 61)
    return bits


@lru_cache(maxsize=1)
def longer_words() -> tuple[tuple[str, tuple[str, ...], int, int], ...]:
    return tuple(
        (word, names, len(word), letters_of(word)) for word, names in fibre_words().items() if len(word) > SHORT
    )


@lru_cache(maxsize=4096)
def fibre_named(word: str) -> Fibre | None:
    """The fibre of a folded word or phrase: exact, then figures read as letters, then the one near miss."""
    names = fibre_words().get(word)
    if names:
        return Fibre(names)
    for spelt in spellings(word):
        if names := fibre_words().get(spelt):
            return Fibre(names, "digits_in_word", sum(c.isdigit() for c in word))
    return near_miss(word)


def near_miss(word: str) -> Fibre | None:
    """At least 90 of 100 and 10 ahead of the next fibre; short names must be right to the letter."""
    if len(word) <= SHORT or len(word) > 40:
        return None
    best: dict[tuple[str, ...], float] = {}
    letters = letters_of(word)
    for known, names, length, its_letters in longer_words():
        most = (NEAR - AHEAD) * (length + len(word)) / 200
        # Each letter that the other word lacks is one that a common subsequence cannot have.
        if (
            len(word) - (letters & ~its_letters).bit_count() < most
            or length - (its_letters & ~letters).bit_count() < most
        ):
            continue
        if may_be_like(known, word, NEAR - AHEAD):
            best[names] = max(best.get(names, 0), likeness(word, known))
    ranked = sorted(best.items(), key=lambda item: -item[1])
    if not ranked or ranked[0][1] < NEAR or len(ranked[0][0]) > 1:
        return None
    others = [score for names, score in ranked[1:] if names[0] not in ranked[0][0]]
    if others and ranked[0][1] - others[0] < AHEAD:
        return None
    return Fibre(ranked[0][0], "spelling_repaired", 1)


def fibre_of_code(word: str) -> Fibre | None:
    """A fibre code, only to be asked for beside a percent sign. Codes are not official, and some have many owners."""
    owners = fibre_codes().get(word.upper())
    if not owners:
        return None
    return Fibre(owners, "abbreviation_ambiguous" if len(owners) > 1 else None)


def phrase_at(words: list[str], start: int, longest: int) -> tuple[Fibre, int] | None:
    """The longest run of words from `start` that is a fibre's name as printed, and its length."""
    for length in range(min(longest, len(words) - start), 0, -1):
        names = fibre_words().get(folded(" ".join(words[start : start + length])))
        if names:
            return Fibre(names), length
    return None
