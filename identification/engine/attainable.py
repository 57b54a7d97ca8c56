"""How often the right version can come first in a garment type at all, however patiently it is asked.

Pieces are drawn from the table itself: a version by its abundance, then an answer to every feature that such a piece
has, erring and losing parts as the features say. What the table cannot tell apart stays untold. A simulation of the
record, not a count of pieces; no source.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from identification.engine.compiling import DOUBT, found_matrix
from identification.engine.model import Feature
from identification.engine.pack import Pack

SEED = 1948
PIECES = 1500
# Blank cells are filled in so many ways, each for its own part of the pieces, or one lucky filling would decide.
FILLINGS = 8
# A smaller rise is as likely chance. Ours.
LEAST_RISE = 0.005
# A version is told apart when so many of its own pieces come first, out of so many drawn. Ours; no source.
TOLD, EACH = 0.9, 200
# Of many versions fewer pieces each are drawn: the work grows with the square of their number.
MOST_DRAWN, LEAST_EACH = 24_000, 20
WEIGHED_AT_ONCE = 2_000
SAME = 1e-9
TINY = 1e-300


@dataclass(frozen=True)
class Attainable:
    """`share` of pieces whose version comes first with every feature answered.

    `record_next` is the feature whose blank cells, once recorded, would raise it most, and `share_then` about what it
    would reach; None, and the same share, where no feature would.
    """

    share: float
    record_next: str | None
    share_then: float


def attainable(pack: Pack, *, pieces: int = PIECES, seed: int = SEED) -> Attainable:
    """What can be reached with the record as it is, and which feature to record next.

    Among the versions of which a piece has been seen; those that look alike share the first place. A blank cell is
    taken to turn out as the pack expects it to, so that `share_then` is a guess. Same pack and seed, same answer.
    """
    seen = np.flatnonzero([version.piece_seen for version in pack.versions])
    if not len(seen):
        return Attainable(0.0, None, 0.0)
    random = np.random.default_rng(seed)
    prior = np.maximum(pack.prior[seen], TINY)
    truths = random.choice(len(seen), pieces, p=prior / prior.sum())
    drawn = DrawnPieces(pack, seen, truths, random)
    weights = drawn.log_prior + drawn.all_said(range(len(pack.features)), slice(None))
    share = first_share(weights, drawn.truths)
    best, chosen = share + LEAST_RISE, None
    for place in np.flatnonzero(~pack.is_recorded[:, seen].all(axis=1)):
        then = first_share(weights - drawn.said_of(place) + drawn.once_recorded(place), drawn.truths)
        if then > best:
            best, chosen = then, pack.feature_codes[place]
    return Attainable(share, chosen, best if chosen else share)


def told_apart(
    pack: Pack, *, allowed: Callable[[Feature], bool] | None = None, each: int = EACH, seed: int = SEED
) -> tuple[str, ...]:
    """Versions whose own pieces come first at least nine times in ten, with every allowed feature answered.

    Among the versions of which a piece has been seen, all taken as equally common: that one of two like versions is
    rare does not tell them apart. Same pack and seed, same answer.
    """
    seen = np.flatnonzero([version.piece_seen for version in pack.versions])
    if not len(seen):
        return ()
    each = min(each, max(LEAST_EACH, MOST_DRAWN // len(seen)))
    truths = np.repeat(np.arange(len(seen)), each)
    drawn = DrawnPieces(pack, seen, truths, np.random.default_rng(seed))
    looked_at = [place for place, feature in enumerate(pack.features) if allowed is None or allowed(feature)]
    first = [
        first_shares(drawn.all_said(looked_at, slice(start, start + WEIGHED_AT_ONCE)), truths[start:][:WEIGHED_AT_ONCE])
        for start in range(0, len(truths), WEIGHED_AT_ONCE)
    ]
    shares = np.concatenate(first).reshape(len(seen), each).mean(axis=1)
    return tuple(pack.version_codes[row] for row, share in zip(seen, shares, strict=True) if share >= TOLD)


class DrawnPieces:
    """Pieces with an answer to every feature that they have, and what each answer says of every seen version."""

    def __init__(self, pack: Pack, seen: np.ndarray, truths: np.ndarray, random):
        """`truths`: the place among the seen versions of each piece's own."""
        self.pack, self.seen, self.truths = pack, seen, truths
        prior = np.maximum(pack.prior[seen], TINY)
        self.log_prior = np.log(prior / prior.sum())
        self.fillings = random.random((FILLINGS, len(pack.features), len(pack.versions)))
        # The same numbers draw the answers before and after a cell is recorded, so that only the record differs.
        self.numbers = random.random((len(pack.features), len(truths)))
        self.answers: dict[int, np.ndarray] = {}
        self.is_there: dict[int, np.ndarray] = {}
        for place in range(len(pack.features)):
            self.draw(place)

    def draw(self, place: int) -> None:
        """Answers to this feature, after those to the parts above it."""
        if place in self.answers:
            return
        feature = self.pack.features[place]
        self.is_there[place] = np.ones(len(self.truths), dtype=bool)
        if feature.parent in self.pack.place:
            above = self.pack.place[feature.parent]
            self.draw(above)
            rows = self.answers[above] + self.pack.starts[above]
            self.is_there[place] = self.is_there[above] & np.isin(rows, self.pack.enabling_rows[place])
        self.answers[place] = self.drawn(place, self.table_of(place))

    def table_of(self, place: int) -> np.ndarray:
        """Answers × seen versions, as the record stands."""
        return self.pack.table[self.span(place)][:, self.seen]

    def span(self, place: int) -> slice:
        return slice(int(self.pack.starts[place]), int(self.pack.starts[place + 1]))

    def drawn(self, place: int, table: np.ndarray, some: slice = slice(None)) -> np.ndarray:
        """An answer for each of some pieces, by the table's chances for its own version."""
        up_to = table[:, self.truths[some]].cumsum(axis=0)
        return np.minimum((up_to < self.numbers[place, some] * up_to[-1]).sum(axis=0), len(table) - 1)

    def said(self, place: int, table: np.ndarray, answers: np.ndarray, some: slice = slice(None)) -> np.ndarray:
        """Pieces × versions: log chance of the answers; nought for a detail of a part that is not there."""
        return np.where(self.is_there[place][some, None], np.log(table[answers]), 0.0)

    def said_of(self, place: int) -> np.ndarray:
        return self.said(place, self.table_of(place), self.answers[place])

    def all_said(self, places: Sequence[int], some: slice) -> np.ndarray:
        """Pieces × versions: what the answers of some pieces to these features say together."""
        given = np.zeros((len(self.truths[some]), len(self.pack.table)))
        for place in places:
            there = np.flatnonzero(self.is_there[place][some])
            given[there, self.answers[place][some][there] + self.pack.starts[place]] = 1.0
        return given @ np.log(self.pack.table[:, self.seen])

    def once_recorded(self, place: int) -> np.ndarray:
        """What the answers would say if every blank cell of the feature were recorded with one state."""
        parts = []
        for number, filling in enumerate(self.fillings):
            some = slice(len(self.truths) * number // FILLINGS, len(self.truths) * (number + 1) // FILLINGS)
            table = self.table_once_recorded(place, filling[place])
            parts.append(self.said(place, table, self.drawn(place, table, some), some))
        return np.concatenate(parts)

    def table_once_recorded(self, place: int, filling: np.ndarray) -> np.ndarray:
        """Answers × seen versions, each blank cell filled with a state drawn from what the pack expects of it."""
        pack = self.pack
        issued = pack.doubted[place].copy()
        blank = np.isnan(pack.recorded[place][0])
        up_to = issued.cumsum(axis=0)
        states = np.minimum((up_to < filling * up_to[-1]).sum(axis=0), len(issued) - 1)
        as_recorded = (1 - DOUBT) * np.eye(len(issued))[:, states] + DOUBT * pack.base_issued[place][:, None]
        issued[:, blank] = as_recorded[:, blank]
        found = found_matrix(pack.features[place]).T @ issued
        return np.maximum(pack.answered[place].T @ found, TINY)[:, self.seen]


def first_share(weights: np.ndarray, truths: np.ndarray) -> float:
    """Share of pieces whose own version weighs most."""
    return float(first_shares(weights, truths).mean())


def first_shares(weights: np.ndarray, truths: np.ndarray) -> np.ndarray:
    """For each piece 1 where its own version weighs most, else 0; of several that weigh the same each has its part."""
    first = weights >= weights.max(axis=1, keepdims=True) - SAME
    return first[np.arange(len(truths)), truths] / first.sum(axis=1)
