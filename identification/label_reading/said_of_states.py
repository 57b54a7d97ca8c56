"""What a label says whose piece shows a state: `size:size_pair | size:letter`, `fibres:cotton 60-70, polyester`.

`size:` has the code of a society's number form, or the name of a system in which sizes are written; `fibres:` all
fibres of one cloth, each with its percentage or none; `country:` the country of the stock number, by name.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from identification.label_reading.tables import fibre_words

FORM = "size:CODE, fibres:cotton 60-70, polyester, or country:NAME; | between"
FIBRE = re.compile(r"(?P<name>\D+?)(?:\s+(?P<low>\d{1,3})(?:\s?-\s?(?P<high>\d{1,3}))?\s?%?)?")
HUNDRED = 100


@dataclass(frozen=True)
class Said:
    """One thing a label may say: of `kind` size or country its `word`; of fibres each with its least and most."""

    kind: str
    word: str = ""
    fibres: tuple[tuple[str, int, int], ...] = ()


@dataclass(frozen=True)
class Signs:
    """What was read that states may be known by: forms of sizes, cloths by fibre and percentage, the country."""

    sizes: tuple[str, ...] = ()
    cloths: tuple[Mapping[str, float | None], ...] = ()
    country: str = ""


def label_says_of(text: str) -> tuple[Said, ...]:
    """The text in its parts; a ValueError says in words what cannot be read."""
    return tuple(part_of(part.strip()) for part in text.split("|") if part.strip())


def part_of(part: str) -> Said:
    kind, colon, word = (one.strip() for one in part.partition(":"))
    if not colon or kind not in ("size", "fibres", "country") or not word:
        raise ValueError(f"“{part}” is none of these")
    if kind == "fibres":
        return Said(kind, fibres=tuple(fibre_of(one.strip()) for one in word.split(",")))
    if kind == "size" and re.search(r"[\s,;:]", word):
        raise ValueError(f"“{word}” is not the code of a number form or of a way to write sizes")
    return Said(kind, word.casefold() if kind == "country" else word)


def fibre_of(text: str) -> tuple[str, int, int]:
    match = FIBRE.fullmatch(text)
    names = fibre_words().get(match["name"].strip().casefold(), ()) if match else ()
    if len(names) != 1:
        raise ValueError(f"“{text}” is not a fibre, with its percentage or none, such as cotton 60-70")
    low = int(match["low"] or 0)
    high = int(match["high"] or match["low"] or HUNDRED)
    if not low <= high <= HUNDRED:
        raise ValueError(f"“{text}” is no percentage from less to more, at most 100")
    return names[0], low, high


def is_said(text: str, signs: Signs) -> bool:
    """Whether what was read is among what the state's labels say; a text that cannot be read says nothing."""
    try:
        return any(fits(said, signs) for said in label_says_of(text))
    except ValueError:
        return False


def fits(said: Said, signs: Signs) -> bool:
    if said.kind == "size":
        return said.word in signs.sizes
    if said.kind == "country":
        return bool(signs.country) and said.word == signs.country.casefold()
    return any(is_cloth(said, cloth) for cloth in signs.cloths)


def is_cloth(said: Said, cloth: Mapping[str, float | None]) -> bool:
    """All fibres and no other; a percentage that is not printed contradicts none."""
    return set(cloth) == {name for name, _, _ in said.fibres} and all(
        cloth[name] is None or low <= cloth[name] <= high for name, low, high in said.fibres
    )
