"""Stock numbers and the forms in which a service wrote them."""

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import F, Q

from catalogue.reference.models.fields import CodeField, UncertainDateField, codes_apart
from catalogue.reference.models.versions import IssueVersion
from catalogue.reference.number_forms import fault_in_form, fits
from catalogue.reference.numbers import bare_number
from catalogue.reference.words import VersionKind


class NumberForm(models.Model):
    """How a service wrote one kind of number; `pattern` in the notation that DEVELOPERS.md explains."""

    code = CodeField(unique=True)
    name = models.CharField(max_length=200)
    groups = models.TextField(
        blank=True, default="", help_text="what each group means, semicolons between: 1 class; 2 running number"
    )
    pattern = models.CharField(
        max_length=120,
        help_text="9 is one figure, 9{2-4} two to four figures, A any one capital letter; round brackets mark the "
        "groups, counted from 1; a backslash makes the sign behind it stand for itself; all other signs do anyway. "
        "(99)-(999)-(99) reads 27-114-06. TRI\\AL 5\\9 / No. (99) reads TRIAL 59 / No. 12: there A and 9 are "
        "themselves, and space, stroke, space stands for a new line.",
    )
    year_group = models.PositiveSmallIntegerField(
        null=True, blank=True, help_text="the group that holds the year, in two or four figures"
    )
    check_rule = models.CharField(
        max_length=200,
        blank=True,
        default="",
        help_text="what groups of every true number keep: group 1 lies between 1 and 40 and group 2 is not 0; or "
        "group 4 = (sum of all figures of groups 1 to 3) mod 10",
    )
    years = UncertainDateField()
    of_kind = models.CharField(
        max_length=20,
        choices=VersionKind,
        blank=True,
        default="",
        help_text="if pieces of one kind of version alone carry such a number, as the serial of a trial",
    )
    example = models.CharField(max_length=80, blank=True, default="")
    note = models.TextField(blank=True, default="")

    class Meta:
        ordering = ["code"]
        constraints = [codes_apart()]

    def __str__(self) -> str:
        return self.name

    def clean(self):
        super().clean()
        if fault := fault_in_form(self.pattern, self.year_group, self.example, self.check_rule):
            field, _, wanted = fault
            raise ValidationError({field: f"This should be {wanted}."})


class StockNumber(models.Model):
    """A number that labels of a version carry, and when. One number may name several versions."""

    number = models.CharField(max_length=80)
    bare = models.CharField(max_length=80, editable=False, db_index=True)
    form = models.ForeignKey(NumberForm, null=True, blank=True, on_delete=models.PROTECT, related_name="numbers")
    version = models.ForeignKey(IssueVersion, on_delete=models.CASCADE, related_name="stock_numbers")
    first_year = models.SmallIntegerField(null=True, blank=True)
    last_year = models.SmallIntegerField(null=True, blank=True)
    misprint_of = models.CharField(
        max_length=80, blank=True, default="", help_text="the right number, if this is a misprint"
    )
    note = models.TextField(blank=True, default="")

    class Meta:
        ordering = ["version", "first_year", "number"]
        constraints = [
            models.UniqueConstraint(fields=["number", "version"], name="number_stands_once_in_its_version"),
            models.CheckConstraint(
                condition=Q(first_year__isnull=True) | Q(last_year__isnull=True) | Q(first_year__lte=F("last_year")),
                name="number_years_run_upward",
                violation_error_message="The last year on labels lies before the first.",
            ),
        ]

    def __str__(self) -> str:
        return self.number

    def clean(self):
        super().clean()
        if self.number and not bare_number(self.number):
            raise ValidationError({"number": "No letter and no figure stands in it. Write the number as on the label."})
        if self.misprint_of and bare_number(self.misprint_of) == bare_number(self.number):
            raise ValidationError({"misprint_of": "This is the number itself. Write the right number, or nothing."})
        if self.form and not self.misprint_of and not fits(self.form.pattern, self.number):
            words = f"{self.number} is not written as {self.form.pattern}. Choose another form, or none."
            raise ValidationError({"form": words})

    def save(self, *args, **kwargs):
        self.bare = bare_number(self.number)
        super().save(*args, **kwargs)
