"""The reference out into the society's files, in an order that does not change."""

import csv
from collections.abc import Collection, Iterable, Iterator
from pathlib import Path

from django.db.models import Prefetch, QuerySet

from catalogue.reference.models import (
    Citation,
    Colourway,
    Companion,
    Cut,
    Feature,
    FeaturePlace,
    FeatureState,
    GarmentType,
    Issuer,
    IssueVersion,
    Maker,
    NumberForm,
    OpenQuestion,
    ProfileCell,
    QuestionView,
    SizeLength,
    Source,
    StockNumber,
    TypeFeature,
    VersionAncestor,
    VersionSuccessor,
)
from catalogue.reference.numbers import by_years
from catalogue.reference.size_tables import in_a_table
from catalogue.reference.spreadsheets.layout import SHEETS, STATE_FIELDS
from catalogue.reference.words import NEVER_ISSUED, AncestorRole, NameBy, Stance

Cells = dict[str, object]
# Codes of the records whose rows are wanted, by the first column of the key; None for all.
Only = Collection[str] | None


# Joined, not prefetched: of a thousand sources SQLite would not take the query that Django makes for a prefetch.
CITATIONS = Prefetch("citations", Citation.objects.select_related("source"))
# Lists under names of their own: else a queryset is made for every cell twice.
MAKERS_AND_SOURCES = (
    Prefetch("makers", to_attr="read_makers"),
    Prefetch("citations", Citation.objects.select_related("source"), to_attr="read_citations"),
)


