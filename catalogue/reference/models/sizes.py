"""Documented size tables: how long the garment itself is to be for each size mark, as a paper gives it."""

from django.db import models
from django.db.models import Q, Value
from django.db.models.functions import Lower, Replace

from catalogue.reference.models.evidence import Source
from catalogue.reference.models.fields import one_of
from catalogue.reference.models.versions import IssueVersion
from catalogue.reference.words import LONGEST_MARK, LONGEST_MM, Measured


class SizeLength(models.Model):
    """One cell of a version's size table: a length of the garment laid flat, in millimetres, for one mark, and the
    paper that gives it. Nothing stands here without one: what pieces measure is worked out from the pieces."""

    version = models.ForeignKey(IssueVersion, on_delete=models.CASCADE, related_name="size_lengths")
    mark = models.CharField(
        "size mark", max_length=LONGEST_MARK, help_text="as it stands on labels, such as 4 or 160/88"
    )
    what = models.CharField("length", max_length=12, choices=Measured.choices)
    mm = models.PositiveSmallIntegerField("millimetres")
    source = models.ForeignKey(Source, on_delete=models.PROTECT, related_name="size_lengths")

    class Meta:
        ordering = ["version", "mark", "what"]
        constraints = [
            one_of("what", Measured),
            models.CheckConstraint(
                condition=Q(mm__gte=1, mm__lte=LONGEST_MM),
                name="size_length_is_a_length",
                violation_error_message=f"A length is from 1 to {LONGEST_MM} mm.",
            ),
            models.CheckConstraint(
                condition=~Q(mark=""), name="size_length_has_a_mark", violation_error_message="Say for which size mark."
            ),
            # As labels are compared: 160 / 88 and 160/88 are one mark.
            models.UniqueConstraint(
                "version",
                Lower(Replace("mark", Value(" "), Value(""))),
                "what",
                name="length_of_a_mark_stands_once",
                violation_error_message="This mark has this length already; capitals and spaces make no other mark.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.mark}, {self.get_what_display().lower()} {self.mm} mm"
