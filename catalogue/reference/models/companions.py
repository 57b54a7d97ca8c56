"""Which versions go with which: made to fit each other, or worn together."""

from django.db import models
from django.db.models import F, Q
from django.db.models.functions import Greatest, Least

from catalogue.reference.models.fields import one_of
from catalogue.reference.models.garments import Feature
from catalogue.reference.models.versions import IssueVersion
from catalogue.reference.words import GoesWith


class Companion(models.Model):
    """That a version fits another, or was worn with it; said once for both, whichever is named first."""

    version = models.ForeignKey(IssueVersion, on_delete=models.CASCADE, related_name="companions")
    other = models.ForeignKey(IssueVersion, on_delete=models.CASCADE, related_name="companion_of")
    goes_with = models.CharField(max_length=10, choices=GoesWith.choices, default=GoesWith.FITS)
    joined_by = models.ForeignKey(
        Feature,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="+",
        help_text="the feature of both that shows what joins them, such as loops and buttons",
    )
    note = models.TextField(blank=True, default="")

    class Meta:
        ordering = ["version", "other", "goes_with"]
        constraints = [
            one_of("goes_with", GoesWith),
            models.CheckConstraint(
                condition=~Q(version=F("other")),
                name="companion_is_another_version",
                violation_error_message="A version goes with another one, not with itself.",
            ),
            models.CheckConstraint(
                condition=Q(joined_by__isnull=True) | Q(goes_with=GoesWith.FITS),
                name="only_what_fits_is_joined",
                violation_error_message="What joins them is said of versions that fit each other.",
            ),
            models.UniqueConstraint(
                Least("version", "other"),
                Greatest("version", "other"),
                "goes_with",
                name="companions_are_said_once",
                violation_error_message="That is said already of these two, perhaps the other way round.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.version} {GoesWith(self.goes_with).label} {self.other}"
