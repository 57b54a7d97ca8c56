"""Silhouettes: the body of a garment class in one view, with its named regions."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from catalogue.figures.pen import Box, Pen


@dataclass(frozen=True)
class Silhouette:
    """`draw(pen, profile)` draws the body in units of the drawing; `profile` holds the leading state of each feature.

    `regions`: boxes in units of the drawing, by the region's name, where they differ from the reference list's.
    `points`: named points that parts hang on. `variants`: other cuts of the class, each with the profile it is for.
    """

    width: float
    height: float
    draw: Callable[[Pen, Mapping[str, str]], None]
    regions: Mapping[str, Box]
    points: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    variants: tuple[tuple[Callable[[Mapping[str, str]], bool], "Silhouette"], ...] = ()

    def fitting(self, profile: Mapping[str, str]) -> "Silhouette":
        """The cut that the profile asks for: itself, or the first of its variants that is for such a profile."""
        return next((body for asked, body in self.variants if asked(profile)), self)


SILHOUETTES: dict[tuple[str, str], Silhouette] = {}


def silhouette(
    garment_classes: tuple[str, ...],
    view: str,
    *,
    size: tuple[float, float] = (500, 500),
    regions: Mapping[str, tuple[float, float, float, float]] | None = None,
    points: Mapping[str, tuple[float, float]] | None = None,
    when: Callable[[Mapping[str, str]], bool] | None = None,
) -> Callable:
    """Registers how the body of one or more garment classes is drawn in a view.

    `when`: another cut of a class that is registered already, for the profiles of which this is true.
    """

    def registered(draw: Callable[[Pen, Mapping[str, str]], None]) -> Callable:
        boxes = {name: Box(*box) for name, box in (regions or {}).items()}
        for garment_class in garment_classes:
            body = Silhouette(*size, draw, boxes, points or {})
            if when:
                usual = SILHOUETTES[garment_class, view]
                body = replace(usual, variants=(*usual.variants, (when, body)))
            SILHOUETTES[garment_class, view] = body
        return draw

    return registered


@cache
def all_silhouettes() -> Mapping[tuple[str, str], Silhouette]:
    """Every silhouette, by garment class and view."""
    for module in iter_modules(__path__):
        import_module(f"{__name__}.{module.name}")
    return SILHOUETTES
