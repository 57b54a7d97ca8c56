"""Read labels in bulk: one JSON object a line in, one a line out."""

import json
import sys

from django.core.management.base import BaseCommand
from django.utils import timezone

from identification.label_reading import FaultyContext, context_from, read_label


class Command(BaseCommand):
    help = "Read label texts: JSON lines with id, text and context in, one answer a line out."
    requires_system_checks = ()

    def add_arguments(self, parser):
        parser.add_argument(
            "--with-reference", action="store_true", help="add the number forms and makers of this site's reference"
        )

    def handle(self, *, with_reference: bool, **options):
        known = reference_knowledge() if with_reference else {}
        this_year = timezone.localdate().year
        for line in sys.stdin.buffer:
            if line.strip():
                answer = answer_to(line, known, this_year)
                # ASCII escapes: a lone half of a surrogate pair must not end the run.
                self.stdout.write(json.dumps(answer))
                self.stdout.flush()


def answer_to(line: bytes, known: dict, this_year: int) -> dict:
    """The answer to one line; a line that cannot be used gets its id, where it has one, and what is the matter."""
    try:
        request = json.loads(line)
    except (ValueError, RecursionError):
        return {"id": None, "error": "this line is no JSON object in UTF-8"}
    if not isinstance(request, dict):
        return {"id": None, "error": "this line is no JSON object"}
    name = request.get("id")
    text = request.get("text")
    if not isinstance(text, str):
        return {"id": name, "error": "text must be there and be a text"}
    try:
        given = request.get("context")
        context = context_from({**known, **given} if isinstance(given, dict) else given or known, this_year)
    except FaultyContext as fault:
        return {"id": name, "error": str(fault)}
    return {"id": name} | read_label(text, context)


def reference_knowledge() -> dict:
    from catalogue.reference.label_context import society_rows

    return society_rows()
