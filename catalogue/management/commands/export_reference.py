"""Write the reference out as the society's CSV files, with the scans of its sources beside them."""

from pathlib import Path

from django.core.management.base import CommandError

from catalogue.management.with_tables import TablesCommand
from catalogue.reference.models import MarkedPhotograph
from catalogue.reference.plurals import counted
from catalogue.reference.spreadsheets.exporting import export_reference
from catalogue.review.scans.moving import FOLDER, export_scans


class Command(TablesCommand):
    help = "Export the reference into a folder of CSV files, which import_reference reads again."

    def add_arguments(self, parser):
        parser.add_argument("folder", type=Path)

    def handle(self, *, folder: Path, **options):
        try:
            counts = export_reference(folder, beside=[FOLDER])
            scans = export_scans(folder)
        except OSError as problem:
            raise CommandError(f"Nothing was exported: {problem}") from problem
        for sheet, number in counts.items():
            self.stdout.write(f"{sheet}.csv: {counted(number, 'row')}")
        if scans:
            self.stdout.write(
                f"{FOLDER}/: {counted(scans, 'scan')} of sources; one without a licence is only ours to show"
            )
        marked = MarkedPhotograph.objects.count()
        if marked:
            self.stdout.write(f"Left out: {counted(marked, 'photograph')} of features, which go with a backup")
