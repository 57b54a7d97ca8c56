"""Tables whose rows are written once: the database itself refuses to change one, whoever asks.

SQLite makes a table anew for some changes of its columns and forgets its triggers then: a migration that alters one
of these tables ends with `RunPython(guard, unguard)`. A test looks for every guard.
"""

from collections.abc import Iterable

from django.db import connection
from django.db.models import Model

WRITTEN_ONCE = ("catalogue_observation", "catalogue_attribution", "catalogue_exampledecision")
REFUSAL = "this row is written once; add another instead"


def guard(apps, schema_editor) -> None:
    """Put the triggers in place, on SQLite and on PostgreSQL. Safe to repeat."""
    guard_tables(schema_editor, WRITTEN_ONCE)


def unguard(apps, schema_editor) -> None:
    unguard_tables(schema_editor, WRITTEN_ONCE)


def guard_tables(schema_editor, tables: Iterable[str]) -> None:
    """The same for the tables of a later slice."""
    unguard_tables(schema_editor, tables)
    for table in tables:
        if schema_editor.connection.vendor == "postgresql":
            schema_editor.execute(
                f"CREATE OR REPLACE FUNCTION {table}_written_once() RETURNS trigger LANGUAGE plpgsql AS "
                f"$$ BEGIN RAISE EXCEPTION '{REFUSAL}' USING ERRCODE = 'integrity_constraint_violation'; END $$"
            )
            schema_editor.execute(
                f"CREATE TRIGGER {table}_written_once BEFORE UPDATE ON {table} "
                f"FOR EACH ROW EXECUTE FUNCTION {table}_written_once()"
            )
        else:
            schema_editor.execute(
                f"CREATE TRIGGER {table}_written_once BEFORE UPDATE ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{REFUSAL}'); END"
            )


def unguard_tables(schema_editor, tables: Iterable[str]) -> None:
    for table in tables:
        if schema_editor.connection.vendor == "postgresql":
            schema_editor.execute(f"DROP TRIGGER IF EXISTS {table}_written_once ON {table}")
            schema_editor.execute(f"DROP FUNCTION IF EXISTS {table}_written_once()")
        else:
            schema_editor.execute(f"DROP TRIGGER IF EXISTS {table}_written_once")


def write_anew(row: Model, changes: dict[str, str]) -> None:
    """A row of a table that refuses changes, in its place again under its own number, with nothing else changed.

    Other rows may point to it, so it is taken out by SQL and put back before the transaction ends, when the database
    asks whether everything that is pointed to is there.
    """
    made_at = row.made_at
    with connection.cursor() as cursor:
        table = connection.ops.quote_name(row._meta.db_table)
        cursor.execute(f"DELETE FROM {table} WHERE id = %s", [row.pk])  # noqa: S608 - the table is one of ours
    for field, text in changes.items():
        setattr(row, field, text)
    row.made_at = made_at
    row.save(force_insert=True)
