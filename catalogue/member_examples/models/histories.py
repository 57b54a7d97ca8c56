"""What dated examples say of a type's details, once it was worked out."""

from django.db import models
from django.db.models import Q

from catalogue.reference.models import GarmentType


class KeptHistories(models.Model):
    """The change-overs of one garment type, kept until its dated examples say something else. Nothing is lost with a
    row: the next visit works it out again.

    `state`: a digest over the dated examples, and the way of working out, that `body` comes from. The body is JSON as
    text: PostgreSQL's own JSON writes a chance of 1e-200 with two hundred noughts.
    """

    garment_type = models.OneToOneField(GarmentType, on_delete=models.CASCADE, related_name="kept_histories")
    state = models.CharField(max_length=64)
    body = models.TextField()

    class Meta:
        constraints = [
            models.CheckConstraint(condition=Q(state__regex="^[0-9a-f]{64}$"), name="histories_state_is_a_digest")
        ]

    def __str__(self) -> str:
        return f"change-overs of {self.garment_type_id}"
