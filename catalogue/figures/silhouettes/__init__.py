"""Silhouettes: the body of a garment class in one view, with its named regions."""

from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field, replace
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from catalogue.figures.own_shapes import fitted
from catalogue.figures.pen import Box, Pen
from catalogue.reference.own_drawings import DrawingFault, OwnDrawing, read_drawing

# Units that an own outline is wide where the site has none of its class.
OWN_WIDTH = 500


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


def silhouette_for(garment_class: str, view: str, own: str = "") -> Silhouette | None:
    """The body of a view: the society's own where it has one, else the site's; None where there is neither.

    An own outline that is not allowed, because it came past the forms or the rules grew stricter, is passed over.
    """
    usual = all_silhouettes().get((garment_class, view))
    if own:
        with suppress(DrawingFault):
            return own_silhouette(read_drawing(own), usual)
    return usual


def own_silhouette(drawing: OwnDrawing, usual: Silhouette | None) -> Silhouette:
    """A body as the society draws it. Where the site draws one too, the own lies in its box, so that its regions and
    points hold; else it has its own shape, and the regions of the reference list in percent of it."""
    _, _, width, height = drawing.box
    size = (usual.width, usual.height) if usual else (OWN_WIDTH, OWN_WIDTH * height / width)

    def draw(pen: Pen, profile: Mapping[str, str]) -> None:
        pen.written.append(fitted(drawing, Box(0, 0, *size), pen))

    return replace(usual, draw=draw, variants=()) if usual else Silhouette(*size, draw, {})


@cache
def all_silhouettes() -> Mapping[tuple[str, str], Silhouette]:
    """Every silhouette, by garment class and view."""
    for module in iter_modules(__path__):
        import_module(f"{__name__}.{module.name}")
    return SILHOUETTES
