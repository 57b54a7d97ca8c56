"""Words of a search that stand nowhere in the reference, and the words of it that are spelled nearly so."""

import re
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from difflib import get_close_matches
from itertools import islice, product

NEAR = 0.75
SHORTEST, LONGEST = 3, 40
MOST_WORDS, MOST_FOR_A_WORD, MOST_TRIES = 8, 3, 12
LETTERS = re.compile(r"[^\W\d_]+")
ALONE = re.compile(r"(?<!\S)[^\w\s]*([^\W\d_]+)[^\w\s]*(?!\S)")


def words_in(texts: Iterable[str]) -> Mapping[str, int]:
    """Every word of the folded texts that is long enough to be misspelt, and how often it stands there."""
    return Counter(word for text in texts for word in LETTERS.findall(text) if len(word) >= SHORTEST)


def respelled(wanted: str, known: Mapping[str, int], finds: Callable[[str], bool], *, longer: bool) -> str:
    """The folded query with its unknown words put right, the nearest spelling first that finds something; or nothing.

    A word that is only the beginning of known ones counts as unknown; whether those will do for it says `longer`.
    """
    near = {
        word: near_words(word, known, longer=longer) for word in list(dict.fromkeys(ALONE.findall(wanted)))[:MOST_WORDS]
    }
    unknown = [word for word, choices in near.items() if choices]
    if not unknown:
        return ""
    for chosen in islice(product(*(near[word] for word in unknown)), MOST_TRIES):
        instead = dict(zip(unknown, chosen, strict=True))
        other = LETTERS.sub(lambda found, instead=instead: instead.get(found.group(), found.group()), wanted)
        if finds(other):
            return other
    return ""


def near_words(word: str, known: Mapping[str, int], *, longer: bool) -> list[str]:
    """Known words spelled nearly so, nearest first; none for a word that is known, or is very short or long.

    Near is what takes few slips of the hand, and of equally near ones what stands there most often.
    """
    if word in known or not SHORTEST <= len(word) <= LONGEST:
        return []
    others = [one for one in known if longer or not one.startswith(word)]
    found = get_close_matches(word, others, 4 * MOST_FOR_A_WORD, NEAR)
    return sorted(found, key=lambda one: (slips(word, one), -known[one], one))[:MOST_FOR_A_WORD]


def slips(typed: str, meant: str) -> int:
    """How many slips lie between two words: a letter left out, put in, put for another, or two neighbours swapped."""
    before, row = [], list(range(len(meant) + 1))
    for i, letter in enumerate(typed, 1):
        last, before, row = before, row, [i]
        for j, other in enumerate(meant, 1):
            least = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != other))
            if i > 1 and j > 1 and letter == meant[j - 2] and typed[i - 2] == other:
                least = min(least, last[j - 2] + 1)
            row.append(least)
    return row[-1]


def singular(words: str, known: Mapping[str, int]) -> str:
    """The folded words with each plural as its singular, where that is a known word; trousers stay what they are."""
    return LETTERS.sub(
        lambda found: next(iter(w for w in singulars(found.group()) if w in known), found.group()), words
    )


def singulars(word: str) -> list[str]:
    """What the word may be the plural of: `straps`, `patches`, `bodies` and `knives` have four sorts of end."""
    if len(word) <= SHORTEST or not word.endswith("s") or word.endswith("ss"):
        return []
    found = []
    if word.endswith("ies"):
        found.append(f"{word[:-3]}y")
    if word.endswith("ves"):
        found += [f"{word[:-3]}f", f"{word[:-3]}fe"]
    if word.endswith(("ses", "xes", "zes", "ches", "shes")):
        found.append(word[:-2])
    return [*found, word[:-1]]


def each_respelled(words: Iterable[str], known: Mapping[str, int], there: Callable[[str], bool]) -> list[str]:
    """Each word by itself: as it is where it is `there`, else the known word that is spelled nearest, if any is."""
    return [
        word if there(word) else next(iter(near_words(word, known, longer=True)), word)
        for word in list(dict.fromkeys(words))[:MOST_WORDS]
    ]
