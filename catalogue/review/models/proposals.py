"""Changes of the reference that somebody proposes, what is said of them, and how they were decided."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from catalogue.reference.backing_rows import BACKINGS
from catalogue.reference.models import Feature, GarmentType, IssueVersion, OpenQuestion, SourceScan, VersionRecord
from catalogue.review.models.features import FeatureRecord
from catalogue.review.models.threads import ThreadWord
from catalogue.review.proposals.words import DecisionOn, ProposalKind, ProposalState, Weight

# What a decision that changes the reference wrote, one of them.
WRITTEN = ("record", "feature_record", "question", "scan")
NONE_WRITTEN = Q(**{f"{name}__isnull": True for name in WRITTEN})


def one_written() -> Q:
    """Exactly one of them is named, or a record that versions rest on."""
    one = NONE_WRITTEN & ~Q(backing="")
    for name in WRITTEN:
        one |= Q(backing="", **{f"{other}__isnull": other != name for other in WRITTEN})
    return one


class ReferenceImport(models.Model):
    """An import of spreadsheets that became proposals, one for each changed version, to be decided together."""

    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="reference_imports")
    because = models.TextField()
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["-pk"]
        constraints = [models.CheckConstraint(condition=~Q(because=""), name="import_says_why")]

    def __str__(self) -> str:
        return f"import {self.pk}"


class Proposal(models.Model):
    """A change as data: the rows it wants otherwise, beside the rows as they stood when it was written.

    A row is a field of the version (`date`) or a feature with all its states (`feature:cuff`); of a feature or an open
    question one of their own fields. `base` holds every row as the proposal knows it, `rows` those that it changes;
    `based_on` is the record of that state. A split has every row twice, of the first and (`second:date`) of the second
    version that it makes, each beside that of the version that it divides.
    """

    kind = models.CharField(max_length=8, choices=ProposalKind.choices)
    state = models.CharField(max_length=10, choices=ProposalState.choices, default=ProposalState.DRAFT)
    weight = models.CharField(max_length=8, choices=Weight.choices, default=Weight.SMALL)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="proposals")
    garment_type = models.ForeignKey(GarmentType, on_delete=models.PROTECT, related_name="proposals")
    version = models.ForeignKey(IssueVersion, null=True, blank=True, on_delete=models.PROTECT, related_name="proposals")
    other = models.ForeignKey(
        IssueVersion,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="proposals_to_merge",
        help_text="of a merge the version that goes",
    )
    other_base = models.JSONField(default=dict, help_text="every row of it when this was written")
    feature = models.ForeignKey(Feature, null=True, blank=True, on_delete=models.PROTECT, related_name="proposals")
    question = models.ForeignKey(
        OpenQuestion, null=True, blank=True, on_delete=models.PROTECT, related_name="proposals"
    )
    scan = models.OneToOneField(SourceScan, null=True, blank=True, on_delete=models.PROTECT, related_name="proposal")
    backing = models.CharField(
        max_length=12, blank=True, default="", choices=[(table, one.sort) for table, one in BACKINGS.items()],
        help_text="the table of what versions rest on, where it is about a record of one",
    )  # fmt: skip
    backing_code = models.CharField(max_length=80, blank=True, default="", help_text="the code of that record")
    new_code = models.CharField(
        max_length=80, blank=True, default="", help_text="of a version, feature or other record that is to be made"
    )
    second_code = models.CharField(
        max_length=80, blank=True, default="", help_text="of a split the second version that is to be made"
    )
    based_on = models.ForeignKey(
        VersionRecord, null=True, blank=True, on_delete=models.PROTECT, related_name="proposals"
    )
    base = models.JSONField(default=dict)
    rows = models.JSONField(default=dict)
    grounds = models.TextField(blank=True, default="")
    sources = models.JSONField(default=list, help_text="codes of the sources that are cited for it")
    brought_in = models.ForeignKey(
        ReferenceImport, null=True, blank=True, on_delete=models.PROTECT, related_name="proposals"
    )
    revision = models.PositiveIntegerField(default=0)
    times_sent = models.PositiveIntegerField(default=0)
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    sent_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        ordering = ["sent_at", "pk"]
        indexes = [models.Index(fields=["state", "sent_at"])]
        constraints = [
            models.CheckConstraint(condition=Q(kind__in=ProposalKind.values), name="proposal_kind_is_known"),
            models.CheckConstraint(condition=Q(state__in=ProposalState.values), name="proposal_state_is_known"),
            models.CheckConstraint(condition=Q(weight__in=Weight.values), name="proposal_weight_is_known"),
            models.CheckConstraint(
                condition=Q(kind__in=["new", "feature", "question", "scan", "backing"]) | Q(version__isnull=False),
                name="proposal_changes_a_version_that_is_there",
            ),
            models.CheckConstraint(
                condition=Q(kind="merge", other__isnull=False) & ~Q(other=models.F("version"))
                | ~Q(kind="merge") & Q(other__isnull=True),
                name="merge_names_another_version_that_goes",
            ),
            models.CheckConstraint(
                condition=Q(kind="split") & ~Q(new_code="") & ~Q(second_code="") & ~Q(new_code=models.F("second_code"))
                | ~Q(kind="split") & Q(second_code=""),
                name="split_names_two_versions_that_it_makes",
            ),
            models.CheckConstraint(
                condition=Q(state="draft") | Q(sent_at__isnull=False, times_sent__gte=1) & ~Q(grounds=""),
                name="proposal_that_was_sent_has_grounds",
            ),
            models.CheckConstraint(
                condition=~Q(kind="new", state__in=["approved", "revoked"]) | Q(version__isnull=False),
                name="approved_new_version_is_there",
            ),
            models.CheckConstraint(
                condition=Q(kind="feature", version__isnull=True) & (Q(feature__isnull=False) | ~Q(new_code=""))
                | ~Q(kind="feature") & Q(feature__isnull=True),
                name="proposal_is_about_a_version_or_a_feature",
            ),
            models.CheckConstraint(
                condition=Q(kind="question", question__isnull=False, version__isnull=True)
                | ~Q(kind="question") & Q(question__isnull=True),
                name="proposal_on_a_question_names_it",
            ),
            models.CheckConstraint(
                condition=Q(kind="backing", version__isnull=True) & ~Q(backing="") & ~Q(backing_code="")
                | ~Q(kind="backing") & Q(backing="", backing_code=""),
                name="proposal_on_what_versions_rest_on_names_it",
            ),
            models.CheckConstraint(
                condition=Q(kind="scan", scan__isnull=False, version__isnull=True)
                | ~Q(kind="scan") & Q(scan__isnull=True),
                name="proposal_of_a_scan_names_it",
            ),
            models.CheckConstraint(
                condition=~Q(kind="feature", state__in=["approved", "revoked"]) | Q(feature__isnull=False),
                name="approved_new_feature_is_there",
            ),
        ]

    def __str__(self) -> str:
        return f"proposal {self.pk}"

    @property
    def about_code(self) -> str:
        """Of the version, feature, question or source that it is about, also of one that is to be made."""
        subject = self.version or self.feature or self.question or (self.scan.source if self.scan else None)
        return subject.code if subject else self.backing_code or self.new_code


class ProposalWord(ThreadWord):
    """One word of the thread of a proposal. Written once."""

    proposal = models.ForeignKey(Proposal, on_delete=models.PROTECT, related_name="words")

    class Meta(ThreadWord.Meta):
        constraints = [models.CheckConstraint(condition=~Q(text=""), name="word_on_a_proposal_says_something")]

    def __str__(self) -> str:
        return f"{self.proposal_id}, {self.made_at:%Y-%m-%d}"


class Decision(models.Model):
    """What somebody else than its author decided on one sending of a proposal, some of it in the place of a moderator
    who was away. The database refuses to change a row.

    `before`, `after`: the rows that were written, as they stood and as they stand since; empty where nothing was.
    """

    proposal = models.ForeignKey(Proposal, on_delete=models.PROTECT, related_name="decisions")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="decisions")
    in_place_of = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="decided_for"
    )
    kind = models.CharField(max_length=12, choices=DecisionOn.choices)
    sending = models.PositiveIntegerField()
    reason = models.TextField()
    record = models.OneToOneField(
        VersionRecord, null=True, blank=True, on_delete=models.PROTECT, related_name="decision"
    )
    feature_record = models.OneToOneField(
        FeatureRecord, null=True, blank=True, on_delete=models.PROTECT, related_name="decision"
    )
    question = models.ForeignKey(
        OpenQuestion, null=True, blank=True, on_delete=models.PROTECT, related_name="decisions",
        help_text="that was decided by it",
    )  # fmt: skip
    scan = models.ForeignKey(SourceScan, null=True, blank=True, on_delete=models.PROTECT, related_name="decisions")
    backing = models.CharField(
        max_length=100, blank=True, default="", help_text="table and code of what versions rest on, with : between"
    )
    before = models.JSONField(default=dict)
    after = models.JSONField(default=dict)
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["made_at", "pk"]
        constraints = [
            models.CheckConstraint(condition=Q(kind__in=DecisionOn.values), name="decision_kind_is_known"),
            models.CheckConstraint(condition=~Q(reason=""), name="decision_has_a_reason"),
            models.CheckConstraint(
                condition=Q(kind__in=["approved", "revoked"]) & one_written()
                | ~Q(kind__in=["approved", "revoked"]) & NONE_WRITTEN & Q(backing=""),
                name="decision_that_changes_the_reference_names_its_record",
            ),
            models.UniqueConstraint(
                fields=["proposal", "by", "kind", "sending"], name="person_decides_once_on_a_sending"
            ),
            models.UniqueConstraint(
                fields=["proposal", "in_place_of", "kind", "sending"], name="place_is_taken_once_on_a_sending"
            ),
            models.CheckConstraint(
                condition=Q(in_place_of__isnull=True) | ~Q(in_place_of=models.F("by")),
                name="nobody_stands_in_for_themself",
            ),
            *(
                models.UniqueConstraint(fields=["proposal"], condition=Q(kind=kind), name=f"proposal_is_{kind}_once")
                for kind in ("approved", "revoked")
            ),
        ]

    def __str__(self) -> str:
        return f"{self.proposal_id} {self.kind}"

    @property
    def decider(self) -> str:
        """`Dunlin`, or `Knot in the place of Whimbrel`."""
        place = f" in the place of {self.in_place_of.username}" if self.in_place_of else ""
        return f"{self.by.username}{place}"
