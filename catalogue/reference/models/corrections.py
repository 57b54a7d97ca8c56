"""What one person changed, in the back office or by spreadsheets under review: before, after, who, when and why."""

from django.db import models

from catalogue.accounts.models import Member


class Correction(models.Model):
    """One saving of one record, written once. `lines` holds [what, before, after] in words, of what changed.

    It keeps the title of its record, since a record that was deleted is named nowhere else. Imports of spreadsheets
    write them for what they change at once under review, and none before review has begun, when all of it comes with
    them; what they change in a profile stands in the version's records.
    """

    class Deed(models.TextChoices):
        ADDED = "added", "Added"
        CHANGED = "changed", "Changed"
        DELETED = "deleted", "Deleted"

    table = models.CharField(max_length=40)
    row = models.PositiveBigIntegerField()
    title = models.CharField(max_length=300)
    deed = models.CharField(max_length=8, choices=Deed.choices)
    member = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="corrections")
    made_at = models.DateTimeField(auto_now_add=True)
    why = models.TextField(blank=True, default="")
    lines = models.JSONField(default=list)

    class Meta:
        ordering = ["-pk"]
        indexes = [models.Index(fields=["table", "row"])]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(deed__in=["added", "changed", "deleted"]), name="correction_deed_is_known"
            )
        ]

    def __str__(self) -> str:
        return f"{self.title}: {self.get_deed_display().lower()}"
