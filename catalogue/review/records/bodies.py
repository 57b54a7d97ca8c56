"""A record with its cells as canonical JSON: the same record always gives the same text.

A body has two parts. `record` is the record itself: people, versions, states, makers and sources as the numbers of
their rows, so no name of a person stands in it. `words` is how these were called on the day of sealing, so that the
record can be read for ever as it was read then, whatever is renamed later. Both are sealed; only `record` can still be
compared with the tables.
"""

import json
from collections.abc import Sequence
from datetime import UTC

from django.db.models import Prefetch

FORMAT = 1
CELL_FIELDS = ("how_often", "share", "certainty", "sizes", "first_year", "last_year", "note")


def canonical(value) -> str:
    """JSON with sorted names and no spaces. In it numbers, texts, lists and objects have one spelling each."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def records_to_read(rows):
    """A queryset of VersionRecord with all that a body needs: as many queries for three as for three hundred.

    A migration's own models come here too, so the tables beside it are asked for by way of the record.
    """
    cells = rows.model._meta.get_field("cells").related_model
    citations = cells._meta.get_field("citations").related_model
    makers = cells._meta.get_field("makers").related_model
    # Lists of our own names: without them a queryset is made for every cell twice, which took half the time of an
    # import.
    return rows.select_related("version__garment_type", "version__issuer").prefetch_related(
        # Their own order goes through version, type and issuer: PostgreSQL, which knows nothing yet of rows that were
        # written a moment ago, took minutes for a thousand records. The body sorts them itself.
        Prefetch("cells", cells.objects.order_by("pk").select_related("state__feature"), to_attr="read_cells"),
        Prefetch("read_cells__makers", makers.objects.order_by("pk"), to_attr="read_makers"),
        Prefetch("read_cells__citations", citations.objects.select_related("source"), to_attr="read_citations"),
    )


def body_of(record) -> str:
    """The body of a record that `records_to_read` has read."""
    cells = sorted(record.read_cells, key=lambda cell: cell.state_id)
    return canonical({"format": FORMAT, "record": record_part(record, cells), "words": words_part(record, cells)})


def record_part(record, cells: Sequence) -> dict:
    """What the record says, in numbers of rows."""
    return {
        "id": record.pk,
        "version": record.version_id,
        "number": record.number,
        "standing": record.standing,
        "made_at": record.made_at.astimezone(UTC).isoformat(timespec="microseconds"),
        "written_by": record.written_by_id,
        "why": record.why,
        "cells": [cell_part(cell) for cell in cells],
    }


def cell_part(cell) -> dict:
    return {
        "state": cell.state_id,
        **{name: getattr(cell, name) for name in CELL_FIELDS},
        "makers": sorted(maker.pk for maker in cell.read_makers),
        "sources": [[one.source_id, one.stance] for one in in_order(cell)],
    }


def in_order(cell) -> list:
    """The citations as they stand; two at the same place in the order of their sources, on every database."""
    return sorted(cell.read_citations, key=lambda one: (one.position, one.source_id))


def words_part(record, cells: Sequence) -> dict:
    """How everything that the record names was called on the day of sealing."""
    version = record.version
    return {
        "version": {
            "code": version.code,
            "name": version.name,
            "kind": version.kind,
            "date": version.date,
            "certainty": version.certainty,
            "type": version.garment_type.code,
            "type_name": version.garment_type.name,
            "issuer": version.issuer.name if version.issuer else "",
        },
        "states": {
            str(cell.state_id): {
                "feature": cell.state.feature.code,
                "feature_name": cell.state.feature.name,
                "state": cell.state.code,
                "label": cell.state.label,
            }
            for cell in cells
        },
        "makers": {str(maker.pk): maker.code for cell in cells for maker in cell.read_makers},
        "sources": {
            str(one.source_id): {"code": one.source.code, "title": one.source.title, "grade": one.source.grade}
            for cell in cells
            for one in cell.read_citations
        },
    }
