"""The pages of the book: types, versions, comparison, lists, sources. They stand on facts read once a state."""

from django.shortcuts import redirect, render

from catalogue.long_lists import page_of
from catalogue.reference import evidence_pages, nearest
from catalogue.reference.addresses import address_of
from catalogue.reference.compare_page import compare_context
from catalogue.reference.glossary import address_of_feature, glossary, group_page, near_features
from catalogue.reference.models import GarmentType, Issuer, Maker, OpenQuestion, ReferenceState, Source
from catalogue.reference.nearest import record_or_nearest
from catalogue.reference.search import LONGEST_QUERY, search_context
from catalogue.reference.snapshots import all_types, keep_for_state, type_facts, type_of_retired, type_of_version
from catalogue.reference.sources_page import sources_context
from catalogue.reference.type_page import type_context
from catalogue.reference.version_page import version_context
from catalogue.reference.versions_page import versions_context

A_PAGE_OF_TYPES = 60
A_PAGE_OF_RECORDS = 100


def types(request):
    """Every garment type, in the society's order."""
    number = ReferenceState.current_number()
    rows = keep_for_state(("rows of types",), lambda: type_rows(number), number=number)
    return listed(request, "reference/types.html", rows, A_PAGE_OF_TYPES)


def type_rows(number: int) -> list[dict]:
    return [
        {
            "name": facts.name,
            "code": facts.code,
            "address": address_of("type", facts.code),
            "other_names": ", ".join(facts.other_names),
            "description": facts.description,
            "garment_class": facts.garment_class,
            "own_views": tuple(facts.silhouettes),
            "number": len(facts.versions),
            "years": years_of(facts),
        }
        for facts in all_types(number=number)
    ]


def years_of(facts) -> str:
    """First and last year of any of its versions, as 1952–2009."""
    years = [y for version in facts.versions.values() for y in (version.from_year, version.to_year) if y]
    return f"{min(years)}–{max(years)}" if years and min(years) != max(years) else "".join(map(str, years[:1]))


def listed(request, template: str, rows: list, size: int):
    """A long list, a page at a time."""
    page, odd_page = page_of(request.GET.get("page"), rows, size)
    return render(request, template, {"page": page, "odd_page": odd_page, "keep": ""})


def garment_type(request, code):
    """A type with its versions, and what tells them apart."""
    number = ReferenceState.current_number()
    facts = type_facts(code, number=number)
    if facts is None:
        known = GarmentType.objects.values_list("code", "name")
        raise nearest.no_such_record("garment type", "type", code, known)
    return render(request, "reference/type.html", type_context(facts, number=number) | {"number": number})


def version(request, code):
    """A version with its whole profile and what it rests on."""
    number = ReferenceState.current_number()
    facts = type_of_version(code, number=number)
    if facts is None and (home := type_of_retired(code, number=number)):
        context = version_context(home, home.retired[code], number=number)
        return render(request, "reference/retired.html", context | {"number": number})
    if facts is None:
        raise nearest.no_such_record("version", "version", code, nearest.version_names(number=number).items())
    context = version_context(facts, facts.versions[code], number=number)
    permanent = request.build_absolute_uri(address_of("version", code))
    return render(request, "reference/version.html", context | {"permanent": permanent, "number": number})


def versions(request):
    """All versions, narrowed by facets."""
    context = versions_context(request.GET, number=ReferenceState.current_number())
    return render(request, "reference/versions.html", context)


def compare_versions(request):
    """Two to four versions side by side."""
    number = ReferenceState.current_number()
    context = compare_context(request.GET.getlist("v"), number=number)
    return render(request, "reference/compare.html", context | {"number": number})


def search_page(request):
    """One box for everything."""
    query = request.GET.get("q", "")[:LONGEST_QUERY]
    return render(request, "reference/search.html", search_context(query, number=ReferenceState.current_number()))


def sources(request):
    """All sources, narrowed by kind, grade and whether anything rests on them."""
    context = sources_context(request.GET, number=ReferenceState.current_number())
    return render(request, "reference/sources.html", context)


def source(request, code):
    """A source with every claim that it supports or contradicts."""
    found = record_or_nearest(Source.objects.all(), "source", "source", code, "title")
    return render(request, "reference/source.html", evidence_pages.source_context(found))


def makers(request):
    rows = keep_for_state(("rows of makers",), evidence_pages.maker_rows)
    return listed(request, "reference/makers.html", rows, A_PAGE_OF_RECORDS)


def maker(request, code):
    """A maker with its habits and the versions it made."""
    found = record_or_nearest(Maker.objects.all(), "maker", "maker", code, "name")
    return render(request, "reference/maker.html", evidence_pages.maker_context(found))


def issuer(request, code):
    """A service that gave clothing out."""
    number = ReferenceState.current_number()
    found = record_or_nearest(
        Issuer.objects.select_related("predecessor", "successor"), "issuer", "issuer", code, "name"
    )
    return render(request, "reference/issuer.html", evidence_pages.issuer_context(found, number=number))


def open_questions(request):
    rows = keep_for_state(("rows of questions",), evidence_pages.question_rows)
    return listed(request, "reference/open_questions.html", rows, A_PAGE_OF_RECORDS)


def open_question(request, code):
    """A disputed matter with every view that is held."""
    found = record_or_nearest(OpenQuestion.objects.all(), "open question", "open_question", code, "question")
    return render(request, "reference/open_question.html", evidence_pages.question_context(found))


def features(request):
    """The features by name; each leads to what it means, on the page of its group."""
    return render(request, "reference/features.html", {"groups": keep_for_state(("glossary",), glossary)})


def feature_group(request, group):
    """What the questions of one group mean. The code of a feature leads to its place."""
    groups = keep_for_state(("glossary",), glossary)
    context = group_page(groups, group)
    if context:
        return render(request, "reference/feature_group.html", context)
    if place := address_of_feature(groups, group):
        return redirect(place)
    words = f"There is no feature and no group of features “{group[: nearest.LONGEST_SHOWN]}”."
    raise nearest.NoSuchRecord(words, near_features(groups, group))
