"""From a silhouette and a profile to one drawing: which part goes where, on which side, how surely."""

from collections.abc import Collection, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import lru_cache

from catalogue.figures.extents import box_round, filled_by, middle_piece
from catalogue.figures.own_shapes import fitted
from catalogue.figures.parts import PICTURE, Part, Place, all_parts
from catalogue.figures.pen import Box, BoxPen, Pen
from catalogue.figures.silhouettes import Silhouette, silhouette_for
from catalogue.reference.own_drawings import DrawingFault, read_drawing
from catalogue.reference.regions import all_regions, views_of

# A part that sits where another feature says: its sides are that feature's.
SIDES_FROM = {"chest_pocket_form": "chest_pockets", "flap_shape": "chest_pockets", "flap_fastening": "chest_pockets"}
# States that name the wearer's side.
SIDES = {
    "left": ("left",),
    "pen_left": ("left",),
    "right": ("right",),
    "both": ("left", "right"),
    "centre": ("centre",),
}
SIDED = ("chest_pockets", "sleeve_pocket", "inside_pocket", "thigh_pocket")
# Of some pieces it is not so: drawn dashed.
UNSURE = ("usually", "sometimes", "seldom")
# How that is dashed in a file that no style sheet reaches, which is shown at a sixth of its size.
DASHES = "34 16"
MOST_KEPT = 512
# The region that stands for the whole cloth.
WHOLE = "cloth"


@dataclass(frozen=True)
class Shown:
    """The leading state of a feature, how often it occurs, and where the feature is looked at.

    `own`: the society's own drawing of the state, as SVG; empty where the site's stands. `others`: further states on
    record that can be drawn, each on some pieces in place of the leading one.
    """

    feature: str
    state: str
    how_often: str
    places: tuple[tuple[str, str], ...]
    own: str = ""
    others: tuple[str, ...] = ()

    @property
    def unsure(self) -> bool:
        return self.how_often in UNSURE


def composed(
    pen: Pen, garment_class: str, view: str, shown: Mapping[str, Shown], *, changed: Collection[str] = (), own: str = ""
) -> Silhouette | None:
    """Draws the body and every part that the profile puts in this view. None where the class has no such drawing.

    `changed`: features whose parts are marked. `own`: the society's own outline of this view, as SVG.
    """
    marked = frozenset(code for code in changed if code in shown)
    drawing = kept_drawing(garment_class, view, tuple(shown.values()), marked, look_of(pen), own)
    pen.written.append(drawing.svg)
    return drawing.body


def where_drawn(
    pen: Pen, garment_class: str, view: str, shown: Mapping[str, Shown], *, own: str = "", entire: bool = False
) -> dict[str, list[Box]]:
    """Where the parts of each feature are in what `composed` draws of the same: a box for each side, round what a line
    may lead to, or `entire`, round all of it."""
    found: dict[str, list[Box]] = {}
    for stands in kept_drawing(garment_class, view, tuple(shown.values()), frozenset(), look_of(pen), own).parts:
        # Dots say what is gone or not known: a line leads to them only where nothing else is drawn.
        moved = "transform" in stands.markup
        reached = box_round if entire else middle_piece
        extent = stands.box if moved else reached(stands.markup, but="u") or reached(stands.markup)
        if extent:
            found.setdefault(stands.feature, []).append(extent)
    return found


def what_hides(
    pen: Pen, garment_class: str, view: str, shown: Mapping[str, Shown], *, own: str = ""
) -> list[tuple[str, Box]]:
    """The shapes of that drawing that hide what lies below them, each with its feature, in the order of drawing."""
    parts = kept_drawing(garment_class, view, tuple(shown.values()), frozenset(), look_of(pen), own).parts
    return [
        (stands.feature, box)
        for stands in parts
        if "transform" not in stands.markup
        for box in filled_by(stands.markup)
    ]


def look_of(pen: Pen) -> tuple[str, bool, str]:
    return pen.without, pen.alone, pen.cloth


@dataclass(frozen=True)
class Stands:
    """A part as it was drawn: what was written, and the box it was drawn for."""

    feature: str
    box: Box
    markup: str


@dataclass(frozen=True)
class Drawing:
    """A view as it was drawn. `body`: None, and nothing drawn, where the class has no such view."""

    svg: str
    body: Silhouette | None
    parts: tuple[Stands, ...] = ()


@lru_cache(maxsize=MOST_KEPT)
def kept_drawing(
    garment_class: str,
    view: str,
    every: tuple[Shown, ...],
    changed: frozenset[str],
    look: tuple[str, bool, str],
    own: str = "",
) -> Drawing:
    """What `composed` draws. Kept by all that it depends on, so that no change of the reference
    can make it untrue; a drawing has some 5 kB."""
    body = silhouette_for(garment_class, view, own)
    if body is None:
        return Drawing("", None)
    without, alone, cloth = look
    pen = Pen(without=without, alone=alone, cloth=cloth)
    shown = {one.feature: one for one in every}
    profile = {code: one.state for code, one in shown.items()}
    body = body.fitting(profile)
    with pen.group(class_="body"):
        body.draw(pen, profile)
    parts = []
    for part, one in parts_in_order(shown, garment_class):
        for region, side in places_of(part, one, garment_class, view, body, profile):
            place = Place(side, view, region, body.points, body.regions, profile)
            box = box_of(garment_class, view, region, body)
            marks = ["unsure"] * one.unsure + ["changed"] * (part.feature in changed)
            begin = len(pen.written)
            name = f"{part.feature}:{part.state}"
            named = {"data_place": name} if part.bare else {"data_part": name}
            named |= {"stroke_dasharray": DASHES} if alone and one.unsure else {}
            with pen.group(**named, data_side=side, class_=" ".join(marks)):
                part.draw(pen.in_box(box, flipped=is_at_viewers_left(side, view)), place)
            if len(pen.written) > begin:
                parts.append(Stands(part.feature, box, "".join(pen.written[begin:])))
    return Drawing(pen.svg, body, tuple(parts))


