"""The front page and the pages about the site itself."""

from django.http import HttpResponse
from django.shortcuts import render

from catalogue.reference.contents import contents
from catalogue.reference.models import IssueVersion, ProfileCell
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.words import KIND_MEANING, Grade, VersionKind


def home(request):
    """Two doors and a search."""
    return render(request, "site_pages/home.html", keep_for_state(("home",), home_context))


def home_context() -> dict:
    cells = ProfileCell.objects.filter(record__in=IssueVersion.objects.values("current_record"))
    return {
        "types": [one for one in contents() if one.versions],
        "number_of_versions": IssueVersion.objects.count(),
        "issued": IssueVersion.objects.filter(kind=VersionKind.ISSUE).count(),
        "cells": cells.count(),
    }


def cautions(request):
    return render(request, "site_pages/cautions.html")


def about(request):
    context = {"kinds": [(kind.label, meaning) for kind, meaning in KIND_MEANING.items()], "grades": Grade.labels}
    return render(request, "site_pages/about.html", context)


def robots(request):
    """Walks have endless addresses: nothing to collect there."""
    return HttpResponse("User-agent: *\nDisallow: /which/\nDisallow: /admin/\n", content_type="text/plain")


def not_found(request, exception):
    """404 in the site's own look, with the view's own words where it had some."""
    words = str(exception) if exception.args and isinstance(exception.args[0], str) else ""
    return render(request, "404.html", {"words": words}, status=404)
