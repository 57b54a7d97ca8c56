"""The database itself refuses to change or delete a seal, whoever asks.

SQLite makes a table anew for some changes of its columns and forgets its triggers then: a migration that alters the
table of seals ends with `RunPython(guard, unguard)`. On SQLite the guard also stops `manage.py flush` once there is a
seal; on PostgreSQL flush truncates, which no trigger for rows sees.
"""

TABLE = "catalogue_recordseal"
REFUSAL = "a seal is never changed nor deleted"
DEEDS = ("UPDATE", "DELETE")


def guard(apps, schema_editor) -> None:
    """Put the triggers in place, on SQLite and on PostgreSQL. Safe to repeat."""
    unguard(apps, schema_editor)
    if schema_editor.connection.vendor == "postgresql":
        schema_editor.execute(
            f"CREATE OR REPLACE FUNCTION {TABLE}_stays() RETURNS trigger LANGUAGE plpgsql AS "
            f"$$ BEGIN RAISE EXCEPTION '{REFUSAL}' USING ERRCODE = 'integrity_constraint_violation'; END $$"
        )
    for deed in DEEDS:
        if schema_editor.connection.vendor == "postgresql":
            act = f"FOR EACH ROW EXECUTE FUNCTION {TABLE}_stays()"
        else:
            act = f"BEGIN SELECT RAISE(ABORT, '{REFUSAL}'); END"
        schema_editor.execute(f"CREATE TRIGGER {TABLE}_no_{deed.lower()} BEFORE {deed} ON {TABLE} {act}")


def unguard(apps, schema_editor) -> None:
    postgresql = schema_editor.connection.vendor == "postgresql"
    for deed in DEEDS:
        on = f" ON {TABLE}" if postgresql else ""
        schema_editor.execute(f"DROP TRIGGER IF EXISTS {TABLE}_no_{deed.lower()}{on}")
    if postgresql:
        schema_editor.execute(f"DROP FUNCTION IF EXISTS {TABLE}_stays()")
