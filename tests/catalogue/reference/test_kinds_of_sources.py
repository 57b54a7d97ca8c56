"""A source is of one of nine kinds, with what it takes to find it again."""

import pytest
from django.db import IntegrityError, transaction

from catalogue.reference.actions import FaultyFolder, import_reference
from catalogue.reference.models import Source
from catalogue.reference.spreadsheets.exporting import export_reference
from catalogue.reference.words import FIND_AGAIN, SourceKind
from tests.reading import text, words

pytestmark = pytest.mark.django_db
HEADER = "source,kind,title,date,holder,shelf_mark,grade,personal_data,note\n"


def folder_of(tmp_path, sources: str):
    folder = tmp_path / "given"
    folder.mkdir()
    (folder / "sources.csv").write_text(sources, encoding="utf-8")
    return folder


def make(kind: str, **fields) -> Source:
    return Source.objects.create(code="S1", title="Some words", kind=kind, grade="A", **fields)


def test_the_database_takes_no_other_kind():
    with pytest.raises(IntegrityError), transaction.atomic():
        make("rumour")


def test_the_words_of_the_site_count_as_the_kind_and_go_out_as_its_code(tmp_path):
    given = HEADER.replace("personal_data,", "").replace(",note", "")
    rows = "S1,Tender or contract,A tender,1964,Archive,Box 4,A\nS2,period photograph,A yard,1967,Archive,Print 7,C\n"
    import_reference(folder=folder_of(tmp_path, given + rows))

    export_reference(tmp_path / "out")

    assert (tmp_path / "out/sources.csv").read_text(encoding="utf-8") == (
        HEADER + "S1,tender,A tender,1964,Archive,Box 4,A,no,\nS2,photograph,A yard,1967,Archive,Print 7,C,no,\n"
    )


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("specfication", "specification"),
        ("Dated lable", "label"),
        ("newsletter", "publication"),
        ("recolection", "testimony"),
        ("regulations", "order"),
    ],
)
def test_another_word_is_refused_with_the_kind_that_is_meant(tmp_path, written, meant):
    with pytest.raises(FaultyFolder) as refused:
        import_reference(folder=folder_of(tmp_path, f"source,kind,title,grade\nS1,{written},A paper,A\n"))

    (fault,) = refused.value.faults
    assert str(fault).endswith(f"found “{written}”. Accepted: one of {', '.join(SourceKind.values)}. Nearest: {meant}.")
    assert not Source.objects.exists()


def test_a_sheet_without_the_column_leaves_shelf_marks_as_they_are(tmp_path):
    make("ledger", shelf_mark="Volume 1, page 9")

    import_reference(folder=folder_of(tmp_path, "source,kind,title,grade\nS1,ledger,A ledger,A\n"))

    kept = Source.objects.get()
    assert (kept.title, kept.shelf_mark) == ("A ledger", "Volume 1, page 9")


@pytest.mark.parametrize("kind", SourceKind)
def test_the_page_of_a_source_calls_what_finds_it_again_as_its_kind_does(client, kind):
    make(kind, date="1967-03", holder="Circle archive", shelf_mark="Box 4")
    called = FIND_AGAIN[kind]

    page = words(text(client, "/sources/S1/"))

    for expected in (kind.label, f"{called.date} March 1967", f"{called.holder} Circle archive"):
        assert expected in page
    assert f"{called.shelf_mark} Box 4" in page
    assert "Not recorded" not in page


def test_a_testimony_is_asked_who_and_when_and_a_photograph_where_it_is_held(client):
    source = make("testimony")
    assert "Not recorded When it was told; Who told it, or where it is kept." in words(text(client, "/sources/S1/"))

    Source.objects.filter(pk=source.pk).update(kind="photograph")
    assert "Not recorded Where it is held." in words(text(client, "/sources/S1/"))


def test_a_source_is_found_by_its_shelf_mark(client):
    make("ledger", shelf_mark="Box 4, sheet 1")

    assert "1 source" in words(text(client, "/sources/?q=sheet+1"))
    assert "0 sources" in words(text(client, "/sources/?q=sheet+2"))
