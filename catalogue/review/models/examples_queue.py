"""What stands beside the decisions on members' pieces: questions and answers, notices, and who looks just now."""

from functools import reduce
from operator import or_

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils import timezone

from catalogue.member_examples.models import Example, ExampleDecision
from catalogue.review.models.proposals import Decision, ProposalWord

# What a notice can tell of, one at a time.
THINGS = ("decision", "word", "proposal_decision", "proposal_word")


class PieceWord(models.Model):
    """One word of the thread between the owner of a piece and the moderators. Written once."""

    example = models.ForeignKey(Example, on_delete=models.PROTECT, related_name="words")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    text = models.TextField()
    sent_once = models.UUIDField(unique=True, help_text="given with the form: a second tap is the same word")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["made_at", "pk"]
        constraints = [models.CheckConstraint(condition=~Q(text=""), name="word_of_a_thread_says_something")]

    def __str__(self) -> str:
        return f"{self.example_id}, {self.made_at:%Y-%m-%d}"


class Notice(models.Model):
    """That a person is to be told of a decision on their piece or proposal, or of a word in its thread."""

    member = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="notices")
    decision = models.ForeignKey(
        ExampleDecision, null=True, blank=True, on_delete=models.PROTECT, related_name="notices"
    )
    word = models.ForeignKey(PieceWord, null=True, blank=True, on_delete=models.PROTECT, related_name="notices")
    proposal_decision = models.ForeignKey(
        Decision, null=True, blank=True, on_delete=models.PROTECT, related_name="notices"
    )
    proposal_word = models.ForeignKey(
        ProposalWord, null=True, blank=True, on_delete=models.PROTECT, related_name="notices"
    )
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    read_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        ordering = ["-made_at", "-pk"]
        constraints = [
            models.CheckConstraint(
                condition=reduce(or_, (Q(**{f"{own}__isnull": own != one for own in THINGS}) for one in THINGS)),
                name="notice_tells_of_one_thing",
            ),
            *(
                models.UniqueConstraint(fields=["member", one], name=f"person_is_told_once_of_a_{one}")
                for one in THINGS
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


class MailWish(models.Model):
    """That a person wants notices by e-mail too."""

    member = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="mail_wish")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

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
