"""What a feature said at one time: written once, each record tied to the one before."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from catalogue.reference.models import VersionRecord
from catalogue.reference.models.fields import one_of


class FeatureRecord(models.Model):
    """A feature as it stood from one time on. The database refuses to change or delete a row.

    `body`: canonical JSON of all its rows with who, when and why; `digest`: the sha-256 of the digest before it and the
    body, as of the seals of versions' records. `place` counts through all features, `number` through those of one.
    It is known by the feature's code, and so outlives it.
    """

    code = models.CharField(max_length=80, db_index=True)
    number = models.PositiveIntegerField()
    standing = models.CharField(max_length=8, choices=VersionRecord.Standing.choices)
    written_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="feature_records"
    )
    why = models.TextField(blank=True, default="")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    place = models.PositiveIntegerField(unique=True)
    body = models.TextField()
    previous = models.CharField(max_length=64, blank=True, default="")
    digest = models.CharField(max_length=64, unique=True)

    class Meta:
        ordering = ["place"]
        constraints = [
            models.UniqueConstraint(fields=["code", "number"], name="feature_record_is_one_of_its_number"),
            one_of("standing", VersionRecord.Standing),
            models.CheckConstraint(
                condition=Q(standing="imported") | (Q(written_by__isnull=False) & ~Q(why="")),
                name="feature_record_by_a_person_says_why",
            ),
            models.CheckConstraint(
                condition=Q(number__gte=1, place__gte=1)
                & (Q(place=1, previous="") | Q(place__gt=1, previous__regex="^[0-9a-f]{64}$"))
                & Q(digest__regex="^[0-9a-f]{64}$"),
                name="feature_record_stands_in_the_chain",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.code}, record {self.number}"
