"""Drawings as files of their own, for cards that are loaded when they come into sight."""

from django.http import Http404, HttpResponse
from django.views.decorators.http import condition

from catalogue.figures.figure import file_of
from catalogue.reference.models import ReferenceState
from catalogue.reference.snapshots import keep_for_state, type_of_version


def state_tag(request, code, view) -> str:
    """Drawings change with the reference, and only with it."""
    return f'"{ReferenceState.current_number()}"'


@condition(etag_func=state_tag)
def version_svg(request, code, view):
    """One view of a version."""
    facts = type_of_version(code)
    made = facts and keep_for_state(("figure file", code, view), lambda: file_of(facts, facts.versions[code], view))
    if not made:
        raise Http404(f"There is no drawing of {code[:80]} from this view.")
    response = HttpResponse(made, content_type="image/svg+xml")
    response["Cache-Control"] = "max-age=600"
    return response
