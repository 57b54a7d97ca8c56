"""Write the reference out as the society's CSV files."""

from pathlib import Path

from django.core.management.base import CommandError

from catalogue.management.with_tables import TablesCommand
from catalogue.reference.plurals import counted
from catalogue.reference.spreadsheets.exporting import export_reference


class Command(TablesCommand):
    help = "Export the reference into a folder of CSV files, which import_reference reads again."

    def add_arguments(self, parser):
        parser.add_argument("folder", type=Path)

    def handle(self, *, folder: Path, **options):
        try:
            counts = export_reference(folder)
        except OSError as problem:
            raise CommandError(f"Nothing was exported: {problem}") from problem
        for sheet, number in counts.items():
            self.stdout.write(f"{sheet}.csv: {counted(number, 'row')}")
