"""Where to look, drawn small beside each of many questions on one page: a key, above all a printed one.

The bare garment is drawn once for each view. What follows on the page refers to it, so that a flat beside a question
costs as much as its marks.
"""

from collections.abc import Sequence

from catalogue.figures.composing import composed
from catalogue.figures.figure import drawn_views
from catalogue.figures.pen import Pen, number
from catalogue.figures.silhouettes import Silhouette
from catalogue.figures.spots import mark_spot, spot_boxes
from catalogue.reference.facts import FeatureFacts, TypeFacts

# Folds and stitches are left away: at this size they would only be grey.
LEFT_AWAY = "tf"


def small_spots(facts: TypeFacts, features: Sequence[FeatureFacts]) -> list[str]:
    """For each of the features, in the order of the page, the bare flat with its places marked.

    An empty string where the class has no drawing of its view, or where the whole garment is meant. What is marked is
    to be said in words beside it: the drawing itself is hidden from screen readers.
    """
    begun: dict[str, Silhouette] = {}
    return [small_spot(facts, feature, begun) for feature in features]


def small_spot(facts: TypeFacts, feature: FeatureFacts, begun: dict[str, Silhouette]) -> str:
    """`begun`: the views whose garment stands on the page already, with what was drawn; added to."""
    for view in dict.fromkeys(place.view for place in feature.places):
        if view not in drawn_views(facts):
            continue
        pen = Pen(without=LEFT_AWAY)
        if view in begun:
            body = begun[view]
            pen.written.append(f'<use href="#flat-{view}"/>')
        else:
            # What is referred to is styled where it stands, not where it is seen: it carries the class itself.
            with pen.group(id=f"flat-{view}", class_="bare"):
                body = composed(pen, facts.garment_class, view, {}, own=facts.silhouettes.get(view, ""))
        boxes = spot_boxes(facts, feature, view, body, {})
        if not boxes:
            continue
        begun[view] = body
        with pen.group(class_="spot"):
            for box in boxes:
                mark_spot(pen, box)
        return small_flat(pen, body, view)
    return ""


def small_flat(pen: Pen, body: Silhouette, view: str) -> str:
    """The sides stand below the drawing and not in it, so that they stay as large as text."""
    width, height = number(body.width), number(body.height)
    size = f'viewBox="0 0 {width} {height}" width="{width}" height="{height}"'
    left, right = ("left", "right") if view == "back" else ("right", "left")
    sides = f"<span>{left}</span> <span>{right}</span>" if view in ("front", "inside", "back") else ""
    return (
        f'<span class="beside-it" aria-hidden="true"><svg class="flat" {size}>{pen.svg}</svg>'
        f'<span class="beside-sides">{sides}</span></span>'
    )
