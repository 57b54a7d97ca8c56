"""Walks over the demo society's types: its own pieces, and pieces drawn from its record."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from identification.engine import (
    CANNOT_TELL,
    Answers,
    Ask,
    Feature,
    Pack,
    States,
    Verdict,
    next_step,
    verdict,
)

CANNOT_TELL_SHARE = 0.05


def outside_only(feature: Feature) -> bool:
    """What can be seen of a closed piece without touching it."""
    return not feature.needs_handling and feature.seen in ("outside", "daylight")


@dataclass(frozen=True)
class Walked:
    """One walk to its end. `questions` counts those asked, looks again among them."""

    answers: Answers
    verdict: Verdict
    questions: int
    effort: float


def walk(pack: Pack, ask: Callable[[str], object], allowed=None, read_back: bool = True, limit: int = 60) -> Walked:
    """Ask until the engine stops; `ask` gives the answer to a feature, the same piece being looked at each time."""
    answers: dict[str, object] = {}
    questions, effort = 0, 0.0
    while questions < limit and isinstance(step := next_step(pack, answers, allowed=allowed, read_back=read_back), Ask):
        given = ask(step.feature)
        answers[step.feature] = (answers[step.feature], given) if step.feature in answers else given
        questions += 1
        effort += pack.features[pack.place[step.feature]].effort
    return Walked(answers, verdict(pack, answers, allowed=allowed), questions, effort)


class DrawnPiece:
    """A piece of a version as the pack's tables say: issued states drawn, parts lost, each look erring anew."""

    def __init__(self, pack: Pack, version: int, random):
        self.pack, self.random = pack, random
        self.found: dict[str, int] = {}
        order = sorted(range(len(pack.features)), key=lambda place: depth(pack, place))
        for place in order:
            feature = pack.features[place]
            parent = feature.parent if feature.parent in pack.place else None
            if parent and not self.is_there(feature, parent):
                self.found[feature.code] = -1
                continue
            self.found[feature.code] = self.drawn(place, version)

    def is_there(self, feature: Feature, parent: str) -> bool:
        state = self.found[parent]
        return state >= 0 and self.pack.features[self.pack.place[parent]].states[state] in feature.shown_when

    def drawn(self, place: int, version: int) -> int:
        shares = self.pack.recorded[place][:, version]
        shares = self.pack.base_issued[place] if np.isnan(shares[0]) else shares
        feature = self.pack.features[place]
        state = int(self.random.choice(len(shares), p=shares / shares.sum()))
        if feature.absent is None:
            return state
        absent = feature.states.index(feature.absent)
        if state != absent and self.random.random() < feature.loss:
            return absent
        if state == absent and self.random.random() < feature.gain:
            return int(self.random.choice([s for s in range(len(shares)) if s != absent]))
        return state

    def __call__(self, code: str):
        feature = self.pack.features[self.pack.place[code]]
        state, number = self.found[code], len(feature.states)
        if self.random.random() < CANNOT_TELL_SHARE or state < 0:
            return CANNOT_TELL
        if self.random.random() < feature.error:
            state = (state + int(self.random.integers(1, number))) % number
        return States((feature.states[state],))


def depth(pack: Pack, place: int) -> int:
    parent = pack.features[place].parent
    return 0 if parent not in pack.place else 1 + depth(pack, pack.place[parent])
