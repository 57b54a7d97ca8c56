"""Bring a bare table of features and versions in, as a garment type of its own."""

from pathlib import Path
from tempfile import TemporaryDirectory

from django.core.management.base import CommandError

from catalogue.management.with_tables import TablesCommand
from catalogue.reference.actions import ForeignType, import_matrix, wrote
from catalogue.reference.codes import TYPE, fault_in_code
from catalogue.reference.models import IssueVersion
from catalogue.reference.plurals import counted
from catalogue.reference.review_state import review_is_on
from catalogue.reference.spreadsheets.csv_files import (
    LARGEST_FILE,
    NO_TABS,
    TABS,
    line_with_tabs,
    too_large,
    with_commas,
)
from identification.engine.tables import Fault, FaultyTable, read_problem


class Command(TablesCommand):
    help = "Import a features file and a matrix file (DEVELOPERS.md has the format) as one garment type."

    def add_arguments(self, parser):
        parser.add_argument("features", type=Path)
        parser.add_argument("matrix", type=Path)
        parser.add_argument("--type", required=True, dest="type_code", help="code of the garment type")
        parser.add_argument("--name", default="", help="its name; the code where none is given")

    def handle(self, *, features: Path, matrix: Path, type_code: str, name: str, **options):
        if fault := fault_in_code(type_code, TYPE):
            raise CommandError(f"Nothing was imported: --type {type_code}: {fault}.")
        if review_is_on() and IssueVersion.objects.filter(garment_type__code=type_code).exists():
            raise CommandError(
                f"Nothing was imported: the versions of {type_code} are under review, and a bare table cannot be "
                "proposed. Write the reference out by export_reference, change it there and use import_reference."
            )
        try:
            refuse_unreadable([features, matrix])
            with TemporaryDirectory() as folder:
                table = read_problem(with_commas(features, Path(folder, "1")), with_commas(matrix, Path(folder, "2")))
        except FaultyTable as problem:
            for fault in problem.faults:
                self.stderr.write(str(fault))
            raise CommandError(f"Nothing was imported: {counted(len(problem.faults), 'fault')}.") from problem
        try:
            counts = import_matrix(
                type_code=type_code, name=name or type_code, features=table.features, versions=table.versions
            )
        except ForeignType as foreign:
            raise CommandError(f"Nothing was imported: {foreign}. Take another --type.") from foreign
        read = f"{counted(len(table.features), 'feature')} and {counted(len(table.versions), 'version')} read"
        self.stdout.write(
            f"{read}; imported." if wrote(counts) else f"{read}; nothing had changed, so nothing was written."
        )


def refuse_unreadable(paths: list[Path]) -> None:
    """What is too large, or has no size because it is no file, is refused before it is read; what has tabs for commas,
    in one line for each file. Raises FaultyTable."""
    faults = []
    for path in paths:
        if size := too_large(path):
            wanted = f"at most {LARGEST_FILE // 1_000_000} MB; split the table or leave out what does not belong"
            faults.append(Fault(path.name, 0, "", size, wanted))
        elif path.exists() and not path.is_file():
            faults.append(Fault(path.name, 0, "", "no ordinary file", "a CSV file"))
        elif path.is_file() and (line := line_with_tabs(path.read_bytes().decode("utf-8-sig", "replace"))):
            faults.append(Fault(path.name, line, "", TABS, NO_TABS))
    if faults:
        raise FaultyTable(faults)
