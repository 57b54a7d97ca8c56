"""Drawn parts: for a state of a feature, how it looks at its place on a flat and as the small picture of an answer.

A part is a function that draws in percent of the box it is given, so the same function serves the region of a
silhouette and the small picture. It draws for the side at the viewer's right; the other side is the same pen, flipped.
What never stands mirrored (left over right, letters) takes `pen.unflipped()`.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from catalogue.figures.pen import Box, BoxPen

# The small picture of an answer, in its own units.
PICTURE = Box(0, 0, 96, 64)


@dataclass(frozen=True)
class Place:
    """Where a part is drawn: its side (the wearer's), its region, the silhouette's points and regions, the record.

    `profile`: the leading state of each recorded feature. `small`: the small picture of an answer, where a part may
    show more of its detail and a hint of what it sits on.
    """

    side: str = "centre"
    view: str = ""
    region: str = ""
    points: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    regions: Mapping[str, Box] = field(default_factory=dict)
    profile: Mapping[str, str] = field(default_factory=dict)
    small: bool = False


Drawing = Callable[[BoxPen, Place], None]


@dataclass(frozen=True)
class Part:
    """`views`: by view, the regions it is drawn in; empty for the places that the feature names.

    `frame`: where in the small picture the part's box lies, in percent. `layer`: low is drawn first.
    `classes`: the garment classes it is drawn on; empty for all. `detail`: too small for the flat (a stitch, a weave, a
    label's print): only its small picture is drawn. `bare`: no drawing of the state, only of the place that it has.
    """

    feature: str
    state: str
    draw: Drawing
    views: Mapping[str, tuple[str, ...]]
    frame: tuple[float, float, float, float]
    layer: int
    detail: bool
    classes: tuple[str, ...] = ()
    bare: bool = False


PARTS: dict[tuple[str, str], list[Part]] = {}


def part(
    feature: str,
    *states: str,
    views: Mapping[str, tuple[str, ...]] | None = None,
    frame: tuple[float, float, float, float] = (10, 10, 80, 80),
    layer: int = 50,
    detail: bool = False,
    classes: tuple[str, ...] = (),
) -> Callable[[Drawing], Drawing]:
    """Registers a drawing for one or more states of a feature."""

    def registered(draw: Drawing) -> Drawing:
        for state in states:
            PARTS.setdefault((feature, state), []).append(
                Part(feature, state, draw, views or {}, frame, layer, detail, classes)
            )
        return draw

    return registered


@cache
def all_parts() -> Mapping[tuple[str, str], list[Part]]:
    """Every drawn part, by feature and state."""
    for module in iter_modules(__path__):
        import_module(f"{__name__}.{module.name}")
    return PARTS
