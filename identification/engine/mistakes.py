"""What a piece of a known version would be named as, by many observers who err as the features' errors say."""

from collections.abc import Mapping

import numpy as np

from identification.engine.pack import Allowed, Pack
from identification.engine.walks import MOST_STEPS, Walks

WALKS = 300
# Above every chance: these walks end only when no question is worth asking, as a careful person's do.
NEVER_SURE = 2.0
NOT_RECORDED = ""
# Chances that agree so far count as equal: what nothing tells apart is named in equal parts.
SAME = 1e-9


class KnownPieces(Walks):
    """Walks with pieces of one version in hand: answers are drawn from what such a piece shows and observers err."""

    def __init__(self, pack: Pack, version: int, allowed: Allowed | None, walks: int):
        super().__init__(pack, {}, allowed, walks)
        self.shown = pack.table[:, [version]]
        self.may_be_named = np.array([one.piece_seen for one in pack.versions])
        self.named = np.zeros(len(pack.versions) + 1)

    def take(self, asked: np.ndarray, answer: np.ndarray) -> None:
        super().take(asked, np.repeat(self.shown, len(asked), axis=1))

    def end(self, done: np.ndarray) -> None:
        """What each of these walks names: the likeliest version of which a piece was seen, or none of them."""
        none = self.relative[:, done].sum(axis=0) + self.alone[done]
        chances = np.vstack([np.where(self.may_be_named[:, None], self.known[:, done], 0.0), none])
        best = chances >= chances.max(axis=0) - SAME
        self.named += (best / best.sum(axis=0)).sum(axis=1)


def named_as(pack: Pack, version: str, *, allowed: Allowed | None = None, walks: int = WALKS) -> Mapping[str, float]:
    """Share of seeded walks with a piece of `version` that end in each version, most first; those of none are absent.

    Under NOT_RECORDED stands the share that ends in "not in the reference". Every question worth asking is asked, the
    best first, and at the end the likeliest is named, however sure; reading back, which mends some mistakes, is not
    foreseen. The same every time for the same pack.
    """
    pieces = KnownPieces(pack, pack.version_place[version], allowed, walks)
    for _ in range(MOST_STEPS):
        if not pieces.step(NEVER_SURE):
            break
    else:
        pieces.end(np.ones(pieces.known.shape[1], dtype=bool))
    shares = dict(zip([*pack.version_codes, NOT_RECORDED], pieces.named / walks, strict=True))
    return {code: float(share) for code, share in sorted(shares.items(), key=lambda pair: -pair[1]) if share > 0}
