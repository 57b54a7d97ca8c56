"""The history of a feature, for every reader: what it once said stays readable at an address of its own."""

from django.http import Http404
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from catalogue.reference.glossary import glossary, near_features
from catalogue.reference.models import Feature
from catalogue.reference.nearest import NoSuchRecord
from catalogue.reference.snapshots import keep_for_state
from catalogue.review.features import pages
from catalogue.review.models import FeatureRecord
from catalogue.review.records.days import asked_day, day_address

LONGEST_SHOWN = 20


def records_or_nearest(code: str) -> list[FeatureRecord]:
    """The gate: the records of a feature, newest first, none for one that was never written down; otherwise a 404 that
    names what is spelled so."""
    found = list(pages.records_of(code))
    if not found and not Feature.objects.filter(code=code).exists():
        groups = keep_for_state(("glossary",), glossary)
        raise NoSuchRecord(f"There is no feature “{code[:LONGEST_SHOWN]}”.", near_features(groups, code))
    return found


@require_safe
def history(request, code):
    """Every record of a feature, newest first; with `?on=2026-05-14` the one that stood on that day."""
    found = records_or_nearest(code)
    asked = asked_day(request.GET.get("on", ""), found, what=f"the feature {code}")
    if asked is None or asked.record is None:
        context = pages.history_context(code, found, request.GET.get("page"))
        return render(request, "review/features/history.html", context | {"asked_day": asked})
    address = day_address(pages.history_address(code), asked)
    if not asked.is_a_date:
        return redirect(address)
    context = pages.record_context(asked.record, found) | {"permanent": request.build_absolute_uri(address)}
    return render(request, "review/features/record.html", context | {"asked_day": asked})


@require_safe
def one_record(request, code, number):
    """A feature as it was; `?with=NUMBER` sets another time beside it."""
    found = records_or_nearest(code)
    by_number = {str(one.number): one for one in found}
    record = by_number.get(str(number))
    if record is None:
        raise Http404(f"The feature {code} has no record {number}.")
    asked = request.GET.get("with", "").strip()
    other = by_number.get(asked)
    context = pages.record_context(record, found)
    if other is not None and other != record:
        earlier, later = sorted((record, other), key=lambda one: one.number)
        context |= {"compared": pages.compared_context(earlier, later)}
    permanent = request.build_absolute_uri(context["row"]["address"])
    context |= {"permanent": permanent, "asked": asked[:LONGEST_SHOWN]}
    return render(request, "review/features/record.html", context)
