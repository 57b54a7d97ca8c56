"""Which garment the label itself names, as `SMOCK FELL`: its versions come first, and nothing is left out."""

import re
from collections.abc import Iterable

from catalogue.reference.facts import TypeFacts

WORD = re.compile(r"[^\W\d_]{3,}")


def without_garments(piece: str, types: Iterable[TypeFacts]) -> str:
    """What is left of a piece once the words that name these garments are taken out; nothing of `SMOCK FELL`."""
    known = {word.casefold() for facts in types for word in WORD.findall(facts.name)}
    pieces = [part.strip(".,") for part in piece.split()]
    left = [part for part in pieces if not (said := {w.casefold() for w in WORD.findall(part)}) or not said <= known]
    return " ".join(left) if len(left) < len(pieces) else piece


def types_named(types: Iterable[TypeFacts], unread: Iterable[str]) -> list[TypeFacts]:
    """Types all words of whose name stand among what no field has read; else those whose last word does: the fell smock
    is a smock."""
    types = list(types)
    said = {word.casefold() for piece in unread for word in WORD.findall(piece)}
    names = {facts.code: [word.casefold() for word in WORD.findall(facts.name)] for facts in types}
    whole = [facts for facts in types if names[facts.code] and said.issuperset(names[facts.code])]
    return whole or [facts for facts in types if names[facts.code] and names[facts.code][-1] in said]
