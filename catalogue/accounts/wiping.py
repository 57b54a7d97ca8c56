"""What was deleted for a person's sake is to be gone from the database's files too."""

from django.db import connection


def wipe_what_was_deleted() -> None:
    """SQLite overwrites what is deleted (`secure_delete`), but the log of changes keeps old pages until it is emptied:
    call this once the change is committed. PostgreSQL's tables are vacuumed by the server in its own time.
    """
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")
