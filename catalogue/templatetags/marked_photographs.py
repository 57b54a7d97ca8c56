"""Photographs with a marked spot in templates."""

from django import template

from catalogue.figures.marked_pictures import close_picture, whole_picture
from catalogue.reference.marked_spots import MarkedFacts

register = template.Library()


@register.simple_tag
def whole_photograph(shown: MarkedFacts) -> str:
    """The whole photograph with its spot."""
    return whole_picture(shown)


@register.simple_tag
def close_photograph(shown: MarkedFacts) -> str:
    """What lies round the spot, as large as a part's picture."""
    return close_picture(shown)


@register.inclusion_tag("figures/photographs_owed.html")
def photographs_owed(states, photograph=None):
    """Whose the photographs are that stand in the answers, each with the way to the whole; nothing where none does.

    `states`: rows with `label` and `photograph`. `photograph`: that of the feature itself.
    """
    rows = [("Where to look", photograph)] if photograph else []
    return {"rows": rows + [(row["label"], row["photograph"]) for row in states if row["photograph"]]}
