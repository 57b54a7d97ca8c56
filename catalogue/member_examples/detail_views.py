"""Pages and a spreadsheet of details that changed, for every reader: they stand on accepted examples only."""

from django.http import Http404, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from catalogue.member_examples import detail_pages, issuer_detail_pages
from catalogue.reference import nearest
from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.models import GarmentType, Issuer, ReferenceState
from catalogue.reference.snapshots import all_types, type_facts


def facts_or_nearest(code: str, *, number: int) -> TypeFacts:
    """The gate: the type with this code; otherwise a 404 that names what is spelled nearly so."""
    facts = type_facts(code, number=number)
    if facts is None:
        known = GarmentType.objects.values_list("code", "name")
        raise nearest.no_such_record("garment type", "type", code, known)
    return facts


def feature_of(facts: TypeFacts, code: str) -> FeatureFacts:
    if code not in facts.features:
        raise Http404(f"{facts.name} has no feature “{code}”.")
    return facts.features[code]


@require_safe
def of_type(request, code):
    """All details of a type that dated examples show."""
    number = ReferenceState.current_number()
    facts = facts_or_nearest(code, number=number)
    return render(request, "member_examples/details.html", detail_pages.details_context(facts, number=number))


@require_safe
def detail(request, code, feature):
    """When one detail of a type changed."""
    number = ReferenceState.current_number()
    facts = facts_or_nearest(code, number=number)
    context = detail_pages.detail_context(facts, feature_of(facts, feature), number=number)
    return render(request, "member_examples/detail.html", context)


@require_safe
def as_csv(request, code, feature):
    """The dated examples behind it, as a spreadsheet."""
    number = ReferenceState.current_number()
    facts = facts_or_nearest(code, number=number)
    text = detail_pages.detail_csv(facts, feature_of(facts, feature), number=number)
    response = HttpResponse(text, content_type="text/csv; charset=utf-8")
    response["Content-Disposition"] = "attachment; filename=dated-examples.csv"
    return response


def issuer_or_nearest(code: str) -> Issuer:
    found = Issuer.objects.filter(code=code).first()
    if found is None:
        raise nearest.no_such_record("issuer", "issuer", code, Issuer.objects.values_list("code", "name"))
    return found


@require_safe
def issuer_details(request, code):
    """Which details can be followed over all types of an issuer."""
    number = ReferenceState.current_number()
    issuer = issuer_or_nearest(code)
    context = issuer_detail_pages.issuer_details_context(issuer, all_types(number=number), number=number)
    return render(request, "member_examples/issuer_details.html", context)


@require_safe
def issuer_detail(request, code, feature):
    """One detail of all types of an issuer on one line of years."""
    number = ReferenceState.current_number()
    issuer = issuer_or_nearest(code)
    context = issuer_detail_pages.issuer_detail_context(issuer, all_types(number=number), feature, number=number)
    if context is None:
        raise Http404(f"No garment type of {issuer.name} has a feature “{feature}”.")
    return render(request, "member_examples/issuer_detail.html", context)
