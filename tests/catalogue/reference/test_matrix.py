"""A bare table of features and versions comes in as a garment type of its own."""

from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from catalogue.reference.models import FeatureState, IssueVersion
from catalogue.reference.snapshots import type_facts
from identification.engine import States
from identification.profiles_from_catalogue import pack_of_type

pytestmark = pytest.mark.django_db

FEATURES = """feature,states,effort,error,absent,loss,gain,parent,shown_when
vents,none|two|four,2,0.1,none,0.2,0.01,,
vent edge,sewn|metal,1,,,,,vents,two|four
cannot-tell,yes|cannot-tell,,,,,,,
"""
MATRIX = """version,prior,vents,vent edge,cannot-tell
a 1,3,two:0.8|four:0.2,sewn,yes
A 1,,none,-,-
c,1,,,cannot-tell
"""


def load(tmp_path: Path, features: str = FEATURES, matrix: str = MATRIX, code: str = "T") -> str:
    (tmp_path / "f.csv").write_text(features, encoding="utf-8")
    (tmp_path / "m.csv").write_text(matrix, encoding="utf-8")
    told = StringIO()
    call_command(
        "import_matrix", str(tmp_path / "f.csv"), str(tmp_path / "m.csv"), f"--type={code}", stdout=told, stderr=told
    )
    return told.getvalue()


def test_names_that_cannot_be_codes_are_kept_as_names(tmp_path):
    load(tmp_path)

    assert list(IssueVersion.objects.values_list("code", "name")) == [
        ("T-a_1", "a 1"),
        ("T-A_1_2", "A 1"),
        ("T-c", "c"),
    ]
    assert FeatureState.objects.filter(feature__code="T-cannot-tell").count() == 3


def test_repeating_it_writes_nothing(tmp_path):
    load(tmp_path)

    assert "nothing had changed" in load(tmp_path)


def test_the_table_answers_questions_at_once(tmp_path):
    load(tmp_path)
    pack = pack_of_type(type_facts("T"))

    belief = pack.weigh({"T-vents": States(("four",))})

    assert pack.version_codes[belief.posterior.argmax()] == "T-a_1"


def test_every_fault_is_named_and_nothing_is_written(tmp_path):
    with pytest.raises(CommandError, match="Nothing was imported: 2 faults"):
        load(tmp_path, matrix="version,prior,vents,vent edge,cannot-tell\na,x,twoo,sewn,yes\n")

    assert IssueVersion.objects.count() == 0


@pytest.mark.parametrize("code", ["_t", "a b", "cannot-tell", ""])
def test_a_type_code_that_cannot_stand_in_an_address_is_refused(tmp_path, code):
    with pytest.raises(CommandError, match="Nothing was imported"):
        load(tmp_path, code=code)


@pytest.mark.parametrize("name", ["speech_sounds", "contact_languages"])
def test_open_data_sets_come_in_whole(name, tmp_path):
    folder = Path(__file__).resolve().parents[2] / "data" / name
    call_command(
        "import_matrix", str(folder / f"{name}.features.csv"), str(folder / f"{name}.matrix.csv"), f"--type={name}",
        stdout=StringIO(),
    )  # fmt: skip

    assert IssueVersion.objects.count() == {"speech_sounds": 150, "contact_languages": 69}[name]
