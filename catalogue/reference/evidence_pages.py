"""What the pages of a source and of a maker show."""

from catalogue.reference.models import Citation, Maker, Source
from catalogue.reference.uncertain_dates import in_words
from catalogue.reference.words import Stance


def source_context(source: Source) -> dict:
    """Every claim that the source supports or contradicts: versions, their cells in force, numbers, issuers."""
    rows = list(
        Citation.objects.filter(source=source).select_related(
            "version", "issuer", "stock_number__version", "cell__record__version", "cell__state__feature"
        )
    )
    cells: dict[str, dict] = {}
    for row in rows:
        if row.cell_id and row.cell.record_id == row.cell.record.version.current_record_id:
            version = row.cell.record.version
            home = cells.setdefault(version.code, {"version": version, "claims": []})
            home["claims"].append(f"{row.cell.state.feature.name}: {row.cell.state.label}")
    return {
        "source": source,
        "date": in_words(source.date),
        "supports": [r.version for r in rows if r.version_id and r.stance == Stance.SUPPORTS],
        "contradicts": [r.version for r in rows if r.version_id and r.stance == Stance.CONTRADICTS],
        "cells": list(cells.values()),
        "numbers": [r.stock_number for r in rows if r.stock_number_id],
        "issuers": [r.issuer for r in rows if r.issuer_id],
        "views": list(source.views.select_related("question")),
    }


def maker_context(maker: Maker) -> dict:
    versions = maker.versions.select_related("garment_type").order_by("garment_type__position", "position")
    return {"maker": maker, "versions": [(v, in_words(v.date)) for v in versions]}
