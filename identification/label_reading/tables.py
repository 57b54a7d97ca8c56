"""The fixed lists that reading rests on, each row with its source, read once from the reference lists."""

import csv
import unicodedata
from collections import defaultdict
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path

LISTS = Path(__file__).resolve().parents[2] / "fixtures" / "reference_lists"
LANGUAGES = ("de", "fr", "it", "es", "nl", "sv", "da")


def rows_of(name: str) -> list[dict[str, str]]:
    with (LISTS / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@dataclass(frozen=True)
class Codifier:
    """Who gave a stock number its place in the catalogue. Never who made the piece."""

    code: str
    country: str | None
    alpha3: str | None


@cache
def codifiers() -> dict[str, Codifier]:
    """The assigned country codes of stock numbers; a code that is not here is unconfirmed, never wrong."""
    return {
        row["code"]: Codifier(row["code"], row["country"] or None, row["alpha3"] or None)
        for row in rows_of("ncb_codes")
        if row["status"] == "assigned"
    }


@cache
def class_titles() -> dict[str, str]:
    """Titles of the supply classes of groups 83 and 84."""
    return {row["code"]: row["title"] for row in rows_of("supply_classes") if row["level"] == "class"}


@lru_cache(maxsize=16384)
def folded(word: str) -> str:
    """Lower case without accents, one space between words: `Algodón` and `ALGODON` meet."""
    if word.isascii() and word.isalnum():
        return word.lower()
    decomposed = unicodedata.normalize("NFKD", word.casefold())
    bare = "".join(c if c.isalnum() else " " for c in decomposed if not unicodedata.combining(c))
    return " ".join(bare.split())


@cache
def fibre_words() -> dict[str, tuple[str, ...]]:
    """Every folded fibre word in eight languages, with the English names that it stands for."""
    proper: dict[str, set[str]] = defaultdict(set)
    generic: dict[str, set[str]] = defaultdict(set)
    for row in rows_of("fibres"):
        english = row["name_en"]
        own = [english, *row["other_words"].split("|")]
        own += [word for language in LANGUAGES for word in row[f"name_{language}"].split("|")]
        for word in own:
            if folded(word):
                proper[folded(word)].add(english)
        for word in row["us_generic_name"].split("|"):
            if folded(word):
                generic[folded(word)].add(english)
    # A generic name of United States law counts where no list of names has the word: rayon is viscose, olefin is open.
    words = {**generic, **proper}
    return {word: tuple(sorted(names)) for word, names in {**words, **plurals(words)}.items()}


def plurals(words: dict[str, set[str]]) -> dict[str, set[str]]:
    """`fiber` for `fibre`, and more than one of them."""
    spellings = {}
    for word, names in words.items():
        for spelt in {word.replace("fibre", "fiber"), word.replace("fiber", "fibre")}:
            spellings[spelt] = names
            if spelt.endswith(("fibre", "fiber")):
                spellings[f"{spelt}s"] = names
    return {word: names for word, names in spellings.items() if word not in words}


@cache
def label_words() -> frozenset[str]:
    """Words of any label, so that they are no names of persons."""
    return frozenset(word for row in rows_of("label_words") for word in row["words"].split())


@cache
def first_words() -> frozenset[str]:
    """Words with which a fibre's name may begin."""
    return frozenset(word.split()[0] for word in fibre_words())


@cache
def longest_fibre_phrase() -> int:
    return max(len(word.split()) for word in fibre_words())


@cache
def fibre_codes() -> dict[str, tuple[str, ...]]:
    """Fibre codes with all their owners. They are not official; a code known from memory alone is not read."""
    owners: dict[str, set[str]] = defaultdict(set)
    seen_in_a_list = set()
    for row in rows_of("fibre_abbreviations"):
        owners[row["code"]].add(row["fibre"])
        if row["list"] != "M":
            seen_in_a_list.add(row["code"])
    return {code: tuple(sorted(fibres)) for code, fibres in owners.items() if code in seen_in_a_list}
