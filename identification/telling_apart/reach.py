"""How many versions of a type can be told apart at all, with everything looked at and from outside, in words."""

from catalogue.reference.facts import TypeFacts
from identification import engine
from identification.walk_through.address import OUTSIDE
from identification.walk_through.packs import pack_for, told_apart
from identification.walk_through.views_shown import can_be_seen


def reach_of_type(facts: TypeFacts, *, number: int) -> dict:
    """What the type's page says; empty where there are not two versions of which a piece has been seen.

    Worked out with the type's pack, once for each state of the reference.
    """
    known = [version.code for version in facts.versions.values() if version.piece_seen]
    if len(known) < 2:
        return {}
    pack = pack_for(facts, engine.Context(), number)

    def seen_outside(feature: engine.Feature) -> bool:
        return can_be_seen(facts.features[feature.code], (OUTSIDE,))

    def may_be_handled(feature: engine.Feature) -> bool:
        return not (facts.must_stay_closed and feature.needs_handling)

    told = told_apart(pack, ("told apart", facts.code), may_be_handled, number)
    outside = told_apart(pack, ("told apart from outside", facts.code), seen_outside, number)
    return {
        "words": words(len(told), len(outside), len(known), closed=facts.must_stay_closed),
        "untold": [facts.versions[code] for code in known if code not in told],
        "unseen": len(facts.versions) - len(known),
    }


def words(told: int, outside: int, known: int, *, closed: bool) -> str:
    """`With everything looked at, 10 of 12 versions can be told apart; from outside 8.`"""
    every = "both versions" if known == 2 else f"all {known} versions"
    many = every if told == known else f"{told or 'none'} of the {known} versions"
    if closed:
        return f"With all that may be looked at while it stays closed, {many} can be told apart."
    same = "as many" if outside == told else str(outside) if outside else "none"
    return f"With everything looked at, {many} can be told apart; from outside {same}."
