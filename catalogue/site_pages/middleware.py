"""Small guards around every page."""

from django.core.exceptions import BadRequest
from django.http import HttpResponse, UnreadablePostError

from catalogue.site_pages.first_screen import style_hash

LONGEST_ADDRESS = 8_192
UNREADABLE = "\ufffd"  # the replacement character


def content_policy(get_response):
    """Only the site's own files, no inline script, and of inline styles the one fixed block, known by its hash."""
    policy = "; ".join(
        (
            "default-src 'self'",
            f"style-src 'self' '{style_hash()}'",
            "img-src 'self' data: blob:",
            "object-src 'none'",
            "base-uri 'none'",
            "frame-ancestors 'none'",
            "form-action 'self'",
            "worker-src 'self'",
            "manifest-src 'self'",
        )
    )

    def with_policy(request):
        response = get_response(request)
        response.headers.setdefault("Content-Security-Policy", policy)
        return response

    return with_policy


def refuse_long_addresses(get_response):
    """An address over 8 kB gets a plain page with status 414 before anything reads it."""

    def checked(request):
        if len(request.META.get("QUERY_STRING", "")) + len(request.path) > LONGEST_ADDRESS:
            return HttpResponse(
                "This address is too long to read (over 8,192 characters). Nothing was changed. "
                "Go back, or start again from the front page.",
                status=414,
                content_type="text/plain; charset=utf-8",
            )
        return get_response(request)

    return checked


def no_nul_in_addresses(get_response):
    """A NUL in an address names nothing, and PostgreSQL does not even take it as a text to look for: in the path it is
    read as the sign for what cannot be read, and the page says that there is no such thing; out of a query it is left,
    as what a keyboard cannot type."""

    def checked(request):
        if "\0" in request.path_info:
            request.path_info = request.path_info.replace("\0", UNREADABLE)
            request.path = request.path.replace("\0", UNREADABLE)
        query = request.META.get("QUERY_STRING", "")
        if "%00" in query or "\0" in query:
            request.META["QUERY_STRING"] = query.replace("%00", "").replace("\0", "")
        return get_response(request)

    return checked


class RefuseNulInForms:
    """No keyboard types a NUL, and PostgreSQL takes no text with one: a form with it, in a field, a name of a field or
    of a file, gets the page of status 400, and nothing is written. A view that stores and looks up nothing of what it
    is sent may say that it reads any sign."""

    def __init__(self, get_response):
        self.get_response = get_response

    def __call__(self, request):
        return self.get_response(request)

    def process_view(self, request, view, args, kwargs):
        if request.method != "POST" or getattr(view, "reads_any_sign", False):
            return
        try:
            texts = [text for name, values in request.POST.lists() for text in (name, *values)]
            texts += [text for name, files in request.FILES.lists() for text in (name, *(one.name for one in files))]
        except UnreadablePostError:  # the line broke: the view says so in its own way
            return
        if any("\0" in text for text in texts if text):
            raise BadRequest("A sign that no text can hold (NUL) came with the form.")
