"""Names of wearers that were made unreadable on a piece."""

from django.conf import settings
from django.db import models
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
