"""One physical piece."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from catalogue.member_examples.words import Condition, ExampleState, NameOnLabel
from catalogue.reference.models import GarmentType, IssueVersion, Maker
from catalogue.reference.models.fields import CodeField, UncertainDateField, one_of


class ExampleQuerySet(models.QuerySet):
    def accepted(self):
        """What every reader may see, and what counts as evidence."""
        return self.filter(state=ExampleState.ACCEPTED)


class Example(models.Model):
    """One physical piece in a member's hands. What was seen on it and what it is held to be stand in tables of their
    own."""

    code = CodeField(unique=True)
    owner = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="examples")
    garment_type = models.ForeignKey(
        GarmentType,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="examples",
        help_text="empty while the owner is not sure",
    )
    state = models.CharField(max_length=10, choices=ExampleState.choices, default=ExampleState.DRAFT)
    held_as = models.ForeignKey(
        IssueVersion,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="held_examples",
        help_text="the version under which the society now keeps an accepted piece; empty: none of the reference",
    )
    sold_as = models.CharField(max_length=200, blank=True, default="", help_text="in the seller's own words")
    sold_as_version = models.ForeignKey(
        IssueVersion,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="+",
        help_text="the version that the seller named",
    )
    maker = models.ForeignKey(Maker, null=True, blank=True, on_delete=models.PROTECT, related_name="examples")
    label_year = models.SmallIntegerField(null=True, blank=True, help_text="the year printed on a label")
    contract = models.CharField(max_length=80, blank=True, default="", help_text="the contract number on a label")
    size_mark = models.CharField(max_length=40, blank=True, default="")
    condition = models.CharField(max_length=10, choices=Condition.choices, blank=True, default="")
    complete = models.BooleanField(null=True, blank=True, help_text="empty: not recorded")
    label_legible = models.BooleanField(null=True, blank=True, help_text="empty: not recorded")
    mould = models.BooleanField(null=True, blank=True, help_text="smell or mould; empty: not recorded")
    name_on_label = models.CharField(max_length=10, choices=NameOnLabel.choices, default=NameOnLabel.NOT_LOOKED)
    provenance = models.TextField(blank=True, default="", help_text="what is said of its history, and by whom")
    repairs = models.TextField(blank=True, default="")
    note = models.TextField(blank=True, default="")
    seen_on = UncertainDateField()
    venue = models.CharField(max_length=120, blank=True, default="", help_text="the kind of place, never an address")
    begun_held = models.CharField(
        max_length=90,
        blank=True,
        default="",
        help_text="what its owner chose before there are grounds",
    )
    begun_grounds = models.TextField(blank=True, default="", help_text="grounds its owner wrote, no choice made yet")
    begun_once = models.UUIDField(
        null=True, blank=True, unique=True, editable=False, help_text="given with the form that began it"
    )
    sent_once = models.UUIDField(
        null=True, blank=True, unique=True, editable=False, help_text="given with the form: a second tap is the same"
    )
    times_sent = models.PositiveSmallIntegerField(default=0, editable=False)
    revision = models.PositiveIntegerField(
        default=0, editable=False, help_text="grows with every save; a save names the one it began with"
    )
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    changed_at = models.DateTimeField(default=timezone.now, editable=False)
    submitted_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects = ExampleQuerySet.as_manager()

    class Meta:
        ordering = ["code"]
        constraints = [
            one_of("state", ExampleState),
            one_of("condition", Condition, or_empty=True),
            one_of("name_on_label", NameOnLabel),
            models.CheckConstraint(
                condition=Q(held_as__isnull=True) | Q(state=ExampleState.ACCEPTED),
                name="only_an_accepted_example_is_held_as_a_version",
            ),
            models.CheckConstraint(
                condition=Q(garment_type__isnull=False) | ~Q(state=ExampleState.ACCEPTED),
                name="accepted_example_has_a_garment_type",
            ),
            models.CheckConstraint(
                condition=Q(state=ExampleState.DRAFT) | Q(submitted_at__isnull=False, times_sent__gte=1),
                name="example_that_left_its_owner_was_sent",
            ),
            models.CheckConstraint(
                condition=Q(label_year__isnull=True) | Q(label_year__gte=1700, label_year__lte=2200),
                name="example_label_year_is_a_year",
            ),
        ]
        indexes = [
            models.Index(fields=["state", "submitted_at"]),
            models.Index(fields=["held_as", "state"]),
            models.Index(fields=["garment_type", "state"]),
        ]

    def __str__(self) -> str:
        return self.code

    @property
    def state_words(self) -> str:
        return ExampleState(self.state).label

    @property
    def condition_words(self) -> str:
        return Condition(self.condition).label if self.condition else ""
