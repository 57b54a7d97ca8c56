"""Why: what each answer says for one version against another."""

from dataclasses import dataclass

import numpy as np

from identification.engine.counting import count
from identification.engine.model import Answers
from identification.engine.pack import Pack

# Limits in decibans, ours; no source. One deciban is about the least shift that a person notices (Good 1979,
# Biometrika 66:393, cited from memory).
WORDS = ((10.0, "strongly"), (5.0, ""), (1.0, "slightly"))
NEITHER = "neither"
TINY = 1e-300


@dataclass(frozen=True)
class Reason:
    """One answer's weight of evidence in decibans, 10 log10 of P(answer | version) / P(answer | other).

    Good 1950, 1985 (from memory). The decibans of all reasons, with that of the prior odds, add up to the posterior
    odds.
    """

    feature: str
    decibans: float
    word: str


def strength_word(decibans: float) -> str:
    """`strongly for`, `for`, `slightly for`, `neither`, and the same against."""
    for least, word in WORDS:
        if abs(decibans) >= least:
            return f"{word} {'for' if decibans > 0 else 'against'}".strip()
    return NEITHER


def signed_words(decibans: float) -> str:
    """With its sign and one figure behind the point: `+3.2`; nothing has none: `0.0`."""
    return f"{decibans:+.1f}" if round(decibans, 1) else "0.0"


def decibans(one: float, other: float) -> float:
    """The weight of evidence of a ratio of two chances: ten to one is ten decibans."""
    return float(10 * np.log10(max(one, TINY) / max(other, TINY)))


def reasons(pack: Pack, answers: Answers, version: str, against: str | None = None) -> list[Reason]:
    """What every counted answer says for `version` against another (the base row, where none is named).

    Strongest first. What a detail says of its part, where nobody answered that, is in the detail's own reason.
    """
    counted, _ = count(pack, answers)
    row = pack.version_place[version]
    other = pack.version_place[against] if against else None
    found = []
    for one in counted:
        weight = decibans(one.of_version[row], one.of_base if other is None else one.of_version[other])
        found.append(Reason(one.feature, weight, strength_word(weight)))
    return sorted(found, key=lambda reason: -abs(reason.decibans))


def prior_decibans(pack: Pack, version: str, against: str) -> float:
    """What abundance alone says for `version` against another, before any answer."""
    return decibans(pack.prior[pack.version_place[version]], pack.prior[pack.version_place[against]])
