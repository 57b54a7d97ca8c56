"""Issue versions, and the records that say how each looks."""

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import F, Q

from catalogue.accounts.models import Member
from catalogue.reference.circles import circle_through
from catalogue.reference.models.evidence import Issuer, Maker
from catalogue.reference.models.fields import CodeField, UncertainDateField, codes_apart, hold_to_one_name, one_of
from catalogue.reference.models.garments import FeatureState, GarmentType
from catalogue.reference.words import (
    NEVER_ISSUED,
    AncestorRole,
    Certainty,
    HazardKind,
    HowOften,
    NameBy,
    Restriction,
    VersionKind,
)


class Cut(models.Model):
    """Made for a climate or a wearer; an axis of its own, apart from version and print."""

    code = CodeField(unique=True)
    name = models.CharField(max_length=100)
    note = models.TextField(blank=True, default="")
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "code"]
        constraints = [codes_apart()]

    def __str__(self) -> str:
        return self.name


class Colourway(models.Model):
    """A print or dye group; an axis of its own."""

    code = CodeField(unique=True)
    name = models.CharField(max_length=100)
    note = models.TextField(blank=True, default="")
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "code"]
        constraints = [codes_apart()]

    def __str__(self) -> str:
        return self.name


class IssueVersionQuerySet(models.QuerySet):
    """Versions, as the society asks for them."""

    def in_force(self):
        return self.filter(retired_why="")

    def retired(self):
        return self.exclude(retired_why="")


class IssueVersion(models.Model):
    """A change of specification that can be seen, or what is taken for one: a trial, a copy, a conversion."""

    code = CodeField(unique=True)
    garment_type = models.ForeignKey(GarmentType, on_delete=models.PROTECT, related_name="versions")
    name = models.CharField(max_length=200)
    kind = models.CharField(max_length=20, choices=VersionKind.choices)
    cut = models.ForeignKey(Cut, null=True, blank=True, on_delete=models.PROTECT, related_name="versions")
    colourway = models.ForeignKey(Colourway, null=True, blank=True, on_delete=models.PROTECT, related_name="versions")
    issuer = models.ForeignKey(Issuer, null=True, blank=True, on_delete=models.PROTECT, related_name="versions")
    date = UncertainDateField()
    from_year = models.SmallIntegerField(null=True, blank=True, editable=False)
    to_year = models.SmallIntegerField(null=True, blank=True, editable=False)
    rarity = models.PositiveSmallIntegerField(default=3, help_text="author's judgement, 1 common to 5 rare")
    abundance = models.FloatField(null=True, blank=True, help_text="relative number of pieces; wins over rarity")
    certainty = models.CharField(max_length=12, choices=Certainty.choices, default=Certainty.DOCUMENTED)
    piece_seen = models.BooleanField(default=True, help_text="has a member seen a piece?")
    reason = models.TextField(blank=True, default="", help_text="why it was made or changed")
    note = models.TextField(blank=True, default="")
    hazard_kind = models.CharField(max_length=20, choices=HazardKind.choices, blank=True, default="")
    hazard = models.CharField(max_length=200, blank=True, default="")
    wearing_restricted = models.BooleanField(default=False, help_text="wearing it may be an offence in some places")
    emblem_restricted = models.BooleanField(default=False, help_text="it may bear an emblem that the law protects")
    export_restricted = models.BooleanField(default=False, help_text="posting it abroad may need a licence")
    makers = models.ManyToManyField(Maker, blank=True, related_name="versions")
    passes_for = models.ManyToManyField(
        GarmentType, blank=True, related_name="lookalikes", help_text="other types it may be taken for"
    )
    retired_why = models.TextField(
        blank=True, default="", help_text="why it is no longer held to be a version; empty while it is in force"
    )
    position = models.PositiveIntegerField(default=0)
    current_record = models.OneToOneField(
        "VersionRecord", null=True, blank=True, editable=False, on_delete=models.PROTECT, related_name="+"
    )
    passed_record = models.OneToOneField(
        "VersionRecord",
        null=True,
        blank=True,
        editable=False,
        on_delete=models.PROTECT,
        related_name="+",
        help_text="a record that nobody proposed, which a moderator looked through and let stand",
    )

    objects = IssueVersionQuerySet.as_manager()

    @property
    def restrictions(self) -> list[str]:
        return [kind.value for kind in Restriction if getattr(self, f"{kind.value}_restricted")]

    class Meta:
        ordering = ["garment_type", "position", "code"]
        constraints = [
            codes_apart(),
            one_of("kind", VersionKind),
            one_of("certainty", Certainty),
            one_of("hazard_kind", HazardKind, or_empty=True),
            models.CheckConstraint(
                condition=Q(rarity__gte=1, rarity__lte=5),
                name="version_rarity_is_1_to_5",
                violation_error_message="The rarity is a whole number from 1, common, to 5, rare.",
            ),
            models.CheckConstraint(
                condition=Q(abundance__isnull=True) | Q(abundance__gte=0),
                name="version_abundance_is_not_negative",
                violation_error_message="The abundance is a number from 0, or empty.",
            ),
            models.CheckConstraint(
                condition=Q(from_year__isnull=True) | Q(to_year__isnull=True) | Q(from_year__lte=F("to_year")),
                name="version_begins_before_it_ends",
                violation_error_message="The date ends before it begins.",
            ),
        ]
        indexes = [models.Index(fields=["kind"]), models.Index(fields=["from_year", "to_year"])]

    def __str__(self) -> str:
        return self.name


