"""Which state the reference is in, so that what is worked out from it can be kept until it changes."""

from django.db import models, transaction
from django.db.models import F, Q
from django.utils import timezone

from catalogue.reference.happenings import reference_changed


class ReferenceState(models.Model):
    """One row. Its number grows with every change of the reference."""

    number = models.PositiveBigIntegerField(default=0)
    changed_at = models.DateTimeField(auto_now=True)

    class Meta:
        constraints = [models.CheckConstraint(condition=Q(id=1), name="reference_state_is_one_row")]

    def __str__(self) -> str:
        return str(self.number)

    @classmethod
    def current_number(cls) -> int:
        """The number of the state in force; 0 before anything was written."""
        return cls.objects.filter(pk=1).values_list("number", flat=True).first() or 0

    @classmethod
    def hold(cls) -> None:
        """Waits, within a transaction, until nobody else is changing the reference, and keeps others waiting.

        SQLite's transactions that write wait for one another anyway.
        """
        list(cls.objects.select_for_update().filter(pk=1))

    @classmethod
    def mark_changed(cls) -> None:
        """Called in the same transaction as the change itself."""
        if not cls.objects.filter(pk=1).update(number=F("number") + 1, changed_at=timezone.now()):
            cls.objects.create(pk=1, number=1)
        transaction.on_commit(lambda: reference_changed.send(cls), robust=True)
