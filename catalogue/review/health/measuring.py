"""What the health of a type asks of the site's identification. It comes from a later layer and registers itself here at
the start, so this slice never imports it."""

from collections.abc import Callable

from catalogue.member_examples.evidence import Evidence
from catalogue.reference.facts import TypeFacts
from identification.health.blind_spots import Matrix

# A type with its accepted pieces, to its record as numbers and the expected number of questions of a walk.
Measure = Callable[[TypeFacts, Evidence], tuple[Matrix, float]]
registered: list[Measure] = []


def register(measure: Measure) -> None:
    registered[:] = [measure]


def measure(facts: TypeFacts, evidence: Evidence) -> tuple[Matrix, float]:
    return registered[0](facts, evidence)
