"""What the flat does not show because something else lies at its place: a second state on record, drawn small."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from catalogue.figures.composing import Shown, picture
from catalogue.figures.profiles import own_of
from catalogue.reference.facts import TypeFacts, VersionFacts


@dataclass(frozen=True)
class SecondState:
    """`row`: the number of its feature in the profile; `words`: the state and on which pieces; `picture`: what is in
    its SVG, in the box of an answer's picture. `changed`: whether it tells this version from those beside it."""

    row: int
    feature: str
    state: str
    words: str
    picture: str
    changed: bool = False


def second_states(
    facts: TypeFacts,
    version: VersionFacts,
    shown: Mapping[str, Shown],
    features: Collection[str],
    *,
    told: Collection[tuple[str, str]] = (),
) -> tuple[SecondState, ...]:
    """Of these features the states on record that are not drawn on the flat, though others of theirs are.

    `told`: features with states that are marked as different.
    """
    rows = facts.row_numbers(version)
    found = []
    for code in features:
        for state in shown[code].others if code in shown else ():
            feature = facts.features[code]
            limits = next((cell.limits for cell in version.cells[code] if cell.state == state), "")
            words = feature.label_of(state) + (f" (only {limits})" if limits else "")
            inner = picture(code, state, own_of(feature, state), facts.garment_class)
            found.append(SecondState(rows[code], code, state, words, inner, (code, state) in told))
    return tuple(found)
