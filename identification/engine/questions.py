"""Which question tells most for its effort.

I_f = H(A_f) - Σ_v p_v H(A_f | v) - p_0 H(A_f | unrecorded), in bits; asked is the greatest I_f / effort_f.
Sources, cited from memory: Shannon 1948;
Lindley 1956, Ann. Math. Stat. 27:986; Quinlan 1986, Machine Learning 1:81.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from identification.engine.pack import Belief, Pack

CHANGED = 0.1
LEAST_GAIN = 0.02
# Scores that agree so far count as equal, or the order would follow rounding.
TIE_DIGITS = 6


@dataclass(frozen=True)
class Question:
    """A question that could be asked: expected information in bits, and that per effort with its details' share."""

    feature: str
    gain_bits: float
    score: float


def entropies(table: np.ndarray, starts: np.ndarray) -> np.ndarray:
    """Entropy in bits of every feature's answers; the first axis runs over answers."""
    if not len(table):
        return np.zeros((0, *table.shape[1:]))
    return -np.add.reduceat(table * np.log2(np.maximum(table, 1e-30)), starts[:-1], axis=0)


def gains(pack: "Pack", known: np.ndarray, relative: np.ndarray, alone) -> tuple[np.ndarray, np.ndarray]:
    """Expected information of every feature, and the chance of every answer.

    `known` and `relative` are one chance a version, or versions × beliefs for many beliefs at once; `alone` is then
    one number a belief.
    """
    kind = pack.chooser_table.dtype
    # Two products with a vector are quicker than one with two columns: the table is read at memory's speed twice.
    of_known = pack.chooser_table @ known.astype(kind)
    of_relative = pack.chooser_table @ relative.astype(kind)
    noise = pack.chooser_entropy @ known.astype(kind)
    weight = relative.sum(axis=0)
    base = pack.base if known.ndim == 1 else pack.base[:, None]
    of_unrecorded = (1 - CHANGED) * of_relative + (CHANGED * weight + alone) * base
    share = np.maximum(weight + alone, 1e-30)
    answer = of_known + of_unrecorded
    surprise = entropies(answer, pack.starts) - noise - share * entropies(of_unrecorded / share, pack.starts)
    return np.maximum(surprise, 0.0), answer


def rank(pack: "Pack", belief: "Belief", now: list[int], open_to: set[int]) -> list[Question]:
    """The questions among `now` that are worth asking; `open_to` are those that may be asked later as well."""
    gain, answer = gains(pack, belief.posterior, belief.relative, belief.unlike)
    bits, effort = gain.tolist(), pack.efforts.tolist()
    ranked = []
    for place in now:
        worth, cost = bits[place], effort[place]
        if place in pack.details:
            worth, cost = with_details(pack, place, (bits, effort, answer), open_to)
        if worth >= LEAST_GAIN:
            ranked.append((-round(worth / cost, TIE_DIGITS), effort[place], place))
    return [Question(pack.feature_codes[place], bits[place], -score) for score, _, place in sorted(ranked)]


def with_details(pack: "Pack", place: int, measures, open_to: set[int]) -> tuple[float, float]:
    """Information and effort of a part, with that of its best detail where the two together pay more.

    Without it two versions that differ only in a detail of a part that both have would never be told apart.
    """
    bits, effort, answer = measures
    best = (bits[place], effort[place])
    for detail in pack.details.get(place, ()):
        if detail in open_to:
            more, cost = with_details(pack, detail, measures, open_to)
            chance = float(answer[pack.enabling_rows[detail]].sum())
            both = bits[place] + chance * more, effort[place] + chance * cost
            if both[0] / both[1] > best[0] / best[1] or best[0] < LEAST_GAIN <= both[0]:
                best = both
    return best
