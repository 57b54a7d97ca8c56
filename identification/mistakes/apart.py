"""What tells a version from one that it is taken for: the check to make, with what each of the two shows."""

from collections.abc import Sequence

from catalogue.reference.addresses import address_of, comparison_address
from catalogue.reference.facts import FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.separation import LABEL, WEAK_ERROR, separation

NAMED_FEATURES = 3


def told_apart(facts: TypeFacts, version: VersionFacts, home: TypeFacts, code: str) -> dict:
    """The other version, of the garment type `home`, with the check to make first and all that tells the two apart."""
    other = home.versions[code]
    features = [feature for feature in facts.features.values() if feature.code in home.features]
    apart = separation(version, other, features)
    check = first_check(apart.features, closed=facts.must_stay_closed or home.must_stay_closed)
    return {
        "code": code,
        "name": other.name,
        "kind": other.kind_words.lower(),
        "of_type": home.name if home.code != facts.code else "",
        "address": address_of("version", code),
        "compare": comparison_address(version.code, code),
        "check": check and check_row(check, (facts, version), (home, other)),
        "features": ", ".join(feature.name.lower() for feature in apart.features[:NAMED_FEATURES]),
        "more": max(0, len(apart.features) - NAMED_FEATURES),
        "words": apart.words,
    }


def first_check(features: Sequence[FeatureFacts], *, closed: bool) -> FeatureFacts | None:
    """The easiest to see that is neither on the label, which gets lost and swapped, nor often got wrong; else the
    easiest. `closed`: nothing that needs handling is to be looked at."""
    allowed = [feature for feature in features if not (closed and feature.needs_handling)]
    firm = [feature for feature in allowed if feature.group != LABEL and feature.error < WEAK_ERROR]
    return next(iter([*firm, *allowed]), None)


def check_row(feature: FeatureFacts, *both: tuple[TypeFacts, VersionFacts]) -> dict:
    """Where to look, and what each of the two versions shows there."""

    def shown(home: TypeFacts, version: VersionFacts) -> dict:
        known = home.features[feature.code].state_by_code
        states = [known[cell.state] for cell in version.cells[feature.code]]
        return {"code": version.code, "garment_class": home.garment_class, "states": states}

    return {
        "feature": feature,
        "weak": feature.error >= WEAK_ERROR,
        "label": feature.group == LABEL,
        "shown": [shown(home, version) for home, version in both],
    }
