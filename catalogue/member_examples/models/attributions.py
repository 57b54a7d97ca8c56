"""What people hold a piece to be, and what moderators decided about it."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils import timezone

from catalogue.member_examples.models.examples import Example
from catalogue.member_examples.words import AttributedBy, DecisionKind, Held
from catalogue.reference.models import IssueVersion
from catalogue.reference.models.fields import one_of


class Attribution(models.Model):
    """Which version somebody holds an example to be, and why. Written once; a later one of the same person supersedes
    it and overwrites nothing."""

    example = models.ForeignKey(Example, on_delete=models.CASCADE, related_name="attributions")
    by = models.CharField(max_length=8, choices=AttributedBy.choices, default=AttributedBy.MEMBER)
    member = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="attributions",
        help_text="empty for the site's own identification",
    )
    held = models.CharField(max_length=16, choices=Held.choices, default=Held.VERSION)
    version = models.ForeignKey(
        IssueVersion, null=True, blank=True, on_delete=models.PROTECT, related_name="attributions"
    )
    grounds = models.TextField()
    chance = models.FloatField(null=True, blank=True, help_text="how sure the site's own identification was, 0 to 1")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["made_at", "pk"]
        constraints = [
            one_of("by", AttributedBy),
            one_of("held", Held),
            models.CheckConstraint(
                condition=Q(held=Held.VERSION, version__isnull=False) | ~Q(held=Held.VERSION) & Q(version__isnull=True),
                name="attribution_names_a_version_or_says_why_not",
            ),
            models.CheckConstraint(
                condition=Q(by=AttributedBy.ENGINE, member__isnull=True)
                | ~Q(by=AttributedBy.ENGINE) & Q(member__isnull=False, chance__isnull=True),
                name="attribution_is_by_somebody",
            ),
            models.CheckConstraint(
                condition=Q(chance__isnull=True) | Q(chance__gte=0, chance__lte=1),
                name="attribution_chance_is_a_chance",
            ),
            models.CheckConstraint(condition=~Q(grounds=""), name="attribution_has_grounds"),
        ]
        indexes = [models.Index(fields=["example", "made_at"])]

    def __str__(self) -> str:
        return str(self.version or self.get_held_display())


class ExampleDecision(models.Model):
    """A moderator's decision on an example, with its reason. Written once; never on one's own piece."""

    example = models.ForeignKey(Example, on_delete=models.PROTECT, related_name="decisions")
    moderator = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="example_decisions")
    owner = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        on_delete=models.PROTECT,
        related_name="+",
        editable=False,
        help_text="whose piece it was, so that the table itself refuses decisions on one's own",
    )
    decision = models.CharField(max_length=16, choices=DecisionKind.choices)
    held_as = models.ForeignKey(
        IssueVersion,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="+",
        help_text="the version under which the society keeps the piece from now on",
    )
    reason = models.TextField()
    sending = models.PositiveSmallIntegerField(editable=False, help_text="which sending of the example it answers")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    ANSWERS = (DecisionKind.ACCEPTED, DecisionKind.RETURNED, DecisionKind.DECLINED)
    KEEPING = (DecisionKind.ACCEPTED, DecisionKind.ATTRIBUTED_ANEW)

    class Meta:
        ordering = ["made_at", "pk"]
        constraints = [
            one_of("decision", DecisionKind),
            models.CheckConstraint(condition=~Q(moderator=F("owner")), name="nobody_decides_on_their_own_example"),
            models.CheckConstraint(condition=~Q(reason=""), name="example_decision_has_a_reason"),
            models.CheckConstraint(
                condition=Q(held_as__isnull=True)
                | Q(decision__in=[DecisionKind.ACCEPTED, DecisionKind.ATTRIBUTED_ANEW]),
                name="only_a_keeping_decision_names_a_version",
            ),
            models.UniqueConstraint(
                fields=["example", "sending"],
                condition=Q(decision__in=[DecisionKind.ACCEPTED, DecisionKind.RETURNED, DecisionKind.DECLINED]),
                name="one_answer_to_each_sending_of_an_example",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.example_id} {self.decision}"

    def save(self, *args, **kwargs):
        self.owner_id = self.example.owner_id
        super().save(*args, **kwargs)
