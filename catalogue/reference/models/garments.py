"""Garment types and the diagnostic features that tell their versions apart."""

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import F, Q

from catalogue.reference.circles import circle_through
from catalogue.reference.codes import FEATURE, TYPE, clean_code
from catalogue.reference.models.evidence import Issuer
from catalogue.reference.models.fields import (
    CodeField,
    codes_apart,
    hold_to_one_name,
    one_of,
    validate_drawing,
    validate_label_says,
)
from catalogue.reference.regions import View, fault_of_place
from catalogue.reference.words import FeatureKind, Seen, ServiceChange


class GarmentType(models.Model):
    """A kind of garment that a service gave out, in one or more versions."""

    code = CodeField(unique=True)
    name = models.CharField(max_length=200)
    garment_class = models.CharField(max_length=40, blank=True, default="", help_text="the outline it is drawn with")
    issuer = models.ForeignKey(Issuer, null=True, blank=True, on_delete=models.PROTECT, related_name="garment_types")
    description = models.TextField(blank=True, default="")
    caution = models.TextField(blank=True, default="", help_text="shown before anything else is asked")
    position = models.PositiveIntegerField(default=0)
    features = models.ManyToManyField("Feature", through="TypeFeature", related_name="garment_types")

    class Meta:
        ordering = ["position", "code"]
        constraints = [codes_apart()]

    def __str__(self) -> str:
        return self.name

    def clean(self):
        if self.pk is None:
            clean_code(self.code, TYPE)


class TypeName(models.Model):
    """Another name under which members know a garment type."""

    garment_type = models.ForeignKey(GarmentType, on_delete=models.CASCADE, related_name="other_names")
    name = models.CharField(max_length=200)
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position"]
        constraints = [models.UniqueConstraint(fields=["garment_type", "name"], name="type_name_stands_once")]

    def __str__(self) -> str:
        return self.name

    def clean(self):
        super().clean()
        hold_to_one_name(self.name)


class OwnSilhouette(models.Model):
    """The society's own outline of a garment type in one view, where the site has none that fits."""

    garment_type = models.ForeignKey(GarmentType, on_delete=models.CASCADE, related_name="silhouettes")
    view = models.CharField(max_length=20, choices=View.choices)
    drawing = models.TextField(
        validators=[validate_drawing],
        help_text="as SVG text; drawn over the site's outline, it keeps its places if its viewBox has the same shape",
    )

    class Meta:
        ordering = ["view"]
        constraints = [
            one_of("view", View),
            models.UniqueConstraint(fields=["garment_type", "view"], name="silhouette_stands_once_in_its_view"),
        ]

    def __str__(self) -> str:
        return self.get_view_display()


