"""`python -m tests.benchmarks.minimal_django.fill`: the tables, and 5,000 rows."""

import os
from datetime import date, timedelta

import django
from django.db import connection

ROWS, MAKERS = 5_000, 40


def fill() -> None:
    from tests.benchmarks.minimal_django.models import Maker, Piece

    with connection.schema_editor() as editor:
        editor.create_model(Maker)
        editor.create_model(Piece)
    makers = Maker.objects.bulk_create(Maker(name=f"Maker number {i}") for i in range(MAKERS))
    Piece.objects.bulk_create(
        Piece(
            code=f"piece-{i}",
            name=f"Piece number {i}, second pattern",
            kind=Piece.Kind.values[i % 4],
            maker=makers[i % MAKERS],
            seen=date(1940, 1, 1) + timedelta(days=5 * i),
            note="Two pockets, a hood, a cord at the waist.",
        )
        for i in range(ROWS)
    )


if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.benchmarks.minimal_django.settings")
    django.setup()
    fill()
