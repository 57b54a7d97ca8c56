"""The front page, the pages about the site itself, and what is shown when there is no page."""

import re
from collections import Counter

from django.core.exceptions import RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent
from django.http import HttpResponse
from django.shortcuts import redirect, render

from catalogue.reference.facts import TypeFacts
from catalogue.reference.models import ReferenceState
from catalogue.reference.plurals import counted
from catalogue.reference.snapshots import all_types, keep_for_state
from catalogue.reference.views import type_rows
from catalogue.reference.words import KIND_MEANING, Grade

MOST_TYPES = 24
GROUNDS = ("Documented", "Observed on pieces", "Inferred", "Carried over", "Recorded", "Asserted")
GROUND_WORDS = {
    "Observed on pieces": "observed",
    "Carried over": "carried over from the version before",
    "Asserted": "without a source",
}
# Walks, comparisons and filters have endless addresses; and pages of people are nobody's to collect.
ENDLESS_OR_PERSONAL = (
    "which/",
    "compare/",
    "search/",
    "*?",
    "admin/",
    "account/",
    "join/",
    "my/",
    "people/",
    "society/",
)
ROBOTS = "User-agent: *\n" + "".join(f"Disallow: /{address}\n" for address in ENDLESS_OR_PERSONAL)


def home(request):
    """Two doors and a search."""
    number = ReferenceState.current_number()
    context = keep_for_state(("home",), lambda: home_context(number), number=number)
    return render(request, "site_pages/home.html", context)


def home_context(number: int) -> dict:
    types = all_types(number=number)
    return {
        "types": type_rows(number)[:MOST_TYPES],
        "more": max(0, len(types) - MOST_TYPES),
        "number_of_types": len(types),
        "number_of_versions": sum(len(facts.versions) for facts in types),
        "sure": sure_words(types),
    }


def sure_words(types: tuple[TypeFacts, ...]) -> str:
    """What the reference rests on, in numbers."""
    versions = [version for facts in types for version in facts.versions.values()]
    grounds = Counter(cell.grounds for version in versions for cells in version.cells.values() for cell in cells)
    parts = [f"{grounds[g]:,} {GROUND_WORDS.get(g, g.lower())}" for g in GROUNDS if grounds[g]]
    issued = sum(version.kind == "issue" for version in versions)
    unseen = sum(not version.piece_seen for version in versions)
    words = f"{issued} of {counted(len(versions), 'version')} {'is an issue' if issued == 1 else 'are issues'}"
    words += ", the rest trials, conversions, copies and the unplaced" if issued < len(versions) else ""
    words += f"; of {unseen} no piece has been seen" if unseen else ""
    if not grounds:
        return f"{words}. No state of a feature is recorded yet."
    return f"{words}. {stated(sum(grounds.values()))} recorded: {', '.join(parts)}."


def stated(number: int) -> str:
    return "1 state of a feature is" if number == 1 else f"{number:,} states of features are"


def cautions(request):
    return render(request, "site_pages/cautions.html")


def about(request):
    context = {"kinds": [(kind.label, meaning) for kind, meaning in KIND_MEANING.items()], "grades": Grade.labels}
    return render(request, "site_pages/about.html", context)


def robots(request):
    return HttpResponse(ROBOTS, content_type="text/plain")


# What Django says of a row that is not there, in the names of our tables.
OF_THE_FRAMEWORK = re.compile(r"No \w+ matches the given query\.")


def not_found(request, exception):
    """404 in the site's own look, with the view's own words and what is spelled nearly so where it had some."""
    if now_at := getattr(exception, "now_at", ""):
        return redirect(now_at)
    words = str(exception) if exception.args and isinstance(exception.args[0], str) else ""
    words = "" if OF_THE_FRAMEWORK.fullmatch(words) else words
    context = {"words": words, "near": getattr(exception, "near", [])}
    return render(request, "404.html", context, status=404)


# What Django refuses before a view sees it, in words; anything else gets none.
TOO_MUCH = {
    TooManyFilesSent: "More than 200 files at once are not taken. Send fewer at a time; nothing of these was kept.",
    TooManyFieldsSent: "The form had more fields than any page of this site. Nothing of it was kept.",
    RequestDataTooBig: "The text of the form is too long. Nothing of it was kept.",
}


def not_read(request, exception):
    """400; nothing of the faulty request is shown again."""
    words = TOO_MUCH.get(type(exception), "")
    return render(request, "400.html", {"words": words, "form": request.method == "POST"}, status=400)


def not_open(request, exception):
    """403, with the words of whoever refused."""
    return render(request, "403.html", {"words": str(exception)}, status=403)
