"""A leader that no recorded version disputes, and what would still show a version that nobody has recorded.

Where one version stands alone, what is left of doubt is the chance that the piece is of no recorded version. No single
question then tells much, since most answers agree whatever the piece is; yet a few together settle it. Such a
question is asked only while those left can settle it: a person is never sent on for nothing.
"""

import numpy as np

from identification.engine.model import Answers
from identification.engine.pack import Allowed, Belief, Pack
from identification.engine.questions import CHANGED
from identification.engine.rivals import TINY, WEAK_ERROR

# Nats that the answer which the leader's record expects must say against a version that is not recorded: about half of
# what a near relative allows, ln(1 / (1 - CHANGED)) = .105. Ours.
LEAST_CONFIRMING = 0.05
# The most questions that are asked for this alone. Ours: what they can add is a word, "probably" or none.
MOST_CONFIRMING = 3


def confirming_question(
    pack: Pack, answers: Answers, belief: Belief, lead: str, together: float, wanted: float, allowed: Allowed | None
) -> str | None:
    """The check that most tells the leader from a version that is not recorded, where a few such checks would do.

    `together`: the chance, as yet under `wanted`, of what is to be settled. None where it cannot be settled so.
    """
    needed = evidence_needed(belief, together, wanted)
    if not np.isfinite(needed):
        return None
    found = confirming(pack, answers, belief, lead, allowed)
    most = sorted(found.values(), reverse=True)[:MOST_CONFIRMING]
    if sum(most) < needed:
        return None
    efforts = {code: pack.features[pack.place[code]].effort for code in found}
    return max(found, key=lambda code: (found[code] / efforts[code], -pack.place[code]), default=None)


def evidence_needed(belief: Belief, together: float, wanted: float) -> float:
    """Nats against a version that is not recorded after which what holds `together` reaches `wanted`.

    p / (p + others + q exp(-k)) = wanted, solved for k. Infinite where the other versions alone stand in the way.
    """
    others = max(1.0 - together - belief.unrecorded, 0.0)
    left = together * (1 - wanted) / wanted - others
    return float(np.log(max(belief.unrecorded, TINY) / left)) if left > 0 else np.inf


def confirming(pack: Pack, answers: Answers, belief: Belief, lead: str, allowed: Allowed | None) -> dict[str, float]:
    """Nats for the leader against an unrecorded version, by open feature, if the answer is the leader's own."""
    row = pack.version_place[lead]
    relative = pack.table @ belief.relative
    share = max(belief.unrecorded, TINY)
    unrecorded = ((1 - CHANGED) * relative + (CHANGED * belief.relative.sum() + belief.unlike) * pack.base) / share
    found = {}
    for place in pack.askable(answers, allowed):
        feature = pack.features[place]
        if feature.error >= WEAK_ERROR or not pack.is_recorded[place, row]:
            continue
        span = slice(int(pack.starts[place]), int(pack.starts[place + 1]))
        of_lead = pack.table[span, row]
        own = int(of_lead.argmax())
        weight = float(np.log(of_lead[own] / max(unrecorded[span][own], TINY)))
        if weight >= LEAST_CONFIRMING:
            found[feature.code] = weight
    return found
