"""Records that nobody proposed, from an import or by hand: who looked them through, and who took that back."""

from django.conf import settings
from django.db import models
from django.utils import timezone

from catalogue.reference.models import VersionRecord


class RecordLook(models.Model):
    """A moderator let a record stand, or took that back: the newest of a record counts. The database refuses to change
    a row. `turn` counts from 1 for each record, so that of two people at once one writes.
    """

    record = models.ForeignKey(VersionRecord, on_delete=models.PROTECT, related_name="looks")
    turn = models.PositiveIntegerField()
    passed = models.BooleanField(help_text="no: an earlier pass is taken back")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="record_looks")
    reason = models.TextField()
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["record", "turn"]
        constraints = [
            models.CheckConstraint(condition=~models.Q(reason=""), name="look_has_a_reason"),
            models.CheckConstraint(
                condition=models.Q(turn=1, passed=True) | models.Q(turn__gt=1), name="first_look_passes"
            ),
            models.UniqueConstraint(fields=["record", "turn"], name="look_is_one_of_its_turn"),
        ]

    def __str__(self) -> str:
        return f"{self.record_id}, {self.turn}"