@lru_cache(maxsize=2048)
def is_drawn(garment_class: str, one: Shown, around: tuple[Shown, ...] = ()) -> bool:
    """Whether the state leaves anything to be seen on a flat of the class. `around`: what it is a detail of."""
    views = [view for view in views_of(garment_class) if silhouette_for(garment_class, view)]
    look = look_of(Pen())
    drawings = (kept_drawing(garment_class, view, (*around, one), frozenset(), look) for view in views)
    return any(stands.feature == one.feature for drawing in drawings for stands in drawing.parts)


def parts_in_order(shown: Mapping[str, Shown], garment_class: str) -> list[tuple[Part, Shown]]:
    every = [(part, one) for one in shown.values() for part in parts_of(one) or [bare_place(one)] if not part.detail]
    found = [(part, one) for part, one in every if not part.classes or garment_class in part.classes]
    return sorted(found, key=lambda pair: pair[0].layer)


def parts_of(one: Shown) -> Sequence[Part]:
    """The society's own drawing of the state where it has one, else the site's.

    A stored drawing that is not allowed, because it came past the forms or the rules grew stricter, is passed over: a
    page for readers is no place to complain of it.
    """
    if one.own:
        with suppress(DrawingFault):
            return [own_part(one.feature, one.state, one.own)]
    return all_parts().get((one.feature, one.state), ())


def bare_place(one: Shown) -> Part:
    """For a state that nobody has drawn: the place in outline, so that its call-out leads to something."""

    def draw(pen: BoxPen, place: Place) -> None:
        if place.region != WHOLE and one.state != "none":
            pen.rect("f", 0, 0, 100, 100, round=4)

    return Part(one.feature, one.state, draw, {}, (10, 10, 80, 80), layer=70, detail=False, bare=True)


def own_part(feature: str, state: str, svg: str) -> Part:
    """A drawing that the society brought, placed where the feature is looked at."""
    drawing = read_drawing(svg)

    def draw(pen: BoxPen, place: Place) -> None:
        pen.pen.written.append(fitted(drawing, pen.box, pen.pen, flipped=pen.flipped))

    return Part(feature, state, draw, {}, (10, 10, 80, 80), layer=50, detail=False)


def is_at_viewers_left(side: str, view: str) -> bool:
    """The wearer's left lies at the viewer's right, but for a view from behind."""
    if view == "back":
        return side == "left"
    return side == "right"


def places_of(
    part: Part, one: Shown, garment_class: str, view: str, body: Silhouette, profile: Mapping[str, str]
) -> list[tuple[str, str]]:
    """The regions of this view in which the part is drawn, each with the wearer's side."""
    if part.views:
        regions = list(part.views.get(view, ()))
    else:
        regions = [region for where, region in one.places if where == view]
    sides = sides_of(one, profile)
    found: dict[str, str] = {}
    for region in regions:
        for name, side in with_counterpart(region, garment_class, view, body):
            if sides is None or side in sides or (side == "centre" and "centre" in sides):
                found[name] = side
    if sides == ("centre",) and regions and (garment_class, view, "chest_centre") in all_regions():
        found = {"chest_centre": "centre"}
    return list(found.items())


def sides_of(one: Shown, profile: Mapping[str, str]) -> tuple[str, ...] | None:
    """The wearer's sides that the record names; None where it names none, and both have it."""
    if one.feature in SIDES_FROM:
        return SIDES.get(profile.get(SIDES_FROM[one.feature], "both"), ())
    if one.feature in SIDED:
        return SIDES.get(one.state, ())
    return None


def with_counterpart(region: str, garment_class: str, view: str, body: Silhouette) -> list[tuple[str, str]]:
    """A region of one side, and its like on the other side."""
    found = []
    for name in dict.fromkeys((region, region.replace("_left", "_right"), region.replace("_right", "_left"))):
        if name in body.regions or (garment_class, view, name) in all_regions():
            side = "left" if name.endswith("_left") else "right" if name.endswith("_right") else "centre"
            if view in ("sleeve_left", "side_left"):
                side = "left"
            elif view == "sleeve_right":
                side = "right"
            found.append((name, side))
    return found


def box_of(garment_class: str, view: str, region: str, body: Silhouette) -> Box:
    """The region's box in units of the drawing."""
    if region in body.regions:
        return body.regions[region]
    x, y, w, h = all_regions()[garment_class, view, region].box
    return Box(x * body.width / 100, y * body.height / 100, w * body.width / 100, h * body.height / 100)


@lru_cache(maxsize=2048)
def picture(feature: str, state: str, own: str = "", garment_class: str = "") -> str:
    """The small picture of an answer, as SVG content in a box of 96 by 64; empty where nothing is drawn for it.

    `garment_class`: where a feature looks otherwise on some classes, the picture of this one is taken.
    """
    found = parts_of(Shown(feature, state, "always", (), own))
    if not found:
        return ""
    pen = Pen()
    part = min(found, key=lambda one: (garment_class not in one.classes, bool(one.classes)))
    part.draw(pen.in_box(PICTURE.within(*part.frame)), Place(small=True, side="left", profile={feature: state}))
    return pen.svg
