"""The list of versions, narrowed by facets. Each facet's counts leave that facet itself out of account."""

from dataclasses import dataclass

import django_filters
from django import forms
from django.db.models import Count, Exists, OuterRef, Q, QuerySet
from django.http import QueryDict

from catalogue.reference.models import (
    Colourway,
    Cut,
    Feature,
    FeatureState,
    GarmentType,
    IssueVersion,
    Maker,
    ProfileCell,
)
from catalogue.reference.search import codes_of_versions
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.words import VersionKind

SORTS = {"type": "garment type", "date": "first year", "name": "name"}
# Facet: the column of a version that it counts, and the words above it.
FACETS = {
    "type": ("garment_type_id", "Garment type"),
    "kind": ("kind", "Kind"),
    "cut": ("cut_id", "Cut"),
    "colourway": ("colourway_id", "Colourway"),
    "maker": ("makers", "Maker"),
}
TABLES = {"type": GarmentType, "cut": Cut, "colourway": Colourway, "maker": Maker}
MOST_FEATURES_COUNTED = 5
EARLIEST, LATEST = 1000, 2100


@dataclass(frozen=True)
class Choice:
    """One value of a facet: as it stands in the address, in words, and as the column holds it."""

    code: str
    words: str
    key: object


@dataclass(frozen=True)
class Choices:
    """What the list can be narrowed to. `states`: by feature, then by "feature:state" as the address has it."""

    facets: dict[str, dict[str, Choice]]
    features: dict[str, str]
    states: dict[str, dict[str, Choice]]

    @property
    def state_codes(self) -> list[str]:
        return [code for states in self.states.values() for code in states]


def choices_now(*, number: int) -> Choices:
    """Kept until the reference changes."""
    return keep_for_state(("facet choices",), read_choices, number=number)


def read_choices() -> Choices:
    facets = {facet: table_choices(table) for facet, table in TABLES.items()}
    facets["kind"] = {kind.value: Choice(kind.value, kind.label, kind.value) for kind in VersionKind}
    used = Feature.objects.filter(type_features__isnull=False).distinct()
    features = dict(used.order_by("position", "code").values_list("code", "name"))
    states: dict[str, dict[str, Choice]] = {code: {} for code in features}
    rows = FeatureState.objects.filter(feature__code__in=features).order_by("position", "code")
    for feature, code, label, key in rows.values_list("feature__code", "code", "label", "pk"):
        states[feature][f"{feature}:{code}"] = Choice(f"{feature}:{code}", label, key)
    return Choices(facets, features, states)


def table_choices(table) -> dict[str, Choice]:
    rows = table.objects.filter(versions__isnull=False).distinct().values_list("code", "name", "pk")
    return {code: Choice(code, name, key) for code, name, key in rows}


def marks(facet: str) -> django_filters.MultipleChoiceFilter:
    """Ticks; which ones there are is set when the filter is made, from the present reference."""
    return django_filters.MultipleChoiceFilter(
        label=FACETS[facet][1],
        method="by_marks",
        choices=[],
        error_messages={"invalid_choice": "No version on record has “%(value)s” here."},
    )


def year(words: str, method: str) -> django_filters.NumberFilter:
    return django_filters.NumberFilter(
        label=words,
        method=method,
        min_value=EARLIEST,
        max_value=LATEST,
        decimal_places=0,
        error_messages={
            "invalid": "Write a year in four figures, as 1971.",
            "min_value": "Write a year in four figures, as 1971.",
            "max_value": "Write a year in four figures, as 1971.",
            "max_decimal_places": "Write a whole year, as 1971.",
            "max_whole_digits": "Write a year in four figures, as 1971.",
        },
    )


class YearsInOrder(forms.Form):
    """What no field can say by itself."""

    def clean(self):
        given = super().clean()
        first, last = given.get("year_from"), given.get("year_to")
        if first and last and first > last:
            self.add_error("year_to", f"No year is from {first} and to {last}: the earlier one comes first.")
        return given


