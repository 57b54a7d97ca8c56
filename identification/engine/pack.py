"""A compiled garment type: evidence in, posterior and next questions out.

The posterior is naive Bayes with an open set: beside the recorded versions stands "a version that is not recorded",
half unlike anything known, half a relative of a known one in which each feature changed with chance 0.1.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from identification.engine.bands import chance_of_bands
from identification.engine.model import (
    ALTERED,
    CANNOT_TELL,
    PART_MISSING,
    Answer,
    Answers,
    Feature,
    Measured,
    States,
    Version,
)

CHANGED = 0.1
LEAST_GAIN = 0.02
TINY = 1e-300
Allowed = Callable[[Feature], bool]


@dataclass(frozen=True)
class Belief:
    """What the answers make of the versions. `posterior` (one number a version) and `unrecorded` sum to one."""

    posterior: np.ndarray
    unrecorded: float
    relative: np.ndarray
    unlike: float
    counted: tuple[str, ...]
    left_out: Mapping[str, str]


@dataclass(frozen=True)
class Question:
    """A question that could be asked: expected information in bits, and that per effort with its details' share."""

    feature: str
    gain_bits: float
    score: float


@dataclass(frozen=True, eq=False)
class Pack:
    """Likelihoods of every answer, as found (`found`) and as answered (`table`), with the base rows beside them."""

    features: tuple[Feature, ...]
    versions: tuple[Version, ...]
    issued: list[np.ndarray]
    found: list[np.ndarray]
    base_found: list[np.ndarray]
    answered: list[np.ndarray]
    unrecorded_prior: float
    enabling_by_default: bool
    table: np.ndarray
    base: np.ndarray
    starts: np.ndarray
    entropy: np.ndarray
    log_weight: np.ndarray
    feature_codes: tuple[str, ...] = field(default=())
    version_codes: tuple[str, ...] = field(default=())

    @classmethod
    def from_parts(
        cls, *, features, versions, issued, found, base_found, answered, unrecorded, enabling_by_default
    ) -> "Pack":
        """Put the tables of all features side by side, and work out once what every next question needs."""
        rows = [f @ a for f, a in zip(found, answered, strict=True)]
        table = np.ascontiguousarray(np.concatenate(rows, axis=1)) if rows else np.zeros((len(versions), 0))
        base = np.concatenate([b @ a for b, a in zip(base_found, answered, strict=True)]) if rows else np.zeros(0)
        starts = np.cumsum([0, *(len(feature.states) for feature in features)])
        weights = np.array([max(version.weight, 0.0) for version in versions], dtype=float)
        if len(weights) and not weights.sum():
            weights[:] = 1.0
        with np.errstate(divide="ignore"):
            log_weight = np.log(weights / weights.sum()) if len(weights) else weights
        return cls(
            features=features,
            versions=versions,
            issued=issued,
            found=found,
            base_found=base_found,
            answered=answered,
            unrecorded_prior=unrecorded if len(versions) else 1.0,
            enabling_by_default=enabling_by_default,
            table=table,
            base=base,
            starts=starts,
            entropy=entropies(table, starts).astype(np.float32),
            log_weight=log_weight,
            feature_codes=tuple(feature.code for feature in features),
            version_codes=tuple(version.code for version in versions),
        )

    @cached_property
    def place(self) -> dict[str, int]:
        return {code: i for i, code in enumerate(self.feature_codes)}

    @cached_property
    def version_place(self) -> dict[str, int]:
        return {code: i for i, code in enumerate(self.version_codes)}

    @cached_property
    def light_table(self) -> np.ndarray:
        """The table at half the memory, for choosing questions only."""
        return self.table.astype(np.float32)

    # ---- evidence

    def answer_vector(self, column: int, answer: Answer) -> np.ndarray | None:
        """Chance of the answer for each state as found; None for an answer that counts for nothing."""
        feature, matrix = self.features[column], self.answered[column]
        if isinstance(answer, States):
            known = [feature.states.index(state) for state in answer.states if state in feature.states]
            return matrix[:, known].sum(axis=1) if known else None
        if isinstance(answer, Measured) and feature.bands:
            return matrix @ chance_of_bands(feature.bands, answer.value, feature.sd)
        return None

    def likelihoods(self, column: int, answer) -> tuple[np.ndarray, float] | None:
        """P(answer | version) for every version, and for the base row; None where it counts for nothing."""
        pair = answer if isinstance(answer, tuple) else (answer,)
        if any(one is PART_MISSING for one in pair):
            return self.missing_part(column)
        vectors = [vector for one in pair if (vector := self.answer_vector(column, one)) is not None]
        if not vectors or any(one is ALTERED for one in pair):
            return None
        together = np.prod(vectors, axis=0)
        return self.found[column] @ together, float(self.base_found[column] @ together)

    def missing_part(self, column: int) -> tuple[np.ndarray, float] | None:
        """A part that is gone was once there: the chance that the version had it, erring as in any other answer."""
        feature = self.features[column]
        if feature.absent is None:
            return None
        absent = feature.states.index(feature.absent)
        had = 1 - self.doubted_share(column, absent)
        base_had = 1 - float(self.base_issued(column)[absent])
        error = feature.error
        return (1 - error) * had + error * (1 - had), (1 - error) * base_had + error * (1 - base_had)

    def doubted_share(self, column: int, state: int) -> np.ndarray:
        """Share of a state as issued, worked back from the found rows where nothing is recorded."""
        recorded = self.issued[column][:, state]
        base = float(self.base_issued(column)[state])
        return np.where(np.isnan(recorded), base, 0.98 * np.nan_to_num(recorded) + 0.02 * base)

    def base_issued(self, column: int) -> np.ndarray:
        shares = self.issued[column]
        recorded = shares[~np.isnan(shares[:, 0])]
        return (recorded.sum(axis=0) + 1 / shares.shape[1]) / (len(recorded) + 1)

    def counted_answers(self, answers: Answers) -> tuple[dict[int, object], dict[str, str]]:
        """Answers by column that count, parts implied by their details among them; and why others do not."""
        counted: dict[int, object] = {}
        left_out: dict[str, str] = {}
        for code, answer in answers.items():
            column = self.place.get(code)
            if column is None:
                left_out[code] = "not a feature of this garment type"
            elif not self.ancestors_allow(column, answers, counted):
                left_out[code] = "counts only where the part is there"
            elif self.likelihoods(column, answer) is None:
                left_out[code] = "counts for nothing"
            else:
                counted[column] = answer
        for code, answer in answers.items():
            column = self.place.get(code)
            if column in counted and self.says_something(answer):
                self.imply_parents(column, answers, counted)
        return counted, left_out

    @staticmethod
    def says_something(answer) -> bool:
        return isinstance(answer, States | Measured | tuple)

    def ancestors_allow(self, column: int, answers: Answers, counted) -> bool:
        """Whether every part above this detail was answered as being there, or may be taken to be there."""
        feature = self.features[column]
        while feature.parent is not None and feature.parent in self.place:
            given = answers.get(feature.parent)
            given = given[-1] if isinstance(given, tuple) else given
            if given is None or given is CANNOT_TELL or given is ALTERED:
                if not self.enabling_by_default:
                    return False
            elif not (isinstance(given, States) and set(given.states) & set(feature.shown_when)):
                return False
            feature = self.features[self.place[feature.parent]]
        return True

    def imply_parents(self, column: int, answers: Answers, counted: dict[int, object]) -> None:
        """A detail that was seen shows that its part is there, where nobody said so."""
        feature = self.features[column]
        while self.enabling_by_default and feature.parent in self.place:
            above = self.place[feature.parent]
            if above not in counted and answers.get(feature.parent) is not ALTERED:
                counted[above] = States(feature.shown_when)
            feature = self.features[above]

    def weigh(self, answers: Answers) -> Belief:
        """The posterior. Answers that count for nothing are named in `left_out` with the reason."""
        counted, left_out = self.counted_answers(answers)
        known = self.log_weight.copy()
        relative = self.log_weight.copy()
        unlike = 0.0
        for column, answer in sorted(counted.items()):
            of_version, of_base = self.likelihoods(column, answer)
            of_version = np.maximum(of_version, TINY)
            known += np.log(of_version)
            relative += np.log((1 - CHANGED) * of_version + CHANGED * of_base)
            unlike += np.log(max(of_base, TINY))
        codes = tuple(self.feature_codes[column] for column in sorted(counted) if self.feature_codes[column] in answers)
        return self.normalised(known, relative, unlike, codes, left_out)

    def normalised(self, known, relative, unlike: float, counted, left_out) -> Belief:
        prior = self.unrecorded_prior
        with np.errstate(divide="ignore"):
            known = known + np.log1p(-prior)
            relative = relative + np.log(prior / 2)
            unlike = unlike + np.log(prior if not len(known) else prior / 2)
        most = max(unlike, *(float(part.max()) for part in (known, relative) if len(part)))
        parts = np.exp(known - most), np.exp(relative - most), float(np.exp(unlike - most))
        total = parts[0].sum() + parts[1].sum() + parts[2]
        posterior, relative, unlike = (part / total for part in parts)
        return Belief(posterior, float(relative.sum() + unlike), relative, float(unlike), counted, left_out)

    # ---- questions

    def askable(self, answers: Answers, allowed: Allowed | None = None) -> np.ndarray:
        """Columns that may be asked now: not answered, allowed, and of a part that was answered as being there."""
        columns = [
            column
            for column, feature in enumerate(self.features)
            if feature.code not in answers
            and len(feature.states) > 1
            and (allowed is None or allowed(feature))
            and self.part_is_there(feature, answers)
        ]
        return np.array(columns, dtype=int)

    def part_is_there(self, feature: Feature, answers: Answers) -> bool:
        if feature.parent is None or feature.parent not in self.place:
            return True
        given = answers.get(feature.parent)
        given = given[-1] if isinstance(given, tuple) else given
        return isinstance(given, States) and bool(set(given.states) & set(feature.shown_when))

    def gains(self, posterior: np.ndarray, relative: np.ndarray, unlike) -> tuple[np.ndarray, np.ndarray]:
        """Expected information in bits of every feature, and the chance of every answer.

        I = H(A) - Σ_v p_v H(A|v) - p_0 H(A|unrecorded) (Shannon 1948; Lindley 1956). Rows may be many beliefs at
        once: posterior and relative are (…, versions), unlike is (…).
        """
        light = self.light_table
        together = np.concatenate([np.atleast_2d(posterior), np.atleast_2d(relative)]).astype(np.float32) @ light
        rows = len(together) // 2
        of_known, of_relative = together[:rows], together[rows:]
        weight = np.atleast_2d(relative).sum(axis=1, keepdims=True)
        lonely = np.atleast_1d(unlike)[:, None]
        of_unrecorded = (1 - CHANGED) * of_relative + (CHANGED * weight + lonely) * self.base
        answer = of_known + of_unrecorded
        share = np.maximum(weight + lonely, 1e-30)
        noise = np.atleast_2d(posterior).astype(np.float32) @ self.entropy
        surprise = entropies(answer, self.starts) - noise - share * entropies(of_unrecorded / share, self.starts)
        return np.maximum(surprise, 0.0), answer

    @cached_property
    def details(self) -> dict[int, list[int]]:
        """Columns of the details of each part."""
        found: dict[int, list[int]] = {}
        for column, feature in enumerate(self.features):
            if feature.parent in self.place:
                found.setdefault(self.place[feature.parent], []).append(column)
        return found

    @cached_property
    def enabling_columns(self) -> dict[int, list[int]]:
        """For each detail the places in the table of its part's enabling answers."""
        return {
            column: [
                int(self.starts[self.place[feature.parent]]) + self.features[self.place[feature.parent]].states.index(s)
                for s in feature.shown_when
                if s in self.features[self.place[feature.parent]].states
            ]
            for column, feature in enumerate(self.features)
            if feature.parent in self.place
        }

    @cached_property
    def efforts(self) -> np.ndarray:
        return np.array([feature.effort for feature in self.features], dtype=float)

    def worth(self, column: int, gain: np.ndarray, answer: np.ndarray, open_to: set[int]) -> tuple[float, float]:
        """Information and effort of asking a feature, with its best detail where that pays more per effort."""
        best = (float(gain[column]), float(self.efforts[column]))
        for detail in self.details.get(column, ()):
            if detail in open_to:
                more, effort = self.worth(detail, gain, answer, open_to)
                chance = float(answer[self.enabling_columns[detail]].sum())
                together = gain[column] + chance * more, self.efforts[column] + chance * effort
                if together[0] / together[1] > best[0] / best[1] or (best[0] < LEAST_GAIN <= together[0]):
                    best = together
        return best

    def rank_questions(self, belief: Belief, answers: Answers, *, allowed: Allowed | None = None) -> list[Question]:
        """Questions worth asking, best first: information per effort, ties to less effort, then the fixed order."""
        columns = self.askable(answers, allowed)
        if not len(columns):
            return []
        gain, answer = (part[0] for part in self.gains(belief.posterior, belief.relative, belief.unlike))
        open_to = {
            column
            for column in range(len(self.features))
            if self.feature_codes[column] not in answers and (allowed is None or allowed(self.features[column]))
        }
        ranked = []
        for column in columns:
            bits, effort = (
                self.worth(column, gain, answer, open_to)
                if column in self.details
                else (float(gain[column]), float(self.efforts[column]))
            )
            if bits >= LEAST_GAIN:
                ranked.append((-bits / effort, float(self.efforts[column]), int(column), float(gain[column])))
        return [Question(self.feature_codes[c], bits, -score) for score, _, c, bits in sorted(ranked)]

    # ---- what the record says

    def separating(self, one: str, other: str) -> tuple[str, ...]:
        """Features recorded for both versions with no state in common."""
        a, b = self.version_place[one], self.version_place[other]
        return tuple(
            code
            for code, shares in zip(self.feature_codes, self.issued, strict=True)
            if not np.isnan(shares[a, 0]) and not np.isnan(shares[b, 0]) and not (shares[a] * shares[b]).any()
        )

    def inseparable_from(self, version: str) -> tuple[str, ...]:
        """Versions that no feature recorded for both tells apart from this one, on present knowledge."""
        a = self.version_place[version]
        apart = np.zeros(len(self.versions), dtype=bool)
        for shares in self.issued:
            both = ~np.isnan(shares[a, 0]) & ~np.isnan(shares[:, 0])
            apart |= both & (np.nan_to_num(shares) @ np.nan_to_num(shares[a]) == 0)
        apart[a] = True
        return tuple(code for code, is_apart in zip(self.version_codes, apart, strict=True) if not is_apart)


def entropies(table: np.ndarray, starts: np.ndarray) -> np.ndarray:
    """Entropy in bits of every feature's answers: (…, states) to (…, features)."""
    if not table.shape[-1]:
        return np.zeros((*table.shape[:-1], 0))
    bits = table * np.log2(np.maximum(table, 1e-30))
    return -np.add.reduceat(bits, starts[:-1], axis=-1)
