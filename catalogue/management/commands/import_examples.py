"""Bring an existing collection in as drafts of its owners."""

from pathlib import Path

from django.core.management.base import CommandError

from catalogue.management.with_tables import TablesCommand
from catalogue.member_examples.photographs.keeping import NotKept
from catalogue.member_examples.submitting.importing.bringing_in import FaultyCollection, import_examples


class Command(TablesCommand):
    help = "Import a society's list of pieces with folders of photographs as drafts of their owners. All or nothing."

    def add_arguments(self, parser):
        parser.add_argument("folder", type=Path)
        parser.add_argument("--dry-run", action="store_true", help="look at everything, keep nothing")

    def handle(self, *, folder: Path, dry_run: bool, verbosity: int, **options):
        def tell(line: str) -> None:
            if verbosity > 1:
                self.stdout.write(line)

        try:
            done = import_examples(folder=folder, dry_run=dry_run, tell=tell)
        except FaultyCollection as problem:
            for fault in problem.faults:
                self.stderr.write(str(fault))
            number = len(problem.faults)
            raise CommandError(f"Nothing was imported: {number} fault{'s' if number > 1 else ''}.") from problem
        except (NotKept, PermissionError) as problem:
            raise CommandError(f"Nothing was imported: {problem}") from problem
        counted = f"{counting(done.pieces, 'piece')} with {counting(done.photographs, 'photograph')}"
        before = f"; {done.there} were there already and stay as they are" if done.there else ""
        self.stdout.write(f"{'Would come in' if dry_run else 'Imported as drafts'}: {counted}{before}.")


def counting(number: int, what: str) -> str:
    """`1 piece`, `2 pieces`."""
    return f"{number} {what}{'' if number == 1 else 's'}"