class VersionFilter(django_filters.FilterSet):
    """Checked strictly: what cannot be read is said, and never taken for no filter at all.

    `choices`: what can be ticked, read once for a page.
    """

    q = django_filters.CharFilter(label="Name, nickname or number", method="by_words", max_length=100)
    type, kind, cut, colourway, maker = (marks(facet) for facet in FACETS)
    year_from = year("Made in or after", "not_before")
    year_to = year("Made in or before", "not_after")
    feature = django_filters.MultipleChoiceFilter(
        label="Feature",
        method="as_it_is",
        choices=[],
        error_messages={"invalid_choice": "“%(value)s” is no feature of the reference."},
    )
    state = django_filters.MultipleChoiceFilter(
        label="State",
        method="by_states",
        choices=[],
        error_messages={"invalid_choice": "“%(value)s” is no state of the reference."},
    )
    sort = django_filters.ChoiceFilter(
        label="In the order of",
        method="as_it_is",
        choices=list(SORTS.items()),
        error_messages={"invalid_choice": "The list cannot be put in the order of “%(value)s”."},
    )

    class Meta:
        model = IssueVersion
        form = YearsInOrder
        fields: list[str] = []

    def __init__(self, data: QueryDict, queryset: QuerySet, *, choices: Choices, number: int):
        super().__init__(without_blanks(data), queryset=queryset)
        self.choices, self.number = choices, number
        for facet, known in choices.facets.items():
            self.filters[facet].extra["choices"] = [(code, code) for code in known]
        self.filters["feature"].extra["choices"] = [(code, code) for code in choices.features]
        self.filters["state"].extra["choices"] = [(code, code) for code in choices.state_codes]

    def rows(self, *, without: str = "") -> QuerySet:
        """The versions under all filters but one. Only after `is_valid()`.

        No filter joins several rows to a version, so none is counted twice.
        """
        rows = self.queryset
        for name, value in self.form.cleaned_data.items():
            if name != without and value not in (None, "", []):
                rows = self.filters[name].filter(rows, value)
        return rows

    def as_it_is(self, rows: QuerySet, name: str, value) -> QuerySet:
        return rows

    def by_words(self, rows: QuerySet, name: str, value: str) -> QuerySet:
        return rows.filter(code__in=codes_of_versions(value, number=self.number))

    def by_marks(self, rows: QuerySet, name: str, values: list[str]) -> QuerySet:
        keys = [self.choices.facets[name][value].key for value in values]
        if name == "maker":
            made = IssueVersion.makers.through.objects.filter(issueversion=OuterRef("pk"), maker__in=keys)
            return rows.filter(Exists(made))
        return rows.filter(**{f"{FACETS[name][0]}__in": keys})

    def not_before(self, rows: QuerySet, name: str, value) -> QuerySet:
        return rows.filter(Q(to_year__gte=value) | Q(to_year=None, from_year__isnull=False))

    def not_after(self, rows: QuerySet, name: str, value) -> QuerySet:
        return rows.filter(Q(from_year__lte=value) | Q(from_year=None, to_year__isnull=False))

    def by_states(self, rows: QuerySet, name: str, values: list[str]) -> QuerySet:
        """States of one feature are alternatives; several features must all agree. Only the record in force counts."""
        by_feature: dict[str, list] = {}
        for value in values:
            feature = value.partition(":")[0]
            by_feature.setdefault(feature, []).append(self.choices.states[feature][value].key)
        for keys in by_feature.values():
            shown = ProfileCell.objects.filter(record=OuterRef("current_record"), state__in=keys)
            rows = rows.filter(Exists(shown))
        return rows


def without_blanks(data: QueryDict) -> QueryDict:
    """What a form sends for the fields left empty is no filter."""
    kept = QueryDict(mutable=True)
    for name in data:
        kept.setlist(name, [value for value in data.getlist(name) if value.strip()])
    return kept


def facet_counts(filtered: VersionFilter) -> dict[str, dict[object, int]]:
    """Versions by value of each facet, under all filters but its own. None counts those without a value."""
    return {facet: counted(filtered.rows(without=facet), column) for facet, (column, _) in FACETS.items()}


def counted(rows: QuerySet, column: str) -> dict[object, int]:
    return dict(rows.order_by().values_list(column).annotate(number=Count("pk")))


def state_counts(filtered: VersionFilter, feature: str) -> dict[object, int]:
    """Versions by state of one feature, under all filters but this feature's own states."""
    others = [value for value in filtered.form.cleaned_data["state"] if value.partition(":")[0] != feature]
    rows = filtered.by_states(filtered.rows(without="state"), "state", others)
    keys = [choice.key for choice in filtered.choices.states[feature].values()]
    cells = ProfileCell.objects.filter(record__in=rows.order_by().values("current_record"), state__in=keys)
    return dict(cells.order_by().values_list("state").annotate(number=Count("pk")))
