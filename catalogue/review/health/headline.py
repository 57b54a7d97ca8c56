"""The headline figure: how many versions can be identified, and in how many questions. The health of the reference and
the weighing of a proposal say the same of the same records, because both ask here."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from catalogue.member_examples.evidence import Evidence
from catalogue.reference.facts import TypeFacts
from catalogue.review.health.measuring import measure
from identification.health.blind_spots import Matrix


@dataclass(frozen=True)
class Headline:
    """`identified` of `versions`; `questions`: the mean of seeded walks that end when a version is settled, None where
    there is nothing to ask since no type has two versions."""

    versions: int
    identified: int
    questions: float | None

    @property
    def share(self) -> str:
        return f"{100 * self.identified // self.versions} %" if self.versions else ""

    @property
    def asked(self) -> str:
        """The questions as they are said; empty where there are none."""
        return "" if self.questions is None else f"{self.questions:.1f}"

    @property
    def said(self) -> tuple[int, int, str]:
        """What a reader sees of it."""
        return self.versions, self.identified, self.asked


def headline_of(facts: TypeFacts, evidence: Evidence) -> Headline:
    """Of one garment type, as it stands or as somebody proposes it."""
    matrix, questions = measure(facts, evidence)
    return of_matrix(matrix, questions)


def of_matrix(matrix: Matrix, questions: float) -> Headline:
    versions = len(matrix.weights)
    return Headline(versions, identified(matrix), round(questions, 2) if versions > 1 else None)


def identified(matrix: Matrix) -> int:
    """Versions that something on record separates from every other of their type; an empty record is none."""
    return int((matrix.recorded.any(axis=0) & ~matrix.inseparable.any(axis=1)).sum()) if len(matrix.shares) else 0


def of_types(kept: Sequence[Mapping]) -> Headline:
    """Of several types from their kept figures, the questions weighted by the versions of each."""
    walked = [health for health in kept if health["versions"] > 1]
    of = sum(health["versions"] for health in walked)
    return Headline(
        sum(health["versions"] for health in kept),
        sum(health["identified"] for health in kept),
        sum(health["questions"] * health["versions"] for health in walked) / of if of else None,
    )
