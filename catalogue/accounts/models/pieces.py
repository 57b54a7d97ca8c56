"""What members hold and what they look for: a version, or any of a garment type."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone
from django.utils.functional import cached_property

PERSON = settings.AUTH_USER_MODEL
ONE_OF_THEM = Q(version__isnull=False, garment_type__isnull=True) | Q(version__isnull=True, garment_type__isnull=False)


class Piece(models.Model):
    """A version or a garment type, with a note; private unless its owner shows it."""

    version = models.ForeignKey(
        "catalogue.IssueVersion", on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    garment_type = models.ForeignKey(
        "catalogue.GarmentType", on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    note = models.CharField(max_length=500, blank=True, default="")
    is_shown = models.BooleanField("show it on my page", default=False)

    class Meta:
        abstract = True

    @property
    def subject(self):
        """The version, or the garment type when any version of it is meant."""
        return self.version or self.garment_type

    @property
    def names_retired(self) -> bool:
        """Whether the version is held to be none of its own any more; what was written down stays."""
        return bool(self.version and self.version.retired_why)

    @cached_property
    def now(self) -> list:
        """Versions that a retired one became, in the end."""
        return stands_now(self.version) if self.names_retired else []


def stands_now(version, seen: frozenset = frozenset()) -> list:
    """What a version is now: itself while in force, or all that a retired one became in the end; none where it became
    nothing. A question to the database for each retired version on the way."""
    if not version.retired_why:
        return [version]
    seen |= {version.pk}
    steps = version.successors.select_related("successor")
    found = [now for step in steps if step.successor_id not in seen for now in stands_now(step.successor, seen)]
    return list(dict.fromkeys(found))


class PieceQuerySet(models.QuerySet):
    def with_subjects(self):
        return self.select_related("version", "garment_type")

    def shown(self):
        return self.filter(is_shown=True)


class Holding(Piece):
    """A piece, or several alike, that a member holds."""

    member = models.ForeignKey(PERSON, on_delete=models.CASCADE, related_name="holdings")
    number = models.PositiveSmallIntegerField("how many", default=1)
    added_at = models.DateTimeField(default=timezone.now)

    objects = PieceQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(condition=ONE_OF_THEM, name="holding_of_a_version_or_a_type"),
            models.CheckConstraint(condition=Q(number__gte=1, number__lte=999), name="holding_of_one_or_more"),
        ]

    def __str__(self):
        return f"Holding {self.pk}"


class Want(Piece):
    """A piece that a member looks for, and what they would give for it."""

    class Condition(models.TextChoices):
        ANY = "", "any condition"
        POOR = "poor", "poor"
        WORN = "worn", "worn"
        GOOD = "good", "good"
        VERY_GOOD = "very good", "very good"
        UNISSUED = "unissued", "unissued"

    member = models.ForeignKey(PERSON, on_delete=models.CASCADE, related_name="wants")
    condition_at_least = models.CharField(max_length=10, choices=Condition.choices, blank=True, default=Condition.ANY)
    offers = models.CharField("what I offer", max_length=100, blank=True, default="")
    spare = models.ForeignKey(
        "catalogue.IssueVersion",
        verbose_name="a spare that I would give",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
    )
    since = models.DateField(default=timezone.localdate)

    objects = PieceQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [models.CheckConstraint(condition=ONE_OF_THEM, name="want_of_a_version_or_a_type")]

    def __str__(self):
        return f"Want {self.pk}"
