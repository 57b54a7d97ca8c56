"""Profiles in and out: a version's rows are its whole profile, and a change of it is a new record."""

from collections.abc import Iterable

from catalogue.reference.models import Citation, FeatureState, IssueVersion, ProfileCell, VersionRecord
from catalogue.reference.spreadsheets.exporting import MAKERS_AND_SOURCES
from catalogue.reference.spreadsheets.reading import Row
from catalogue.reference.spreadsheets.writer import ADDED, CHANGED, Writer
from catalogue.reference.words import Stance
from catalogue.reference.written_records import records_were_written

# By state: the cell as one comparable value (fields, sizes, makers, sources for it, sources against it).
Cells = dict[int, tuple]
STANCES = (Stance.SUPPORTS, Stance.CONTRADICTS)
FIELDS = ("how_often", "share", "certainty", "first_year", "last_year", "note")


def write_profiles(writer: Writer) -> None:
    """A new record for every version whose rows differ from its current record; others are left alone."""
    wanted = wanted_profiles(writer)
    records = write_records(wanted, **writer.signed)
    writer.note(
        "profiles",
        {
            ADDED: [record.version_id for record in records if record.number == 1],
            CHANGED: [record.version_id for record in records if record.number > 1],
        },
    )


def write_records(wanted: dict[int, Cells], **fields) -> list[VersionRecord]:
    """New records, by version, where the cells differ from those of the current record; they become current.

    `fields`: what the records say beside their cells; without any they are imported ones.
    """
    here = current_profiles(wanted)
    different = [pk for pk, cells in wanted.items() if here.get(pk, {}) != cells]
    numbers = dict.fromkeys(different, 0)
    for pk, number in VersionRecord.objects.filter(version_id__in=different).values_list("version_id", "number"):
        numbers[pk] = max(numbers[pk], number)
    records = VersionRecord.objects.bulk_create(
        [VersionRecord(version_id=pk, number=numbers[pk] + 1, **fields) for pk in different]
    )
    write_cells({record.pk: wanted[record.version_id] for record in records})
    versions = [IssueVersion(pk=record.version_id, current_record_id=record.pk) for record in records]
    IssueVersion.objects.bulk_update(versions, ["current_record"], batch_size=200)
    records_were_written([record.pk for record in records])
    return records


def wanted_profiles(writer: Writer) -> dict[int, Cells]:
    """The cells by version, as the rows say."""
    states = {(f, s): pk for f, s, pk in FeatureState.objects.values_list("feature__code", "code", "pk")}
    wanted: dict[int, Cells] = {writer.ids["versions"][code]: {} for code in writer.folder.whole_profiles}
    for row in writer.rows("profiles"):
        version = writer.ids["versions"][str(row["version"])]
        state = states[(str(row["feature"]), str(row["state"]))]
        wanted.setdefault(version, {})[state] = wanted_cell(row, writer)
    return wanted


def wanted_cell(row: Row, writer: Writer) -> tuple:
    return (
        tuple(row[name] for name in FIELDS),
        " ".join(row["sizes"]),
        frozenset(writer.ids["makers"][code] for code in row["makers"]),
        tuple(writer.ids["sources"][code] for code in row["sources"]),
        tuple(writer.ids["sources"][code] for code in row["contradicting_sources"]),
    )


def current_profiles(versions: Iterable[int]) -> dict[int, Cells]:
    """The cells by version, as the current records have them."""
    records = dict(
        IssueVersion.objects.filter(pk__in=list(versions), current_record__isnull=False).values_list(
            "current_record_id", "pk"
        )
    )
    found: dict[int, Cells] = {}
    cells = ProfileCell.objects.filter(record_id__in=records).order_by("pk").prefetch_related(*MAKERS_AND_SOURCES)
    for cell in cells:
        found.setdefault(records[cell.record_id], {})[cell.state_id] = value_of(cell)
    return found


def cells_of_record(record: VersionRecord | None) -> Cells:
    """The cells of one record; of none, none."""
    if record is None:
        return {}
    return {cell.state_id: value_of(cell) for cell in record.cells.prefetch_related(*MAKERS_AND_SOURCES)}


def value_of(cell: ProfileCell) -> tuple:
    """A cell, read with its makers and citations, as one value that can be compared."""
    return (
        tuple(getattr(cell, name) for name in FIELDS),
        cell.sizes,
        frozenset(maker.pk for maker in cell.read_makers),
        *(tuple(one.source_id for one in cell.read_citations if one.stance == stance) for stance in STANCES),
    )


def write_cells(by_record: dict[int, Cells]) -> None:
    pairs = [(record, state, cell) for record, cells in by_record.items() for state, cell in cells.items()]
    made = ProfileCell.objects.bulk_create(
        [
            ProfileCell(record_id=record, state_id=state, sizes=cell[1], **dict(zip(FIELDS, cell[0], strict=True)))
            for record, state, cell in pairs
        ],
        batch_size=500,
    )
    through = ProfileCell.makers.through
    through.objects.bulk_create(
        [
            through(profilecell_id=cell.pk, maker_id=maker)
            for cell, (_, _, value) in zip(made, pairs, strict=True)
            for maker in sorted(value[2])
        ]
    )
    Citation.objects.bulk_create(
        [
            Citation(cell_id=cell.pk, source_id=source, stance=stance, position=position)
            for cell, (_, _, value) in zip(made, pairs, strict=True)
            for position, (stance, source) in enumerate(
                (stance, source) for stance, own in zip(STANCES, value[3:], strict=True) for source in own
            )
        ],
        batch_size=500,
    )
