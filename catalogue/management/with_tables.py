"""Commands that read or write the site's tables."""

from django.core.management.base import BaseCommand, CommandError
from django.db import OperationalError, ProgrammingError, connection
from django.db.migrations.executor import MigrationExecutor


class TablesCommand(BaseCommand):
    """A command that says what to do where the database was not set up for this edition of the site."""

    def execute(self, *args, **options):
        try:
            return super().execute(*args, **options)
        except (OperationalError, ProgrammingError) as problem:
            executor = MigrationExecutor(connection)
            if executor.migration_plan(executor.loader.graph.leaf_nodes()):
                words = "The database has not the tables of this edition. First run: manage.py migrate"
                raise CommandError(words) from problem
            raise
