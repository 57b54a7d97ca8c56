"""The bare outline of a garment type, small, to stand before its name: the society's own where it has one.

The site's are some hundred bytes and stand in the page; an own one may be sixty times as heavy, so it is a file that is
fetched when it comes into sight.
"""

from collections.abc import Collection
from functools import cache
from html import escape

from catalogue.figures.composing import composed
from catalogue.figures.pen import Pen, number
from catalogue.figures.silhouettes import all_silhouettes
from catalogue.reference.facts import TypeFacts
from catalogue.reference.regions import views_of

CARD_LOOK = 'fill="none" stroke="#191c1d" stroke-width="5" stroke-linejoin="round" stroke-linecap="round"'


def outline_view(garment_class: str, own: Collection[str]) -> str:
    """The first view of which the site or the society has an outline, in the order of the class; "" where none has.

    `own`: the views that the society has drawn.
    """
    views = [view for view in views_of(garment_class) if view in own or (garment_class, view) in all_silhouettes()]
    return next(iter([*views, *own]), "")


@cache
def site_outline(garment_class: str) -> str:
    """The site's outline of a garment class, as a small picture without words; empty where none is drawn."""
    body = all_silhouettes().get((garment_class, outline_view(garment_class, ())))
    if body is None:
        return ""
    pen = Pen(without="tf")
    body.draw(pen, {})
    box = f"0 0 {number(body.width)} {number(body.height)}"
    return f'<svg class="part" viewBox="{box}" aria-hidden="true">{pen.svg}</svg>'


def outline_file(facts: TypeFacts) -> str | None:
    """The outline of a type as a file of its own. None: there is no drawing."""
    view = outline_view(facts.garment_class, facts.silhouettes)
    pen = Pen(without="tf", alone=True)
    body = composed(pen, facts.garment_class, view, {}, own=facts.silhouettes.get(view, ""))
    return body and alone(pen, body.width, body.height, facts.name)


def alone(pen: Pen, width: float, height: float, name: str) -> str:
    """What the pen has drawn, as a whole file that no style sheet reaches."""
    size = f'viewBox="0 0 {number(width)} {number(height)}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size} {CARD_LOOK}><title>{escape(name)}</title>{pen.svg}</svg>'
