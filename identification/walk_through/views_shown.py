"""What of a piece can be seen: all of it in the hand, its outside only, or the views that pictures show."""

from collections.abc import Collection

from catalogue.figures.composing import SIDES
from catalogue.reference.facts import FeatureFacts, Place, TypeFacts
from catalogue.reference.regions import OPENED_VIEWS, VIEW_WORDS, views_of
from catalogue.reference.words import Seen
from identification.walk_through.address import OUTSIDE

ANYWHERE = "any"
LABEL = "label"
OTHER_SLEEVE = {"sleeve_left": "sleeve_right", "sleeve_right": "sleeve_left"}


def views_offered(facts: TypeFacts) -> tuple[str, ...]:
    """The views of a type in which some feature lies that a picture can show, in the order of its class: of a sleeve
    that is like the other both."""
    known = views_of(facts.garment_class)
    used = {view for f in facts.features.values() if shown_in_a_picture(f) for view in views_needed(f)} - {ANYWHERE}
    used = {view for view in used if view in known or not is_other_sleeve(facts, view)}
    return tuple(view for view in known if view in used) + tuple(sorted(used - set(known)))


def view_of(place: Place) -> str:
    """The view that a picture must show. What is on a label cannot be read in a picture of the whole inside."""
    return LABEL if place.region.startswith(LABEL) else place.view


def is_other_sleeve(facts: TypeFacts, view: str) -> bool:
    """Whether no record speaks of this sleeve itself, only of its like."""
    return not any(view == view_of(place) for feature in facts.features.values() for place in feature.places)


def views_needed(feature: FeatureFacts) -> set[str]:
    """The views any of which shows it. What does not name a side is the same on either sleeve."""
    found = {view_of(place) for place in feature.places}
    if names_a_side(feature):
        return found
    return found | {OTHER_SLEEVE[view] for view in found & OTHER_SLEEVE.keys()}


def names_a_side(feature: FeatureFacts) -> bool:
    return any(state.code in SIDES for state in feature.states)


def view_words(view: str) -> str:
    return VIEW_WORDS.get(view, view.replace("_", " ").capitalize())


def shown_in_a_picture(feature: FeatureFacts) -> bool:
    """Neither touched, lifted nor measured."""
    return feature.seen not in (Seen.HANDLED, Seen.MEASURED)


def can_be_seen(feature: FeatureFacts, views: Collection[str]) -> bool:
    """Whether these views show the feature; no views at all stand for the piece in the hand, which shows everything."""
    if not views:
        return True
    if OUTSIDE in views:
        return not feature.needs_handling and feature.seen in (Seen.OUTSIDE, Seen.DAYLIGHT)
    if not shown_in_a_picture(feature):
        return False
    if feature.seen == Seen.OPENED and not set(views) & set(OPENED_VIEWS):
        return False
    needed = views_needed(feature) or {ANYWHERE}
    return bool(needed & set(views)) or (ANYWHERE in needed and set(views) != {LABEL})


def is_pictures(views: Collection[str]) -> bool:
    return bool(views) and OUTSIDE not in views
