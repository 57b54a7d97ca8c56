"""Pieces found or sold together."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from catalogue.member_examples.models.examples import Example
from catalogue.member_examples.words import Together
from catalogue.reference.models.fields import CodeField, one_of


class ExampleSet(models.Model):
    """Examples that were found or sold together, and whether they belonged together from the beginning."""

    code = CodeField(unique=True)
    name = models.CharField(max_length=200)
    together = models.CharField(max_length=8, choices=Together.choices, default=Together.UNKNOWN)
    fasten = models.CharField(
        max_length=8,
        choices=Together.choices,
        default=Together.UNKNOWN,
        help_text="whether the pieces fasten to each other, were they made to",
    )
    grounds = models.TextField(blank=True, default="", help_text="why that is thought")
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="example_sets")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    examples = models.ManyToManyField(Example, through="ExampleInSet", related_name="sets")

    class Meta:
        ordering = ["code"]
        constraints = [
            one_of("together", Together),
            one_of("fasten", Together),
            models.CheckConstraint(
                condition=Q(together=Together.UNKNOWN) | ~Q(grounds=""), name="set_says_on_what_grounds"
            ),
        ]

    def __str__(self) -> str:
        return self.name


class ExampleInSet(models.Model):
    """One piece of a set."""

    example_set = models.ForeignKey(ExampleSet, on_delete=models.CASCADE, related_name="places")
    example = models.ForeignKey(Example, on_delete=models.CASCADE, related_name="places_in_sets")
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["example_set", "example"], name="example_stands_once_in_its_set")
        ]

    def __str__(self) -> str:
        return f"{self.example_set_id}: {self.example_id}"
