"""A version's documented size table: kept with its paper, shown on the version's page, held against pieces."""

import pytest
from django.db import IntegrityError, transaction

from catalogue.member_examples.models import Example
from catalogue.reference.actions import import_reference
from catalogue.reference.models import IssueVersion, ReferenceState, SizeLength, Source
from catalogue.reference.spreadsheets.exporting import export_reference
from tests.catalogue.member_examples.pieces import accepted, make_society
from tests.making import make_type, make_version
from tests.reading import text, words

pytestmark = pytest.mark.django_db


@pytest.fixture
def version():
    Source.objects.create(code="S1", kind="specification", title="Specification of the coat", grade="A")
    Source.objects.create(code="S2", kind="order", title="Order on sleeves", grade="A")
    return make_version(make_type("COA"), "COA-1")


def in_table(version: IssueVersion, source: str, **lengths: int) -> None:
    for cell, mm in lengths.items():
        mark, what = cell.lstrip("m").split("_", 1)
        version.size_lengths.create(mark=mark, what=what, mm=mm, source=Source.objects.get(code=source))
    ReferenceState.mark_changed()


def test_the_versions_page_shows_its_table_with_its_paper_and_the_paper_names_the_table(client, version):
    in_table(version, "S1", m10_sleeve=640, m4_sleeve=600, m4_back_length=905)

    page = words(text(client, "/issue-versions/COA-1/"))
    assert "as [1] give it" not in page
    assert "in centimetres, as [1] gives it Marked Back length Sleeve 4 90.5 60.0 10 not given 64.0" in page
    assert "3 lengths of Version COA-1" in words(text(client, "/sources/S1/"))
    assert "S1" in text(client, "/sources/?cited=yes")


def test_lengths_from_two_papers_each_name_theirs(client, version):
    in_table(version, "S1", m4_back_length=905)
    in_table(version, "S2", m4_sleeve=600)

    assert "as [1] [2] give it Marked Back length Sleeve 4 90.5 [1] 60.0 [2]" in words(
        text(client, "/issue-versions/COA-1/")
    )


def test_a_table_goes_out_and_comes_in_the_same_with_marks_in_their_order(version, tmp_path):
    in_table(version, "S1", m10_sleeve=640, m4_sleeve=600, mXL_sleeve=650, mS_sleeve=590)
    export_reference(tmp_path / "first")
    SizeLength.objects.all().delete()
    counts = import_reference(folder=tmp_path / "first")
    export_reference(tmp_path / "second")

    written = (tmp_path / "first" / "sizes.csv").read_text(encoding="utf-8")
    assert written == (tmp_path / "second" / "sizes.csv").read_text(encoding="utf-8")
    assert [line.split(",")[1] for line in written.splitlines()[1:]] == ["S", "XL", "4", "10"]
    assert counts["sizes"].added == 4
    assert not import_reference(folder=tmp_path / "first")["sizes"].wrote


@pytest.mark.parametrize(
    "cell",
    [
        {"mark": "160 / 88", "what": "sleeve", "mm": 600},
        {"mark": "", "what": "sleeve", "mm": 600},
        {"mark": "4", "what": "sleeve", "mm": 0},
        {"mark": "4", "what": "collar", "mm": 60},
        {"mark": "4", "what": "sleeve", "mm": 600, "source": None},
    ],
)
def test_the_database_itself_refuses_what_no_table_can_hold(version, cell):
    source = Source.objects.get(code="S1")
    version.size_lengths.create(mark="160/88", what="sleeve", mm=590, source=source)

    with pytest.raises(IntegrityError), transaction.atomic():
        version.size_lengths.create(**{"source": source} | cell)


def test_a_pieces_page_holds_its_tape_against_the_table(client, version):
    society = make_society()
    in_table(society.old, "S1", m4_back_length=905, m5_back_length=930)
    said = []
    for mark, back in (("4", 845), ("7", 900)):
        piece = accepted(society, society.old, closure="buttons")
        Example.objects.filter(pk=piece.pk).update(size_mark=mark)
        piece.measurements.create(what="back_length", mm=back)
        said.append(words(text(client, f"/examples/{piece.code}/")))

    assert "Marked 4, back 6 cm short of what the size table gives: shrunk or re-marked; look at the hem." in said[0]
    assert "Size table of Version SMK-61" in said[0]
    assert "Marked 7: the size table has no such mark, it has 4 to 5." in said[1]
