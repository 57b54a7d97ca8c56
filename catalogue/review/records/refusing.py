"""The database itself refuses, whoever asks, to change or delete a seal, a record with its cells and all that belongs
to a cell, a record of a feature, or that a view was taken out, to delete what was decided, and to change what an
approved proposal asked for and why, and the garment type of a version that has a record.

SQLite makes a table anew for some changes of its columns and forgets its triggers then: a migration that alters one of
these tables ends with `RunPython(guard_everything, unguard_everything)`. The guards also stop `manage.py flush` once
there is a row. A row that is put beside others is not refused: `verify_records` names it.
"""

import re
from dataclasses import dataclass

SEALS, FEATURES = "catalogue_recordseal", "catalogue_featurerecord"
VIEWS, DECISION_SEALS = "catalogue_viewdecision", "catalogue_decisionseal"
VERSIONS = "catalogue_issueversion"
UPDATE, DELETE, TRUNCATE = "UPDATE", "DELETE", "TRUNCATE"
# What an approved proposal asked for and why. Where it stands, and how often it was touched, goes on.
OF_A_PROPOSAL = ("kind", "by_id", "grounds", "sources", "rows", "base", "new_code", "second_code")


@dataclass(frozen=True)
class Refusal:
    """What is refused on a table. `rows`: of which rows only, a condition with `{row}` before each column; `columns`:
    a change of these only."""

    words: str
    deeds: tuple[str, ...] = (UPDATE, DELETE)
    rows: str = ""
    columns: tuple[str, ...] = ()

    def when(self, deed: str, *, differs: str) -> str:
        """The condition of the trigger, empty for every row. `differs`: how the database compares with NULL."""
        if not self.rows:
            return ""
        condition = self.rows.format(row="OLD")
        if deed == UPDATE and self.columns:
            condition += f" AND ({' OR '.join(f'OLD.{name} {differs} NEW.{name}' for name in self.columns)})"
        elif deed == UPDATE:  # no other row becomes one of these either
            condition += f" OR {self.rows.format(row='NEW')}"
        return f"WHEN ({condition})"


REFUSALS = {
    SEALS: Refusal("a seal is never changed nor deleted"),
    FEATURES: Refusal("a record is never changed nor deleted"),
    "catalogue_versionrecord": Refusal("a record is never changed nor deleted"),
    "catalogue_profilecell": Refusal("a cell of a record is never changed nor deleted"),
    "catalogue_profilecell_makers": Refusal("the makers of a cell of a record are never changed nor deleted"),
    "catalogue_citation": Refusal(
        "what a cell of a record rests on is never changed nor deleted", rows="{row}.cell_id IS NOT NULL"
    ),
    # It goes only where its version is in force again; that another is put in its place, `verify_records` sees.
    "catalogue_versionsuccessor": Refusal("what a version became is never changed", deeds=(UPDATE,)),
    # That these are not changed is refused where they are said to be written once.
    "catalogue_decision": Refusal("a decision is never deleted", deeds=(DELETE,)),
    "catalogue_furtherrecord": Refusal("what a decision wrote is never deleted", deeds=(DELETE,)),
    DECISION_SEALS: Refusal("a seal is never changed nor deleted"),
    "catalogue_recordlook": Refusal("that a record was looked through is never deleted", deeds=(DELETE,)),
    VERSIONS: Refusal(
        "a version that has a record keeps its garment type",
        deeds=(UPDATE,),
        columns=("garment_type_id",),
        rows="{row}.current_record_id IS NOT NULL",
    ),
    VIEWS: Refusal("that a view was taken out or put back is never changed nor deleted"),
    "catalogue_proposal": Refusal(
        "an approved proposal is never changed nor deleted",
        rows="{row}.state IN ('approved', 'revoked')",
        columns=OF_A_PROPOSAL,
    ),
}


