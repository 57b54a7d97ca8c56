"""What was worked out of the reference's health, and the error rates that a moderator took from it."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils import timezone

from catalogue.reference.models import Feature, GarmentType
from catalogue.review.words import share_words


class TypeHealth(models.Model):
    """The figures of one garment type, kept until it or its pieces change. Nothing is lost with a row: the next visit
    works it out again.

    `number`: the reference's number at which the row was last found true. `state`: a digest over what it was worked out
    from, so that a change elsewhere in the reference leaves it standing.
    """

    garment_type = models.OneToOneField(GarmentType, on_delete=models.CASCADE, related_name="health")
    number = models.PositiveBigIntegerField()
    state = models.CharField(max_length=64)
    body = models.JSONField()

    class Meta:
        constraints = [
            models.CheckConstraint(condition=Q(state__regex="^[0-9a-f]{64}$"), name="health_state_is_a_digest")
        ]

    def __str__(self) -> str:
        return f"health of {self.garment_type_id} at {self.number}"


class ErrorRateTaken(models.Model):
    """A moderator takes a measured error rate for a feature, or undoes that; written once.

    `wrong` of `looks` is what had been measured that day.
    """

    feature = models.ForeignKey(Feature, on_delete=models.PROTECT, related_name="error_rates_taken")
    before = models.FloatField()
    after = models.FloatField()
    note_before = models.TextField(blank=True, default="")
    note_after = models.TextField(blank=True, default="")
    wrong = models.FloatField()
    looks = models.PositiveIntegerField()
    moderator = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="error_rates_taken")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    undoes = models.OneToOneField("self", null=True, blank=True, on_delete=models.PROTECT, related_name="undone_by")

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(before__gte=0, before__lt=1, after__gte=0, after__lt=1), name="taken_error_is_a_chance"
            ),
            models.CheckConstraint(condition=~Q(before=F("after")), name="taken_error_changes_something"),
            models.CheckConstraint(condition=Q(wrong__gte=0, wrong__lte=F("looks")), name="taken_error_was_measured"),
        ]

    @property
    def in_words(self) -> str:
        """From what rate to what."""
        return f"{share_words(self.before)} to {share_words(self.after)}"

    def __str__(self) -> str:
        return f"{self.feature_id}: {self.before} to {self.after}"
