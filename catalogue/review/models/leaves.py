"""A moderator who is away, and who stands in."""

from datetime import date

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils import timezone


class LeaveQuerySet(models.QuerySet):
    def on(self, day: date) -> "LeaveQuerySet":
        """Those that run on that day, the first and the last included."""
        return self.filter(begins__lte=day, ends__gte=day)


class Leave(models.Model):
    """The leave of a moderator and their deputy meanwhile: the present or next one only. What a deputy decided says
    itself in whose place (`Decision.in_place_of`)."""

    moderator = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="leave")
    deputy = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="leaves_stood_in")
    begins = models.DateField()
    ends = models.DateField(help_text="the last day")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    objects = LeaveQuerySet.as_manager()

    class Meta:
        ordering = ["ends", "pk"]
        constraints = [
            models.CheckConstraint(condition=Q(ends__gte=F("begins")), name="leave_ends_after_it_begins"),
            models.CheckConstraint(condition=~Q(moderator=F("deputy")), name="deputy_is_somebody_else"),
        ]

    def __str__(self) -> str:
        return f"{self.moderator_id}, {self.begins} to {self.ends}"
