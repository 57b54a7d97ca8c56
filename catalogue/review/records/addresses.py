"""Where a record of a version, and its history, are read for ever."""

from django.urls import reverse


def record_address(code: str, number: int) -> str:
    return reverse("records:record", args=[code, number])


def history_address(code: str) -> str:
    return reverse("records:history", args=[code])
