"""What a moderator may act on. Everything else is not there."""

from django.http import Http404

from catalogue.reference.models import Feature
from catalogue.review.health.error_lines import error_lines
from catalogue.review.health.keeping import healths
from catalogue.review.models import ErrorRateTaken


def measured_feature(pk: int, *, number: int) -> tuple[Feature, dict | None]:
    """A feature with the line that offers a rate for it now, None where none is offered: it may have been taken a
    moment ago. Raises Http404 where there is no such feature."""
    feature = Feature.objects.filter(pk=pk).first()
    if feature is None:
        raise Http404("There is no such feature.")
    lines = error_lines(healths(number=number).values(), [feature.code])
    return feature, lines[0] if lines else None


def standing_rate(pk: int) -> ErrorRateTaken:
    """A rate that was taken, also one that was undone since: the action says so in words."""
    found = ErrorRateTaken.objects.select_related("feature").filter(pk=pk, undoes__isnull=True).first()
    if found is None:
        raise Http404("There is no such decision.")
    return found


def open_to_undo(limit: int = 5) -> list[ErrorRateTaken]:
    """The latest rates that stand, for moderators."""
    rows = ErrorRateTaken.objects.filter(undoes__isnull=True, undone_by__isnull=True)
    return list(rows.select_related("feature", "moderator").order_by("-pk")[:limit])
