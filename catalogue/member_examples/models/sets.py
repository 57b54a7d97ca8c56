"""Pieces found or sold together."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from catalogue.member_examples.models.examples import Example
from catalogue.member_examples.words import Together
from catalogue.reference.models.fields import CodeField, one_of


class StandingSets(models.Manager):
    """Without those that were dissolved."""

    def get_queryset(self):
        return super().get_queryset().filter(dissolved_at__isnull=True)


class ExampleSet(models.Model):
    """Examples that were found or sold together, and whether they belonged together from the beginning. Who made it
    can dissolve it, and take that back."""

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
    made_once = models.UUIDField(
        null=True, blank=True, unique=True, editable=False, help_text="given with the form: a second tap is the same"
    )
    revision = models.PositiveIntegerField(
        default=0, editable=False, help_text="grows with every change; a change names the one it began with"
    )
    dissolved_at = models.DateTimeField(null=True, blank=True, editable=False)
    dissolved_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, editable=False, on_delete=models.PROTECT, related_name="+"
    )
    examples = models.ManyToManyField(Example, through="ExampleInSet", related_name="sets")

    objects = StandingSets()
    with_dissolved = models.Manager()

    class Meta:
        ordering = ["code"]
        constraints = [
            one_of("together", Together),
            one_of("fasten", Together),
            models.CheckConstraint(
                condition=Q(together=Together.UNKNOWN) | ~Q(grounds=""), name="set_says_on_what_grounds"
            ),
            models.CheckConstraint(
                condition=Q(dissolved_at__isnull=True, dissolved_by__isnull=True)
                | Q(dissolved_at__isnull=False, dissolved_by__isnull=False),
                name="dissolved_set_says_by_whom_and_when",
            ),
            models.CheckConstraint(condition=~Q(name=""), name="set_has_a_name"),
        ]

    def __str__(self) -> str:
        return self.name


class ExampleInSet(models.Model):
    """One piece of a set."""

    example_set = models.ForeignKey(ExampleSet, on_delete=models.CASCADE, related_name="places")
    example = models.ForeignKey(Example, on_delete=models.CASCADE, related_name="places_in_sets")
    position = models.PositiveIntegerField(default=0)
    added_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="+",
        help_text="empty: who made the set",
    )

    class Meta:
        ordering = ["position", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["example_set", "example"], name="example_stands_once_in_its_set")
        ]

    def __str__(self) -> str:
        return f"{self.example_set_id}: {self.example_id}"


class KeptOutOfSet(models.Model):
    """That the owner took a piece out of somebody else's set: only they put it back."""

    example_set = models.ForeignKey(ExampleSet, on_delete=models.CASCADE, related_name="kept_out")
    example = models.ForeignKey(Example, on_delete=models.CASCADE, related_name="+")

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["example_set", "example"], name="piece_is_kept_out_of_a_set_once")
        ]

    def __str__(self) -> str:
        return f"{self.example_set_id}: {self.example_id}"
