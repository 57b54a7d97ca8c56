"""Where to look: the flat with the places marked that a question, a verdict or a claim asks about."""

from collections.abc import Mapping, Sequence

from catalogue.figures import call_outs
from catalogue.figures.composing import WHOLE, Shown, box_of, composed, where_drawn, with_counterpart
from catalogue.figures.extents import common
from catalogue.figures.figure import Figure, drawn_views, drawn_with, is_dashed, whole
from catalogue.figures.pen import Box, Pen
from catalogue.figures.profiles import shown_of, shown_of_answers
from catalogue.figures.silhouettes import Silhouette
from catalogue.reference.facts import FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.regions import VIEW_WORDS

# The region where most labels are, and the feature that says where this one is.
LABEL, WHERE_LABEL_IS = "label", "label_place"


def spot(facts: TypeFacts, feature: FeatureFacts, answers: Mapping[str, str]) -> Figure | None:
    """Where to look: the flat as far as it has been answered, with the places of one feature marked.

    None where the class has no drawing of a view in which the feature lies.
    """
    shown = {code: one for code, one in shown_of_answers(facts, answers).items() if code != feature.code}
    for place in feature.places:
        view = place.view if place.view in VIEW_WORDS and place.view != "any" else "front"
        if view not in drawn_views(facts):
            continue
        pen = Pen()
        body = composed(pen, facts.garment_class, view, shown, own=facts.silhouettes.get(view, ""))
        boxes = spot_boxes(facts, feature, view, body, shown)
        with pen.group(class_="spot"):
            for box in boxes:
                mark_spot(pen, box)
        frame = Box(0, 0, body.width, body.height)
        words = VIEW_WORDS[view]
        name = f"{words} view: the place is marked. {place.words}."
        return Figure(view, words, whole(pen, frame, name, side_words=view))
    return None


def check_spots(facts: TypeFacts, features: Sequence[FeatureFacts], answers: Mapping[str, str]) -> list[Figure]:
    """Where the checks are that are still worth making: numbered in their order, in the views that they need."""
    return numbered_spots(facts, features, shown_of_answers(facts, answers))


def claim_spots(facts: TypeFacts, version: VersionFacts, features: Sequence[FeatureFacts]) -> list[Figure]:
    """The same for somebody who says that a piece is of this version, which is drawn as its record says."""
    return numbered_spots(facts, features, shown_of(facts, version))


def numbered_spots(facts: TypeFacts, features: Sequence[FeatureFacts], shown: Mapping[str, Shown]) -> list[Figure]:
    """Each feature once, in the first of its views that can be drawn; what is looked at on the whole cloth nowhere."""
    views = drawn_views(facts)
    home = [next((p.view for p in f.places if p.view in views and p.region != WHOLE), "") for f in features]
    found = []
    for view in views:
        here = {n: f for n, (f, where) in enumerate(zip(features, home, strict=True), start=1) if where == view}
        if not here:
            continue
        pen = Pen()
        body = composed(pen, facts.garment_class, view, shown, own=facts.silhouettes.get(view, ""))
        chosen = []
        for place, feature in here.items():
            boxes = spot_boxes(facts, feature, view, body, shown)
            with pen.group(class_="spot"):
                for box in boxes:
                    mark_spot(pen, box)
            if boxes:
                chosen.append(call_outs.CallOut((place,), boxes[0].centre))
        if chosen:
            step = call_outs.LARGE_STEP
            placed = call_outs.in_margins(chosen, body.width, body.height, step)
            call_outs.draw(pen, placed, {})
            frame = call_outs.framed(placed, body.width, body.height, step)
            names = ", ".join(f"{n} {f.name.lower()}" for n, f in here.items())
            name = f"{VIEW_WORDS[view]} view with the places to look at: {names}"
            svg = whole(pen, frame, name, side_words=view)
            found.append(Figure(view, VIEW_WORDS[view], svg, dashed=is_dashed(svg)))
    return found


def spot_boxes(
    facts: TypeFacts, feature: FeatureFacts, view: str, body: Silhouette, shown: Mapping[str, Shown]
) -> list[Box]:
    """The boxes of the feature's places in this view, both sides where it has two; nothing for the whole cloth.

    Where `shown` draws what is asked about, as far as that reaches: a short opening ends above the pocket. Of a detail
    that is not drawn, as far as the part reaches that it is a detail of. What is on the label is where the label is.
    """
    names: dict[str, None] = {}
    for place in feature.places:
        if place.view == view and place.region != WHOLE:
            names |= {name: None for name, _ in with_counterpart(place.region, facts.garment_class, view, body)}
    regions = [box_of(facts.garment_class, view, name, body) for name in names]
    if not regions or not shown:
        return regions
    own = facts.silhouettes.get(view, "")
    drawn = where_drawn(Pen(), facts.garment_class, view, shown, own=own, entire=True)
    code = WHERE_LABEL_IS if LABEL in names else feature.code
    if code in drawn:
        return drawn[code]
    parts = drawn_with(facts, feature.code, drawn)
    return [found for region in regions for part in parts if (found := common(region, part))] or regions


def mark_spot(pen: Pen, box: Box) -> None:
    """A frame with open sides, a little larger than the place, so that what it frames stays visible."""
    around = box.inset(-8)
    pen.in_box(around).path("", "M0 25V0H25M75 0H100V25M100 75V100H75M25 100H0V75")
