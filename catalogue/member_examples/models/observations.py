"""What one person saw on one piece."""

from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import Q
from django.utils import timezone

from catalogue.member_examples.models.examples import Example
from catalogue.member_examples.words import Answer
from catalogue.reference.models import Feature, FeatureState
from catalogue.reference.models.fields import one_of


class Observation(models.Model):
    """One look at one feature. Written once: whoever sees it differently, or looks again, adds another."""

    example = models.ForeignKey(Example, on_delete=models.CASCADE, related_name="observations")
    observer = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="observations")
    feature = models.ForeignKey(Feature, on_delete=models.PROTECT, related_name="observations")
    answer = models.CharField(max_length=12, choices=Answer.choices, default=Answer.SEEN)
    state = models.ForeignKey(
        FeatureState, null=True, blank=True, on_delete=models.PROTECT, related_name="observations"
    )
    value = models.FloatField(null=True, blank=True, help_text="the number behind it, in the feature's unit")
    note = models.CharField(max_length=300, blank=True, default="")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["pk"]
        constraints = [
            one_of("answer", Answer),
            models.CheckConstraint(
                name="observation_names_what_was_seen",
                condition=Q(answer=Answer.SEEN) & (Q(state__isnull=False) | Q(value__isnull=False))
                | ~Q(answer=Answer.SEEN) & Q(state__isnull=True, value__isnull=True),
            ),
            models.CheckConstraint(
                condition=Q(value__isnull=True) | Q(value__gte=0), name="observed_value_is_not_negative"
            ),
        ]
        indexes = [models.Index(fields=["example", "feature", "observer"]), models.Index(fields=["state", "example"])]

    def __str__(self) -> str:
        return f"{self.feature_id} {self.answer}"

    def clean(self):
        """A state is one of its feature's."""
        if self.state_id and self.state.feature_id != self.feature_id:
            raise ValidationError({"state": f"“{self.state}” is no answer to “{self.feature}”."})
