"""A database that cannot write: a page that says so, with what was typed, in place of a fault of the server."""

from django.db import OperationalError
from django.shortcuts import render

from catalogue.accounts.seen_labels import labels_at, page_filled_in_at
from catalogue.accounts.unsent import fields_sent
from catalogue.accounts.views.unsent import shown

NO_ROOM = 507  # Insufficient Storage, RFC 4918, 11.5
# SQLite's words (SQLITE_FULL, SQLITE_IOERR, SQLITE_READONLY) and those that PostgreSQL passes on from the system.
SAID = ("disk is full", "disk i/o error", "readonly database", "no space left on device", "could not extend file")


class SayThatNothingCanBeWritten:
    """Innermost, so that it hears of what a view could not write."""

    def __init__(self, get_response):
        self.get_response = get_response

    def __call__(self, request):
        return self.get_response(request)

    def process_exception(self, request, exception):
        if not isinstance(exception, OperationalError) or not any(said in str(exception).lower() for said in SAID):
            return None
        seen = labels_at(request, request.get_full_path(), page_filled_in_at(request))
        typed = shown(fields_sent(request), seen)
        told = [field for field in typed if field["is_told"]]
        context = {"typed": typed, "told": told, "had_files": bool(request.FILES)}
        return render(request, "507.html", context, status=NO_ROOM)
