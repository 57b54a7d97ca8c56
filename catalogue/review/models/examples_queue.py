"""What stands beside the decisions on members' pieces: questions and answers, notices, and who looks just now."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils import timezone

from catalogue.accounts.models import JoinRequest
from catalogue.member_examples.models import (
    Alteration,
    Example,
    ExampleDecision,
    ExampleInSet,
    HiddenName,
    NameRequest,
)
from catalogue.reference.models import QuestionView
from catalogue.reference.models.fields import one_of
from catalogue.review.models.leaves import Leave
from catalogue.review.models.proposals import Decision, Proposal, ProposalWord, ReferenceImport
from catalogue.review.models.questions import ViewDecision
from catalogue.review.models.sources import SourceAddition
from catalogue.review.models.threads import ThreadWord


class PieceWord(ThreadWord):
    """One word of the thread between the owner of a piece and the moderators. Written once."""

    example = models.ForeignKey(Example, on_delete=models.PROTECT, related_name="words")

    class Meta(ThreadWord.Meta):
        constraints = [models.CheckConstraint(condition=~Q(text=""), name="word_of_a_thread_says_something")]

    def __str__(self) -> str:
        return f"{self.example_id}, {self.made_at:%Y-%m-%d}"


# Of these a notice says which sending, or edition, it tells of.
OF_A_SENDING = ("piece", "proposal", "view")
# What a notice can tell of, one at a time.
ABOUT = (
    "decision", "word", "piece", "joining", "name_request", "name_note", "proposal_decision", "proposal_word", "leave",
    "set_place", "view_decision", "proposal", "reference_import", "view", "source_added", "alteration",
)  # fmt: skip


def tells_of_one_thing() -> Q:
    """Exactly one of the things that a notice can be about."""
    told = Q()
    for one in ABOUT:
        told |= Q(**{f"{other}__isnull": other != one for other in ABOUT})
    return told


def names_its_sending() -> Q:
    """The sending is named of what is sent again and again, and of nothing else."""
    of_none = Q(sending__isnull=True)
    of_one = Q()
    for one in OF_A_SENDING:
        of_none &= Q(**{f"{one}__isnull": True})
        of_one |= Q(**{f"{one}__isnull": False})
    return of_none | of_one & Q(sending__isnull=False)


class Notice(models.Model):
    """That a person is to be told of a decision on their piece or proposal, of a word in its thread, of a name removed
    from it, of a set that somebody else put it into, of what somebody else sees as altered on it, of a view of theirs
    that was taken out or put back, of a view that somebody else wrote down as theirs; or, as a moderator, of a piece or
    proposal that was sent, an import that became proposals, a source that was added, a request to join, a request to
    remove a name; or that they stand in for a moderator."""

    member = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="notices")
    decision = models.ForeignKey(
        ExampleDecision, null=True, blank=True, on_delete=models.PROTECT, related_name="notices"
    )
    word = models.ForeignKey(PieceWord, null=True, blank=True, on_delete=models.PROTECT, related_name="notices")
    piece = models.ForeignKey(Example, null=True, blank=True, on_delete=models.CASCADE, related_name="notices")
    sending = models.PositiveIntegerField(
        null=True, blank=True, help_text="which sending of the piece or proposal, which edition of the view"
    )
    joining = models.ForeignKey(JoinRequest, null=True, blank=True, on_delete=models.CASCADE, related_name="notices")
    name_request = models.ForeignKey(
        NameRequest, null=True, blank=True, on_delete=models.CASCADE, related_name="notices"
    )
    name_note = models.ForeignKey(HiddenName, null=True, blank=True, on_delete=models.CASCADE, related_name="notices")
    proposal_decision = models.ForeignKey(
        Decision, null=True, blank=True, on_delete=models.PROTECT, related_name="notices"
    )
    proposal_word = models.ForeignKey(
        ProposalWord, null=True, blank=True, on_delete=models.PROTECT, related_name="notices"
    )
    leave = models.ForeignKey(Leave, null=True, blank=True, on_delete=models.CASCADE, related_name="notices")
    set_place = models.ForeignKey(ExampleInSet, null=True, blank=True, on_delete=models.CASCADE, related_name="notices")
    alteration = models.ForeignKey(Alteration, null=True, blank=True, on_delete=models.CASCADE, related_name="notices")
    view_decision = models.ForeignKey(
        ViewDecision, null=True, blank=True, on_delete=models.PROTECT, related_name="notices"
    )
    proposal = models.ForeignKey(Proposal, null=True, blank=True, on_delete=models.CASCADE, related_name="notices")
    reference_import = models.ForeignKey(
        ReferenceImport, null=True, blank=True, on_delete=models.CASCADE, related_name="notices"
    )
    view = models.ForeignKey(QuestionView, null=True, blank=True, on_delete=models.CASCADE, related_name="notices")
    source_added = models.ForeignKey(
        SourceAddition, null=True, blank=True, on_delete=models.CASCADE, related_name="notices"
    )
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    read_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        ordering = ["-made_at", "-pk"]
        constraints = [
            models.CheckConstraint(
                condition=tells_of_one_thing(),
                name="notice_tells_of_one_thing",
            ),
            models.CheckConstraint(
                condition=names_its_sending(),
                name="notice_of_what_is_sent_names_its_sending",
            ),
            models.UniqueConstraint(
                fields=["member", "proposal", "sending"], name="person_is_told_once_of_a_sending_of_a_proposal"
            ),
            models.UniqueConstraint(
                fields=["member", "view", "sending"], name="person_is_told_once_of_an_edition_of_a_view"
            ),
            models.UniqueConstraint(fields=["member", "piece", "sending"], name="person_is_told_once_of_a_sending"),
            models.UniqueConstraint(fields=["member", "joining"], name="person_is_told_once_of_a_request_to_join"),
            models.UniqueConstraint(fields=["member", "name_request"], name="person_is_told_once_of_a_name_request"),
            models.UniqueConstraint(fields=["member", "name_note"], name="person_is_told_once_of_a_name_removed"),
            *(
                models.UniqueConstraint(fields=["member", one], name=f"person_is_told_once_of_a_{one}")
                for one in (
                    "decision",
                    "word",
                    "proposal_decision",
                    "proposal_word",
                    "leave",
                    "set_place",
                    "view_decision",
                    "reference_import",
                    "source_added",
                    "alteration",
                )
            ),
            models.CheckConstraint(
                condition=Q(read_at__isnull=True) | Q(read_at__gte=F("made_at")),
                name="notice_is_read_after_it_was_made",
            ),
        ]
        indexes = [models.Index(fields=["member", "read_at"])]

    def __str__(self) -> str:
        return f"{self.member_id}, {self.made_at:%Y-%m-%d}"

    @property
    def about_proposal(self) -> Decision | ProposalWord | None:
        """The decision or the word, where it is one on a proposal."""
        return self.proposal_decision or self.proposal_word


class MailHow(models.TextChoices):
    """When notices come by e-mail."""

    AT_ONCE = "at_once", "Each at once"
    DAILY = "daily", "One mail a day"
    WEEKLY = "weekly", "One mail a week"


class MailWish(models.Model):
    """That a person wants notices by e-mail too, each at once or one mail a day or a week."""

    member = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="mail_wish")
    how = models.CharField(max_length=8, choices=MailHow.choices, default=MailHow.AT_ONCE)
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    digest_at = models.DateTimeField(null=True, blank=True, editable=False, help_text="when the last one went out")

    class Meta:
        constraints = [one_of("how", MailHow)]

    def __str__(self) -> str:
        return str(self.member_id)


class QueueLook(models.Model):
    """Which moderator looks at a piece now. It shuts nobody out, and is nothing after a quarter of an hour."""

    example = models.OneToOneField(Example, on_delete=models.CASCADE, related_name="looked_at_now")
    moderator = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    since = models.DateTimeField()
    last = models.DateTimeField()

    class Meta:
        constraints = [models.CheckConstraint(condition=Q(last__gte=F("since")), name="look_ends_after_it_began")]

    def __str__(self) -> str:
        return f"{self.example_id} by {self.moderator_id}"
