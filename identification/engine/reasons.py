"""Why: what each answer says for one version against another."""

from dataclasses import dataclass

import numpy as np

from identification.engine.model import Answers
from identification.engine.pack import TINY, Pack

# Limits in decibans, ours; no source. About one deciban is the least shift that a person notices (Good 1979).
WORDS = ((10.0, "strongly"), (5.0, ""), (1.0, "slightly"))


@dataclass(frozen=True)
class Reason:
    """One answer's weight of evidence in decibans, 10 log10 of P(answer | version) / P(answer | other).

    Good 1950, 1985. The decibans of all reasons, with that of the prior odds, add up to the posterior odds.
    """

    feature: str
    decibans: float
    word: str


def strength_word(decibans: float) -> str:
    """`strongly for`, `for`, `slightly for`, `neither`, and the same against."""
    for least, word in WORDS:
        if abs(decibans) >= least:
            return f"{word} {'for' if decibans > 0 else 'against'}".strip()
    return "neither"


def decibans(one: float, other: float) -> float:
    return float(10 * np.log10(max(one, TINY) / max(other, TINY)))


def reasons(pack: Pack, answers: Answers, version: str, against: str | None = None) -> list[Reason]:
    """What every counted answer says for `version` against another (the base row, where none is named).

    Strongest first; an answer on a part that a detail implied stands under the part's own name.
    """
    counted, _ = pack.counted_answers(answers)
    row = pack.version_place[version]
    other = pack.version_place[against] if against else None
    found = []
    for column, answer in counted.items():
        of_version, of_base = pack.likelihoods(column, answer)
        weight = decibans(of_version[row], of_base if other is None else of_version[other])
        found.append(Reason(pack.feature_codes[column], weight, strength_word(weight)))
    return sorted(found, key=lambda reason: -abs(reason.decibans))