def guard_everything(apps, schema_editor) -> None:
    """Put all the triggers in place, on SQLite and on PostgreSQL. Safe to repeat."""
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
        kept = f" WHERE {refusal.rows.format(row='held')}" if refusal.rows else ""
        schema_editor.execute(
            f"CREATE OR REPLACE FUNCTION {table}_stays() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN "  # noqa: S608
            f"IF TG_OP = '{TRUNCATE}' THEN IF NOT EXISTS (SELECT 1 FROM {table} AS held{kept}) THEN RETURN NULL; "
            "END IF; END IF; "
            f"RAISE EXCEPTION '{refusal.words}' USING ERRCODE = 'integrity_constraint_violation'; END $$"
        )
    for deed in refusal.deeds:
        when = refusal.when(deed, differs="IS DISTINCT FROM" if postgresql else "IS NOT")
        if postgresql:
            act = f"FOR EACH ROW {when} EXECUTE FUNCTION {table}_stays()"
        else:
            act = f"{when} BEGIN SELECT RAISE(ABORT, '{refusal.words}'); END"
        schema_editor.execute(f"CREATE TRIGGER {table}_no_{deed.lower()} BEFORE {deed} ON {table} {act}")
    if not postgresql:
        guard_from_replacing(schema_editor, table, refusal)
    elif DELETE in refusal.deeds:  # no trigger for rows sees it
        schema_editor.execute(
            f"CREATE TRIGGER {table}_no_truncate BEFORE TRUNCATE ON {table} "
            f"FOR EACH STATEMENT EXECUTE FUNCTION {table}_stays()"
        )


def guard_from_replacing(schema_editor, table: str, refusal: Refusal) -> None:
    """`REPLACE` of SQLite deletes whatever stands in the way of the new row without a trigger for deleting (SQLite, "ON
    CONFLICT clause", unless PRAGMA recursive_triggers is on): refused where anything does. PostgreSQL has only
    `ON CONFLICT DO UPDATE`, which is an update."""
    kept = f" AND {refusal.rows.format(row='held')}" if refusal.rows else ""
    in_the_way = " OR ".join(
        f"EXISTS (SELECT 1 FROM {table} AS held WHERE {same}{kept})"  # noqa: S608 - the tables are ours
        for same in same_key(schema_editor, table)
    )
    schema_editor.execute(
        f"CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} WHEN {in_the_way} "
        f"BEGIN SELECT RAISE(ABORT, '{refusal.words}'); END"
    )


def same_key(schema_editor, table: str) -> list[str]:
    """For each key of a table the condition that a row held by it stands in the way of a new one."""
    found = ["held.id = NEW.id"]
    with schema_editor.connection.cursor() as cursor:
        cursor.execute(
            "SELECT list.name, master.sql FROM pragma_index_list(%s) AS list "
            'LEFT JOIN sqlite_master AS master ON master.name = list.name WHERE list."unique" ORDER BY list.name',
            [table],
        )
        for index, made_by in cursor.fetchall():
            cursor.execute("SELECT name FROM pragma_index_info(%s) ORDER BY seqno", [index])
            names = [name for (name,) in cursor.fetchall()]
            if None in names:  # over an expression, as that of codes whatever their capitals: the code has one as well
                continue
            same = [f"held.{name} = NEW.{name}" for name in names]
            only = (made_by or "").partition(" WHERE ")[2]  # as Django writes it, each column in quotation marks
            same += [re.sub(r'"(\w+)"', rf'{row}."\1"', only) for row in ("held", "NEW") if only]
            found.append(" AND ".join(same))
    return found


def unguard_table(schema_editor, table: str) -> None:
    postgresql = schema_editor.connection.vendor == "postgresql"
    for deed in (UPDATE, DELETE, TRUNCATE, "replace"):
        on = f" ON {table}" if postgresql else ""
        schema_editor.execute(f"DROP TRIGGER IF EXISTS {table}_no_{deed.lower()}{on}")
    if postgresql:
        schema_editor.execute(f"DROP FUNCTION IF EXISTS {table}_stays()")
