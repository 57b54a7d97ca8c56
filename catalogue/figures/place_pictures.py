"""Places as pictures to choose from: the outline of a garment with the place marked on it."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from html import escape

from catalogue.figures.composing import box_of, composed
from catalogue.figures.pen import Pen, number
from catalogue.figures.silhouettes import Silhouette
from catalogue.figures.spots import mark_spot
from catalogue.reference.regions import VIEW_WORDS, all_regions, region_words, views_of


@dataclass(frozen=True)
class PlacePicture:
    value: str
    words: str
    svg: str


@dataclass(frozen=True)
class ViewOfPlaces:
    """A view with a picture of each of its places. `outline`: what the pictures of all forms on the page stand on."""

    words: str
    outline: str
    places: tuple[PlacePicture, ...]


def place_pictures(garment_class: str, *, first: bool) -> list[ViewOfPlaces]:
    """Every named place of a garment class, marked on its outline. `first`: the page has not drawn the outlines yet."""
    outlines, pictures = pictures_on((garment_class,))
    return [
        ViewOfPlaces(
            VIEW_WORDS[view],
            outlines.get((garment_class, view), "") if first else "",
            tuple(
                PlacePicture(f"{view}:{region}", region_words(garment_class, view, region), pictures[view, region])
                for where, region in pictures
                if where == view
            ),
        )
        for view in views_of(garment_class)
        if (garment_class, view) in outlines
    ]


@lru_cache(maxsize=64)
def pictures_on(garment_classes: Sequence[str]) -> tuple[dict[tuple[str, str], str], dict[tuple[str, str], str]]:
    """The outlines, by class and view, and the picture of each place, by view and region, on the first class that has
    it. The pictures stand on the outlines, which must be on the page once."""
    outlines: dict[tuple[str, str], str] = {}
    pictures: dict[tuple[str, str], str] = {}
    for garment_class, view, region in all_regions():
        if garment_class not in garment_classes:
            continue
        home = next(one for one in garment_classes if (one, view, region) in all_regions())
        pen = Pen(without="tf")
        body = composed(pen, home, view, {})
        if body is None or (view, region) in pictures:
            continue
        frame = f"0 0 {number(body.width)} {number(body.height)}"
        name = escape(f"outline-{home}-{view}")
        symbol = f'<symbol id="{name}" viewBox="{frame}">{pen.svg}</symbol>'
        outlines[home, view] = f'<svg class="flat unseen" aria-hidden="true">{symbol}</svg>'
        pictures[view, region] = place_picture(home, view, region, body, name, frame)
    return outlines, pictures


def place_picture(garment_class: str, view: str, region: str, body: Silhouette, outline: str, frame: str) -> str:
    pen = Pen()
    with pen.group(class_="spot"):
        mark_spot(pen, box_of(garment_class, view, region, body))
    return (
        f'<svg class="flat place" viewBox="{frame}" aria-hidden="true">'
        f'<use href="#{outline}" width="{number(body.width)}" height="{number(body.height)}"/>{pen.svg}</svg>'
    )
