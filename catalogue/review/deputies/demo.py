"""The demo society's moderator who is away, with the secretary in their place."""

from datetime import timedelta

from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.review.deputies.actions import go_on_leave
from catalogue.review.models import Leave


def load_demo_leave() -> None:
    """For three weeks around the day of the first start; never again once it was there or has been changed."""
    people = {one.username: one for one in Member.objects.filter(username__in=("Whimbrel", "Knot"))}
    today = timezone.localdate()
    if not Leave.objects.exists():
        go_on_leave(
            moderator=people["Whimbrel"],
            deputy=people["Knot"],
            begins=today - timedelta(days=5),
            ends=today + timedelta(days=16),
        )
