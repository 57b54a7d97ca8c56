"""What the site's own identification makes of a member's piece."""

from catalogue.reference.facts import TypeFacts
from catalogue.reference.snapshots import KeptForState
from identification import engine
from identification.profiles_from_catalogue import engine_answers, pack_of_type
from identification.walk_through.address import Walk
from identification.walk_through.packs import evidence_for
from identification.walk_through.verdict_page import headline_alone, reason_rows

keep_view = KeptForState(most=1_024)


def engines_view(facts: TypeFacts, code: str, agreed: dict[str, str], held_as: str, known: dict, number: int) -> dict:
    """What the engine makes of an example from the states that people agree on, with its reasons.

    The piece itself is left out of the evidence. `known`: maker, size and year, as `engine.Context` takes them.
    Nothing where nobody agrees on anything.
    """
    if not agreed or not facts.versions:
        return {}
    key = ("view", facts.code, code, held_as, tuple(agreed.items()), tuple(known.items()))
    return keep_view(key, lambda: make_view(facts, code, agreed, held_as, known, number), number=number)


def make_view(facts: TypeFacts, code: str, agreed: dict[str, str], held_as: str, known: dict, number: int) -> dict:
    walk = Walk(answers={feature: (state,) for feature, state in agreed.items()}, accepted=True, stop=True)
    pack = pack_of_type(facts, engine.Context(**known), evidence_for(facts, number), without=code)
    verdict = engine.verdict(pack, engine_answers(walk.answers, facts.features))
    return {
        "headline": headline_alone(facts, verdict),
        "named": verdict.named,
        "differs": bool(held_as and verdict.named and held_as not in verdict.named),
        "reasons": [
            row
            for row in reason_rows(facts, walk, verdict.for_and_against, verdict.leader)
            if row["direction"] in ("for", "against")
        ],
        "query": walk.query(),
    }
