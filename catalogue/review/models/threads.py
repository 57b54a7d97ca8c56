"""What the words of every thread have in common."""

from django.conf import settings
from django.db import models
from django.utils import timezone


class ThreadWord(models.Model):
    """One word of a thread. Written once."""

    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    text = models.TextField()
    sent_once = models.UUIDField(unique=True, help_text="given with the form: a second tap is the same word")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        abstract = True
        ordering = ["made_at", "pk"]
