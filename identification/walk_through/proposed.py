"""How well a garment type is identified as it stands, or as somebody proposes it (catalogue.review.proposals)."""

from catalogue.reference.facts import TypeFacts
from catalogue.review.proposals.weighing import Identified, register
from identification import engine
from identification.profiles_from_catalogue import pack_of_type
from identification.walk_through.packs import evidence_for


class SiteWeigher:
    """Compiles a pack from whatever facts it is given; the accepted examples count as they do in the walk-through."""

    def identified(self, facts: TypeFacts, number: int) -> Identified | None:
        pack = pack_of_type(facts, None, evidence_for(facts, number))
        if not pack.features or not pack.versions:
            return None
        return Identified(
            questions=round(engine.expected_questions(pack, {}), 1), told_apart=len(engine.told_apart(pack))
        )


register(SiteWeigher())
