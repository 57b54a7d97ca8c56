"""Disputed matters, each with every view that is held."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.db.models.functions import Length

from catalogue.accounts.names import look_alike_key
from catalogue.reference.models.evidence import Source
from catalogue.reference.models.fields import CodeField, codes_apart
from catalogue.reference.models.garments import Feature
from catalogue.reference.models.versions import IssueVersion


class OpenQuestion(models.Model):
    """A matter on which members disagree or disagreed. The view that lost stays readable."""

    code = CodeField(unique=True)
    question = models.CharField(max_length=300)
    settled = models.BooleanField(default=False)
    moderator_note = models.TextField(blank=True, default="")
    would_settle = models.TextField(
        blank=True, default="", help_text="the piece or paper that would settle it, or would have shown it wrong"
    )
    versions = models.ManyToManyField(IssueVersion, blank=True, related_name="open_questions")
    features = models.ManyToManyField(
        Feature, blank=True, related_name="open_questions", help_text="whose rows of those versions it is about"
    )

    class Meta:
        ordering = ["code"]
        constraints = [codes_apart()]

    def __str__(self) -> str:
        return self.question


class QuestionViews(models.QuerySet):
    def held(self) -> "QuestionViews":
        """Those that no moderator took out."""
        return self.filter(taken_out="")


class QuestionView(models.Model):
    """One view of an open question: whose, what, and on what sources."""

    objects = QuestionViews.as_manager()

    question = models.ForeignKey(OpenQuestion, on_delete=models.CASCADE, related_name="views")
    letter = models.CharField(max_length=2, help_text="A to Z, then AA, AB …")
    holder = models.CharField(max_length=80)
    text = models.TextField()
    sources = models.ManyToManyField(Source, blank=True, related_name="views")
    stands = models.BooleanField(default=False, help_text="the question is settled for this view")
    taken_out = models.TextField(
        blank=True, default="", editable=False, help_text="why a moderator took it out; empty while it is one of them"
    )
    disowned = models.BooleanField(
        default=False, editable=False, help_text="the member who is named as its holder says that it is not theirs"
    )
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        null=True,
        blank=True,
        editable=False,
        on_delete=models.PROTECT,
        related_name="question_views",
        help_text="the member who wrote it down on the site",
    )
    made_at = models.DateTimeField(null=True, blank=True, editable=False)
    revision = models.PositiveIntegerField(default=0, editable=False)

    class Meta:
        ordering = [Length("letter"), "letter"]
        constraints = [
            models.UniqueConstraint(fields=["question", "letter"], name="view_letter_stands_once"),
            models.CheckConstraint(
                condition=Q(taken_out="") | Q(stands=False), name="view_that_stands_is_not_taken_out"
            ),
            models.UniqueConstraint(
                fields=["question"],
                condition=Q(stands=True),
                name="one_view_of_a_question_stands",
                violation_error_message="Another view of this question stands already; a question is settled for one.",
            ),
        ]

    def __str__(self) -> str:
        return f"view {self.letter}"

    def names(self, member) -> bool:
        """Whether the member is who is said to hold it, however the name is written."""
        return look_alike_key(self.holder) == member.name_key

    @property
    def told_by(self) -> str:
        """Who wrote it down of somebody else; empty of one's own, and of what came with the reference."""
        return self.by.username if self.by and not self.names(self.by) else ""

    @property
    def whose(self) -> str:
        """Whose it is, as honestly as it is known."""
        held = f"held by {self.holder}{f' as told by {self.told_by}' if self.told_by else ''}"
        return f"said to be {held}; {self.holder} says it is not theirs" if self.disowned else held
