"""A version that has a record keeps its garment type, whoever asks: its cells are of that type's features."""

import pytest
from django.db import IntegrityError, connection, transaction

from catalogue.reference.actions import FaultyFolder, import_reference
from catalogue.reference.models import IssueVersion
from catalogue.reference.spreadsheets.exporting import export_reference
from tests.catalogue.review.bringing_in import edited, row
from tests.catalogue.review.proposing import make_society
from tests.making import make_type


def test_the_database_refuses_another_garment_type_of_a_version_that_has_a_record(db):
    society, cap = make_society(), make_type("CAP")
    bare = IssueVersion.objects.create(code="SMK-99", garment_type=society.home, name="Smock 99", kind="issue")

    for act in (
        lambda: IssueVersion.objects.filter(pk=society.one.pk).update(garment_type=cap),
        lambda: connection.cursor().execute(
            "UPDATE catalogue_issueversion SET garment_type_id = %s WHERE id = %s", [cap.pk, society.one.pk]
        ),
    ):
        with pytest.raises(IntegrityError, match="keeps its garment type"), transaction.atomic():
            act()
    IssueVersion.objects.filter(pk=society.one.pk).update(garment_type=society.home, name="Smock of 1961")
    IssueVersion.objects.filter(pk=bare.pk).update(garment_type=cap)

    society.one.refresh_from_db()
    bare.refresh_from_db()
    assert (society.one.garment_type, society.one.name, bare.garment_type) == (society.home, "Smock of 1961", cap)


def test_an_import_past_review_that_would_move_it_is_refused_in_words(db, tmp_path):
    society = make_society()
    make_type("CAP")
    export_reference(tmp_path)
    edited(tmp_path, "versions", lambda rows: row(rows, version="SMK-61").update(type="CAP"))

    (tmp_path / "profiles.csv").unlink()

    with pytest.raises(FaultyFolder, match="which a version that has a record keeps") as refused:
        import_reference(folder=tmp_path)

    assert len(refused.value.faults) == 1
    society.one.refresh_from_db()
    assert society.one.garment_type == society.home
