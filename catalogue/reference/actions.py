"""Everything that changes the reference."""

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.reference.models import GarmentType, IssueVersion, ReferenceState, VersionRecord
from catalogue.reference.plurals import counted
from catalogue.reference.spreadsheets.checking import check_folder
from catalogue.reference.spreadsheets.code_checks import check_capitals, known_codes
from catalogue.reference.spreadsheets.completing import complete
from catalogue.reference.spreadsheets.faults import Fault
from catalogue.reference.spreadsheets.matrix import matrix_folder
from catalogue.reference.spreadsheets.profiles import Cells, write_records
from catalogue.reference.spreadsheets.reading import Folder, read_folder
from catalogue.reference.spreadsheets.writer import Count
from catalogue.reference.spreadsheets.writing import write_folder
from catalogue.reference.written_records import features_may_have_changed
from identification.engine.model import Feature, Version

Tell = Callable[[str], None]


def tell_nobody(line: str) -> None:
    """For callers who want no progress."""


class FaultyFolder(ValueError):
    """The folder was not imported; `faults` says everything that is wrong with it."""

    def __init__(self, faults: list[Fault]):
        super().__init__("\n".join(map(str, faults)))
        self.faults = faults


@transaction.atomic
def import_reference(
    *, folder: Path, tell: Tell = tell_nobody, by: Member | None = None, because: str = ""
) -> dict[str, Count]:
    """Bring the society's files in, all or nothing, past review. Returns what became of the records, by sheet.

    Same codes update, rows and columns that the files leave out stay. Raises FaultyFolder with every fault at once.
    `by`, `because`: stand in the records of versions that it writes.
    """
    read = checked_folder(folder, tell)
    if faults := types_that_stay(read):
        raise FaultyFolder(faults)
    return write_and_mark(read, tell, written_by=by, why=because)


def types_that_stay(folder: Folder) -> list[Fault]:
    """Versions that the folder would take to another garment type though they have a record, whose cells are of that
    type's features."""
    held = IssueVersion.objects.filter(current_record__isnull=False)
    home = dict(held.values_list("code", "garment_type__code"))
    words = "its garment type, which a version that has a record keeps"
    return [
        Fault("versions.csv", row.line, "type", str(row["type"]), words, home[str(row["version"])])
        for row in folder.rows.get("versions", [])
        if home.get(str(row["version"]), row["type"]) != row["type"]
    ]


def checked_folder(folder: Path, tell: Tell) -> Folder:
    """The files, each row with a value in every column. Raises FaultyFolder with every fault at once."""
    read = read_folder(folder)
    for name, rows in read.rows.items():
        tell(f"Read {name}.csv: {counted(len(rows), 'row')}")
    complete(read)
    if faults := check_folder(read):
        raise FaultyFolder(faults)
    return read


@transaction.atomic
def import_matrix(
    *, type_code: str, name: str, features: Sequence[Feature], versions: Sequence[Version]
) -> dict[str, Count]:
    """Bring a bare table in as the garment type `type_code`. Safe to repeat; returns what became of the records.

    Raises ForeignType, and writes nothing, where that type holds features or versions which are not of this table, or
    a code of it stands in the reference in other capitals.
    """
    table = matrix_folder(type_code, name, features, versions)
    refuse_foreign_type(type_code, table)
    if faults := check_capitals(table, known_codes(table)):
        raise ForeignType(f"its code {faults[0].found} is in the reference already, as {faults[0].nearest}")
    complete(table)
    return write_and_mark(table, tell_nobody)


class ForeignType(ValueError):
    """A garment type with the code of a bare table that is not of its making; the text says what it holds."""


def refuse_foreign_type(type_code: str, table: Folder) -> None:
    """A bare table comes in as a type of its own, or again as the same; never over another."""
    held = GarmentType.objects.filter(code__iexact=type_code).first()
    if held is None:
        return
    features = {str(row["feature"]) for row in table.rows["features"]}
    versions = {str(row["version"]) for row in table.rows["versions"]}
    others = [code for code in held.features.values_list("code", flat=True) if code not in features]
    others += [code for code in held.versions.values_list("code", flat=True) if code not in versions]
    if others or held.code != type_code:
        some = ", ".join(sorted(others)[:3])
        raise ForeignType(f"the garment type {held.code} ({held.name}) exists and holds more than this table: {some}")


@transaction.atomic
def write_profile(*, version: IssueVersion, cells: Cells, author: Member, why: str) -> VersionRecord | None:
    """A whole profile as a new record by hand; the old one stays. None, and nothing written, were it the same.

    Who writes it does not approve it: that is for a review by somebody else. Refused by the database without `why`.
    """
    standing = VersionRecord.Standing.WRITTEN
    records = write_records({version.pk: cells}, standing=standing, written_by=author, why=why)
    if not records:
        return None
    ReferenceState.mark_changed()
    return records[0]


def write_and_mark(folder: Folder, tell: Tell, **signed) -> dict[str, Count]:
    """`signed`: what the records of versions say beside their cells."""
    counts = write_folder(folder, tell, **signed)
    if wrote(counts):
        features_may_have_changed(
            by=signed.get("written_by"), why=signed.get("why", ""), standing=VersionRecord.Standing.IMPORTED
        )
        ReferenceState.mark_changed()
    return counts


def wrote(counts: Mapping[str, Count]) -> bool:
    """Whether an import wrote anything at all."""
    return any(count.wrote for count in counts.values())
