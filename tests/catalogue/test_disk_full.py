"""A database that can write no more: said in words, with what was typed, and nothing is half there."""

import sqlite3
from contextlib import closing

import pytest
from django.db import connection

from catalogue.member_examples.models import Label
from tests.catalogue.member_examples.pieces import draft, make_society

pytestmark = [
    pytest.mark.django_db,
    pytest.mark.skipif(connection.vendor != "sqlite", reason="SQLite can be told that its file may not grow"),
]


@pytest.fixture
def no_room():
    """The file of the database may not grow from now on, and what the migrations left free in it is taken."""

    def shut():
        with connection.cursor() as cursor:
            pages, free, size = (
                cursor.execute(f"PRAGMA {name}").fetchone()[0] for name in ("page_count", "freelist_count", "page_size")
            )
            cursor.execute("CREATE TABLE filler (held BLOB)")  # goes with all that the test wrote
            cursor.execute("INSERT INTO filler VALUES (zeroblob(%s))", [max(0, free - 8) * (size - 8)])
            cursor.execute(f"PRAGMA max_page_count = {pages}")

    yield shut
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA max_page_count = 1073741823")


def test_a_label_that_finds_no_room_comes_back_with_every_word(client, no_room):
    society = make_society()
    piece = draft(society)
    client.force_login(society.ada)
    address = f"/my-pieces/{piece.code}/labels/new/"
    long = "WORKED ON IN THE FELLS " * 400
    labels = Label.objects.count()
    no_room()
    for number in range(40):  # what free pages there were are used up
        text = f"{number} {long}"[:4000]
        answer = client.post(address, {"kind": "main", "text": text, "attachment": "sewn", "origin": "original"})
        if answer.status_code == 507:
            break
        labels = Label.objects.count()

    page = answer.content.decode()
    assert answer.status_code == 507
    assert "Nothing could be written just now" in page
    assert text.strip() in page
    assert f'action="{address}"' in page
    assert 'name="csrfmiddlewaretoken"' in page
    assert Label.objects.count() == labels


def test_other_faults_of_the_database_are_still_faults(rf):
    from django.db import OperationalError

    from catalogue.site_pages.disk_full import SayThatNothingCanBeWritten

    heard = SayThatNothingCanBeWritten(lambda request: None).process_exception
    assert heard(rf.get("/"), OperationalError("no such table: x")) is None
    assert heard(rf.get("/"), ValueError("disk is full")) is None


def test_the_words_are_those_that_sqlite_has(tmp_path):
    with closing(sqlite3.connect(tmp_path / "small.sqlite3")) as small:
        small.execute("CREATE TABLE t (x)")
        small.execute("PRAGMA max_page_count = 2")
        with pytest.raises(sqlite3.OperationalError, match="disk is full"):
            small.executemany("INSERT INTO t VALUES (?)", [("x" * 4000,)] * 10)
