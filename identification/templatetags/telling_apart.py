"""The shortest checks, for the pages of the book."""

from django import template

from identification.mistakes.counted import counted_for
from identification.telling_apart.reach import reach_of_type
from identification.telling_apart.shortest_checks import checks_between, checks_of_version

register = template.Library()


@register.inclusion_tag("telling_apart/checks.html")
def version_checks(facts, version, number):
    """The fewest checks that tell a version from every other of its type, in the order to make them."""
    return checks_of_version(facts, version, number=number)


@register.inclusion_tag("telling_apart/checks.html")
def compared_checks(homes, versions, number):
    """The fewest checks that separate every two of the compared versions."""
    return checks_between(homes, versions, number=number)


@register.inclusion_tag("mistakes/in_short.html")
def mistaken_in_short(facts, version, number):
    """What sellers and members took pieces of a version for, in a line that leads to the page which says more."""
    return counted_for(facts, version, number=number) | {"version": version}


@register.inclusion_tag("telling_apart/reach.html")
def reach(facts, number):
    """How many of a type's versions can be told apart at all, and from outside."""
    return {"reach": reach_of_type(facts, number=number)}
