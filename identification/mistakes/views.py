"""The page that says what a version is mistaken for. It is worked out at its first visit and kept."""

from django.shortcuts import render

from catalogue.reference import nearest
from catalogue.reference.models import ReferenceState
from catalogue.reference.snapshots import type_of_version
from identification.mistakes.predicted import mistakes_context


def mistaken_for(request, code):
    """What a piece of this version would be named as, with what tells the two apart."""
    number = ReferenceState.current_number()
    facts = type_of_version(code, number=number)
    if facts is None:
        raise nearest.no_such_record("version", "version", code, nearest.version_names(number=number).items())
    context = mistakes_context(facts, facts.versions[code], number=number)
    return render(request, "mistakes/version.html", context)
