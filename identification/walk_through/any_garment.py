"""One walk over all garment types, for a person who does not know what the piece is."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from catalogue.reference.facts import FeatureFacts, StateFacts, TypeFacts
from catalogue.reference.words import NO_SUCH_PART, FeatureKind, Seen, ServiceChange

ANY_GARMENT = "any-garment"
WORN = "_worn"
WORN_ON = {
    "upper": "On the upper body",
    "legs": "On the legs",
    "head": "On the head",
    "hands": "On the hands",
    "carried": "Carried, not worn",
}
OUTLINE = "_outline_"
OUTLINE_WORDS = {
    "jacket": "Jacket: opens all the way down, ends at the waist or the hip",
    "pullover": "Pull-over: opens at the neck only",
    "coat": "Coat: reaches to the thigh or the knee",
    "shirt": "Shirt: light cloth, a shirt collar and cuffs",
    "liner": "Liner: made to go inside a coat",
    "waistcoat": "Waistcoat or vest: no sleeves",
    "trousers": "Trousers: a fly and pockets",
    "over-trousers": "Over-trousers: wide, pulled on over others",
    "cap": "Cap: a peak in front",
    "hat": "Hat: a brim all round",
    "hood": "Hood: covers the neck as well",
    "glove": "Glove",
    "bag": "Bag",
}
PART_OF_THE_BODY = {
    "jacket": "upper",
    "pullover": "upper",
    "coat": "upper",
    "shirt": "upper",
    "liner": "upper",
    "waistcoat": "upper",
    "trousers": "legs",
    "over-trousers": "legs",
    "cap": "head",
    "hat": "head",
    "hood": "head",
    "glove": "hands",
    "bag": "carried",
}


@dataclass(frozen=True)
class AnyGarment:
    """All types as if they were one: shared features only, seen from outside. `homes`: the types by code."""

    facts: TypeFacts
    homes: dict[str, TypeFacts]
    home_of: dict[str, str]
    lacking: dict[str, tuple[str, ...]]
    worn: dict[str, str]
    outline: dict[str, str]


def any_garment(types: Sequence[TypeFacts]) -> AnyGarment:
    """The walk over all types. Nothing that needs opening or handling is in it, since the piece may be any of them."""
    shared = shared_features(types)
    facts = TypeFacts(
        code=ANY_GARMENT,
        name="Any garment",
        other_names=(),
        garment_class="",
        issuer="",
        issuer_name="",
        description="",
        caution=" ".join(dict.fromkeys(facts.caution for facts in types if facts.must_stay_closed and facts.caution)),
        features={WORN: worn_feature()} | outline_features(types) | shared,
        versions={code: version for facts in types for code, version in facts.versions.items()},
    )
    return AnyGarment(
        facts=facts,
        homes={home.code: home for home in types},
        home_of={code: type_facts.code for type_facts in types for code in type_facts.versions},
        lacking={
            type_facts.code: tuple(
                code for code, feature in shared.items() if code not in type_facts.features and feature.parent is None
            )
            for type_facts in types
        },
        worn={t.code: PART_OF_THE_BODY[t.garment_class] for t in types if t.garment_class in PART_OF_THE_BODY},
        outline={t.code: t.garment_class for t in types if t.garment_class in OUTLINE_WORDS},
    )


def worn_feature() -> FeatureFacts:
    return plain_feature(WORN, "Where it is worn", "Where is it worn?", WORN_ON, error=0.02)


def outline_features(types: Sequence[TypeFacts]) -> dict[str, FeatureFacts]:
    """For each part of the body on which several kinds of garment are worn, which outline comes nearest."""
    found = {}
    for part in WORN_ON:
        classes = {t.garment_class: None for t in types if PART_OF_THE_BODY.get(t.garment_class) == part}
        if len(classes) > 1:
            words = {one: OUTLINE_WORDS[one] for one in classes}
            feature = plain_feature(OUTLINE + part, "Outline", "Which outline comes nearest?", words, error=0.05)
            found[feature.code] = replace(feature, parent=WORN, shown_when=(part,))
    return found


def plain_feature(code: str, name: str, question: str, words: Mapping[str, str], error: float) -> FeatureFacts:
    """A question about the whole garment, answered from outside. The error is ours; no source."""
    return FeatureFacts(
        code=code,
        name=name,
        group="",
        question=question,
        kind=FeatureKind.CHOICE,
        unit="",
        spread=5.0,
        seen=Seen.OUTSIDE,
        effort=1.0,
        error=error,
        error_note="",
        service_change=ServiceChange.NO,
        change_note="",
        absent=None,
        loss=0.0,
        gain=0.0,
        parent=None,
        shown_when=(),
        basis="",
        states=tuple(StateFacts(state, label) for state, label in words.items()),
        places=(),
    )


def shared_features(types: Sequence[TypeFacts]) -> dict[str, FeatureFacts]:
    """Features that at least two types have and that can be seen from outside, details only with their parents."""
    count = Counter(code for facts in types for code in facts.features)
    found: dict[str, FeatureFacts] = {}
    for facts in types:
        for code, feature in facts.features.items():
            if count[code] >= 2 and feature.seen == Seen.OUTSIDE and not feature.needs_handling:
                found.setdefault(code, replace(feature, places=()))
    return {
        code: with_no_such_part(feature, lacking=count[code] < len(types))
        for code, feature in found.items()
        if feature.parent is None or feature.parent in found
    }


def with_no_such_part(feature: FeatureFacts, *, lacking: bool) -> FeatureFacts:
    """Where some types cannot have the part, that is one more answer."""
    if not lacking or feature.parent is not None:
        return feature
    return replace(
        feature, states=(*feature.states, StateFacts(NO_SUCH_PART, "This garment has no such place")), kind="choice"
    )
