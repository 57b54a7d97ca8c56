"""What moderators did to views of open questions."""

from django.conf import settings
from django.db import models
from django.utils import timezone

from catalogue.reference.models import QuestionView


class ViewDecision(models.Model):
    """A moderator took a view out of an open question, or put it back: the newest of a view counts. The database
    refuses to change or delete a row. `turn` counts from 1 for each view, so that of two people at once one writes.
    """

    view = models.ForeignKey(QuestionView, on_delete=models.PROTECT, related_name="decisions")
    turn = models.PositiveIntegerField()
    taken_out = models.BooleanField(help_text="no: it was put back")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="view_decisions")
    reason = models.TextField()
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["view", "turn"]
        constraints = [
            models.CheckConstraint(condition=~models.Q(reason=""), name="view_decision_has_a_reason"),
            models.UniqueConstraint(fields=["view", "turn"], name="view_decision_is_one_of_its_turn"),
        ]

    def __str__(self) -> str:
        return f"{self.view_id}, {self.turn}"
