"""The list of sources: narrowed by kind, by grade, and to those that no claim rests on."""

import django_filters
from django.db.models import Q, QuerySet
from django.http import QueryDict

from catalogue.long_lists import page_of
from catalogue.reference.addresses import address_of
from catalogue.reference.filters import without_blanks
from catalogue.reference.models import Source
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.uncertain_dates import in_words
from catalogue.reference.versions_page import query_without, without
from catalogue.reference.words import Grade, SourceKind

A_PAGE = 100
CITED = {"no": "by no claim", "yes": "by some claim"}


class SourceFilter(django_filters.FilterSet):
    """Checked strictly: what cannot be read is said, and never taken for no filter at all."""

    q = django_filters.CharFilter(label="Title, keeper, shelf mark or code", method="by_words", max_length=100)
    kind = django_filters.MultipleChoiceFilter(
        label="Kind",
        choices=SourceKind.choices,
        error_messages={"invalid_choice": "There is no kind of source “%(value)s”."},
    )
    grade = django_filters.MultipleChoiceFilter(
        label="Grade", choices=Grade.choices, error_messages={"invalid_choice": "There is no grade “%(value)s”."}
    )
    cited = django_filters.ChoiceFilter(
        label="Cited",
        method="by_claims",
        choices=list(CITED.items()),
        error_messages={"invalid_choice": "“%(value)s” is neither yes nor no."},
    )

    class Meta:
        model = Source
        fields: list[str] = []

    def __init__(self, data: QueryDict):
        super().__init__(without_blanks(data), queryset=Source.objects.order_by("code"))

    def by_words(self, rows: QuerySet, name: str, value: str) -> QuerySet:
        for word in value.split():
            rows = rows.filter(
                Q(title__icontains=word)
                | Q(holder__icontains=word)
                | Q(shelf_mark__icontains=word)
                | Q(code__icontains=word)
            )
        return rows

    def by_claims(self, rows: QuerySet, name: str, value: str) -> QuerySet:
        return rows.cited() if value == "yes" else rows.uncited()


def sources_context(given: QueryDict, *, number: int) -> dict:
    """Everything the template needs, for whatever the address holds."""
    kinds = keep_for_state(("kinds of sources",), kinds_of_sources, number=number)
    filtered = SourceFilter(given)
    context = {
        "chosen": chosen_filters(given),
        "unknown": [name for name in given if name not in SourceFilter.base_filters and name != "page"],
        "typed": {"q": given.get("q", "")},
        "facets": [
            ticks("kind", [(kind, words) for kind, words in SourceKind.choices if kind in kinds], given),
            ticks("grade", Grade.choices, given),
        ],
        "cited": [{"code": c, "words": w, "chosen": given.get("cited") == c} for c, w in CITED.items()],
    }
    if not filtered.is_valid():
        faults = [
            {"field": name, "label": SourceFilter.base_filters[name].label, "words": " ".join(messages)}
            for name, messages in filtered.form.errors.items()
        ]
        return context | {"faults": faults, "fault_in": {fault["field"]: fault["words"] for fault in faults}}
    page, odd_page = page_of(given.get("page"), filtered.qs, A_PAGE)
    return context | {
        "page": page,
        "odd_page": odd_page,
        "keep": query_without(given, "page"),
        "found": page.paginator.count,
        "rows": [source_row(source) for source in page],
    }


def kinds_of_sources() -> set[str]:
    """Those that some source has."""
    return set(Source.objects.order_by().values_list("kind", flat=True))


def ticks(name: str, choices: list[tuple[str, str]], given: QueryDict) -> dict:
    ticked = given.getlist(name)
    return {
        "name": name,
        "label": SourceFilter.base_filters[name].label,
        "choices": [{"code": code, "words": words, "ticked": code in ticked} for code, words in choices],
    }


def chosen_filters(given: QueryDict) -> list[dict]:
    """What narrows the list now, each with the address without it."""
    words = {"kind": dict(SourceKind.choices), "grade": dict(Grade.choices), "cited": CITED}
    return [
        {
            "words": f"{SourceFilter.base_filters[name].label}: {words.get(name, {}).get(value, value)}",
            "without": without(given, name, value),
        }
        for name in given
        if name in SourceFilter.base_filters
        for value in dict.fromkeys(given.getlist(name))
        if value
    ]


def source_row(source: Source) -> dict:
    return {
        "code": source.code,
        "title": source.title,
        "kind": source.get_kind_display(),
        "grade": source.grade,
        "date": in_words(source.date),
        "address": address_of("source", source.code),
    }
