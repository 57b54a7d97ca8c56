"""The flat on the front page: a jacket of no version, with the places at which versions differ."""

from functools import cache

from catalogue.figures import call_outs
from catalogue.figures.composing import Shown, box_of, composed
from catalogue.figures.figure import whole
from catalogue.figures.pen import Pen

CLASS = "jacket"
PROFILE = {
    "collar": ("fall", "collar"),
    "front_closure": ("buttons", "centre_front"),
    "closure_cover": ("exposed", "front_edge"),
    "sleeve_set": ("set_in", "armhole_left"),
    "chest_pockets": ("both", "chest_left"),
    "chest_pocket_form": ("patch_pleat", "chest_left"),
    "flap_shape": ("point", "chest_flap_left"),
    "flap_fastening": ("button_exposed", "chest_flap_left"),
    "lower_pockets": ("patch", "skirt_left"),
    "cuff": ("tab_button", "cuff_left"),
    "hem_finish": ("plain", "hem"),
}
PLACES = ("collar", "chest_left", "centre_front", "cuff_left", "hem")


@cache
def front_page_flat() -> str:
    """As a whole SVG element; what its numbers stand for is said below it, in the order of PLACES."""
    shown = {
        feature: Shown(feature, state, "always", (("front", region),)) for feature, (state, region) in PROFILE.items()
    }
    pen = Pen()
    body = composed(pen, CLASS, "front", shown)
    boxes = [box_of(CLASS, "front", region, body) for region in PLACES]
    # The middle of a hem hides behind the closure: its number leads to the side.
    points = [box.at(88, 60) if region == "hem" else box.centre for region, box in zip(PLACES, boxes, strict=True)]
    numbered = [call_outs.CallOut((place,), point) for place, point in enumerate(points, start=1)]
    placed = call_outs.in_margins(numbered, body.width, body.height)
    call_outs.draw(pen, placed, {})
    frame = call_outs.framed(placed, body.width, body.height)
    return whole(pen, frame, "A jacket laid flat, with five numbered places at which versions differ")
