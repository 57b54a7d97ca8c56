"""What is read that can only be sent to, and the other way round: a page in words with a way back, in place of the
empty answer 405 of the framework."""

from django.shortcuts import render
from django.urls import Resolver404, resolve, reverse

NOT_ALLOWED = 405
# Above /health/error-rates/… a code would be read that is none.
TAKES_ANY_CODE = {"health:type"}


def say_what_an_address_is_for(get_response):
    """Innermost of all: the page is made as every other is."""

    def answered(request):
        response = get_response(request)
        if response.status_code != NOT_ALLOWED or response.streaming or response.content:
            return response
        sent = request.method not in ("GET", "HEAD")
        back = request.path if sent else page_above(request.path_info)
        page = render(request, "405.html", {"sent": sent, "back": back}, status=NOT_ALLOWED)
        page["Allow"] = response["Allow"]
        return page

    return answered


def page_above(path: str) -> str:
    """The nearest address above this one at which a page stands."""
    own = resolve(path).view_name
    parts = path.strip("/").split("/")
    for many in range(len(parts) - 1, 0, -1):
        above = f"/{'/'.join(parts[:many])}/"
        try:
            found = resolve(above).view_name
        except Resolver404:
            continue
        if found != own and found not in TAKES_ANY_CODE:
            return above
    return reverse("site_pages:home")
