"""Pictures of one piece. How they are taken in, cleaned and kept is the business of the intake."""

from django.db import models
from django.db.models import Q
from django.utils import timezone

from catalogue.member_examples.models.examples import Example
from catalogue.member_examples.words import Shot
from catalogue.reference.models.fields import one_of


class KeptPhotographs(models.Manager):
    """Without those that their owner has taken out, which can be put back for a while."""

    def get_queryset(self):
        return super().get_queryset().filter(taken_out_at__isnull=True)


class Photograph(models.Model):
    """One picture, in several sizes; as it was sent in only where the society keeps that."""

    example = models.ForeignKey(Example, on_delete=models.CASCADE, related_name="photographs")
    view = models.CharField(max_length=20, choices=Shot.choices, default=Shot.OTHER)
    position = models.PositiveIntegerField(default=0)
    caption = models.CharField(max_length=300, blank=True, default="")
    credit = models.CharField(max_length=120, blank=True, default="")
    licence = models.CharField(max_length=60, blank=True, default="")
    files = models.JSONField(
        default=list,
        blank=True,
        help_text='one for each size: {"name": "ab/cd-800.webp", "longer": 800, "width": 800, "height": 600}',
    )
    original = models.CharField(
        max_length=80,
        blank=True,
        default="",
        editable=False,
        help_text="the file as it was sent in, in a storage of its own; empty: not kept",
    )
    width = models.PositiveIntegerField(help_text="of the largest size kept")
    height = models.PositiveIntegerField()
    sha256 = models.CharField(max_length=64, help_text="of the picture as it was sent in")
    perceptual_hash = models.BigIntegerField(
        null=True, blank=True, db_index=True, help_text="64 bits, read as a signed number"
    )
    drawn = models.BooleanField(default=False, help_text="a drawing in place of a photograph")
    hidden = models.BooleanField(default=False, help_text="kept from everybody but the owner and the moderators")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    taken_out_at = models.DateTimeField(
        null=True, blank=True, editable=False, help_text="by its owner, who can put it back for a while"
    )

    objects = KeptPhotographs()
    with_taken_out = models.Manager()

    class Meta:
        ordering = ["position", "pk"]
        constraints = [
            one_of("view", Shot),
            models.CheckConstraint(condition=Q(width__gte=1, height__gte=1), name="photograph_has_a_size"),
            models.CheckConstraint(condition=Q(sha256__regex=r"^[0-9a-f]{64}$"), name="photograph_sha256_is_a_digest"),
            models.UniqueConstraint(fields=["example", "sha256"], name="picture_stands_once_in_its_example"),
        ]

    def __str__(self) -> str:
        return self.caption or self.get_view_display()
