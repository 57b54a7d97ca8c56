"""Who issued, who made, and what every claim rests on."""

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import F, Q

from catalogue.reference.models.fields import CodeField, UncertainDateField, codes_apart, one_of
from catalogue.reference.resting import codes_that_are_cited
from catalogue.reference.uncertain_dates import in_words
from catalogue.reference.words import FIND_AGAIN, Grade, SourceKind, Stance


class Issuer(models.Model):
    """A service that gave clothing out."""

    code = CodeField(unique=True)
    name = models.CharField(max_length=200)
    date = UncertainDateField()
    place = models.CharField(max_length=200, blank=True, default="")
    predecessor = models.ForeignKey("self", null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    successor = models.ForeignKey("self", null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    note = models.TextField(blank=True, default="")

    class Meta:
        ordering = ["name"]
        constraints = [codes_apart()]

    def __str__(self) -> str:
        return self.name

    def clean(self):
        super().clean()
        for before_or_after in ("predecessor", "successor"):
            if self.pk and getattr(self, f"{before_or_after}_id") == self.pk:
                raise ValidationError({before_or_after: "This is the issuer itself. Choose another, or none."})


class Maker(models.Model):
    """A works, contractor, depot or copyist."""

    code = CodeField(unique=True)
    name = models.CharField(max_length=200)
    place = models.CharField(max_length=200, blank=True, default="")
    first_year = models.PositiveSmallIntegerField(null=True, blank=True)
    last_year = models.PositiveSmallIntegerField(null=True, blank=True)
    kind = models.CharField(max_length=80, blank=True, default="")
    mark = models.CharField(max_length=200, blank=True, default="", help_text="what stands on its labels")
    habits = models.TextField(blank=True, default="", help_text="habits of making, never a version of their own")

    class Meta:
        ordering = ["name"]
        constraints = [
            codes_apart(),
            models.CheckConstraint(
                condition=Q(first_year__isnull=True) | Q(last_year__isnull=True) | Q(first_year__lte=F("last_year")),
                name="maker_begins_before_it_ends",
                violation_error_message="The last year lies before the first: a maker begins before it ends.",
            ),
        ]

    def __str__(self) -> str:
        return self.name


class SourceQuerySet(models.QuerySet):
    def cited(self) -> "SourceQuerySet":
        """Those that some claim in force, a size table, a view of an open question or an approved change that stands
        rests on; citations of older records do not count."""
        claims = Citation.objects.filter(
            Q(cell__isnull=True) | Q(cell__record__version__current_record=models.F("cell__record"))
        )
        rests = Q(pk__in=claims.values("source")) | Q(views__isnull=False) | Q(size_lengths__isnull=False)
        return self.filter(rests | Q(code__in=codes_that_are_cited())).distinct()

    def uncited(self) -> "SourceQuerySet":
        """All others."""
        return self.exclude(pk__in=self.model.objects.cited().order_by().values("pk"))


class Source(models.Model):
    """A paper, photograph, label, book or recollection, with what is needed to find it again."""

    code = CodeField(unique=True)
    kind = models.CharField(max_length=20, choices=SourceKind.choices)
    title = models.CharField(max_length=300)
    date = UncertainDateField()
    holder = models.CharField(
        max_length=200, blank=True, default="", help_text="who keeps it; of a testimony who told it, as “a storeman”"
    )
    shelf_mark = models.CharField(
        max_length=200, blank=True, default="", help_text="number of file, page, print or recording where it is kept"
    )
    grade = models.CharField(max_length=1, choices=Grade.choices)
    personal_data = models.BooleanField(
        default=False, help_text="names or faces of private persons: mask before showing"
    )
    note = models.TextField(blank=True, default="")

    objects = SourceQuerySet.as_manager()

    class Meta:
        ordering = ["code"]
        constraints = [codes_apart(), one_of("grade", Grade), one_of("kind", SourceKind)]

    def __str__(self) -> str:
        return self.title

    def found_by(self) -> list[tuple[str, str]]:
        """What it takes to find it again, as far as it is recorded: what each is called for its kind, and its words."""
        called = FIND_AGAIN[SourceKind(self.kind)]
        told = [
            (called.date, in_words(self.date)), (called.holder, self.holder), (called.shelf_mark, self.shelf_mark),
        ]  # fmt: skip
        return [(words, value) for words, value in told if value]

    def lacks(self) -> list[str]:
        """What it cannot be found again without and is not recorded, as it is called for its kind."""
        called = FIND_AGAIN[SourceKind(self.kind)]
        return [getattr(called, name) for name in called.needed if not getattr(self, name)]

    def kept_where(self) -> str:
        """Its date, who keeps it and where there, as a citation ends."""
        return ", ".join(filter(None, (in_words(self.date), self.holder, self.shelf_mark)))


# What a citation can speak of, one at a time.
CLAIMS = ("version", "cell", "stock_number", "issuer", "companion")


def has_one_claim() -> Q:
    """Exactly one of the claims is named."""
    one = Q()
    for claim in CLAIMS:
        one |= Q(**{f"{other}__isnull": other != claim for other in CLAIMS})
    return one


class Citation(models.Model):
    """One source behind, or against, one claim. Exactly one of the claims is filled in."""

    source = models.ForeignKey(Source, on_delete=models.PROTECT, related_name="citations")
    stance = models.CharField(max_length=12, choices=Stance.choices, default=Stance.SUPPORTS)
    version = models.ForeignKey(
        "IssueVersion", null=True, blank=True, on_delete=models.CASCADE, related_name="citations"
    )
    cell = models.ForeignKey("ProfileCell", null=True, blank=True, on_delete=models.CASCADE, related_name="citations")
    stock_number = models.ForeignKey(
        "StockNumber", null=True, blank=True, on_delete=models.CASCADE, related_name="citations"
    )
    issuer = models.ForeignKey(Issuer, null=True, blank=True, on_delete=models.CASCADE, related_name="citations")
    companion = models.ForeignKey(
        "Companion", null=True, blank=True, on_delete=models.CASCADE, related_name="citations"
    )
    position = models.PositiveIntegerField(default=0)

    CLAIMS = CLAIMS

    class Meta:
        ordering = ["position"]
        constraints = [
            one_of("stance", Stance),
            models.CheckConstraint(
                name="citation_has_one_claim",
                condition=has_one_claim(),
                violation_error_message="A citation speaks of one thing: a version, cell, number, issuer or pair.",
            ),
            *(
                models.UniqueConstraint(
                    fields=["source", claim],
                    condition=Q(**{f"{claim}__isnull": False}),
                    name=f"source_is_cited_once_for_a_{claim}",
                    violation_error_message="This source stands here already; one source is cited once for one claim.",
                )
                for claim in CLAIMS
            ),
        ]

    def __str__(self) -> str:
        return f"{self.source_id} {self.stance}"
