"""States that a label shows by what it says: how its size is written, its fibres, a country. One home for the page that
reads a label and for the walk that carries it."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from catalogue.reference.facts import FeatureFacts, TypeFacts
from identification import engine
from identification.engine.label_witness import inside_of
from identification.label_reading.said_of_states import Signs, is_said
from identification.profiles_from_catalogue import engine_answers

Said = Mapping[str, tuple[str, ...]]
# A ratio nearer to one than this speaks neither for nor against. What is said with less than this share of the chance
# that it has of the likeliest version goes with that one and not with this: one odd piece is no reason. Ours.
TELLING, HARDLY = 1.1, 0.25


@dataclass(frozen=True)
class Reason:
    """What one thing on a label says of a version, in words."""

    direction: str
    mark: str
    words: str


FOR, AGAINST, UNKNOWN = ("for", "✓"), ("against", "✗"), ("unknown", "?")
NEITHER = "neither", "○"


def said_by(features: Mapping[str, FeatureFacts], signs: Signs) -> dict[str, tuple[str, ...]]:
    """The states of features that the label shows, in the features' own order."""
    found = {
        code: tuple(state.code for state in feature.states if is_said(state.label_says, signs))
        for code, feature in features.items()
    }
    return {code: states for code, states in found.items() if states}


def chances_said(pack: engine.Pack, facts: TypeFacts, said: Said) -> dict[str, dict[str, float]]:
    """By feature the chance of the states said, for each version of the type."""
    return {
        code: inside_of(pack, engine_answers({code: (",".join(states),)}, facts.features))
        for code, states in said.items()
    }


def together(chances: Mapping[str, Mapping[str, float]]) -> dict[str, float]:
    """By version the chance of all that is said; nothing where nothing is said."""
    found: dict[str, float] = {}
    for of_version in chances.values():
        for version, chance in of_version.items():
            found[version] = found.get(version, 1.0) * chance
    return found


def ratio_of(of_version: Mapping[str, float], version: str, against: str | None = None) -> float:
    """How much likelier what is said is of a version than of another, or than of the mean of all."""
    beside = of_version[against] if against else sum(of_version.values()) / len(of_version)
    return of_version[version] / beside if beside else 1.0


def reasons_said(
    facts: TypeFacts,
    said: Said,
    chances: Mapping[str, Mapping[str, float]],
    version: str,
    against: str | None = None,
) -> list[Reason]:
    """What each state that the label shows says for a version against another, or against the mean of all."""
    found = []
    for code, states in said.items():
        ratio = ratio_of(chances[code], version, against)
        stands = FOR if ratio > TELLING else AGAINST if ratio < 1 / TELLING else NEITHER
        if stands == FOR and not against and is_hardly(chances[code], version):
            stands = AGAINST
        feature = facts.features[code]
        little = "; it says little here" if stands == NEITHER else ""
        found.append(Reason(*stands, f"{feature.name.lower()}: {states_words(feature, states)}{little}"))
    return found


def ruled_out(chances: Mapping[str, Mapping[str, float]], version: str) -> bool:
    """Whether something that is said goes with another version of the type so much better that this one is left out."""
    return any(is_hardly(of_version, version) for of_version in chances.values())


def is_hardly(of_version: Mapping[str, float], version: str) -> bool:
    return of_version[version] < HARDLY * max(of_version.values())


def states_words(feature: FeatureFacts, states: Sequence[str] | Collection[str]) -> str:
    return " or ".join(feature.label_of(state) for state in states)
