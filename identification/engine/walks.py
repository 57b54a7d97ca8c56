"""How many questions are probably left."""

import numpy as np

from identification.engine.model import Answers
from identification.engine.pack import CHANGED, LEAST_GAIN, Allowed, Pack
from identification.engine.verdict import SURE

SEED = 1945
MOST_STEPS = 40


def expected_questions(
    pack: Pack, answers: Answers, *, allowed: Allowed | None = None, walks: int = 64, confident: float = SURE
) -> float:
    """Mean number of questions of seeded greedy walks from the present posterior, all walked at once.

    Each answer is drawn from what the walk itself expects, so no version needs to be assumed.
    """
    belief = pack.weigh(answers)
    if not len(belief.posterior):
        return 0.0
    random = np.random.default_rng(SEED)
    known = np.tile(belief.posterior, (walks, 1))
    relative = np.tile(belief.relative, (walks, 1))
    unlike = np.full(walks, belief.unlike)
    usable = np.zeros(len(pack.features), dtype=bool)
    usable[[c for c, f in enumerate(pack.features) if f.code not in answers and (not allowed or allowed(f))]] = True
    is_open = np.zeros((walks, len(pack.features)), dtype=bool)
    is_open[:, pack.askable(answers, allowed)] = True
    asked = np.zeros(walks)
    for _ in range(MOST_STEPS):
        gain, answer = pack.gains(known, relative, unlike)
        gain = np.where(is_open, gain, 0.0)
        none_known = relative.sum(axis=1) + unlike
        going = (np.maximum(known.max(axis=1), none_known) < confident) & (gain.max(axis=1) >= LEAST_GAIN)
        if not going.any():
            break
        best = np.where(gain >= LEAST_GAIN, gain / pack.efforts, 0.0).argmax(axis=1)
        asked += going
        take_answers(pack, going, best, answer, random, (known, relative, unlike), is_open, usable)
    return float(asked.mean())


def take_answers(pack: Pack, going, best, answer, random, hypotheses, is_open, usable) -> None:
    """Draw an answer for every walk that goes on, and let it count. Works in place."""
    known, relative, unlike = hypotheses
    draw = random.random(len(best))
    for walk in np.flatnonzero(going):
        column = int(best[walk])
        first, last = int(pack.starts[column]), int(pack.starts[column + 1])
        chances = np.cumsum(answer[walk, first:last])
        place = first + min(int(np.searchsorted(chances, draw[walk] * chances[-1])), last - first - 1)
        likelihood = pack.table[:, place]
        known[walk] *= likelihood
        relative[walk] *= (1 - CHANGED) * likelihood + CHANGED * pack.base[place]
        unlike[walk] *= pack.base[place]
        total = known[walk].sum() + relative[walk].sum() + unlike[walk]
        known[walk] /= total
        relative[walk] /= total
        unlike[walk] /= total
        is_open[walk, column] = False
        for detail in pack.details.get(column, ()):
            is_open[walk, detail] = usable[detail] and place in pack.enabling_columns[detail]
