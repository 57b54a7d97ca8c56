"""Scans and photographs of sources: the page, the label, the picture that a claim rests on."""

from django.db import models
from django.db.models import Q
from django.utils import timezone

from catalogue.reference.models.evidence import Source
from catalogue.reference.words import NamesOnScan


class SourceScan(models.Model):
    """One picture of a source, taken in like members' photographs. Nobody but who put it in and who decides sees it
    until it is `shown`. `key` names its files (`photographs/keeping.py`); it is empty once they are gone.
    """

    source = models.ForeignKey(Source, on_delete=models.PROTECT, related_name="scans")
    key = models.CharField(max_length=32, blank=True, default="")
    width = models.PositiveIntegerField(help_text="of the largest size kept")
    height = models.PositiveIntegerField()
    sha256 = models.CharField(max_length=64, help_text="of the picture as it was sent in")
    shows = models.CharField(max_length=300, blank=True, default="", help_text="what is to be seen, in words")
    credit = models.CharField(max_length=120, blank=True, default="")
    licence = models.CharField(max_length=60, blank=True, default="")
    names = models.CharField(max_length=10, choices=NamesOnScan.choices, blank=True, default="")
    blurred = models.BooleanField(default=False, help_text="a part of it was made unreadable")
    shown = models.BooleanField(default=False)
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(names="") | Q(names__in=NamesOnScan.values), name="scan_names_are_known"
            ),
            models.CheckConstraint(condition=Q(width__gte=1, height__gte=1), name="scan_has_a_size"),
            models.CheckConstraint(
                condition=Q(key="") | Q(key__regex=r"^[0-9a-f]{32}$"), name="scan_has_its_files_or_none"
            ),
            models.CheckConstraint(condition=Q(sha256__regex=r"^[0-9a-f]{64}$"), name="scan_sha256_is_a_digest"),
            models.CheckConstraint(
                condition=Q(shown=False)
                | ~Q(key="") & ~Q(shows="") & ~Q(credit="") & Q(names__in=[NamesOnScan.NONE, NamesOnScan.MASKED]),
                name="scan_that_is_shown_says_what_and_whose_and_hides_names",
            ),
            models.UniqueConstraint(
                fields=["source", "sha256"], condition=~Q(key=""), name="picture_stands_once_at_its_source"
            ),
        ]

    def __str__(self) -> str:
        return self.shows or f"scan {self.pk}"