class VersionName(models.Model):
    """Another name: a member's, or one that sellers use, which may name a garment that was never issued."""

    version = models.ForeignKey(IssueVersion, on_delete=models.CASCADE, related_name="other_names")
    name = models.CharField(max_length=200)
    used_by = models.CharField(max_length=8, choices=NameBy.choices, default=NameBy.MEMBERS)
    never_issued = models.BooleanField(default=False, help_text="no such garment was issued under this name")
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position"]
        constraints = [
            one_of("used_by", NameBy),
            models.UniqueConstraint(fields=["version", "name"], name="version_name_stands_once"),
        ]

    def __str__(self) -> str:
        return self.name

    def clean(self):
        super().clean()
        hold_to_one_name(self.name)
        if self.name.rstrip().endswith(NEVER_ISSUED):
            raise ValidationError({"name": "Tick that it was never issued instead of writing it behind the name."})


class VersionAncestor(models.Model):
    """What a version continues or imitates, and what an altered piece was made from. Several are possible."""

    version = models.ForeignKey(IssueVersion, on_delete=models.CASCADE, related_name="ancestors")
    ancestor = models.ForeignKey(IssueVersion, on_delete=models.PROTECT, related_name="descendants")
    role = models.CharField(max_length=10, choices=AncestorRole.choices)
    position = models.PositiveIntegerField(default=0, help_text="the profile follows the first")

    class Meta:
        ordering = ["position"]
        constraints = [
            one_of("role", AncestorRole),
            models.UniqueConstraint(fields=["version", "ancestor", "role"], name="ancestor_stands_once"),
            models.CheckConstraint(
                condition=~Q(version=F("ancestor")),
                name="version_is_not_its_own_ancestor",
                violation_error_message="A version does not descend from itself.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.version_id} {self.role} {self.ancestor_id}"

    def clean(self):
        """No version descends from itself, by however many steps."""
        if not (self.version_id and self.ancestor_id):
            return
        above: dict[str, list[str]] = {self.version.code: [self.ancestor.code]}
        others = VersionAncestor.objects.exclude(version_id=self.version_id)
        for version, ancestor in others.values_list("version__code", "ancestor__code"):
            above.setdefault(version, []).append(ancestor)
        if circle := circle_through(self.version.code, above):
            raise ValidationError({"ancestor": f"This would be a circle: {circle}."})


class VersionSuccessor(models.Model):
    """What a retired version became: the one that it was merged into, or those that it was split into."""

    version = models.ForeignKey(IssueVersion, on_delete=models.CASCADE, related_name="successors")
    successor = models.ForeignKey(IssueVersion, on_delete=models.PROTECT, related_name="predecessors")

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["version", "successor"], name="successor_stands_once"),
            models.CheckConstraint(
                condition=~Q(version=F("successor")),
                name="version_does_not_become_itself",
                violation_error_message="A version does not become itself.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.version_id} became {self.successor_id}"


class VersionRecord(models.Model):
    """How a version looks, as the society held it at one time. Written once; a change is a new record."""

    class Standing(models.TextChoices):
        IMPORTED = "imported", "Imported, not reviewed"
        WRITTEN = "written", "Written by hand, not reviewed"
        APPROVED = "approved", "Approved"

    version = models.ForeignKey(IssueVersion, on_delete=models.PROTECT, related_name="records")
    number = models.PositiveIntegerField()
    standing = models.CharField(max_length=10, choices=Standing.choices, default=Standing.IMPORTED)
    made_at = models.DateTimeField(auto_now_add=True)
    written_by = models.ForeignKey(
        Member, null=True, blank=True, editable=False, on_delete=models.PROTECT, related_name="records"
    )
    why = models.TextField(blank=True, default="", help_text="why the record was changed")

    class Meta:
        ordering = ["version", "-number"]
        constraints = [
            models.CheckConstraint(
                condition=Q(standing__in=["imported", "written", "approved"]), name="record_standing_is_known"
            ),
            models.CheckConstraint(
                condition=~Q(standing="written") | (Q(written_by__isnull=False) & ~Q(why="")),
                name="written_record_says_who_and_why",
                violation_error_message="A record written by hand says who wrote it and why.",
            ),
            models.UniqueConstraint(fields=["version", "number"], name="record_number_stands_once"),
        ]

    def __str__(self) -> str:
        return f"record {self.number}"


class ProfileCell(models.Model):
    """One state that a version shows. A feature without a cell is not recorded, which is not the same as absent."""

    record = models.ForeignKey(VersionRecord, on_delete=models.CASCADE, related_name="cells")
    state = models.ForeignKey(FeatureState, on_delete=models.PROTECT, related_name="cells")
    how_often = models.CharField(max_length=10, choices=HowOften.choices, default=HowOften.ALWAYS)
    share = models.FloatField(null=True, blank=True, help_text="counted share of pieces, 0 to 1; wins over the word")
    certainty = models.CharField(
        max_length=12,
        choices=Certainty.choices,
        blank=True,
        default="",
        help_text="empty: carried over or asserted",
    )
    sizes = models.CharField(max_length=200, blank=True, default="", help_text="only on these sizes, spaces between")
    makers = models.ManyToManyField(Maker, blank=True, related_name="+", help_text="only from these makers")
    first_year = models.SmallIntegerField(null=True, blank=True, help_text="only from this year")
    last_year = models.SmallIntegerField(null=True, blank=True, help_text="only until this year")
    note = models.TextField(blank=True, default="")

    class Meta:
        ordering = ["record", "state"]
        constraints = [
            one_of("how_often", HowOften),
            models.CheckConstraint(
                condition=Q(share__isnull=True) | Q(share__gt=0, share__lte=1),
                name="cell_share_is_a_share",
                violation_error_message="A counted share is a number above 0 and up to 1; 0.3 is three in ten.",
            ),
            one_of("certainty", Certainty, or_empty=True),
            models.UniqueConstraint(fields=["record", "state"], name="state_stands_once_in_its_record"),
            models.CheckConstraint(
                condition=Q(first_year__isnull=True) | Q(last_year__isnull=True) | Q(first_year__lte=F("last_year")),
                name="cell_years_run_upward",
                violation_error_message="The last year lies before the first.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.state_id} {self.how_often}"

    def clean(self):
        """A profile speaks of features that its garment type has: others would never be shown."""
        if not (self.state_id and self.record.version_id):
            return
        home, feature = self.record.version.garment_type, self.state.feature
        if not home.features.filter(pk=feature.pk).exists():
            words = f"“{self.state}” is a state of “{feature}”, a feature that {home} ({home.code}) does not have."
            raise ValidationError({"state": words})
