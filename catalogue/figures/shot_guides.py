"""The drawn guide of a photograph: the flat in one view, with a frame round what the picture is to show."""

from collections.abc import Mapping

from catalogue.figures.composing import composed
from catalogue.figures.figure import Figure, whole
from catalogue.figures.pen import Box, Pen
from catalogue.figures.profiles import shown_of_answers
from catalogue.figures.spots import mark_spot, spot
from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.regions import VIEW_WORDS

# The picture's own edge stands a little outside the garment: nothing is to be cut off.
ROOM = 12


def shot_guide(facts: TypeFacts, view: str, feature: FeatureFacts | None, answers: Mapping[str, str]) -> Figure | None:
    """Where the camera is to look: one part marked where a feature is given, else the whole view framed.

    None where neither the site nor the society has an outline of the view.
    """
    if feature is not None:
        return spot(facts, feature, answers)
    pen = Pen()
    own = facts.silhouettes.get(view, "")
    body = composed(pen, facts.garment_class, view, shown_of_answers(facts, answers), own=own)
    if body is None:
        return None
    with pen.group(class_="spot"):
        mark_spot(pen, Box(0, 0, body.width, body.height))
    frame = Box(-ROOM, -ROOM, body.width + 2 * ROOM, body.height + 2 * ROOM)
    words = VIEW_WORDS[view]
    return Figure(view, words, whole(pen, frame, f"{words}: the whole of it in the picture"))
