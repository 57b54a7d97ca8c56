"""The database itself refuses, whoever asks, to change or delete a seal, a record with its cells, a record of a
feature, or that a view was taken out, to delete what was decided, and to change what an approved proposal asked for
and why, and the garment type of a version that has a record.

SQLite makes a table anew for some changes of its columns and forgets its triggers then: a migration that alters one of
these tables ends with `RunPython(guard_everything, unguard_everything)`. On SQLite the guards also stop
`manage.py flush` once there is a row; on PostgreSQL flush truncates, which no trigger for rows sees.
"""

from dataclasses import dataclass

SEALS, FEATURES = "catalogue_recordseal", "catalogue_featurerecord"
VIEWS = "catalogue_viewdecision"
VERSIONS = "catalogue_issueversion"
UPDATE, DELETE = "UPDATE", "DELETE"
# What an approved proposal asked for and why. Where it stands, and how often it was touched, goes on.
OF_A_PROPOSAL = ("kind", "by_id", "grounds", "sources", "rows", "base", "new_code", "second_code")


@dataclass(frozen=True)
class Refusal:
    """What is refused on a table. `states`, `having`: of rows in these states only, and only of those that have
    something in this column; `columns`: only of these columns."""

    words: str
    deeds: tuple[str, ...] = (UPDATE, DELETE)
    states: tuple[str, ...] = ()
    columns: tuple[str, ...] = ()
    having: str = ""

    def when(self, deed: str, *, differs: str) -> str:
        """The condition of the trigger, empty for every row. `differs`: how the database compares with NULL."""
        conditions = []
        if self.states:
            among = ", ".join(f"'{state}'" for state in self.states)
            conditions.append(f"OLD.state IN ({among})")
        if self.having:
            conditions.append(f"OLD.{self.having} IS NOT NULL")
        if self.columns and deed == UPDATE:
            conditions.append(f"({' OR '.join(f'OLD.{name} {differs} NEW.{name}' for name in self.columns)})")
        return f"WHEN ({' AND '.join(conditions)})" if conditions else ""


REFUSALS = {
    SEALS: Refusal("a seal is never changed nor deleted"),
    FEATURES: Refusal("a record is never changed nor deleted"),
    "catalogue_versionrecord": Refusal("a record is never changed nor deleted"),
    "catalogue_profilecell": Refusal("a cell of a record is never changed nor deleted"),
    # That these are not changed is refused where they are said to be written once.
    "catalogue_decision": Refusal("a decision is never deleted", deeds=(DELETE,)),
    "catalogue_furtherrecord": Refusal("what a decision wrote is never deleted", deeds=(DELETE,)),
    "catalogue_recordlook": Refusal("that a record was looked through is never deleted", deeds=(DELETE,)),
    VERSIONS: Refusal(
        "a version that has a record keeps its garment type",
        deeds=(UPDATE,),
        columns=("garment_type_id",),
        having="current_record_id",
    ),
    VIEWS: Refusal("that a view was taken out or put back is never changed nor deleted"),
    "catalogue_proposal": Refusal(
        "an approved proposal is never changed nor deleted", states=("approved", "revoked"), columns=OF_A_PROPOSAL
    ),
}


def guard(apps, schema_editor) -> None:
    """Put the triggers of the seals in place, on SQLite and on PostgreSQL. Safe to repeat, as all of these are."""
    guard_table(schema_editor, SEALS)


def unguard(apps, schema_editor) -> None:
    unguard_table(schema_editor, SEALS)


def guard_features(apps, schema_editor) -> None:
    guard_table(schema_editor, FEATURES)


def unguard_features(apps, schema_editor) -> None:
    unguard_table(schema_editor, FEATURES)


def guard_views(apps, schema_editor) -> None:
    guard_table(schema_editor, VIEWS)


def unguard_views(apps, schema_editor) -> None:
    unguard_table(schema_editor, VIEWS)


def guard_versions(apps, schema_editor) -> None:
    guard_table(schema_editor, VERSIONS)


def unguard_versions(apps, schema_editor) -> None:
    unguard_table(schema_editor, VERSIONS)


def guard_everything(apps, schema_editor) -> None:
    for table in tables_there(schema_editor):
        guard_table(schema_editor, table)


def unguard_everything(apps, schema_editor) -> None:
    for table in tables_there(schema_editor):
        unguard_table(schema_editor, table)


def tables_there(schema_editor) -> list[str]:
    """Those of the guarded tables that the migrations have made so far."""
    there = schema_editor.connection.introspection.table_names()
    return [table for table in REFUSALS if table in there]


def guard_table(schema_editor, table: str) -> None:
    unguard_table(schema_editor, table)
    refusal = REFUSALS[table]
    postgresql = schema_editor.connection.vendor == "postgresql"
    if postgresql:
        schema_editor.execute(
            f"CREATE OR REPLACE FUNCTION {table}_stays() RETURNS trigger LANGUAGE plpgsql AS "
            f"$$ BEGIN RAISE EXCEPTION '{refusal.words}' USING ERRCODE = 'integrity_constraint_violation'; END $$"
        )
    for deed in refusal.deeds:
        when = refusal.when(deed, differs="IS DISTINCT FROM" if postgresql else "IS NOT")
        if postgresql:
            act = f"FOR EACH ROW {when} EXECUTE FUNCTION {table}_stays()"
        else:
            act = f"{when} BEGIN SELECT RAISE(ABORT, '{refusal.words}'); END"
        schema_editor.execute(f"CREATE TRIGGER {table}_no_{deed.lower()} BEFORE {deed} ON {table} {act}")


def unguard_table(schema_editor, table: str) -> None:
    postgresql = schema_editor.connection.vendor == "postgresql"
    for deed in (UPDATE, DELETE):
        on = f" ON {table}" if postgresql else ""
        schema_editor.execute(f"DROP TRIGGER IF EXISTS {table}_no_{deed.lower()}{on}")
    if postgresql:
        schema_editor.execute(f"DROP FUNCTION IF EXISTS {table}_stays()")