class Feature(models.Model):
    """Something to look at. Its chances and its effort steer the walk-through."""

    code = CodeField(unique=True)
    name = models.CharField(max_length=200)
    group = models.CharField(max_length=80, blank=True, default="")
    question = models.CharField(max_length=300)
    kind = models.CharField(max_length=12, choices=FeatureKind.choices, default=FeatureKind.CHOICE)
    unit = models.CharField(max_length=20, blank=True, default="")
    spread = models.FloatField(default=5.0, help_text="standard deviation of a measurement, in its unit")
    seen = models.CharField(max_length=10, choices=Seen.choices, default=Seen.OUTSIDE)
    effort = models.FloatField(default=1.0)
    error = models.FloatField(default=0.05, help_text="chance that a given answer is wrong")
    error_note = models.TextField(blank=True, default="", help_text="why people get it wrong")
    service_change = models.CharField(max_length=12, choices=ServiceChange.choices, default=ServiceChange.NO)
    change_note = models.TextField(blank=True, default="", help_text="what happens to it in service")
    absent_state = models.ForeignKey(
        "FeatureState",
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="+",
        help_text="what a lost part leaves; empty when it cannot be lost",
    )
    loss = models.FloatField(default=0.0, help_text="chance that a part issued is now gone")
    gain = models.FloatField(default=0.0, help_text="chance that a part was added later")
    parent = models.ForeignKey(
        "self",
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="details",
        help_text="asked only where this is present",
    )
    shown_when = models.ManyToManyField(
        "FeatureState", blank=True, related_name="+", help_text="states of the parent under which it applies"
    )
    basis = models.CharField(max_length=300, blank=True, default="", help_text="standard or paper for the term")
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "code"]
        constraints = [
            codes_apart(),
            one_of("kind", FeatureKind),
            one_of("seen", Seen),
            one_of("service_change", ServiceChange),
            models.CheckConstraint(
                condition=Q(effort__gt=0),
                name="feature_effort_is_positive",
                violation_error_message="The effort is a number above 0; 1 is a glance.",
            ),
            models.CheckConstraint(
                condition=Q(spread__gt=0),
                name="feature_spread_is_positive",
                violation_error_message="The spread of a measurement is a number above 0, in its unit.",
            ),
            models.CheckConstraint(
                condition=Q(error__gte=0, error__lt=1),
                name="feature_error_is_a_chance",
                violation_error_message="The chance of a wrong answer is a number from 0 up to, but not, 1.",
            ),
            models.CheckConstraint(
                condition=Q(loss__gte=0, loss__lte=1),
                name="feature_loss_is_a_chance",
                violation_error_message="The chance that a part was lost is a number from 0 to 1.",
            ),
            models.CheckConstraint(
                condition=Q(gain__gte=0, gain__lte=1),
                name="feature_gain_is_a_chance",
                violation_error_message="The chance that a part was added is a number from 0 to 1.",
            ),
            models.CheckConstraint(
                condition=Q(parent__isnull=True) | ~Q(parent=F("id")),
                name="feature_is_not_its_own_parent",
                violation_error_message="A feature is no detail of itself.",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def clean(self):
        """No feature is a detail of its own, by however many steps."""
        if self.pk is None:
            clean_code(self.code, FEATURE)
        if self.parent is None:
            return
        others = Feature.objects.exclude(pk=self.pk).filter(parent__isnull=False)
        above = {code: [parent] for code, parent in others.values_list("code", "parent__code")}
        if circle := circle_through(self.code, above | {self.code: [self.parent.code]}):
            raise ValidationError(
                {"parent": f"This would be a circle: {circle}. Choose a part that is no detail of it."}
            )


class FeatureState(models.Model):
    """One answer to a feature's question; of a count or measurement, a band."""

    feature = models.ForeignKey(Feature, on_delete=models.CASCADE, related_name="states")
    code = CodeField()
    label = models.CharField(max_length=200)
    explained = models.CharField(
        max_length=300, blank=True, default="", help_text="what the trade word means, for who does not know it"
    )
    label_says = models.CharField(
        max_length=300,
        blank=True,
        default="",
        validators=[validate_label_says],
        help_text="what a label says whose piece shows this, | between: size:CODE of a number form, "
        "fibres:cotton 60-70, polyester, country:NAME",
    )
    low = models.FloatField(null=True, blank=True, help_text="included")
    high = models.FloatField(null=True, blank=True, help_text="not included; empty has no limit")
    drawing = models.TextField(
        blank=True,
        default="",
        validators=[validate_drawing],
        help_text="the society's own drawing as SVG text, where the site has none that fits",
    )
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "code"]
        constraints = [
            models.UniqueConstraint(fields=["feature", "code"], name="state_code_stands_once_in_its_feature"),
            codes_apart("feature"),
            models.CheckConstraint(
                condition=Q(high__isnull=True) | Q(low__lt=F("high")),
                name="state_band_runs_upward",
                violation_error_message="The lower end of a band lies below its upper end.",
            ),
        ]

    def __str__(self) -> str:
        return self.label


class FeaturePlace(models.Model):
    """Where to look, for every type or for one."""

    feature = models.ForeignKey(Feature, on_delete=models.CASCADE, related_name="places")
    garment_type = models.ForeignKey(
        GarmentType,
        null=True,
        blank=True,
        on_delete=models.CASCADE,
        related_name="+",
        help_text="empty for all types",
    )
    view = models.CharField(max_length=20)
    region = models.CharField(max_length=40)
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(
                fields=["feature", "garment_type", "view", "region"], name="place_stands_once_in_its_type"
            ),
            models.UniqueConstraint(
                fields=["feature", "view", "region"],
                condition=Q(garment_type__isnull=True),
                name="place_stands_once_for_all_types",
                violation_error_message="This place stands here already for all types.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.view}: {self.region}"

    def clean(self):
        """A place lies on the outline of the type it is for; one for all types, on that of each type that uses it."""
        if self.garment_type_id:
            outlines = [self.garment_type.garment_class]
        elif self.feature_id:
            own = FeaturePlace.objects.filter(feature=self.feature_id, garment_type__isnull=False)
            users = self.feature.garment_types.exclude(pk__in=own.values("garment_type"))
            outlines = list(users.values_list("garment_class", flat=True))
        else:
            outlines = []
        if self.view and self.region and (fault := fault_of_place(self.view, self.region, outlines)):
            field, words = fault
            raise ValidationError({field: words})


class TypeFeature(models.Model):
    """A feature that applies to a type, in the order in which its profile is read."""

    garment_type = models.ForeignKey(GarmentType, on_delete=models.CASCADE, related_name="type_features")
    feature = models.ForeignKey(Feature, on_delete=models.CASCADE, related_name="type_features")
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(fields=["garment_type", "feature"], name="feature_stands_once_in_its_type")
        ]

    def __str__(self) -> str:
        return f"{self.garment_type_id} {self.feature_id}"
