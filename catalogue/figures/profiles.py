"""What a record says, as the drawing needs it: of each feature the state that leads, how surely, and what else it may
be."""

from collections.abc import Mapping

from catalogue.figures.composing import UNSURE, Shown, is_drawn
from catalogue.reference.facts import CellFacts, FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.words import Certainty

# How often, from the surest; a share of pieces stands for the word whose range it lies in (ours; no source).
OFTEN = {"always": 1.0, "usually": 0.75, "sometimes": 0.3, "seldom": 0.05}
FOUNDED = {Certainty.DOCUMENTED: 2, Certainty.OBSERVED: 1}
STILL = 9999


def shown_of(facts: TypeFacts, version: VersionFacts) -> dict[str, Shown]:
    """The leading state of each recorded feature, in the reading order of the type."""
    found = {}
    for feature in facts.features.values():
        cells = version.cells.get(feature.code)
        if cells and facts.applies(version, feature):
            found[feature.code] = leading(facts, version, feature, cells)
    return found


def leading(facts: TypeFacts, version: VersionFacts, feature: FeatureFacts, cells: tuple[CellFacts, ...]) -> Shown:
    """What some pieces have goes before what leaves nothing to draw, however many lack it: a line that is not there
    would say that none has it. Of several states that can be drawn the commonest leads; of equally common ones the best
    founded, then the latest, then the first."""
    places = places_of(feature)

    def draws(state: str) -> bool:
        one = Shown(feature.code, state, "always", places, own_of(feature, state))
        return is_drawn(facts.garment_class, one, carried_by(facts, version, feature))

    drawn = {cell.state: draws(cell.state) for cell in cells} if len(cells) > 1 else {}

    def rank(cell: CellFacts) -> tuple:
        there = cell.state != feature.absent
        seen = drawn.get(cell.state, True)
        return seen, seen or there, weight(cell), FOUNDED.get(cell.certainty, 0), cell.last_year or STILL

    lead = max(cells, key=rank)
    others = tuple(cell.state for cell in cells if cell is not lead and drawn[cell.state] and drawn[lead.state])
    how_often = lead.how_often
    if how_often not in UNSURE and (len(cells) > 1 or weight(lead) < 1 or may_lack(facts, version, feature)):
        how_often = "sometimes"
    return Shown(feature.code, lead.state, how_often, places, own_of(feature, lead.state), others)


def carried_by(facts: TypeFacts, version: VersionFacts, feature: FeatureFacts) -> tuple[Shown, ...]:
    """The parts that a feature is a detail of, where they are there."""
    parent = facts.features.get(feature.parent)
    if parent is None:
        return ()
    recorded = [cell.state for cell in version.cells.get(parent.code, ())]
    state = next((state for state in (*recorded, *feature.shown_when) if state in feature.shown_when), "")
    one = Shown(parent.code, state, "always", places_of(parent), own_of(parent, state))
    return *carried_by(facts, version, parent), one


def may_lack(facts: TypeFacts, version: VersionFacts, feature: FeatureFacts) -> bool:
    """Whether some pieces have not the part that the feature is a detail of."""
    parent = facts.features.get(feature.parent)
    if parent is None:
        return False
    without = any(cell.state not in feature.shown_when for cell in version.cells.get(parent.code, ()))
    return without or may_lack(facts, version, parent)


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


def weight(cell: CellFacts) -> float:
    return cell.share if cell.share is not None else OFTEN.get(cell.how_often, 1.0)


def places_of(feature: FeatureFacts) -> tuple[tuple[str, str], ...]:
    return tuple((place.view, place.region) for place in feature.places)


def unrecorded(facts: TypeFacts, version: VersionFacts) -> list[FeatureFacts]:
    """Features that apply and of which nothing is recorded."""
    return [f for f in facts.features.values() if f.code not in version.cells and facts.applies(version, f)]
