"""What tells a version from one that it is taken for, in a line of a page."""

from catalogue.reference.addresses import address_of, comparison_address
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.separation import separation

NAMED_FEATURES = 3


def told_apart(facts: TypeFacts, version: VersionFacts, home: TypeFacts, code: str) -> dict:
    """The other version, of the garment type `home`, with the easiest features that tell the two apart."""
    other = home.versions[code]
    features = [feature for feature in facts.features.values() if feature.code in home.features]
    apart = separation(version, other, features)
    return {
        "code": code,
        "name": other.name,
        "kind": other.kind_words.lower(),
        "of_type": home.name if home.code != facts.code else "",
        "address": address_of("version", code),
        "compare": comparison_address(version.code, code),
        "features": ", ".join(feature.name.lower() for feature in apart.features[:NAMED_FEATURES]),
        "more": max(0, len(apart.features) - NAMED_FEATURES),
        "words": apart.words,
    }
