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


def likeness(one: str, other: str) -> float:
    """Twice the longest common subsequence over both lengths, in percent (the normalised indel similarity).

    The rows of its table stand as bits of one number, as Hyyrö proposed (Bit-parallel LCS-length computation revisited,
    2004; the formula from memory, compared with rapidfuzz in the tests).
    """
    if not one and not other:
        return 100.0
    places: dict[str, int] = {}
    for place, letter in enumerate(one):
        places[letter] = places.get(letter, 0) | 1 << place
    whole = row = (1 << len(one)) - 1
    for letter in other:
        met = row & places.get(letter, 0)
        row = (row + met) | (row - met)
    return 200 * (len(one) - (row & whole).bit_count()) / (len(one) + len(other))


def letters_of(word: str) -> int:
    """The set of a word's letters as bits."""
    bits = 0
    for character in word:
        bits |= 1 << (ord(character) % 61)
    return bits


@lru_cache(maxsize=1)
def longer_words() -> dict[int, list[tuple[int, str, tuple[str, ...], int]]]:
    """By their length: each word's place in the list of all, the word, what it names, and its letters."""
    found: dict[int, list] = {}
    for place, (word, names) in enumerate(fibre_words().items()):
        if len(word) > SHORT:
            found.setdefault(len(word), []).append((place, word, names, letters_of(word)))
    return found


def words_like(word: str, wanted: float) -> list[tuple[float, int, tuple[str, ...]]]:
    """Known words at least so like to this one in percent: likeness, place in the list, names; the likest first."""
    found, letters, length = [], letters_of(word), len(word)
    for known_length, words in longer_words().items():
        most = wanted * (length + known_length) / 200
        if min(length, known_length) < most:
            continue
        for place, known, names, its_letters in words:
            # Each letter that the other word lacks is one that a common subsequence cannot have.
            if (
                length - (letters & ~its_letters).bit_count() >= most
                and known_length - (its_letters & ~letters).bit_count() >= most
                and (score := likeness(word, known)) >= wanted
            ):
                found.append((score, place, names))
    return sorted(found, key=lambda one: (-one[0], one[1]))


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
    if not words_like(word, NEAR):  # true of most words, and the stricter look is the quicker one
        return None
    (score, _, names), *others = words_like(word, NEAR - AHEAD)
    if len(names) > 1 or any(score - other < AHEAD for other, _, its_names in others if its_names[0] not in names):
        return None
    return Fibre(names, "spelling_repaired", 1)


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
