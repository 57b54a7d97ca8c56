"""That a member added a source, for its page."""

from django import template

from catalogue.review.models import SourceAddition
from catalogue.review.sources.actions import may_take_back

register = template.Library()


@register.inclusion_tag("review/sources/added_by.html", takes_context=True)
def added_by(context, source):
    """Who put the source on the list, where it was done on the site, and whether this person may take it back."""
    addition = SourceAddition.objects.select_related("by").filter(source=source).first()
    person = context["request"].user
    may = bool(addition) and person.is_authenticated and may_take_back(addition, person)
    return {"addition": addition, "may_take_back": may, "reads": person.is_authenticated}
