"""What the site's own identification makes of members' pieces, for their pages."""

from django import template
from django.urls import reverse

from identification.walk_through.judged_example import engines_view as view_of

register = template.Library()


@register.inclusion_tag("walk_through/engines_view.html")
def engines_view(example, facts, groups, number: int, *, folded: bool = False):
    """The engine's attribution of an example with its reasons, from what members agree on. `groups`: the rows of the
    page, whose agreed states are taken; `folded`: the reasons open when asked for."""
    agreed = {
        row["feature"].code: row["compared"].agreed
        for group in groups
        for row in group["rows"]
        if row["compared"].agreed
    }
    known = {
        "maker": example.maker.code if example.maker else None,
        "size": example.size_mark or None,
        "year": example.label_year,
    }
    held_as = example.held_as.code if example.held_as else ""
    view = view_of(facts, example.code, agreed, held_as, known, number)
    if not view:
        return {"view": None}
    against = sum(row["direction"] == "against" for row in view["reasons"])
    counts = {"folded": folded, "against": against, "in_favour": len(view["reasons"]) - against}
    return counts | {"view": view | {"address": reverse("walk_through:type", args=[facts.code]) + view["query"]}}
