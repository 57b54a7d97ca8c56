"""A compiled garment type: evidence in, posterior and next questions out.

The posterior is naive Bayes with an open set: beside the recorded versions stands "a version that is not recorded",
half unlike anything known, half a relative of a known one in which each feature changed with chance 0.1.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from identification.engine.counting import LEAST, Counted, count, last
from identification.engine.keys import Fork, Leaf, expected_key
from identification.engine.model import Answers, Feature, States, Version
from identification.engine.questions import CHANGED, Question, entropies, rank

# Up to this many numbers the choice of questions is worked out in full precision, beyond in half of it.
FULL_PRECISION = 100_000
# Up to this many versions times features a walk is planned ahead; beyond, planning would take seconds.
MOST_PLANNED = 20_000
# So many likelihoods can be multiplied before their product would leave the range of a float.
MULTIPLIED_AT_ONCE = 24
Allowed = Callable[[Feature], bool]


@dataclass(frozen=True)
class Belief:
    """What the answers make of the versions.

    `posterior` (one number a version) and `unrecorded` sum to one. `relative` and `unlike` are the two halves of
    `unrecorded`. `counted` names the answers that count, `left_out` says why the others do not.
    """

    posterior: np.ndarray
    unrecorded: float
    relative: np.ndarray
    unlike: float
    counted: tuple[str, ...]
    left_out: Mapping[str, str]


@dataclass(frozen=True, eq=False)
class Pack:
    """Everything about one garment type that identification needs.

    Per feature, states × versions: `recorded` shares (NaN where nothing is), `doubted` (blanks filled, doubt added)
    and `found` (parts lost or added); `base_issued` and `base_found` are the same for the base row; `answered` is
    states as found × answers. Made by `compile_pack`.
    """

    features: tuple[Feature, ...]
    versions: tuple[Version, ...]
    recorded: tuple[np.ndarray, ...]
    doubted: tuple[np.ndarray, ...]
    found: tuple[np.ndarray, ...]
    base_issued: tuple[np.ndarray, ...]
    base_found: tuple[np.ndarray, ...]
    answered: tuple[np.ndarray, ...]
    unrecorded_prior: float
    enabling_by_default: bool

    # ---- what is worked out once

    @cached_property
    def feature_codes(self) -> tuple[str, ...]:
        return tuple(feature.code for feature in self.features)

    @cached_property
    def version_codes(self) -> tuple[str, ...]:
        return tuple(version.code for version in self.versions)

    @cached_property
    def place(self) -> dict[str, int]:
        return {code: i for i, code in enumerate(self.feature_codes)}

    @cached_property
    def version_place(self) -> dict[str, int]:
        return {code: i for i, code in enumerate(self.version_codes)}

    @cached_property
    def starts(self) -> np.ndarray:
        """Where each feature's answers begin among the rows of `table`."""
        return np.cumsum([0, *(len(feature.states) for feature in self.features)])

    @cached_property
    def table(self) -> np.ndarray:
        """Answers × versions: P(answer | version), the features below one another."""
        rows = [answered.T @ found for answered, found in zip(self.answered, self.found, strict=True)]
        return np.maximum(np.concatenate(rows), LEAST) if rows else np.zeros((0, len(self.versions)))

    @cached_property
    def base(self) -> np.ndarray:
        """P(answer) where nothing is known of the version."""
        parts = [answered.T @ found for answered, found in zip(self.answered, self.base_found, strict=True)]
        return np.maximum(np.concatenate(parts), LEAST) if parts else np.zeros(0)

    @cached_property
    def row_of(self) -> dict[tuple[int, str], int]:
        """Row of `table` for a feature's number and one of its states."""
        return {
            (place, state): int(self.starts[place]) + i
            for place, feature in enumerate(self.features)
            for i, state in enumerate(feature.states)
        }

    @cached_property
    def chooser_table(self) -> np.ndarray:
        return self.table if self.table.size <= FULL_PRECISION else self.table.astype(np.float32)

    @cached_property
    def chooser_entropy(self) -> np.ndarray:
        """Features × versions: H(A | v) in bits."""
        return entropies(self.table, self.starts).astype(self.chooser_table.dtype)

    @cached_property
    def efforts(self) -> np.ndarray:
        return np.array([feature.effort for feature in self.features], dtype=float)

    @cached_property
    def prior(self) -> np.ndarray:
        """The versions' own weights, rescaled to 1; even where all are nought."""
        weights = np.array([max(version.weight, 0.0) for version in self.versions], dtype=float)
        return weights / weights.sum() if weights.sum() > 0 else np.full(len(weights), 1 / max(len(weights), 1))

    @cached_property
    def details(self) -> dict[int, list[int]]:
        """Features that are details of each part."""
        found: dict[int, list[int]] = {}
        for place, feature in enumerate(self.features):
            if feature.parent in self.place:
                found.setdefault(self.place[feature.parent], []).append(place)
        return found

    @cached_property
    def enabling_rows(self) -> dict[int, list[int]]:
        """For each detail the rows of `table` of its part's answers that say the part is there."""
        return {
            place: [
                self.row_of[self.place[feature.parent], state]
                for state in dict.fromkeys(feature.shown_when)
                if (self.place[feature.parent], state) in self.row_of
            ]
            for place, feature in enumerate(self.features)
            if feature.parent in self.place
        }

    # ---- evidence

    def weigh(self, answers: Answers) -> Belief:
        """The posterior. Unknown features, and answers that say nothing, are left out and named with the reason."""
        counted, left_out = count(self, answers)
        return self.weigh_counted(counted, left_out)

    def weigh_counted(self, counted: list[Counted], left_out: Mapping[str, str]) -> Belief:
        """known_v = (1-u) w_v Π L; unrecorded = u [½ Π B + ½ Σ w_v Π (0.9 L + 0.1 B)]; normalised."""
        u = self.unrecorded_prior
        of_version = np.array([one.of_version for one in counted]).reshape(len(counted), len(self.versions))
        of_base = np.array([one.of_base for one in counted])
        of_relative = (1 - CHANGED) * of_version + CHANGED * of_base[:, None]
        unlike_prior = u / 2 if len(self.versions) else u
        with np.errstate(divide="ignore"):
            known = np.log((1 - u) * self.prior) + log_product(of_version)
            relative = np.log(u / 2 * self.prior) + log_product(of_relative)
            unlike = float(np.log(unlike_prior) + np.log(of_base).sum())
        most = max(known.max(initial=-np.inf), relative.max(initial=-np.inf), unlike)
        known, relative, alone = np.exp(known - most), np.exp(relative - most), float(np.exp(unlike - most))
        total = known.sum() + relative.sum() + alone
        known, relative, alone = known / total, relative / total, alone / total
        codes = tuple(one.feature for one in counted)
        return Belief(known, float(relative.sum() + alone), relative, float(alone), codes, left_out)

    # ---- questions

    def part_was_seen(self, feature: Feature, answers: Answers) -> bool:
        """Whether the part that this feature is a detail of was answered as being there; true of any other feature."""
        if feature.parent not in self.place:
            return True
        given = last(answers.get(feature.parent))
        return isinstance(given, States) and not set(feature.shown_when).isdisjoint(given.states)

    def may_be_asked(self, answers: Answers, allowed: Allowed | None = None) -> list[int]:
        """Features not answered and allowed, whether or not their part has been seen yet."""
        return [
            place
            for place, feature in enumerate(self.features)
            if feature.code not in answers and len(feature.states) > 1 and (allowed is None or allowed(feature))
        ]

    def askable(self, answers: Answers, allowed: Allowed | None = None) -> list[int]:
        """Features that can be asked now: not answered, allowed, and of a part answered as being there."""
        places = self.may_be_asked(answers, allowed)
        return [place for place in places if self.part_was_seen(self.features[place], answers)]

    def rank_questions(self, belief: Belief, answers: Answers, *, allowed: Allowed | None = None) -> list[Question]:
        """Questions worth asking, best first: information per effort, ties to less effort, then the fixed order."""
        open_to = self.may_be_asked(answers, allowed)
        now = [place for place in open_to if self.part_was_seen(self.features[place], answers)]
        return rank(self, belief, now, set(open_to)) if now else []

    @cached_property
    def plan(self) -> Fork | Leaf:
        """The shortest key that could be found for people who do not err. Worked out once, at the first question."""
        if len(self.versions) * len(self.features) > MOST_PLANNED:
            return Leaf(())
        return expected_key(self)

    def planned_question(self, answers: Answers) -> str | None:
        """What the plan asks next, while every question of it so far was answered with one state."""
        tree = self.plan
        while isinstance(tree, Fork):
            feature = self.features[tree.feature]
            given = answers.get(feature.code)
            if given is None:
                return feature.code
            if not isinstance(given, States) or len(given.states) != 1:
                return None
            tree = dict(tree.branches).get(feature.states.index(given.states[0]), Leaf(()))
        return None

    # ---- what the record says

    @cached_property
    def is_recorded(self) -> np.ndarray:
        """Features × versions: whether the record says anything."""
        said = np.array([~np.isnan(shares[0]) for shares in self.recorded], dtype=bool)
        return said.reshape(len(self.features), len(self.versions))

    @cached_property
    def occurs(self) -> np.ndarray:
        """Answers × versions: whether the record names the state. Nothing is named where nothing is recorded."""
        return np.concatenate(self.recorded) > 0 if self.recorded else np.zeros((0, len(self.versions)), dtype=bool)

    @cached_property
    def separations(self) -> dict[int, np.ndarray]:
        return {}

    def separates_from(self, version: int) -> np.ndarray:
        """Features × versions: recorded for this version and for the other, with no state in common. Kept."""
        if version not in self.separations:
            shared = np.zeros((len(self.features), len(self.versions)), dtype=bool)
            if self.features:
                shared = np.logical_or.reduceat(self.occurs & self.occurs[:, [version]], self.starts[:-1], axis=0)
            self.separations[version] = self.is_recorded & self.is_recorded[:, [version]] & ~shared
        return self.separations[version]

    def separating(self, one: str, other: str) -> tuple[str, ...]:
        """Features recorded for both versions with no state in common."""
        apart = self.separates_from(self.version_place[one])[:, self.version_place[other]]
        return tuple(self.feature_codes[place] for place in np.flatnonzero(apart))

    def inseparable_from(self, version: str) -> tuple[str, ...]:
        """Versions that no feature recorded for both tells apart from this one, on present knowledge."""
        place = self.version_place[version]
        apart = self.separates_from(place).any(axis=0)
        apart[place] = True
        return tuple(self.version_codes[i] for i in np.flatnonzero(~apart))


def log_product(likelihoods: np.ndarray) -> np.ndarray:
    """Logarithm of the product over the first axis, with far fewer logarithms than numbers."""
    total = np.zeros(likelihoods.shape[1])
    for first in range(0, len(likelihoods), MULTIPLIED_AT_ONCE):
        total += np.log(likelihoods[first : first + MULTIPLIED_AT_ONCE].prod(axis=0))
    return total
