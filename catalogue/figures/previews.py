"""A record drawn while its editor writes it, with the named places of each view to choose from on the drawing."""

from collections.abc import Collection
from dataclasses import dataclass

from catalogue.figures.composing import box_of, composed
from catalogue.figures.drawing_board import Board, features_at, place_link, regions_of
from catalogue.figures.figure import WHOLE, drawn_views, pen_for_cloth, whole
from catalogue.figures.pen import Box
from catalogue.figures.profiles import shown_of
from catalogue.figures.spots import mark_spot
from catalogue.reference.facts import FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.regions import VIEW_WORDS


@dataclass(frozen=True)
class Place:
    """A place to choose: `value` is view:region, `anchor` where on the page it is chosen without the drawing."""

    view: str
    region: str
    words: str

    @property
    def value(self) -> str:
        return f"{self.view}:{self.region}"

    @property
    def anchor(self) -> str:
        return f"at-{self.view}-{self.region}"


@dataclass(frozen=True)
class Preview:
    """One view of the record as written so far, its places laid over it as links to where they are chosen."""

    view: str
    words: str
    svg: str
    places: tuple[Place, ...]
    has_place: bool


def places_in(facts: TypeFacts, view: str) -> tuple[Place, ...]:
    """The places of a view at which something of the type is looked at, or drawn."""
    found = [Place(view, code, words) for code, words in regions_of(facts, view)]
    return tuple(place for place in found if features_of(facts, place))


def place_named(facts: TypeFacts, value: str) -> Place | None:
    """The place that a form names as view:region."""
    view, _, region = value.partition(":")
    known = places_in(facts, view) if view in drawn_views(facts) else ()
    return next((place for place in known if place.region == region), None)


def features_of(facts: TypeFacts, place: Place) -> list[FeatureFacts]:
    """The features that are looked at or drawn in a place, or in its like on the other side."""
    return features_at(Board(facts, view=place.view, region=place.region))


def previews(
    facts: TypeFacts, version: VersionFacts, changed: Collection[str] = (), chosen: Place | None = None
) -> list[Preview]:
    """Every view of the record, the parts of changed features marked, and the chosen place.

    That view comes open in which the chosen place is; else the first.
    """
    shown = shown_of(facts, version)
    views = drawn_views(facts)
    opened = chosen.view if chosen else next(iter(views), "")
    found = []
    for view in views:
        pen = pen_for_cloth(shown, f"cloth-{view}", view)
        body = composed(pen, facts.garment_class, view, shown, changed=changed, own=facts.silhouettes.get(view, ""))
        places = places_in(facts, view)
        boxes = [(one, box_of(facts.garment_class, view, one.region, body)) for one in places if one.region != WHOLE]
        with pen.group(class_="places", aria_hidden="true"):
            for place, box in sorted(boxes, key=lambda pair: -pair[1].w * pair[1].h):
                pen.written.append(place_link(f"#{place.anchor}", place.words, box))
        if chosen and chosen.view == view and chosen.region != WHOLE:
            with pen.group(class_="spot"):
                mark_spot(pen, box_of(facts.garment_class, view, chosen.region, body))
        name = f"{version.name}: {VIEW_WORDS[view].lower()}, as written so far"
        svg = whole(pen, Box(0, 0, body.width, body.height), name, side_words=view)
        found.append(Preview(view, VIEW_WORDS[view], svg, places, view == opened))
    return found
