"""What the pages of sources, makers, issuers and open questions show."""

from django.db.models import Count
from django.db.models.functions import Length

from catalogue.reference.addresses import address_of
from catalogue.reference.facts import years_in_words
from catalogue.reference.glossary import feature_address
from catalogue.reference.models import Citation, Issuer, IssueVersion, Maker, OpenQuestion, QuestionView, Source
from catalogue.reference.snapshots import all_types
from catalogue.reference.uncertain_dates import in_words
from catalogue.reference.words import Stance


def source_context(source: Source) -> dict:
    """Every claim that the source supports or contradicts: versions, their cells in force, numbers, issuers, and what
    goes together."""
    rows = list(
        Citation.objects.filter(source=source).select_related(
            "version",
            "issuer",
            "stock_number__version",
            "companion__version",
            "companion__other",
            "cell__record__version",
            "cell__state__feature",
        )
    )
    views = source.views.held().select_related("question", "by")
    return {
        "source": source,
        "scans": source.scans.filter(shown=True),
        "supporting": claims([row for row in rows if row.stance == Stance.SUPPORTS]) | {"sizes": tables_from(source)},
        "contradicting": claims([row for row in rows if row.stance == Stance.CONTRADICTS]),
        "views": [
            {
                "words": view.question.question,
                "view": f"view {view.letter}, {view.whose}",
                "address": address_of("open_question", view.question.code),
            }
            for view in views.order_by("question__code", Length("letter"), "letter")
        ],
    }


def claims(rows: list[Citation]) -> dict:
    """The claims of some citations by what they are about. Cells of older records are left out."""
    cells: dict[str, dict] = {}
    for row in rows:
        if row.cell_id and row.cell.record_id == row.cell.record.version.current_record_id:
            version = row.cell.record.version
            home = cells.setdefault(version.code, version_link(version) | {"claims": []})
            home["claims"].append(f"{row.cell.state.feature.name}: {row.cell.state.label}")
    return {
        "versions": [version_link(row.version) for row in rows if row.version_id],
        "issuers": [
            {"name": row.issuer.name, "address": address_of("issuer", row.issuer.code)} for row in rows if row.issuer_id
        ],
        "numbers": [
            version_link(row.stock_number.version) | {"number": row.stock_number.number}
            for row in rows
            if row.stock_number_id
        ],
        "companions": [
            version_link(row.companion.version)
            | {"goes_with": row.companion.get_goes_with_display(), "other": version_link(row.companion.other)}
            for row in rows
            if row.companion_id
        ],
        "cells": list(cells.values()),
    }


def tables_from(source: Source) -> list[dict]:
    """The versions whose size tables have lengths from the source, with how many."""
    versions = IssueVersion.objects.filter(size_lengths__source=source).annotate(lengths=Count("size_lengths"))
    return [version_link(version) | {"lengths": version.lengths} for version in versions]


def version_link(version) -> dict:
    return {"name": version.name, "code": version.code, "address": address_of("version", version.code)}


def maker_rows() -> list[dict]:
    rows = [
        {
            "name": maker.name,
            "code": maker.code,
            "kind": maker.kind,
            "place": maker.place,
            "years": years_in_words(maker.first_year, maker.last_year),
            "address": address_of("maker", maker.code),
        }
        for maker in Maker.objects.all()
    ]
    return sorted(rows, key=lambda row: (row["name"].casefold(), row["code"]))


def maker_context(maker: Maker) -> dict:
    versions = maker.versions.select_related("garment_type").order_by("garment_type__position", "position", "code")
    return {
        "maker": maker,
        "years": years_in_words(maker.first_year, maker.last_year),
        "versions": [dated_link(version) | {"type": version.garment_type.name} for version in versions],
    }


def dated_link(version) -> dict:
    return version_link(version) | {"kind": version.get_kind_display(), "dates": in_words(version.date)}


def issuer_context(issuer: Issuer, *, number: int) -> dict:
    """The issuer with its garment types; `reference` is every type, for what else it gave out."""
    types = issuer.garment_types.order_by("position", "code").values_list("code", "name")
    sources = Citation.objects.filter(issuer=issuer).select_related("source")
    return {
        "issuer": issuer,
        "dates": in_words(issuer.date),
        "before": issuer_link(issuer.predecessor),
        "after": issuer_link(issuer.successor),
        "types": [{"name": name, "address": address_of("type", code)} for code, name in types],
        "reference": all_types(number=number),
        "number": number,
        "sources": [source_link(row.source) | {"contradicts": row.stance == Stance.CONTRADICTS} for row in sources],
    }


def issuer_link(issuer: Issuer | None) -> dict | None:
    return {"name": issuer.name, "address": address_of("issuer", issuer.code)} if issuer else None


def source_link(source: Source) -> dict:
    grade = source.get_grade_display()
    return {"code": source.code, "title": source.title, "grade": grade, "address": address_of("source", source.code)}


def question_rows() -> list[dict]:
    questions = OpenQuestion.objects.prefetch_related("versions").order_by("settled", "code")
    return [
        {
            "code": question.code,
            "words": question.question,
            "settled": question.settled,
            "versions": ", ".join(version.code for version in question.versions.all()),
            "address": address_of("open_question", question.code),
        }
        for question in questions
    ]


def question_context(question: OpenQuestion) -> dict:
    """The question with every view, its holder and its sources; the view that lost stands beside the other."""
    return {
        "question": question,
        "views": [view_row(view) for view in question.views.held().select_related("by").prefetch_related("sources")],
        "versions": list(question.versions.order_by("position", "code")),
        "features": [
            {"name": feature.name, "address": feature_address(feature)}
            for feature in question.features.order_by("position", "code")
        ],
    }


def view_row(view: QuestionView) -> dict:
    return {
        "letter": view.letter,
        "holder": view.holder,
        "text": view.text,
        "stands": view.stands,
        "whose": view.whose,
        "told_by": view.told_by,
        "disowned": view.disowned,
        "sources": [source_link(source) for source in view.sources.all()],
    }


def views_by_question() -> dict[str, dict]:
    """Every question's views, and what the moderator wrote, by the question's code."""
    rows = OpenQuestion.objects.prefetch_related("views__sources", "views__by")
    return {
        row.code: {
            "views": [view_row(view) for view in row.views.all() if not view.taken_out],
            "decision": row.moderator_note,
        }
        for row in rows
    }
