"""Members' accepted pieces in the walk-through: those that show a state, and those nearest to a verdict."""

from collections.abc import Sequence

from catalogue.member_examples.addresses import example_address, gallery_address
from catalogue.member_examples.state_pictures import fronts_of, pictures_of_states
from catalogue.reference.facts import FeatureFacts, TypeFacts
from identification.walk_through.address import PLAIN_ANSWERS, Walk
from identification.walk_through.packs import evidence_for

# A verdict shows so many pieces of each version that it names, and of so many versions. Ours; no source.
NEAREST, VERSIONS = 3, 2


def pieces_showing(facts: TypeFacts, feature: FeatureFacts, number: int) -> dict[str, dict]:
    """By state the accepted pieces on which it is seen: how many, some photographs of it, and where all are."""
    evidence = evidence_for(facts, number)
    showing = evidence.number_showing
    pictures = pictures_of_states(evidence, feature)
    return {
        state.code: {
            "label": state.label,
            "number": showing[feature.code, state.code],
            "address": gallery_address(type=facts.code, shows=f"{feature.code}:{state.code}"),
            "pictures": [
                {"code": code, "address": example_address(code), "picture": picture}
                for code, picture in pictures.get(state.code, ())
            ],
        }
        for state in feature.states
        if showing[feature.code, state.code]
    }


def nearest_pieces(facts: TypeFacts, walk: Walk, named: Sequence[str], number: int) -> list[dict]:
    """Of each version that the verdict names the accepted pieces that agree with most answers, with their fronts."""
    evidence = evidence_for(facts, number)
    answers = {
        code: last.split(",")
        for code, texts in walk.answers.items()
        if (last := texts[-1]) not in PLAIN_ANSWERS and code in facts.features
    }
    nearest = {code: evidence.nearest(code, answers, NEAREST) for code in named[:VERSIONS]}
    fronts = fronts_of([piece.code for found in nearest.values() for piece, _ in found])
    return [
        {
            "version": facts.versions[code],
            "number": len(evidence.by_version.get(code, ())),
            "address": gallery_address(version=code),
            "pieces": [
                {
                    "code": piece.code,
                    "address": example_address(piece.code),
                    "agrees": agrees,
                    "answers": len(answers),
                    "picture": fronts.get(piece.code),
                }
                for piece, agrees in found
            ],
        }
        for code, found in nearest.items()
        if found
    ]
