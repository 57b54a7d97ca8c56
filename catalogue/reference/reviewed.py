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
    VersionAncestor,
    VersionName,
    VersionRecord,
    VersionSuccessor,
)
from catalogue.reference.spreadsheets.profiles import Cells, write_cells
from catalogue.reference.uncertain_dates import year_span
from catalogue.reference.words import AncestorRole, NameBy, Stance
from catalogue.reference.written_records import records_were_written


@dataclass(frozen=True)
class Particulars:
    """What a version says of itself beside its profile. Sources, ancestors, makers and successors are keys of their
    rows, in order; `sizes` marks, lengths, millimetres and the key of the source of each."""

    name: str
    other_names: Sequence[str]
    kind: str
    date: str
    certainty: str
    reason: str
    note: str
    rarity: int
    abundance: float | None
    piece_seen: bool
    hazard_kind: str
    hazard: str
    retired_why: str
    sources: Sequence[int]
    continues: Sequence[int]
    made_from: Sequence[int]
    makers: Sequence[int]
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
    IssueVersion.objects.filter(pk=version.pk).update(**plain, from_year=first, to_year=last)
    write_names(version, particulars.other_names)
    write_sources(version, particulars.sources)
    write_ancestors(version, AncestorRole.CONTINUES, particulars.continues)
    write_ancestors(version, AncestorRole.MADE_FROM, particulars.made_from)
    version.makers.set(particulars.makers)
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


def write_sources(version: IssueVersion, sources: Sequence[int]) -> None:
    """Sources behind the version as a whole; those against it stay."""
    held = {one.source_id: one for one in version.citations.filter(stance=Stance.SUPPORTS)}
    version.citations.filter(stance=Stance.SUPPORTS).exclude(source_id__in=sources).delete()
    for place, source in enumerate(sources):
        if source not in held:
            Citation.objects.create(version=version, source_id=source, stance=Stance.SUPPORTS, position=place)
        elif held[source].position != place:
            Citation.objects.filter(pk=held[source].pk).update(position=place)


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
