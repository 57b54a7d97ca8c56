"""Names of wearers that were made unreadable on a piece, and requests to do so."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from catalogue.member_examples.models.examples import Example
from catalogue.member_examples.words import NamePlace
from catalogue.reference.models.fields import one_of


class HiddenName(models.Model):
    """That, when and where a wearer's name was made unreadable. The name itself stands here only while the owner lets
    the moderators see it."""

    example = models.ForeignKey(Example, on_delete=models.CASCADE, related_name="hidden_names")
    place = models.CharField(max_length=12, choices=NamePlace.choices, default=NamePlace.TEXT)
    name = models.CharField(max_length=200, blank=True, default="", help_text="for moderators; empty: kept nowhere")
    on_request = models.BooleanField(default=False, help_text="asked for later, by the person or the family")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["made_at", "pk"]
        constraints = [
            one_of("place", NamePlace),
            models.CheckConstraint(
                condition=models.Q(on_request=False) | models.Q(name=""), name="name_removed_on_request_is_kept_nowhere"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_place_display()}, {self.made_at:%Y-%m-%d}"


class NameRequest(models.Model):
    """That somebody asks for a name to be removed from a piece. What they wrote goes when it is settled."""

    example = models.ForeignKey(Example, on_delete=models.CASCADE, related_name="name_requests")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    words = models.TextField(blank=True, default="", help_text="which name, and where it stands; empty once settled")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    settled_at = models.DateTimeField(null=True, blank=True, editable=False)
    settled_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )

    class Meta:
        ordering = ["made_at", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(settled_at__isnull=True, settled_by__isnull=True) & ~Q(words="")
                | Q(settled_at__isnull=False, settled_by__isnull=False, words=""),
                name="settled_request_keeps_no_words",
            ),
            models.UniqueConstraint(
                fields=["example", "by"],
                condition=Q(settled_at__isnull=True),
                name="person_asks_once_for_a_name_of_a_piece",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.example_id}, {self.made_at:%Y-%m-%d}"
