"""Bring the society's CSV files in."""

from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from catalogue.reference.actions import FaultyFolder, import_reference, tell_nobody, wrote
from catalogue.reference.plurals import counted


class Command(BaseCommand):
    help = "Import a folder of the society's CSV files (DEVELOPERS.md lists the columns). All or nothing."

    def add_arguments(self, parser):
        parser.add_argument("folder", type=Path)

    def handle(self, *, folder: Path, verbosity: int, **options):
        tell = self.stdout.write if verbosity else tell_nobody
        try:
            counts = import_reference(folder=folder, tell=tell)
        except FaultyFolder as problem:
            for fault in problem.faults:
                self.stderr.write(str(fault))
            raise CommandError(f"Nothing was imported: {counted(len(problem.faults), 'fault')}.") from problem
        for sheet, count in counts.items():
            tell(f"{sheet.replace('_', ' ')}: {count}")
        tell("Imported." if wrote(counts) else "Nothing had changed, so nothing was written.")
