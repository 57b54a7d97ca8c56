"""As which versions pieces come out with a garment type as it stands, or as somebody proposes it
(catalogue.review.proposals)."""

from collections.abc import Mapping

from catalogue.reference.facts import TypeFacts
from catalogue.review.proposals.weighing import register
from identification import engine
from identification.profiles_from_catalogue import pack_of_type

NAMING = ("settled", "narrowed", "inseparable")


class SiteWeigher:
    """Compiles a pack from whatever facts it is given, by the records alone."""

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
