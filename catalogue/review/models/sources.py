"""Sources that somebody put on the list on the site."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from catalogue.reference.models import Source


class SourceAddition(models.Model):
    """That a member added a source that was not listed: one person's small thing. One that was taken back is on the
    list no more; this says what it was, who took it back, when and why."""

    source = models.OneToOneField(Source, null=True, blank=True, on_delete=models.SET_NULL, related_name="addition")
    code = models.CharField(max_length=80)
    title = models.CharField(max_length=300)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="sources_added")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    taken_back_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    taken_back_at = models.DateTimeField(null=True, blank=True, editable=False)
    reason = models.TextField(blank=True, default="", help_text="why it was taken back")

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(taken_back_by__isnull=True, taken_back_at__isnull=True, reason="")
                | Q(taken_back_by__isnull=False, taken_back_at__isnull=False, source__isnull=True) & ~Q(reason=""),
                name="source_taken_back_is_gone_and_says_why",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.code}: {self.title}"
