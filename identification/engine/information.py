"""How much a set of questions would tell together, before any of them is asked."""

import numpy as np

from identification.engine.mistakes import NEVER_SURE
from identification.engine.model import Answers
from identification.engine.pack import Allowed, Pack
from identification.engine.walks import MOST_STEPS, Walks

WALKS = 64


class Informed(Walks):
    """Walks that add up how uncertain each of them still is at its end, in bits."""

    def __init__(self, pack: Pack, answers: Answers, allowed: Allowed | None, walks: int):
        super().__init__(pack, answers, allowed, walks)
        self.uncertain = 0.0

    def end(self, done: np.ndarray) -> None:
        self.uncertain += float(uncertainty(self.known[:, done], self.relative[:, done], self.alone[done]).sum())


def uncertainty(known: np.ndarray, relative: np.ndarray, alone: np.ndarray) -> np.ndarray:
    """Entropy in bits over the versions and "not recorded", of every belief (Shannon 1948, cited from memory)."""
    chances = np.vstack([known, relative.sum(axis=0) + alone])
    return -(chances * np.log2(np.maximum(chances, 1e-30))).sum(axis=0)


def expected_information(pack: Pack, answers: Answers, *, allowed: Allowed | None = None, walks: int = WALKS) -> float:
    """Bits by which answers to all allowed questions would make the version clearer, on average; never below nought.

    Seeded walks that ask every question worth asking: what two questions both tell is counted once.
    """
    if not pack.features or not pack.versions:
        return 0.0
    ahead = Informed(pack, answers, allowed, walks)
    now = float(uncertainty(ahead.known[:, :1], ahead.relative[:, :1], ahead.alone[:1])[0])
    for _ in range(MOST_STEPS):
        if not ahead.step(NEVER_SURE):
            break
    else:
        ahead.end(np.ones(ahead.known.shape[1], dtype=bool))
    return max(now - ahead.uncertain / walks, 0.0)
