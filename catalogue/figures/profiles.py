"""What a record says, as the drawing needs it: of each feature the state that leads, and how surely."""

from collections.abc import Mapping

from catalogue.figures.composing import Shown
from catalogue.reference.facts import CellFacts, FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.words import Certainty

# How often, from the surest; a share of pieces stands for the word whose range it lies in (ours; no source).
OFTEN = {"always": 1.0, "usually": 0.75, "sometimes": 0.3, "seldom": 0.05}
FOUNDED = {Certainty.DOCUMENTED: 2, Certainty.OBSERVED: 1}


def shown_of(facts: TypeFacts, version: VersionFacts) -> dict[str, Shown]:
    """The leading state of each recorded feature, in the reading order of the type."""
    found = {}
    for feature in facts.features.values():
        cells = version.cells.get(feature.code)
        if cells and facts.applies(version, feature):
            lead = max(cells, key=lead_of)
            how_often = "sometimes" if len(cells) > 1 and weight(lead) <= OFTEN["sometimes"] else lead.how_often
            found[feature.code] = Shown(
                feature.code, lead.state, how_often, places_of(feature), own_of(feature, lead.state)
            )
    return found


def shown_of_answers(facts: TypeFacts, answers: Mapping[str, str]) -> dict[str, Shown]:
    """What somebody has said of a piece, as far as it is one state of a feature."""
    return {
        code: Shown(code, state, "always", places_of(facts.features[code]), own_of(facts.features[code], state))
        for code, state in answers.items()
        if code in facts.features and state in facts.features[code].state_by_code
    }


def own_of(feature: FeatureFacts, state: str) -> str:
    known = feature.state_by_code.get(state)
    return known.drawing if known else ""


def lead_of(cell: CellFacts) -> tuple[float, int]:
    """Of several states the commonest leads; of equally common ones the best founded, then the first."""
    return weight(cell), FOUNDED.get(cell.certainty, 0)


def weight(cell: CellFacts) -> float:
    return cell.share if cell.share is not None else OFTEN.get(cell.how_often, 1.0)


def places_of(feature: FeatureFacts) -> tuple[tuple[str, str], ...]:
    return tuple((place.view, place.region) for place in feature.places)


def unrecorded(facts: TypeFacts, version: VersionFacts) -> list[FeatureFacts]:
    """Features that apply and of which nothing is recorded."""
    return [f for f in facts.features.values() if f.code not in version.cells and facts.applies(version, f)]
