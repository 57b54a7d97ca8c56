"""Labels, alterations and measurements of one piece."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from catalogue.member_examples.models.examples import Example
from catalogue.member_examples.words import (
    AlterationKind,
    AlteredBy,
    Attachment,
    LabelKind,
    LabelOrigin,
)
from catalogue.reference.models import Feature
from catalogue.reference.models.fields import one_of
from catalogue.reference.numbers import bare_number
from catalogue.reference.words import LONGEST_MM, MEASURED_FROM, Measured


class Label(models.Model):
    """One label, stamp or mark, or the trace that it left. A piece has any number of them."""

    example = models.ForeignKey(Example, on_delete=models.CASCADE, related_name="labels")
    kind = models.CharField(max_length=16, choices=LabelKind.choices, default=LabelKind.MAIN)
    place = models.CharField(max_length=80, blank=True, default="", help_text="where on the piece")
    text = models.TextField(blank=True, default="", help_text="letter by letter, line by line")
    bare = models.CharField(max_length=400, blank=True, default="", editable=False, db_index=True)
    remark = models.CharField(max_length=200, blank=True, default="", help_text="what is not on it, such as: cut out")
    attachment = models.CharField(max_length=10, choices=Attachment.choices, default=Attachment.NOT_KNOWN)
    origin = models.CharField(max_length=10, choices=LabelOrigin.choices, default=LabelOrigin.NOT_KNOWN)
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "pk"]
        constraints = [
            one_of("kind", LabelKind),
            one_of("attachment", Attachment),
            one_of("origin", LabelOrigin),
            models.CheckConstraint(
                condition=~Q(text="") | ~Q(remark="") | Q(origin=LabelOrigin.TRACE), name="label_says_something"
            ),
        ]

    def __str__(self) -> str:
        return self.text or self.remark or self.get_origin_display()

    def save(self, *args, **kwargs):
        self.bare = bare_text(self.text)
        super().save(*args, **kwargs)


def bare_text(text: str) -> str:
    """Letters and figures only, as a search compares them; what is past the field's end is not searched."""
    return bare_number(text)[:400]


class StandingAlterations(models.Manager):
    """Without those that were taken back by who added them, or by a moderator."""

    def get_queryset(self):
        return super().get_queryset().filter(taken_back_at__isnull=True)


# The same as `Alteration.counts`, as a question to the database: from the alteration's own table.
COUNTING = Q(added_by__isnull=True) | Q(confirmed_by__isnull=False)


class Alteration(models.Model):
    """What was done to one place of a piece after it was issued: in the owner's record, or added by somebody once the
    piece was accepted. What was added is never changed; it can be taken back. What another member added is that
    person's view, until the owner or a moderator confirms it."""

    example = models.ForeignKey(Example, on_delete=models.CASCADE, related_name="alterations")
    kind = models.CharField(max_length=12, choices=AlterationKind.choices)
    part = models.CharField(max_length=80, help_text="in words, such as: sleeves")
    view = models.CharField(max_length=20, blank=True, default="")
    region = models.CharField(max_length=40, blank=True, default="", help_text="empty: not one place")
    features = models.ManyToManyField(
        Feature, blank=True, related_name="+", help_text="features that say nothing of the version any more"
    )
    traces = models.TextField(blank=True, default="", help_text="what still shows it, such as needle holes")
    by = models.CharField(max_length=10, choices=AlteredBy.choices, default=AlteredBy.NOT_KNOWN)
    position = models.PositiveIntegerField(default=0)
    added_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="+",
        help_text="who saw it once the piece was accepted; empty: it stands in the owner's record",
    )
    added_at = models.DateTimeField(null=True, blank=True, editable=False)
    confirmed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="+",
        help_text="the owner or a moderator who holds it to be so; empty: one person's view",
    )
    confirmed_at = models.DateTimeField(null=True, blank=True, editable=False)
    taken_back_at = models.DateTimeField(null=True, blank=True, editable=False)
    taken_back_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, editable=False, on_delete=models.PROTECT, related_name="+"
    )

    objects = StandingAlterations()
    with_taken_back = models.Manager()

    class Meta:
        ordering = ["position", "pk"]
        constraints = [
            one_of("kind", AlterationKind),
            one_of("by", AlteredBy),
            models.CheckConstraint(condition=~Q(part=""), name="alteration_names_its_part"),
            models.CheckConstraint(
                condition=Q(added_by__isnull=True, added_at__isnull=True)
                | Q(added_by__isnull=False, added_at__isnull=False),
                name="added_alteration_says_by_whom_and_when",
            ),
            models.CheckConstraint(
                condition=Q(taken_back_at__isnull=True, taken_back_by__isnull=True)
                | Q(taken_back_at__isnull=False, taken_back_by__isnull=False, added_by__isnull=False),
                name="only_an_added_alteration_is_taken_back",
            ),
            models.CheckConstraint(condition=Q(region="") | ~Q(view=""), name="altered_region_has_its_view"),
            models.CheckConstraint(
                condition=Q(confirmed_by__isnull=True, confirmed_at__isnull=True)
                | Q(confirmed_by__isnull=False, confirmed_at__isnull=False, added_by__isnull=False),
                name="only_an_added_alteration_is_confirmed_by_whom_and_when",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.part} {self.get_kind_display().lower()}"

    @property
    def counts(self) -> bool:
        """Whether it stands in the title and its features say nothing of the version any more."""
        return self.added_by_id is None or self.confirmed_by_id is not None


class Measurement(models.Model):
    """One length, taken with the garment laid flat; kept in millimetres, with what was typed."""

    example = models.ForeignKey(Example, on_delete=models.CASCADE, related_name="measurements")
    what = models.CharField(max_length=12, choices=Measured.choices)
    mm = models.PositiveSmallIntegerField(verbose_name="millimetres")
    typed = models.CharField(max_length=40, blank=True, default="", help_text="as it was typed, such as: 22 in")
    method = models.CharField(max_length=120, blank=True, default="", help_text="where it differs from the usual way")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ["pk"]
        constraints = [
            one_of("what", Measured),
            models.CheckConstraint(condition=Q(mm__gte=1, mm__lte=LONGEST_MM), name="measurement_is_a_length"),
            models.UniqueConstraint(fields=["example", "what", "by"], name="person_measures_a_length_once"),
            models.UniqueConstraint(
                fields=["example", "what"], condition=Q(by__isnull=True), name="length_by_nobody_stands_once"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_what_display()} {self.mm} mm"

    @property
    def measured_from(self) -> str:
        return self.method or MEASURED_FROM[Measured(self.what)]
