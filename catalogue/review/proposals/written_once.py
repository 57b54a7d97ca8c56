"""The database refuses to change a decision, a word on a proposal, or what a decision wrote further (see
member_examples.written_once)."""

from catalogue.member_examples.written_once import guard_tables, unguard_tables

TABLES = ("catalogue_decision", "catalogue_proposalword", "catalogue_furtherrecord")


def guard(apps, schema_editor) -> None:
    guard_tables(schema_editor, TABLES)


def unguard(apps, schema_editor) -> None:
    unguard_tables(schema_editor, TABLES)
