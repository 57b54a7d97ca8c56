"""The shade of a piece twice: where light falls, and where it does not."""

from django.db import models
from django.db.models import Q

from catalogue.member_examples.models.examples import Example
from catalogue.member_examples.words import ProtectedShade
from catalogue.reference.models import FeatureState
from catalogue.reference.models.fields import one_of
from identification.dating.shades import Lab

PLACES = ("exposed", "protected")
AXES = ("l", "a", "b")
MEASURED = tuple(f"{place}_{axis}" for place in PLACES for axis in AXES)


def measured(*, known: bool) -> Q:
    return Q(**{f"{name}__isnull": not known for name in MEASURED})


class ShadePair(models.Model):
    """What the owner sees in the two places, measured as CIELAB where somebody has an instrument: all six or none."""

    example = models.OneToOneField(Example, on_delete=models.CASCADE, related_name="shade_pair")
    exposed = models.ForeignKey(
        FeatureState, null=True, blank=True, on_delete=models.PROTECT, related_name="+", help_text="where light falls"
    )
    protected = models.CharField(
        max_length=12,
        choices=ProtectedShade.choices,
        blank=True,
        default="",
        help_text="under a flap or inside a pocket, beside the exposed place",
    )
    exposed_l = models.FloatField(null=True, blank=True)
    exposed_a = models.FloatField(null=True, blank=True)
    exposed_b = models.FloatField(null=True, blank=True)
    protected_l = models.FloatField(null=True, blank=True)
    protected_a = models.FloatField(null=True, blank=True)
    protected_b = models.FloatField(null=True, blank=True)

    class Meta:
        constraints = [
            one_of("protected", ProtectedShade, or_empty=True),
            models.CheckConstraint(
                condition=measured(known=True) | measured(known=False),
                name="both_places_are_measured_or_neither",
                violation_error_message="Give all three figures of both places, or none.",
            ),
            models.CheckConstraint(
                condition=measured(known=False)
                | Q(
                    exposed_l__range=(0, 100),
                    protected_l__range=(0, 100),
                    **{f"{place}_{axis}__range": (-128, 128) for place in PLACES for axis in "ab"},
                ),
                name="measured_shade_is_in_cielab",
                violation_error_message="L is from 0 to 100, a and b from -128 to 128.",
            ),
            models.CheckConstraint(
                condition=Q(exposed__isnull=False) | ~Q(protected="") | measured(known=True),
                name="shade_pair_says_something",
            ),
        ]

    def __str__(self) -> str:
        return f"shades of {self.example_id}"

    @property
    def labs(self) -> tuple[Lab, Lab] | None:
        """L, a and b of the exposed and of the protected place; None where they were not measured."""
        if self.exposed_l is None:
            return None
        return (self.exposed_l, self.exposed_a, self.exposed_b), (self.protected_l, self.protected_a, self.protected_b)
