"""How many questions are probably left."""

import numpy as np

from identification.engine.model import Answers
from identification.engine.pack import CHANGED, Allowed, Pack
from identification.engine.questions import LEAST_GAIN, gains
from identification.engine.verdict import SURE

SEED = 1945
MOST_STEPS = 40


class Walks:
    """Many walks at once, each with a belief of its own; answers are drawn from what the walk itself expects."""

    def __init__(self, pack: Pack, answers: Answers, allowed: Allowed | None, walks: int):
        belief = pack.weigh(answers)
        self.pack = pack
        self.random = np.random.default_rng(SEED)
        self.known = np.tile(belief.posterior[:, None], walks)
        self.relative = np.tile(belief.relative[:, None], walks)
        self.alone = np.full(walks, belief.unlike)
        self.usable = np.zeros(len(pack.features), dtype=bool)
        self.usable[pack.may_be_asked(answers, allowed)] = True
        self.is_open = np.zeros((len(pack.features), walks), dtype=bool)
        self.is_open[pack.askable(answers, allowed)] = True

    def step(self, confident: float) -> int:
        """One question more for every walk that is not done; how many went on. Those done are dropped."""
        gain, answer = gains(self.pack, self.known, self.relative, self.alone)
        gain = np.where(self.is_open, gain, 0.0)
        surest = np.maximum(self.known.max(axis=0), self.relative.sum(axis=0) + self.alone)
        going = (surest < confident) & (gain.max(axis=0, initial=0.0) >= LEAST_GAIN)
        self.end(~going)
        self.known, self.relative, self.is_open = self.known[:, going], self.relative[:, going], self.is_open[:, going]
        self.alone, gain, answer = self.alone[going], gain[:, going], answer[:, going]
        if going.any():
            per_effort = np.where(gain >= LEAST_GAIN, gain / self.pack.efforts[:, None], 0.0)
            self.take(per_effort.argmax(axis=0), answer)
        return int(going.sum())

    def end(self, done: np.ndarray) -> None:
        """Told which walks are done before they are dropped; here nobody asks."""

    def take(self, asked: np.ndarray, answer: np.ndarray) -> None:
        """Draw an answer to each walk's question, and let it count."""
        rows = self.drawn_rows(asked, answer)
        likelihood, base = self.pack.table[rows].T, self.pack.base[rows]
        self.known *= likelihood
        self.relative *= (1 - CHANGED) * likelihood + CHANGED * base
        self.alone *= base
        total = self.known.sum(axis=0) + self.relative.sum(axis=0) + self.alone
        self.known, self.relative, self.alone = self.known / total, self.relative / total, self.alone / total
        self.is_open[asked, np.arange(len(asked))] = False
        for part in set(asked.tolist()) & self.pack.details.keys():
            for detail in self.pack.details[part]:
                if self.usable[detail]:
                    shown = np.isin(rows, self.pack.enabling_rows[detail])
                    self.is_open[detail, (asked == part) & shown] = True

    def drawn_rows(self, asked: np.ndarray, answer: np.ndarray) -> np.ndarray:
        """A row of the pack's table for each walk, drawn among the answers of the feature it asks."""
        first, last = self.pack.starts[asked], self.pack.starts[asked + 1]
        up_to = np.concatenate([np.zeros((1, len(asked))), answer.cumsum(axis=0)])
        walk = np.arange(len(asked))
        low, high = up_to[first, walk], up_to[last, walk]
        aim = low + self.random.random(len(asked)) * (high - low)
        return np.clip((up_to[1:] < aim).sum(axis=0), first, last - 1)


def expected_questions(
    pack: Pack, answers: Answers, *, allowed: Allowed | None = None, walks: int = 64, confident: float = SURE
) -> float:
    """Mean number of questions of seeded greedy walks from the present posterior, all walked at once.

    Counts the questions that settle the version; what unmasks a look-alike afterwards is not foreseen.
    """
    if not pack.features or not pack.versions:
        return 0.0
    ahead = Walks(pack, answers, allowed, walks)
    asked = 0
    for _ in range(MOST_STEPS):
        going = ahead.step(confident)
        if not going:
            break
        asked += going
    return asked / walks
