"""Writing what a review approved: the one way in which a record becomes an approved one."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.db import transaction
from django.db.models import Max

from catalogue.accounts.models import Member
from catalogue.reference.models import (
    Citation,
    IssueVersion,
    ReferenceState,
    SizeLength,
    StockNumber,
    VersionAncestor,
    VersionName,
    VersionRecord,
    VersionSuccessor,
)
from catalogue.reference.spreadsheets.profiles import Cells, write_cells
from catalogue.reference.uncertain_dates import year_span
from catalogue.reference.words import AncestorRole, NameBy, Restriction, Stance
from catalogue.reference.written_records import records_were_written


@dataclass(frozen=True)
class Number:
    """A stock number of a version; its form and its sources are keys of their rows."""

    number: str
    form: int | None
    first_year: int | None
    last_year: int | None
    misprint_of: str
    note: str
    sources: Sequence[int]
    against: Sequence[int]


@dataclass(frozen=True)
class Particulars:
    """What a version says of itself beside its profile. Cut, colourway, issuer, sources, ancestors, makers, garment
    types and successors are keys of their rows, in order; `sizes` marks, lengths, millimetres and the key of the source
    of each."""

    name: str
    other_names: Sequence[str]
    kind: str
    cut: int | None
    colourway: int | None
    issuer: int | None
    date: str
    certainty: str
    reason: str
    note: str
    rarity: int
    abundance: float | None
    piece_seen: bool
    hazard_kind: str
    hazard: str
    restrictions: Sequence[str]
    retired_why: str
    sources: Sequence[int]
    contradicting_sources: Sequence[int]
    continues: Sequence[int]
    made_from: Sequence[int]
    makers: Sequence[int]
    passes_for: Sequence[int]
    stock_numbers: Sequence[Number]
    became: Sequence[int]
    sizes: Sequence[tuple[str, str, int, int]]


@transaction.atomic
def write_reviewed(
    *, version: IssueVersion, particulars: Particulars, cells: Cells, author: Member, why: str
) -> VersionRecord:
    """An approved record, also where only a name or a date is new: the seal holds how the version was called.

    For a review by somebody else than `author` only. The record becomes the current one; earlier ones stay.
    """
    plain = {name: getattr(particulars, name) for name in
             ("name", "kind", "date", "certainty", "reason", "note", "rarity", "abundance", "piece_seen", "hazard_kind",
              "hazard", "retired_why")}  # fmt: skip
    first, last = year_span(particulars.date) if particulars.date else (None, None)
    plain |= {f"{name}_id": getattr(particulars, name) for name in ("cut", "colourway", "issuer")}
    plain |= {f"{one.value}_restricted": one.value in particulars.restrictions for one in Restriction}
    IssueVersion.objects.filter(pk=version.pk).update(**plain, from_year=first, to_year=last)
    write_names(version, particulars.other_names)
    write_citations(version, particulars.sources, particulars.contradicting_sources)
    write_ancestors(version, AncestorRole.CONTINUES, particulars.continues)
    write_ancestors(version, AncestorRole.MADE_FROM, particulars.made_from)
    version.makers.set(particulars.makers)
    version.passes_for.set(particulars.passes_for)
    write_numbers(version, particulars.stock_numbers)
    write_successors(version, particulars.became)
    write_size_table(version, particulars.sizes)
    number = version.records.aggregate(last=Max("number"))["last"] or 0
    record = VersionRecord.objects.create(
        version=version, number=number + 1, standing=VersionRecord.Standing.APPROVED, written_by=author, why=why
    )
    write_cells({record.pk: cells})
    IssueVersion.objects.filter(pk=version.pk).update(current_record=record)
    records_were_written([record.pk])
    ReferenceState.mark_changed()
    version.refresh_from_db()
    return record


def write_size_table(version: IssueVersion, sizes: Sequence[tuple[str, str, int, int]]) -> None:
    """The whole table; one that is as it was is left alone."""
    if set(version.size_lengths.values_list("mark", "what", "mm", "source_id")) == set(sizes):
        return
    version.size_lengths.all().delete()
    SizeLength.objects.bulk_create(
        SizeLength(version=version, mark=mark, what=what, mm=mm, source_id=source) for mark, what, mm, source in sizes
    )


def write_names(version: IssueVersion, names: Sequence[str]) -> None:
    """Names that members use; those of sellers stay, behind them."""
    held = list(version.other_names.filter(used_by=NameBy.MEMBERS).order_by("position"))
    if [one.name for one in held] == list(names):
        return
    version.other_names.filter(used_by=NameBy.MEMBERS).delete()
    for place, one in enumerate(version.other_names.order_by("position"), start=len(names)):
        VersionName.objects.filter(pk=one.pk).update(position=place)
    VersionName.objects.bulk_create(
        VersionName(version=version, name=name, used_by=NameBy.MEMBERS, position=place)
        for place, name in enumerate(names)
    )


def write_citations(claim: IssueVersion | StockNumber, sources: Sequence[int], against: Sequence[int]) -> None:
    """The sources behind a version as a whole, or a stock number, then those against it; no source is both."""
    wanted = {source: (Stance.SUPPORTS, place) for place, source in enumerate(sources)}
    wanted |= {source: (Stance.CONTRADICTS, place) for place, source in enumerate(against, start=len(wanted))}
    held = {one.source_id: one for one in claim.citations.all()}
    claim.citations.exclude(source_id__in=wanted).delete()
    for source, (stance, place) in wanted.items():
        if source not in held:
            claim.citations.create(source_id=source, stance=stance, position=place)
        elif (held[source].stance, held[source].position) != (stance, place):
            Citation.objects.filter(pk=held[source].pk).update(stance=stance, position=place)


def write_numbers(version: IssueVersion, numbers: Sequence[Number]) -> None:
    """All stock numbers of the version; one that is there already stays the same row."""
    version.stock_numbers.exclude(number__in=[one.number for one in numbers]).delete()
    held = {one.number: one for one in version.stock_numbers.all()}
    for one in numbers:
        row = held.get(one.number) or StockNumber(version=version, number=one.number)
        row.form_id, row.first_year, row.last_year = one.form, one.first_year, one.last_year
        row.misprint_of, row.note = one.misprint_of, one.note
        row.save()
        write_citations(row, one.sources, one.against)


def write_ancestors(version: IssueVersion, role: AncestorRole, ancestors: Sequence[int]) -> None:
    """What the version continues or imitates, or what it was made from; the others stay."""
    rows = version.ancestors.filter(role=role)
    if list(rows.order_by("position").values_list("ancestor_id", flat=True)) == list(ancestors):
        return
    rows.delete()
    VersionAncestor.objects.bulk_create(
        VersionAncestor(version=version, ancestor_id=one, role=role, position=place)
        for place, one in enumerate(ancestors)
    )


def write_successors(version: IssueVersion, became: Sequence[int]) -> None:
    """What a retired version became; nothing for one in force."""
    if list(version.successors.values_list("successor_id", flat=True)) != list(became):
        version.successors.all().delete()
        VersionSuccessor.objects.bulk_create(VersionSuccessor(version=version, successor_id=one) for one in became)
