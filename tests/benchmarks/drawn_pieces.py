"""Pieces drawn from the record of the demo society's types."""

import numpy as np

from identification.engine import CANNOT_TELL, Feature, Pack, States

CANNOT_TELL_SHARE = 0.15


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
