"""The database refuses to change that a record was looked through (see member_examples.written_once)."""

from catalogue.member_examples.written_once import guard_tables, unguard_tables

TABLES = ("catalogue_recordlook",)


def guard(apps, schema_editor) -> None:
    guard_tables(schema_editor, TABLES)


def unguard(apps, schema_editor) -> None:
    unguard_tables(schema_editor, TABLES)
