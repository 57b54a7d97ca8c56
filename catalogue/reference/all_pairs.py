"""Every two versions of a type at once: six hundred versions make 180,000 pairs, too many to look at one by one."""

from dataclasses import dataclass

import numpy as np

from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.separation import LABEL, WEAK_ERROR, Separation, separation
from catalogue.reference.words import Seen


@dataclass(frozen=True)
class AllPairs:
    """How many pairs there are, how many nothing separates, how many each feature separates, and the hard ones: first
    those that nothing separates, then those that only the label, weak features or measuring do.

    `hardest` are as many of the hard ones as were asked for, in the order of the type's versions.
    """

    number: int
    untold: int
    by_feature: dict[str, int]
    hard: int
    hardest: tuple[Separation, ...]

    def most_telling(self, facts: TypeFacts, most: int = 10) -> list[tuple[FeatureFacts, int]]:
        """Features by the number of pairs that they separate."""
        ranked = sorted(facts.features.values(), key=lambda f: -self.by_feature[f.code])
        return [(feature, self.by_feature[feature.code]) for feature in ranked[:most] if self.by_feature[feature.code]]


def all_pairs(facts: TypeFacts, *, most_hard: int) -> AllPairs:
    """The same words for each pair as `Separation.words` has, without making one of every pair."""
    size = len(facts.versions)
    separated, good, without_label, from_outside, unmeasured = (np.zeros((size, size), dtype=bool) for _ in range(5))
    by_feature = {}
    for feature in facts.features.values():
        apart = apart_by(facts, feature)
        by_feature[feature.code] = int(apart.sum()) // 2
        separated |= apart
        if feature.error >= WEAK_ERROR or not by_feature[feature.code]:
            continue
        good |= apart
        without_label |= apart & (feature.group != LABEL)
        from_outside |= apart & (not feature.needs_handling)
        unmeasured |= apart & (feature.seen != Seen.MEASURED)
    pairs = np.triu(np.ones((size, size), dtype=bool), 1)
    easy = good & without_label & (from_outside | unmeasured)
    nothing, hard = np.argwhere(pairs & ~separated), np.argwhere(pairs & separated & ~easy)
    versions, features = list(facts.versions.values()), list(facts.features.values())
    return AllPairs(
        number=size * (size - 1) // 2,
        untold=len(nothing),
        by_feature=by_feature,
        hard=len(nothing) + len(hard),
        hardest=tuple(
            separation(versions[one], versions[other], features)
            for one, other in [*nothing[:most_hard], *hard[: max(0, most_hard - len(nothing))]]
        ),
    )


def apart_by(facts: TypeFacts, feature: FeatureFacts) -> np.ndarray:
    """Versions × versions: whether the feature is recorded for both with no state in common."""
    cells = [version.cells.get(feature.code, ()) for version in facts.versions.values()]
    states = {state: place for place, state in enumerate({cell.state for shown in cells for cell in shown})}
    # A column more, in which all are alike, stands for a want of states: two of whom neither is recorded are not apart.
    shows = np.zeros((len(cells), len(states) + 1), dtype=np.float32)
    for row, shown in enumerate(cells):
        for cell in shown:
            shows[row, states[cell.state]] = 1
    shows[~shows.any(axis=1)] = 1
    return shows @ shows.T == 0
