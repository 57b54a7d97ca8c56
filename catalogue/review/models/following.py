"""What a decision on a proposal did beside its own record: further records, and pieces that followed it."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from catalogue.member_examples.models import Attribution, Example
from catalogue.reference.models import IssueVersion, VersionRecord
from catalogue.review.models.proposals import Decision


class FurtherRecord(models.Model):
    """A record of another version than the proposal's, written by the same decision: of a merge the one of the version
    that goes, of a split those of the two that it makes. The database refuses to change a row.

    `before`, `after`: the rows of that version that were written, as in the decision.
    """

    decision = models.ForeignKey(Decision, on_delete=models.PROTECT, related_name="further")
    record = models.OneToOneField(VersionRecord, on_delete=models.PROTECT, related_name="further")
    before = models.JSONField(default=dict)
    after = models.JSONField(default=dict)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.decision_id}, record {self.record_id}"


class FollowedPiece(models.Model):
    """An accepted piece that a decision took from one version to another, or left where it was but made doubtful.

    `attribution`: the one that was written when it moved. `doubt`: in words why a moderator should look at it; it waits
    among the doubtful pieces until `settled_at`.
    """

    decision = models.ForeignKey(Decision, on_delete=models.PROTECT, related_name="followed")
    example = models.ForeignKey(Example, on_delete=models.CASCADE, related_name="followed")
    before = models.ForeignKey(IssueVersion, on_delete=models.PROTECT, related_name="+")
    after = models.ForeignKey(IssueVersion, on_delete=models.PROTECT, related_name="+")
    attribution = models.OneToOneField(
        Attribution, null=True, blank=True, on_delete=models.CASCADE, related_name="followed"
    )
    doubt = models.TextField(blank=True, default="")
    settled_at = models.DateTimeField(null=True, blank=True, editable=False)
    settled_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )

    class Meta:
        ordering = ["decision", "example__code"]
        indexes = [models.Index(fields=["settled_at"])]
        constraints = [
            models.UniqueConstraint(fields=["decision", "example"], name="piece_follows_a_decision_once"),
            models.CheckConstraint(
                condition=Q(settled_at__isnull=True, settled_by__isnull=True)
                | Q(settled_at__isnull=False, settled_by__isnull=False) & ~Q(doubt=""),
                name="only_a_doubt_is_settled_by_somebody",
            ),
            models.CheckConstraint(
                condition=Q(attribution__isnull=False) | Q(before=models.F("after")) & ~Q(doubt=""),
                name="piece_that_followed_moved_or_is_doubtful",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.example_id}: {self.before_id} to {self.after_id}"
