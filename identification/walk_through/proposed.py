"""How well a garment type is identified as it stands, or as somebody proposes it (catalogue.review.proposals)."""

from collections.abc import Mapping

from catalogue.reference.facts import TypeFacts
from catalogue.review.proposals.weighing import Identified, register
from identification import engine
from identification.profiles_from_catalogue import pack_of_type
from identification.walk_through.packs import evidence_for

NAMING = ("settled", "narrowed", "inseparable")


class SiteWeigher:
    """Compiles a pack from whatever facts it is given; the accepted examples count as they do in the walk-through."""

    def identified(self, facts: TypeFacts, number: int) -> Identified | None:
        pack = pack_of_type(facts, None, evidence_for(facts, number))
        if not pack.features or not pack.versions:
            return None
        return Identified(
            questions=round(engine.expected_questions(pack, {}), 1), told_apart=len(engine.told_apart(pack))
        )

    def named(self, facts: TypeFacts, pieces: Mapping[str, Mapping[str, str]]) -> dict[str, tuple[str, ...]]:
        pack = pack_of_type(facts)
        asked = {feature.code for feature in pack.features}
        found = {}
        for code, states in pieces.items():
            seen = {feature: engine.States((state,)) for feature, state in states.items() if feature in asked}
            verdict = engine.verdict(pack, seen) if seen else None
            said = verdict is not None and verdict.status in NAMING
            found[code] = tuple(sorted(verdict.named)) if said else ()
        return found


register(SiteWeigher())
