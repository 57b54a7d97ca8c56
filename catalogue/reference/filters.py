"""The list of versions, narrowed by facets. Each facet's counts leave that facet itself out of account."""

import django_filters
from django import forms
from django.db.models import Count, Q, QuerySet

from catalogue.reference.models import Feature, FeatureState, IssueVersion
from catalogue.reference.numbers import folded
from catalogue.reference.search import index
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.words import VersionKind

SORTS = {
    "type": ("garment_type__position", "garment_type__code", "position", "code"),
    "date": ("from_year", "to_year", "code"),
    "name": ("name", "code"),
}
FACETS = {
    "type": ("garment_type__code", "garment_type__name"),
    "kind": ("kind", None),
    "cut": ("cut__code", "cut__name"),
    "colourway": ("colourway__code", "colourway__name"),
    "maker": ("makers__code", "makers__name"),
}


def choice_lists() -> dict[str, list[tuple[str, str]]]:
    """What each facet can be narrowed to, kept until the reference changes."""
    return keep_for_state(("facet choices",), read_choices)


def read_choices() -> dict[str, list[tuple[str, str]]]:
    found: dict[str, list[tuple[str, str]]] = {}
    for facet, (code, name) in FACETS.items():
        if name is None:
            found[facet] = list(VersionKind.choices)
        else:
            rows = IssueVersion.objects.exclude(**{code: None}).order_by(name).values_list(code, name).distinct()
            found[facet] = list(dict.fromkeys(rows))
    found["feature"] = list(Feature.objects.filter(type_features__isnull=False).distinct().values_list("code", "name"))
    states = FeatureState.objects.values_list("feature__code", "code", "feature__name", "label")
    found["state"] = [(f"{feature}:{state}", f"{name}: {label}") for feature, state, name, label in states]
    return found


def marks(field_name: str, label: str) -> django_filters.MultipleChoiceFilter:
    """Ticks; which ones there are is set when the filter is made, from the present reference."""
    return django_filters.MultipleChoiceFilter(
        field_name=field_name, label=label, choices=[], widget=forms.CheckboxSelectMultiple, required=False
    )


class VersionFilter(django_filters.FilterSet):
    """Checked strictly: what cannot be read is said, and never taken for no filter at all.

    `lists`: the choices of each facet, read once for a page.
    """

    q = django_filters.CharFilter(label="Name, nickname or number", method="by_words", max_length=100)
    type = marks("garment_type__code", "Garment type")
    kind = marks("kind", "Kind")
    cut = marks("cut__code", "Cut")
    colourway = marks("colourway__code", "Colourway")
    maker = marks("makers__code", "Maker")
    year_from = django_filters.NumberFilter(
        label="Made in or after", method="not_before", min_value=1000, max_value=2100, decimal_places=0
    )
    year_to = django_filters.NumberFilter(
        label="Made in or before", method="not_after", min_value=1000, max_value=2100, decimal_places=0
    )
    state = django_filters.MultipleChoiceFilter(choices=[], method="by_states", label="Feature states")

    def __init__(self, data, queryset: QuerySet, *, lists: dict[str, list[tuple[str, str]]]):
        super().__init__(data, queryset=queryset)
        for name in (*FACETS, "state"):
            self.filters[name].extra["choices"] = lists[name]

    class Meta:
        model = IssueVersion
        fields: list[str] = []

    def by_words(self, rows: QuerySet, name: str, value: str) -> QuerySet:
        wanted = folded(value)
        names = {entry.title for entry in index() if entry.group == "Versions" and wanted in entry.text}
        return rows.filter(name__in=names)

    def not_before(self, rows: QuerySet, name: str, value) -> QuerySet:
        return rows.filter(Q(to_year__gte=value) | Q(to_year=None, from_year__isnull=False))

    def not_after(self, rows: QuerySet, name: str, value) -> QuerySet:
        return rows.filter(from_year__lte=value)

    def by_states(self, rows: QuerySet, name: str, values: list[str]) -> QuerySet:
        """States of one feature are alternatives; several features must all agree."""
        by_feature: dict[str, list[str]] = {}
        for value in values:
            feature, _, state = value.partition(":")
            by_feature.setdefault(feature, []).append(state)
        for feature, states in by_feature.items():
            rows = rows.filter(
                current_record__cells__state__feature__code=feature, current_record__cells__state__code__in=states
            )
        return rows


def facet_counts(filtered: VersionFilter, lists: dict[str, list[tuple[str, str]]]) -> dict[str, dict[str, int]]:
    """Versions by value of each facet, under all filters but its own."""
    counts = {}
    for facet, (code, _) in FACETS.items():
        given = filtered.data.copy() if filtered.data else {}
        if given and given.getlist(facet):
            del given[facet]
            rows = VersionFilter(given, IssueVersion.objects.all(), lists=lists).qs
        else:
            rows = filtered.qs
        pairs = rows.order_by().values_list(code).annotate(number=Count("pk", distinct=True))
        counts[facet] = {value: number for value, number in pairs if value is not None}
    return counts