def export_reference(folder: Path, *, beside: Collection[str] = ()) -> dict[str, int]:
    """Write every file of the reference into `folder` (made if missing). Returns the number of rows by sheet. `beside`:
    what else an export has there.

    Raises FileExistsError when the folder holds other files than an export's, so that nothing is overwritten.
    """
    known = {sheet.file for sheet in SHEETS} | set(beside)
    folder.mkdir(parents=True, exist_ok=True)
    if others := sorted(file.name for file in folder.iterdir() if file.name not in known):
        raise FileExistsError(f"{folder} holds other files ({', '.join(others[:3])}): choose an empty folder.")
    counts = {}
    for sheet in SHEETS:
        rows = list(ROWS[sheet.name]())
        with (folder / sheet.file).open("w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(sheet.header)
            writer.writerows([as_text(row.get(column)) for column in sheet.header] for row in rows)
        counts[sheet.name] = len(rows)
    return counts


def as_text(value: object) -> str:
    """A cell as it is written: yes and no, numbers without a needless .0, lists with spaces between."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return repr(value).removesuffix(".0")
    if isinstance(value, tuple | list):
        return " ".join(map(str, value))
    return str(value)


def plain(record, *columns: str) -> Cells:
    return {column: getattr(record, column) for column in columns}


def chosen(rows: QuerySet, only: Only, field: str = "code") -> QuerySet:
    return rows if only is None else rows.filter(**{f"{field}__in": only})


def code_of(record) -> str:
    return record.code if record else ""


def in_order(rows: Iterable) -> list:
    """By position where there is one, then by code, the same on every database."""
    return sorted(rows, key=lambda record: (getattr(record, "position", 0), record.code))


def cited(record, stance: str = Stance.SUPPORTS) -> list[str]:
    return [citation.source.code for citation in record.citations.all() if citation.stance == stance]


def issuers(only: Only = None) -> Iterator[Cells]:
    rows = Issuer.objects.select_related("predecessor", "successor").prefetch_related(CITATIONS)
    for record in in_order(chosen(rows, only)):
        yield plain(record, "name", "date", "place", "note") | {
            "issuer": record.code,
            "predecessor": code_of(record.predecessor),
            "successor": code_of(record.successor),
            "sources": cited(record),
        }


def coded(only: Only, model, key: str, *columns: str) -> Iterator[Cells]:
    for record in in_order(chosen(model.objects.all(), only)):
        yield plain(record, *columns) | {key: record.code}


def makers(only: Only = None) -> Iterator[Cells]:
    return coded(only, Maker, "maker", "name", "place", "first_year", "last_year", "kind", "mark", "habits")


def sources(only: Only = None) -> Iterator[Cells]:
    return coded(
        only, Source, "source", "kind", "title", "date", "holder", "shelf_mark", "grade", "personal_data", "note"
    )


def number_forms(only: Only = None) -> Iterator[Cells]:
    columns = ("name", "groups", "pattern", "year_group", "check_rule", "years", "of_kind", "example", "note")
    return coded(only, NumberForm, "form", *columns)


def types(only: Only = None) -> Iterator[Cells]:
    rows = GarmentType.objects.select_related("issuer").prefetch_related(
        "other_names", Prefetch("type_features", TypeFeature.objects.select_related("feature"))
    )
    for record in in_order(chosen(rows, only)):
        yield plain(record, "name", "garment_class", "description", "caution") | {
            "type": record.code,
            "other_names": "; ".join(name.name for name in record.other_names.all()),
            "issuer": code_of(record.issuer),
            "features": [link.feature.code for link in record.type_features.all()],
        }


def silhouettes(only: Only = None) -> Iterator[Cells]:
    for record in in_order(chosen(GarmentType.objects.prefetch_related("silhouettes"), only)):
        for one in sorted(record.silhouettes.all(), key=lambda silhouette: silhouette.view):
            yield plain(one, "view", "drawing") | {"type": record.code}


def features(only: Only = None) -> Iterator[Cells]:
    columns = (
        "name", "group", "question", "kind", "unit", "spread", "seen", "effort", "error", "error_note",
        "service_change", "change_note", "loss", "gain", "basis",
    )  # fmt: skip
    rows = chosen(Feature.objects.select_related("parent", "absent_state"), only)
    places = Prefetch("places", FeaturePlace.objects.select_related("garment_type"))
    for record in in_order(rows.prefetch_related("shown_when", places)):
        yield plain(record, *columns) | {
            "feature": record.code,
            "absent": code_of(record.absent_state),
            "parent": code_of(record.parent),
            "shown_when": "|".join(state.code for state in in_order(record.shown_when.all())),
            "places": places_text(record),
        }


def places_text(record: Feature) -> str:
    """`view:region+region;TYPE=view:region`, in the order of the places."""
    grouped: dict[tuple[str, str], list[str]] = {}
    for place in record.places.all():
        home = place.garment_type.code if place.garment_type else ""
        grouped.setdefault((home, place.view), []).append(place.region)
    return ";".join(
        f"{f'{home}=' if home else ''}{view}:{'+'.join(regions)}" for (home, view), regions in grouped.items()
    )


def states(only: Only = None) -> Iterator[Cells]:
    place = {record.pk: i for i, record in enumerate(in_order(Feature.objects.all()))}
    rows = chosen(FeatureState.objects.select_related("feature"), only, "feature__code")
    for record in sorted(rows, key=lambda s: (place[s.feature_id], s.position, s.code)):
        yield plain(record, *STATE_FIELDS) | {"feature": record.feature.code, "state": record.code}


def version_rows(only: Only = None) -> list[IssueVersion]:
    rows = IssueVersion.objects.select_related("garment_type", "cut", "colourway", "issuer").prefetch_related(
        "other_names",
        Prefetch("ancestors", VersionAncestor.objects.select_related("ancestor")),
        Prefetch("successors", VersionSuccessor.objects.select_related("successor")),
        "makers",
        "passes_for",
        CITATIONS,
    )
    return in_order(chosen(rows, only))


def versions(only: Only = None) -> Iterator[Cells]:
    columns = (
        "name", "kind", "date", "rarity", "abundance", "certainty", "piece_seen", "reason", "note", "hazard_kind",
        "hazard",
    )  # fmt: skip
    for record in version_rows(only):
        names = list(record.other_names.all())
        sellers = [name for name in names if name.used_by == NameBy.SELLERS]
        above = list(record.ancestors.all())
        yield plain(record, *columns) | {
            "version": record.code,
            "type": record.garment_type.code,
            "other_names": "; ".join(name.name for name in names if name not in sellers),
            "sellers_names": "; ".join(f"{n.name} {NEVER_ISSUED}" if n.never_issued else n.name for n in sellers),
            "cut": code_of(record.cut),
            "colourway": code_of(record.colourway),
            "issuer": code_of(record.issuer),
            "continues": [a.ancestor.code for a in above if a.role == AncestorRole.CONTINUES],
            "made_from": [a.ancestor.code for a in above if a.role == AncestorRole.MADE_FROM],
            "makers": sorted(maker.code for maker in record.makers.all()),
            "sources": cited(record),
            "contradicting_sources": cited(record, Stance.CONTRADICTS),
            "restrictions": record.restrictions,
            "passes_for": sorted(other.code for other in record.passes_for.all()),
            "retired": record.retired_why,
            "became": [one.successor.code for one in record.successors.all()],
        }


def profiles(only: Only = None) -> Iterator[Cells]:
    """Cells of the records in force, versions and features in their own order."""
    versions_in_order = [(v.code, v.current_record_id) for v in in_order(chosen(IssueVersion.objects.all(), only))]
    place = {record.pk: i for i, record in enumerate(in_order(Feature.objects.all()))}
    rows = ProfileCell.objects.filter(record__in=[r for _, r in versions_in_order if r])
    cells: dict[int, list[ProfileCell]] = {}
    for cell in rows.order_by("pk").select_related("state__feature").prefetch_related(*MAKERS_AND_SOURCES):
        cells.setdefault(cell.record_id, []).append(cell)
    columns = ("how_often", "share", "certainty", "sizes", "first_year", "last_year", "note")
    for code, record in versions_in_order:
        ordered = sorted(
            cells.get(record, []), key=lambda c: (place[c.state.feature_id], c.state.position, c.state.code)
        )
        for cell in ordered:
            yield plain(cell, *columns) | {
                "version": code,
                "feature": cell.state.feature.code,
                "state": cell.state.code,
                "makers": sorted(maker.code for maker in cell.read_makers),
                "sources": [one.source.code for one in cell.read_citations if one.stance == Stance.SUPPORTS],
                "contradicting_sources": [
                    one.source.code for one in cell.read_citations if one.stance == Stance.CONTRADICTS
                ],
            }


def stock_numbers(only: Only = None) -> Iterator[Cells]:
    place = {version.pk: i for i, version in enumerate(in_order(IssueVersion.objects.all()))}
    rows = StockNumber.objects.select_related("version", "form").prefetch_related(CITATIONS)
    for record in sorted(
        chosen(rows, only, "number"), key=lambda n: (place[n.version_id], by_years(n.first_year, n.number))
    ):
        yield plain(record, "number", "first_year", "last_year", "misprint_of", "note") | {
            "version": record.version.code,
            "form": code_of(record.form),
            "sources": cited(record),
        }


def sizes(only: Only = None) -> Iterator[Cells]:
    place = {version.pk: i for i, version in enumerate(in_order(IssueVersion.objects.all()))}
    rows = chosen(SizeLength.objects.select_related("version", "source"), only, "version__code")
    for record in sorted(rows, key=lambda one: (place[one.version_id], *in_a_table(one.mark, one.what))):
        yield plain(record, "mark", "mm") | {
            "version": record.version.code,
            "length": record.what,
            "source": record.source.code,
        }


def companions(only: Only = None) -> Iterator[Cells]:
    place = {version.pk: i for i, version in enumerate(in_order(IssueVersion.objects.all()))}
    rows = Companion.objects.select_related("version", "other", "joined_by").prefetch_related(CITATIONS)
    for record in sorted(
        chosen(rows, only, "version__code"), key=lambda c: (place[c.version_id], c.goes_with, place[c.other_id])
    ):
        yield plain(record, "goes_with", "note") | {
            "version": record.version.code,
            "other": record.other.code,
            "joined_by": code_of(record.joined_by),
            "sources": cited(record),
        }


def open_questions(only: Only = None) -> Iterator[Cells]:
    for record in in_order(chosen(OpenQuestion.objects.prefetch_related("versions", "features"), only)):
        yield plain(record, "would_settle", "settled", "moderator_note") | {
            "question": record.code,
            "text": record.question,
            "versions": [version.code for version in in_order(record.versions.all())],
            "features": [feature.code for feature in in_order(record.features.all())],
        }


def question_views(only: Only = None) -> Iterator[Cells]:
    rows = QuestionView.objects.select_related("question").prefetch_related("sources")
    for record in sorted(chosen(rows, only, "question__code"), key=in_order_of_views):
        yield plain(record, "letter", "holder", "text", "stands", "disowned", "taken_out") | {
            "question": record.question.code,
            "sources": sorted(source.code for source in record.sources.all()),
        }


def in_order_of_views(view: QuestionView) -> tuple[str, int, str]:
    return view.question.code, len(view.letter), view.letter


ROWS = {
    "issuers": issuers,
    "makers": makers,
    "sources": sources,
    "cuts": lambda only=None: coded(only, Cut, "cut", "name", "note"),
    "colourways": lambda only=None: coded(only, Colourway, "colourway", "name", "note"),
    "types": types,
    "silhouettes": silhouettes,
    "features": features,
    "states": states,
    "versions": versions,
    "profiles": profiles,
    "number_forms": number_forms,
    "stock_numbers": stock_numbers,
    "sizes": sizes,
    "companions": companions,
    "open_questions": open_questions,
    "question_views": question_views,
}
