"""The pages of the book: types, versions, comparison, lists, sources. They stand on facts read once a state."""

from django.core.paginator import Paginator
from django.http import Http404
from django.shortcuts import get_object_or_404, render

from catalogue.reference import separation
from catalogue.reference.comparison import MOST, compare
from catalogue.reference.contents import contents
from catalogue.reference.evidence_pages import maker_context, source_context
from catalogue.reference.filters import FACETS, SORTS, VersionFilter, choice_lists, facet_counts
from catalogue.reference.models import Feature, Issuer, IssueVersion, Maker, OpenQuestion, Source
from catalogue.reference.reading import near_codes
from catalogue.reference.search import near_words, search
from catalogue.reference.snapshots import keep_for_state, type_facts, type_of_version
from catalogue.reference.uncertain_dates import in_words
from catalogue.reference.version_page import version_context
from catalogue.reference.words import VersionKind

A_PAGE = 50


def types(request):
    """Every garment type."""
    return render(request, "reference/types.html", {"types": contents()})


def garment_type(request, code):
    """A type with its versions, and what tells them apart."""
    facts = type_facts(code)
    if facts is None:
        raise Http404(f"There is no garment type {code[:80]}.")
    pairs = keep_for_state(("pairs", code), lambda: separation.separations_of_type(facts))
    versions = sorted(facts.versions.values(), key=lambda v: (v.from_year or 9999, v.to_year or 9999))
    context = {
        "facts": facts,
        "versions": versions,
        "pairs": len(pairs),
        "telling": separation.most_telling(facts, pairs),
        "alike": [(facts.versions[pair.one], facts.versions[pair.other], pair) for pair in pairs if pair.is_hard],
    }
    return render(request, "reference/type.html", context)


def version(request, code):
    """A version with its whole profile and what it rests on."""
    facts = type_of_version(code)
    if facts is None:
        raise Http404(f"There is no version {code[:80]}.{near_codes(code)}")
    return render(request, "reference/version.html", version_context(facts, facts.versions[code]))


def versions(request):
    """All versions, narrowed by facets."""
    lists = choice_lists()
    filtered = VersionFilter(request.GET, IssueVersion.objects.all(), lists=lists)
    valid = filtered.is_valid()
    rows = filtered.qs if valid else IssueVersion.objects.none()
    sort = request.GET.get("sort") if request.GET.get("sort") in SORTS else "type"
    listed = rows.order_by(*SORTS[sort]).values(
        "code", "name", "kind", "date", "garment_type__name", "garment_type__code", "piece_seen"
    )
    page = Paginator(listed.distinct(), A_PAGE).get_page(request.GET.get("page"))
    counts = facet_counts(filtered, lists) if valid else None
    context = {
        "filter": filtered,
        "page": page,
        "rows": [version_row(row) for row in page],
        "facets": facet_rows(filtered, counts, lists),
        "chosen": chosen_filters(request, lists),
        "states": state_choices(request, lists["state"]),
        "sort": sort,
        "keep": kept_query(request),
        "faults": faults_in_words(filtered) if not valid else [],
    }
    return render(request, "reference/versions.html", context)


def version_row(row: dict) -> dict:
    return row | {"kind_words": VersionKind(row["kind"]).label, "date_words": in_words(row["date"])}


def faults_in_words(filtered: VersionFilter) -> list[str]:
    """What cannot be read, under the names that the form shows."""
    errors = filtered.form.errors.items()
    return [f"{filtered.filters[name].label}: {message}" for name, messages in errors for message in messages]


def facet_rows(filtered: VersionFilter, counts: dict | None, lists: dict) -> list[dict]:
    """Each facet with its choices, how many versions each would show, and whether it is ticked.

    Without counts (a filter cannot be read) every choice stands, so that no tick is lost.
    """
    found = []
    for facet in FACETS:
        numbers = counts[facet] if counts is not None else {}
        ticked = set(filtered.data.getlist(facet)) if filtered.data else set()
        choices = [
            {"value": value, "label": label, "number": numbers.get(value, 0), "ticked": value in ticked}
            for value, label in lists[facet]
            if counts is None or numbers.get(value) or value in ticked
        ]
        row = {"name": facet, "label": filtered.filters[facet].label, "choices": choices}
        found.append(row | {"counted": counts is not None})
    return found


