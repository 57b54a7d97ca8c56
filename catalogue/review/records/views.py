"""The history of a version, for every reader: what was approved once stays readable at an address of its own."""

from django.http import Http404
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from catalogue.reference import nearest
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.models import ReferenceState, VersionRecord
from catalogue.reference.snapshots import type_of_retired, type_of_version
from catalogue.review.records import pages
from catalogue.review.records.addresses import history_address, record_address
from catalogue.review.records.days import asked_day, day_address
from catalogue.review.records.reading import read_record

LONGEST_SHOWN = 20


def version_or_nearest(code: str) -> tuple[TypeFacts, VersionFacts]:
    """The gate: a version with its garment type, as they are now; otherwise a 404 that names what is spelled so."""
    number = ReferenceState.current_number()
    home = type_of_version(code, number=number)
    if home is None and (home := type_of_retired(code, number=number)):
        return home, home.retired[code]
    if home is None:
        raise nearest.no_such_record("version", "version", code, nearest.version_names(number=number).items())
    return home, home.versions[code]


@require_safe
def history(request, code):
    """Every record of a version, newest first; with `?on=2026-05-14` the one that stood on that day."""
    home, version = version_or_nearest(code)
    if not request.GET.get("on", "").strip():
        return render(request, "records/history.html", pages.history_context(home, version, request.GET.get("page")))
    dated = VersionRecord.objects.filter(version__code=version.code).only("number", "made_at").order_by("-number")
    asked = asked_day(request.GET["on"], list(dated), what=version.code)
    if asked.record is None:
        context = pages.history_context(home, version, request.GET.get("page"))
        return render(request, "records/history.html", context | {"asked_day": asked})
    if not asked.is_a_date:
        return redirect(day_address(history_address(version.code), asked))
    rows = without_bodies(version)
    one = read_record(numbered(rows, str(asked.record.number)), home, version)
    context = pages.record_context(one, version, rows)
    permanent = request.build_absolute_uri(day_address(history_address(version.code), asked))
    return render(request, "records/record.html", context | {"permanent": permanent, "asked_day": asked})


def without_bodies(version: VersionFacts) -> list[VersionRecord]:
    return list(pages.records_of(version).defer("seal__body"))


@require_safe
def one_record(request, code, number):
    """A record as it was; `?with=NUMBER` sets another beside it."""
    home, version = version_or_nearest(code)
    rows = without_bodies(version)
    record = numbered(rows, str(number))
    if record is None:
        raise Http404(f"{version.name} ({version.code}) has no record {number}.")
    asked = request.GET.get("with", "").strip()
    other = numbered(rows, asked)
    if other is not None and other != record:
        both = sorted((record, other), key=lambda row: row.number)
        earlier, later = (read_record(row, home, version) for row in both)
        return render(request, "records/compared.html", pages.compared_context(earlier, later, rows))
    one = read_record(record, home, version)
    context = pages.record_context(one, version, rows)
    permanent = request.build_absolute_uri(record_address(version.code, record.number))
    return render(request, "records/record.html", context | {"permanent": permanent, "asked": asked[:LONGEST_SHOWN]})


def numbered(rows: list[VersionRecord], asked: str) -> VersionRecord | None:
    """The record with the number that an address gives, or None."""
    return {str(row.number): row for row in rows}.get(asked)
