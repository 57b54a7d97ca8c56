"""What every template may use."""

from django.conf import settings


def society(request) -> dict:
    """`society_name`, as the secretary wrote it."""
    return {"society_name": settings.SOCIETY_NAME}
