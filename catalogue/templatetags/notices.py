"""How many notices a person has not read, for the head of every page."""

from django import template

from catalogue.review.notices.rows import notices_for

register = template.Library()
MANY = 99


@register.simple_tag(takes_context=True)
def unread_notices(context) -> str:
    """`3`, `99+`, or empty. Counted once a request, by an index."""
    request = context.get("request")
    if request is None or not request.user.is_authenticated:
        return ""
    if not hasattr(request, "unread_notices"):
        new = notices_for(request.user).filter(read_at__isnull=True).order_by()[: MANY + 1]
        request.unread_notices = new.count()
    number = request.unread_notices
    return f"{MANY}+" if number > MANY else str(number or "")
