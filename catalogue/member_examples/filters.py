"""The gallery of pieces, narrowed by facets. Each facet's counts leave that facet itself out of account."""

from collections.abc import Callable

import django_filters
from django.db.models import Count, Exists, OuterRef, Q, QuerySet
from django.http import QueryDict

from catalogue.member_examples.models import Example, Label, Observation
from catalogue.member_examples.models.particulars import bare_text
from catalogue.member_examples.words import Condition, ExampleState
from catalogue.reference.filters import EARLIEST, LATEST, YearsInOrder, without_blanks

REVIEWED = {"yes": "Decided on by a moderator", "no": "Waiting or with its owner"}
LOOKED = {"one": "by one person", "more": "by two or more"}
# Facet: the column of an example that its values stand in, and the words above it.
FACETS = {
    "type": ("garment_type__code", "Garment type"),
    "version": ("held_as__code", "Kept as"),
    "maker": ("maker__code", "Maker"),
    "size": ("size_mark", "Size mark"),
    "condition": ("condition", "Condition"),
    "state": ("state", "State"),
}
DECIDED = (ExampleState.ACCEPTED, ExampleState.DECLINED)
# A shorter part of a label would be found on half of them.
SHORTEST_IN_A_LABEL = 4


def visible_to(person, *, moderator: bool) -> QuerySet:
    """The pieces that this person may read; the same rule as `rules.may_be_read`, for many at once."""
    seen = Q(state=ExampleState.ACCEPTED)
    if moderator:
        seen |= ~Q(state=ExampleState.DRAFT)
    if person is not None:
        seen |= Q(owner=person)
    return Example.objects.filter(seen)


def seen_by_all() -> QuerySet:
    """Of those the pieces that everybody may read."""
    return Example.objects.accepted()


def seen_by_this_one(person, *, moderator: bool) -> QuerySet:
    """Of those the others: a member's own, and for moderators all that were sent."""
    return visible_to(person, moderator=moderator).exclude(state=ExampleState.ACCEPTED)


def year(label: str, method: str) -> django_filters.NumberFilter:
    words = "“{}” is not a year: write four figures, as 1974."
    return django_filters.NumberFilter(
        label=label,
        method=method,
        min_value=EARLIEST,
        max_value=LATEST,
        decimal_places=0,
        error_messages={name: words.format("%(value)s") for name in ("min_value", "max_value", "max_decimal_places")}
        | {"invalid": "A year is written in four figures, as 1974."},
    )


class ExampleFilter(django_filters.FilterSet):
    """Everything the gallery can be narrowed by."""

    q = django_filters.CharFilter(label="Number of the piece, or words on a label", method="by_words", max_length=100)
    type = django_filters.CharFilter(method="by_marks", label="Garment type")
    version = django_filters.CharFilter(method="by_marks", label="Kept as")
    maker = django_filters.CharFilter(method="by_marks", label="Maker")
    size = django_filters.CharFilter(method="by_marks", label="Size mark")
    condition = django_filters.CharFilter(method="by_marks", label="Condition")
    state = django_filters.CharFilter(method="by_marks", label="State")
    year_from = year("Label year from", "not_before")
    year_to = year("Label year to", "not_after")
    shows = django_filters.CharFilter(label="Shows", method="by_codes")
    reviewed = django_filters.ChoiceFilter(
        label="Reviewed",
        method="by_review",
        choices=list(REVIEWED.items()),
        error_messages={"invalid_choice": "Reviewed is yes or no, not “%(value)s”."},
    )
    looked = django_filters.ChoiceFilter(
        label="Looked at",
        method="by_looks",
        choices=list(LOOKED.items()),
        error_messages={"invalid_choice": "Looked at is one or more, not “%(value)s”."},
    )

    class Meta:
        model = Example
        fields: list[str] = []
        form = YearsInOrder

    def __init__(self, data: QueryDict, queryset: QuerySet, *, showing: Callable[[], set[str]] | None):
        """`showing`: gives the codes of the pieces that show what `shows` asks for; None when it asks for nothing."""
        super().__init__(without_blanks(data), queryset=queryset)
        self.showing = showing

    @property
    def asked(self) -> tuple:
        """What is asked for, the same for two addresses that ask for the same."""
        return tuple((name, *self.data.getlist(name)) for name in sorted(self.data) if name in self.base_filters)

    def narrows(self, name: str) -> bool:
        return self.form.cleaned_data.get(name) not in (None, "", [])

    def among(self, rows: QuerySet) -> "ExampleFilter":
        """The same filters over other pieces. Only after `is_valid()`."""
        other = ExampleFilter(self.data, rows, showing=self.showing)
        other.is_valid()
        return other

    def rows(self, *, without: str = "") -> QuerySet:
        """The pieces under all filters but one. Only after `is_valid()`. No filter joins several rows to a piece."""
        rows = self.queryset
        for name, value in self.form.cleaned_data.items():
            if name != without and self.narrows(name):
                rows = self.filters[name].filter(rows, value)
        return rows

    def by_words(self, rows: QuerySet, name: str, value: str) -> QuerySet:
        return rows.filter(code_or_label(value.strip()))

    def by_marks(self, rows: QuerySet, name: str, value: str) -> QuerySet:
        """Several values of one facet are alternatives."""
        return rows.filter(**{f"{FACETS[name][0]}__in": self.data.getlist(name)})

    def by_codes(self, rows: QuerySet, name: str, value: str) -> QuerySet:
        return rows if self.showing is None else rows.filter(code__in=self.showing())

    def not_before(self, rows: QuerySet, name: str, value) -> QuerySet:
        return rows.filter(label_year__gte=value)

    def not_after(self, rows: QuerySet, name: str, value) -> QuerySet:
        return rows.filter(label_year__lte=value)

    def by_review(self, rows: QuerySet, name: str, value: str) -> QuerySet:
        return rows.filter(state__in=DECIDED) if value == "yes" else rows.exclude(state__in=DECIDED)

    def by_looks(self, rows: QuerySet, name: str, value: str) -> QuerySet:
        from_others = Observation.objects.filter(example=OuterRef("pk")).exclude(observer=OuterRef("owner"))
        return rows.filter(Exists(from_others) if value == "more" else ~Exists(from_others))


def code_or_label(words: str) -> Q:
    """The code as it is, or letters and figures that stand in this order on a label, whatever lies between."""
    code, bare = Q(code__iexact=words), bare_text(words)
    if len(bare) < SHORTEST_IN_A_LABEL:
        return code
    return code | Exists(Label.objects.filter(example=OuterRef("pk"), bare__contains=bare))


def counted(rows: QuerySet, column: str) -> dict[str, int]:
    """Pieces by value of a column, those without one left out."""
    found = rows.order_by().values_list(column).annotate(number=Count("pk"))
    return {value: number for value, number in found if value}


CONDITION_WORDS = dict(Condition.choices)
STATE_WORDS = dict(ExampleState.choices)
