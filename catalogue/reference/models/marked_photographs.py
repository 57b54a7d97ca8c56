"""Photographs with a marked spot: what shows a feature, or one of its states, where no drawing fits."""

from django.db import models
from django.db.models import Q

from catalogue.reference.marked_spots import LARGEST_RADIUS, SMALLEST_RADIUS
from catalogue.reference.models.garments import Feature, FeatureState


class MarkedPhotograph(models.Model):
    """One photograph of a feature or of a state, taken in like members' photographs; at most one of each.

    It is shown once its spot is marked: `x` and `y` are shares of its width and height from the upper left corner,
    `radius` a share of its longer side. `key` and `close_key` name its files (`photographs/keeping.py`): the sizes of
    the whole, and the smallest size of what lies round the spot.
    """

    # Who takes a state away takes its photograph out first, so that no files are left behind.
    feature = models.OneToOneField(Feature, null=True, blank=True, on_delete=models.PROTECT, related_name="photograph")
    state = models.OneToOneField(
        FeatureState, null=True, blank=True, on_delete=models.PROTECT, related_name="photograph"
    )
    key = models.CharField(max_length=32, unique=True)
    close_key = models.CharField(max_length=32, blank=True, default="")
    width = models.PositiveIntegerField(help_text="of the largest size kept")
    height = models.PositiveIntegerField()
    sha256 = models.CharField(max_length=64, help_text="of the picture as it was sent in")
    x = models.FloatField(null=True, blank=True)
    y = models.FloatField(null=True, blank=True)
    radius = models.FloatField(null=True, blank=True)
    shows = models.CharField(max_length=300, help_text="what is to be seen, in words, for who cannot see it")
    credit = models.CharField(max_length=120)
    licence = models.CharField(max_length=60, blank=True, default="")
    drawn = models.BooleanField(default=False, help_text="a drawing in place of a photograph")

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(feature__isnull=False, state__isnull=True) | Q(feature__isnull=True, state__isnull=False),
                name="marked_photograph_shows_a_feature_or_a_state",
            ),
            models.CheckConstraint(
                condition=Q(x__isnull=True, y__isnull=True, radius__isnull=True, close_key="")
                | Q(
                    x__gte=0, x__lte=1, y__gte=0, y__lte=1,
                    radius__gte=SMALLEST_RADIUS, radius__lte=LARGEST_RADIUS,
                    close_key__regex=r"^[0-9a-f]{32}$",
                ),
                name="marked_photograph_spot_lies_on_it",
            ),
            models.CheckConstraint(condition=Q(width__gte=1, height__gte=1), name="marked_photograph_has_a_size"),
            models.CheckConstraint(
                condition=Q(key__regex=r"^[0-9a-f]{32}$", sha256__regex=r"^[0-9a-f]{64}$"),
                name="marked_photograph_has_its_files",
            ),
            models.CheckConstraint(
                condition=~Q(shows="") & ~Q(credit=""), name="marked_photograph_says_what_it_shows_and_whose_it_is"
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.shows

    @property
    def of_feature(self) -> Feature:
        """The feature that it shows, or one of whose states it shows."""
        return self.feature or self.state.feature

    @property
    def is_marked(self) -> bool:
        return self.x is not None
