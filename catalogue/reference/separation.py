"""How two versions are told apart on record, and how hard that is to see."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.reference.facts import FeatureFacts, VersionFacts
from catalogue.reference.words import Seen

EASE = {seen: place for place, seen in enumerate(Seen.values)}
# An answer wrong this often is weak evidence (the society's own scale: low reliability is .18).
WEAK_ERROR = 0.15
LABEL = "label"
NOTHING = "nothing on record"
BY_WEAK = "by weak features only"
BY_LABEL = "by the label only"
BY_LABEL_OR_WEAK = "by the label, or by weak features"
FROM_OUTSIDE = "from outside"
BY_OPENING = "by handling or opening it"
BY_MEASURING = "by measuring only"
HARD = (NOTHING, BY_WEAK, BY_LABEL, BY_LABEL_OR_WEAK, BY_MEASURING)


@dataclass(frozen=True)
class Separation:
    """Features with no state in common, easiest to see first. Empty: nothing on record separates the two."""

    one: str
    other: str
    features: tuple[FeatureFacts, ...]

    @property
    def words(self) -> str:
        """How hard it is to tell them apart, by the easiest good feature."""
        good = [feature for feature in self.features if feature.error < WEAK_ERROR]
        if not self.features:
            return NOTHING
        if not good:
            return BY_WEAK
        if all(feature.group == LABEL for feature in good):
            return BY_LABEL if len(good) == len(self.features) else BY_LABEL_OR_WEAK
        if any(not feature.needs_handling for feature in good):
            return FROM_OUTSIDE
        if any(feature.seen != Seen.MEASURED for feature in good):
            return BY_OPENING
        return BY_MEASURING

    @property
    def by_effort(self) -> list[tuple[str, list[str]]]:
        """Names of the features under the way of seeing them, easiest first."""
        found: dict[str, list[str]] = {}
        for feature in sorted(self.features, key=lambda f: EASE[f.seen]):
            found.setdefault(feature.seen_words, []).append(feature.name)
        return list(found.items())

    @property
    def is_hard(self) -> bool:
        """Nothing tells them apart but the label, which may be gone, or what people often get wrong."""
        return all(feature.group == "label" or feature.error >= WEAK_ERROR for feature in self.features)


def states_of(version: VersionFacts, feature: str) -> frozenset[str]:
    return frozenset(cell.state for cell in version.cells.get(feature, ()))


def separation(one: VersionFacts, other: VersionFacts, features: Iterable[FeatureFacts]) -> Separation:
    """Features recorded for both in which no state occurs in both."""
    found = []
    for feature in features:
        ours, theirs = states_of(one, feature.code), states_of(other, feature.code)
        if ours and theirs and not ours & theirs:
            found.append(feature)
    found.sort(key=lambda f: (f.needs_handling, EASE[f.seen], f.error))
    return Separation(one.code, other.code, tuple(found))
