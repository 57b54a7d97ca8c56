"""Which question tells most about the group of a version, where only the group is wanted (a piece of unknown type)."""

from collections.abc import Mapping

import numpy as np

from identification.engine.model import Answers
from identification.engine.pack import Allowed, Belief, Pack
from identification.engine.questions import LEAST_GAIN, TIE_DIGITS, entropies
from identification.engine.rivals import TINY


def group_chances(pack: Pack, belief: Belief, groups: Mapping[str, str]) -> dict[str, float]:
    """The chance of each group of versions among all that is recorded, likeliest first.

    `groups`: the group of every version. A version that is not recorded may be of any, so it takes nothing from one.
    """
    known = float(belief.posterior.sum())
    chances = dict.fromkeys((groups[code] for code in pack.version_codes), 0.0)
    for code, chance in zip(pack.version_codes, belief.posterior, strict=True):
        chances[groups[code]] += float(chance) / known if known else 0.0
    return dict(sorted(chances.items(), key=lambda pair: -pair[1]))


def group_question(
    pack: Pack, belief: Belief, answers: Answers, groups: Mapping[str, str], allowed: Allowed | None = None
) -> str | None:
    """The open question with most information about the group per effort: (H(A) - Σ_g p_g H(A | g)) / effort.

    Shannon 1948 (from memory). Ties to less effort, then the fixed order. None where no question tells `LEAST_GAIN`
    bits.
    """
    bits = group_information(pack, belief, groups)
    best = None
    for place in pack.askable(answers, allowed):
        if bits[place] >= LEAST_GAIN:
            effort = pack.features[place].effort
            rank = (-round(float(bits[place]) / effort, TIE_DIGITS), effort, place)
            best = rank if best is None else min(best, rank)
    return None if best is None else pack.feature_codes[best[2]]


def group_information(pack: Pack, belief: Belief, groups: Mapping[str, str]) -> np.ndarray:
    """Bits that the answer to each feature is expected to tell about the group, among what is recorded."""
    if not pack.versions:
        return np.zeros(len(pack.features))
    names = list(dict.fromkeys(groups[code] for code in pack.version_codes))
    belongs = np.array([[groups[code] == name for name in names] for code in pack.version_codes], dtype=float)
    known = belief.posterior / max(float(belief.posterior.sum()), TINY)
    joint = pack.table @ (known[:, None] * belongs)
    shares = known @ belongs
    of_group = entropies(joint / np.maximum(shares, TINY), pack.starts)
    return np.maximum(entropies(joint.sum(axis=1), pack.starts) - of_group @ shares, 0.0)
