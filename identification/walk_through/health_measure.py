"""A garment type as the health of the reference measures it; registered there at the start."""

import numpy as np

from catalogue.member_examples.evidence import Evidence
from catalogue.reference.facts import TypeFacts
from catalogue.review.health.measuring import register
from identification import engine
from identification.health.blind_spots import Matrix
from identification.profiles_from_catalogue import pack_of_type


def measured(facts: TypeFacts, evidence: Evidence) -> tuple[Matrix, float]:
    """The records as a matrix in the order of the type's features and versions, and the mean number of questions that
    a walk asks until a version is settled, by seeded walks from nothing known."""
    pack = pack_of_type(facts, evidence=evidence)
    applies = [[facts.applies(v, feature) for v in facts.versions.values()] for feature in facts.features.values()]
    shape = (len(facts.features), len(facts.versions))
    matrix = Matrix(pack.recorded, pack.prior, np.array(applies, dtype=bool).reshape(shape))

    def may_be_asked(feature: engine.Feature) -> bool:
        return not (facts.must_stay_closed and feature.needs_handling)

    return matrix, engine.expected_questions(pack, {}, allowed=may_be_asked)


register(measured)
