"""The reference goes out as files that come in again the same."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from catalogue.accounts.models import Holding, Want
from catalogue.reference.actions import import_matrix, import_reference
from catalogue.reference.models import (
    Citation,
    Colourway,
    Cut,
    Feature,
    FeatureState,
    GarmentType,
    Issuer,
    IssueVersion,
    Maker,
    NumberForm,
    OpenQuestion,
    ProfileCell,
    Source,
    StockNumber,
    VersionAncestor,
    VersionRecord,
)
from catalogue.reference.spreadsheets.exporting import export_reference
from catalogue.reference.spreadsheets.layout import SHEETS
from catalogue.review.models import FeatureRecord, RecordSeal
from identification.engine.model import CellState, Version
from identification.engine.model import Feature as TableFeature
from tests.making import lift_the_guards

pytestmark = pytest.mark.django_db
ROOT = Path(__file__).resolve().parents[3]


def files(folder) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


def empty_the_reference() -> None:
    """As a database is that has never seen a record; no person could do it, since seals cannot be deleted."""
    lift_the_guards()
    RecordSeal.objects.all().delete()
    FeatureRecord.objects.all().delete()
    IssueVersion.objects.update(current_record=None)
    for model in (
        Want,
        Holding,
        Citation,
        ProfileCell,
        VersionRecord,
        VersionAncestor,
        StockNumber,
        OpenQuestion,
        IssueVersion,
    ):
        model.objects.all().delete()
    Feature.objects.update(absent_state=None, parent=None)
    for model in (FeatureState, Feature, GarmentType, NumberForm, Cut, Colourway, Maker, Source):
        model.objects.all().delete()
    Issuer.objects.update(predecessor=None, successor=None)
    Issuer.objects.all().delete()


def test_export_import_into_an_empty_database_export_gives_the_same_bytes(demo, tmp_path):
    export_reference(tmp_path / "first")
    empty_the_reference()

    import_reference(folder=tmp_path / "first")
    export_reference(tmp_path / "second")

    first = files(tmp_path / "first")
    assert set(first) == {sheet.file for sheet in SHEETS}
    assert len(first["profiles.csv"].splitlines()) == 1895
    assert files(tmp_path / "second") == first


def test_a_table_with_counted_shares_goes_out_and_comes_in_the_same(tmp_path):
    feature = TableFeature("vents", ("none", "two, metal"))
    cells = {"vents": (CellState("none", 0.8), CellState("two, metal", 0.2))}
    import_matrix(
        type_code="T", name="A table", features=[feature], versions=[Version(code="v 1", cells=cells, weight=2.5)]
    )
    export_reference(tmp_path / "first")
    empty_the_reference()

    import_reference(folder=tmp_path / "first")
    export_reference(tmp_path / "second")

    assert b"T-v_1,T-vents,two__metal,sometimes,0.2," in files(tmp_path / "first")["profiles.csv"]
    assert files(tmp_path / "second") == files(tmp_path / "first")


def test_a_folder_with_other_files_is_left_alone(tmp_path):
    (tmp_path / "letter.txt").write_text("Dear Knot")

    with pytest.raises(CommandError, match="letter.txt"):
        call_command("export_reference", str(tmp_path))

    assert [path.name for path in tmp_path.iterdir()] == ["letter.txt"]


def test_a_reference_with_more_than_a_thousand_of_everything_goes_in_and_out(tmp_path):
    """SQLite takes no question with more than a thousand alternatives, which is how Django asks for some rows."""
    numbers = range(1_010)
    files = {
        "sources": ["source,kind,title,grade", *(f"S{n},order,Order {n},A" for n in numbers)],
        "types": ["type,name,features", "A,A thing," + " ".join(f"f{n}" for n in numbers)],
        "features": ["feature,name,question,kind,seen,service_change"]
        + [f"f{n},F{n},Which?,choice,outside,no" for n in numbers],
        "states": ["feature,state,label", *(f"f{n},yes,Yes" for n in numbers)],
        "versions": ["version,type,name,kind,certainty", "A-1,A,First,issue,observed"],
        "profiles": ["version,feature,state,how_often,sources", *(f"A-1,f{n},yes,always,S{n}" for n in numbers)],
    }
    (tmp_path / "in").mkdir()
    for name, lines in files.items():
        (tmp_path / "in" / f"{name}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")

    import_reference(folder=tmp_path / "in")
    counts = export_reference(tmp_path / "out")

    assert {counts[name] for name in ("sources", "features", "states", "profiles")} == {1_010}
    assert "A-1,f1009,yes,always,,,,,,,S1009," in (tmp_path / "out" / "profiles.csv").read_text(encoding="utf-8")
    assert not import_reference(folder=tmp_path / "out")["profiles"].wrote


def test_a_database_that_was_not_set_up_is_told_in_words(tmp_path):
    given = {**os.environ, "CATALOGUE_DATABASE_URL": f"sqlite:///{tmp_path / 'empty.sqlite3'}"}
    command = [sys.executable, "manage.py", "export_reference", str(tmp_path / "out")]
    done = subprocess.run(command, cwd=ROOT, env=given, capture_output=True, text=True, timeout=60)

    assert done.returncode == 1
    assert done.stderr.strip() == (
        "CommandError: The database has not the tables of this edition. First run: manage.py migrate"
    )
