"""The seals of records and of decisions: what was written, word for word, each tied to the one before."""

from django.db import models

from catalogue.reference.models import VersionRecord
from catalogue.review.models.proposals import Decision


class RecordSeal(models.Model):
    """A record as it was written, in a form that cannot be changed unnoticed. The database refuses to change a row.

    `digest` is the sha-256 of the digest before it and the body (`seals.digest_of`); the first has no digest before it.
    """

    record = models.OneToOneField(VersionRecord, on_delete=models.PROTECT, related_name="seal")
    number = models.PositiveIntegerField(unique=True)
    body = models.TextField(help_text="the record with its cells as canonical JSON")
    previous = models.CharField(max_length=64, blank=True, default="")
    digest = models.CharField(max_length=64, unique=True)
    sealed_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["number"]
        constraints = [
            models.CheckConstraint(condition=models.Q(number__gte=1), name="seal_number_begins_at_1"),
            models.CheckConstraint(
                condition=models.Q(number=1, previous="") | models.Q(number__gt=1, previous__regex="^[0-9a-f]{64}$"),
                name="seal_names_the_one_before",
            ),
            models.CheckConstraint(condition=models.Q(digest__regex="^[0-9a-f]{64}$"), name="seal_digest_is_a_digest"),
        ]

    def __str__(self) -> str:
        return f"seal {self.number}: {self.digest[:12]}"


class DecisionSeal(models.Model):
    """A decision as it was written, in a chain of its own that is made as that of the records. The database refuses to
    change a row."""

    decision = models.OneToOneField(Decision, on_delete=models.PROTECT, related_name="seal")
    number = models.PositiveIntegerField(unique=True)
    body = models.TextField(help_text="the decision with what it wrote further as canonical JSON")
    previous = models.CharField(max_length=64, blank=True, default="")
    digest = models.CharField(max_length=64, unique=True)
    sealed_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["number"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(number=1, previous="") | models.Q(number__gt=1, previous__regex="^[0-9a-f]{64}$"),
                name="decision_seal_names_the_one_before",
            ),
            models.CheckConstraint(
                condition=models.Q(digest__regex="^[0-9a-f]{64}$"), name="decision_seal_digest_is_a_digest"
            ),
        ]

    def __str__(self) -> str:
        return f"seal {self.number} of decisions: {self.digest[:12]}"
