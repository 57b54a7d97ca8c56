"""The database itself refuses to change or delete a seal, or a record of a feature, whoever asks.

SQLite makes a table anew for some changes of its columns and forgets its triggers then: a migration that alters the
table of seals ends with `RunPython(guard, unguard)`, one that alters records of features with `guard_features`. On
SQLite the guard also stops `manage.py flush` once there is a row; on PostgreSQL flush truncates, which no trigger for
rows sees.
"""

SEALS, FEATURES = "catalogue_recordseal", "catalogue_featurerecord"
REFUSALS = {SEALS: "a seal is never changed nor deleted", FEATURES: "a record is never changed nor deleted"}
DEEDS = ("UPDATE", "DELETE")


def guard(apps, schema_editor) -> None:
    """Put the triggers in place, on SQLite and on PostgreSQL. Safe to repeat."""
    guard_table(schema_editor, SEALS)


def unguard(apps, schema_editor) -> None:
    unguard_table(schema_editor, SEALS)


def guard_features(apps, schema_editor) -> None:
    guard_table(schema_editor, FEATURES)


def unguard_features(apps, schema_editor) -> None:
    unguard_table(schema_editor, FEATURES)


def guard_table(schema_editor, table: str) -> None:
    unguard_table(schema_editor, table)
    if schema_editor.connection.vendor == "postgresql":
        schema_editor.execute(
            f"CREATE OR REPLACE FUNCTION {table}_stays() RETURNS trigger LANGUAGE plpgsql AS "
            f"$$ BEGIN RAISE EXCEPTION '{REFUSALS[table]}' USING ERRCODE = 'integrity_constraint_violation'; END $$"
        )
    for deed in DEEDS:
        if schema_editor.connection.vendor == "postgresql":
            act = f"FOR EACH ROW EXECUTE FUNCTION {table}_stays()"
        else:
            act = f"BEGIN SELECT RAISE(ABORT, '{REFUSALS[table]}'); END"
        schema_editor.execute(f"CREATE TRIGGER {table}_no_{deed.lower()} BEFORE {deed} ON {table} {act}")


def unguard_table(schema_editor, table: str) -> None:
    postgresql = schema_editor.connection.vendor == "postgresql"
    for deed in DEEDS:
        on = f" ON {table}" if postgresql else ""
        schema_editor.execute(f"DROP TRIGGER IF EXISTS {table}_no_{deed.lower()}{on}")
    if postgresql:
        schema_editor.execute(f"DROP FUNCTION IF EXISTS {table}_stays()")