def state_choices(request, choices: list[tuple[str, str]]) -> list[dict]:
    """States grouped by their features, the ticked ones known."""
    ticked = set(request.GET.getlist("state"))
    grouped: dict[str, list[dict]] = {}
    for value, words in choices:
        name, _, label = words.partition(": ")
        grouped.setdefault(name, []).append({"value": value, "label": label, "ticked": value in ticked})
    return [
        {"name": name, "states": states, "open": any(state["ticked"] for state in states)}
        for name, states in grouped.items()
    ]


def chosen_filters(request, lists: dict) -> list[dict]:
    """What narrows the list now, each with the address without it."""
    labels = {name: dict(choices) for name, choices in lists.items()}
    found = []
    for name in request.GET:
        if name in ("page", "sort") or name not in VersionFilter.base_filters:
            continue
        for value in request.GET.getlist(name):
            if value:
                rest = request.GET.copy()
                rest.setlist(name, [other for other in rest.getlist(name) if other != value])
                rest.pop("page", None)
                words = labels.get(name, {}).get(value, value)
                label = VersionFilter.base_filters[name].label
                found.append({"words": f"{label}: {words}", "without": f"?{rest.urlencode()}"})
    return found


def kept_query(request) -> str:
    rest = request.GET.copy()
    rest.pop("page", None)
    return rest.urlencode()


def compare_versions(request):
    """Two to four versions side by side."""
    given = [code for code in dict.fromkeys(request.GET.getlist("v")) if code]
    found = [(home, home.versions[code]) for code in given if (home := type_of_version(code))]
    unknown = [{"code": code[:80], "near": near_codes(code)} for code in given if not type_of_version(code)]
    context = {
        "choices": [one for one in contents() if one.versions],
        "given": given,
        "unknown": unknown,
        "too_many": len(found) > MOST,
        "slots": range(MOST),
    }
    if len(found) >= 2:
        homes, chosen = zip(*found[:MOST], strict=True)
        context["comparison"] = compare(list(homes), list(chosen))
        context["questions"] = list({q.code: q for v in chosen for q in v.open_questions}.values())
        context["names"] = {v.code: v.name for v in chosen}
    return render(request, "reference/compare.html", context)


def search_page(request):
    """One box for everything."""
    query = request.GET.get("q", "")[:200]
    results = search(query)
    groups: dict[str, list] = {}
    for found in results:
        groups.setdefault(found.entry.group, []).append(found)
    near = [] if results or not query.strip() else near_words(query)
    return render(request, "reference/search.html", {"query": query, "groups": groups, "near": near})


def sources(request):
    return render(request, "reference/sources.html", {"sources": Source.objects.order_by("code")})


def source(request, code):
    return render(request, "reference/source.html", source_context(get_object_or_404(Source, code=code)))


def makers(request):
    return render(request, "reference/makers.html", {"makers": Maker.objects.all()})


def maker(request, code):
    return render(request, "reference/maker.html", maker_context(get_object_or_404(Maker, code=code)))


def issuer(request, code):
    found = get_object_or_404(Issuer.objects.select_related("predecessor", "successor"), code=code)
    context = {"issuer": found, "date": in_words(found.date), "types": list(found.garment_types.all())}
    return render(request, "reference/issuer.html", context)


def open_questions(request):
    rows = OpenQuestion.objects.prefetch_related("versions").order_by("settled", "code")
    return render(request, "reference/open_questions.html", {"questions": rows})


def open_question(request, code):
    rows = OpenQuestion.objects.prefetch_related("versions", "views__sources")
    return render(request, "reference/open_question.html", {"question": get_object_or_404(rows, code=code)})


def features(request):
    """What the questions mean: the glossary of features."""
    rows = Feature.objects.select_related("parent").prefetch_related("states")
    return render(request, "reference/features.html", {"features": rows})
