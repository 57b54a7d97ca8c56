"""The shortest checks that tell a version from its neighbours, or compared versions from each other, in words."""

from collections.abc import Sequence
from itertools import combinations

from catalogue.reference.addresses import address_of
from catalogue.reference.facts import FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.separation import LABEL, WEAK_ERROR, separation
from catalogue.reference.snapshots import keep_for_state
from identification import engine
from identification.profiles_from_catalogue import engine_feature, weight_of

NUMBERS = ("No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve")
Pair = tuple[str, str]


def is_firm(feature: FeatureFacts) -> bool:
    """Neither on the label, which may be gone or another's, nor often got wrong."""
    return feature.group != LABEL and feature.error < WEAK_ERROR


def checks_of_version(facts: TypeFacts, version: VersionFacts, *, number: int) -> dict:
    """What the version's page says: the checks against all other versions of its type, copies among them."""
    pairs = [(version.code, other) for other in facts.versions if other != version.code]
    return keep_for_state(
        ("checks of version", version.code),
        lambda: told(pairs, [facts], facts.versions, about=version.code),
        number=number,
    )


def checks_between(homes: Sequence[TypeFacts], versions: Sequence[VersionFacts], *, number: int) -> dict:
    """What a comparison says: the checks that separate every two of the versions."""
    known = {version.code: version for version in versions}
    return keep_for_state(
        ("checks between", *known), lambda: told(list(combinations(known, 2)), homes, known), number=number
    )


def told(pairs: Sequence[Pair], homes: Sequence[TypeFacts], versions: dict[str, VersionFacts], about: str = "") -> dict:
    """The checks for these pairs in words; `about` names the version that stands against all the others.

    `firm` is a second set without the label and without weak features, where the shortest leans on such.
    """
    features = shared_features(homes)
    is_closed = any(home.must_stay_closed for home in homes)
    apart = {
        (one, other): [f.code for f in separation(versions[one], versions[other], features.values()).features]
        for one, other in pairs
    }
    usable = {code: feature for code, feature in features.items() if not (is_closed and feature.needs_handling)}
    shortest = checks_among(usable, apart, versions)
    firm = None
    if not all(is_firm(features[code]) for code in shortest.features):
        firm = checks_among({code: f for code, f in usable.items() if is_firm(f)}, apart, versions)
    return {
        "checks": [check_row(features[code], pairs, versions, about) for code, pairs in rows_of(shortest)],
        "words": words_for(shortest, len(pairs), about),
        "exact": shortest.exact,
        "nothing": [pair_words(pair, about) for pair in shortest.unseparated if not apart[pair]],
        "only_by_handling": [pair_words(pair, about) for pair in shortest.unseparated if apart[pair]],
        "firm": [features[code].name.lower() for code in firm.features] if firm else [],
        "firm_leaves": [pair_words(pair, about) for pair in left_by(firm, shortest)],
        "leans": firm is not None,
        "by_replaced_part": [
            pair_words(pair, about) for pair in pairs if only_by_replaced_parts(apart[pair], features)
        ],
        "about_one": bool(about),
    }


def is_replaced_part(feature: FeatureFacts) -> bool:
    """Whether it is a part that gets replaced in service; of a label its own caution is told elsewhere."""
    return feature.replaceable and feature.group != LABEL


def only_by_replaced_parts(codes: Sequence[str], features: dict[str, FeatureFacts]) -> bool:
    """Whether a part that is often replaced tells a pair, and nothing but such and what people often get wrong."""
    replaced = [is_replaced_part(features[code]) for code in codes]
    return any(replaced) and all(
        is_part or features[code].error >= WEAK_ERROR for code, is_part in zip(codes, replaced, strict=True)
    )


def left_by(firm: engine.Checks | None, shortest: engine.Checks) -> list[Pair]:
    """What the firm checks leave untold though the shortest tell it."""
    return [pair for pair in firm.unseparated if pair not in shortest.unseparated] if firm else []


def shared_features(homes: Sequence[TypeFacts]) -> dict[str, FeatureFacts]:
    """Features that all the types have, as the first has them."""
    return {code: f for code, f in homes[0].features.items() if all(code in home.features for home in homes)}


def checks_among(features: dict[str, FeatureFacts], apart, versions: dict[str, VersionFacts]) -> engine.Checks:
    efforts = {code: engine_feature(feature).sure_effort for code, feature in features.items()}
    weights = {code: weight_of(version) for code, version in versions.items()}
    return engine.smallest_checks(apart, efforts, weights)


def rows_of(checks: engine.Checks):
    return zip(checks.features, checks.newly, strict=True)


def check_row(feature: FeatureFacts, pairs: Sequence[Pair], versions: dict[str, VersionFacts], about: str) -> dict:
    """A check with where to look, what the version shows, and what it tells from what."""
    return {
        "feature": feature,
        "name": feature.name,
        "seen": feature.seen_words.lower(),
        "place": feature.place_words,
        "shows": shown(feature, versions, about),
        "label": feature.group == LABEL,
        "weak": feature.error >= WEAK_ERROR,
        "replaced": is_replaced_part(feature),
        "mind": feature.error_note if is_replaced_part(feature) else "",
        "tells": [other_of(pair, versions, about) for pair in pairs] if about else [],
        "pairs": [] if about else [f"{one} from {other}" for one, other in pairs],
    }


def shown(feature: FeatureFacts, versions: dict[str, VersionFacts], about: str) -> str:
    """What the version shows; of two compared what each of them shows."""
    if about:
        return recorded_states(versions[about], feature)
    if len(versions) > 2:
        return ""
    return "; ".join(f"{code}: {recorded_states(version, feature)}" for code, version in versions.items())


def recorded_states(version: VersionFacts, feature: FeatureFacts) -> str:
    return " or ".join(cell.label for cell in version.cells.get(feature.code, ()))


def other_of(pair: Pair, versions: dict[str, VersionFacts], about: str) -> dict:
    other = next(code for code in pair if code != about)
    return {"code": other, "name": versions[other].name, "address": address_of("version", other)}


def pair_words(pair: Pair, about: str) -> str:
    return " and ".join(code for code in pair if code != about)


def words_for(checks: engine.Checks, number_of_pairs: int, about: str) -> str:
    """`Three checks tell it from all others, in this order`."""
    number, untold = len(checks.features), len(checks.unseparated)
    many = NUMBERS[number] if number < len(NUMBERS) else str(number)
    told_pairs = f"{number_of_pairs - untold} of {number_of_pairs}"
    if about:
        every = "the only other" if number_of_pairs == 1 else "all others"
        aim = f"it from {f'{told_pairs} others' if untold else every}"
    else:
        every = "the two" if number_of_pairs == 1 else "every two of them"
        aim = f"{f'{told_pairs} pairs' if untold else every} apart"
    return f"{many} check{'' if number == 1 else 's'} tell{'s' if number == 1 else ''} {aim}" + (
        ", in this order" if number > 1 else ""
    )
