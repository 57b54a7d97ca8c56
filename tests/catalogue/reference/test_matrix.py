"""A bare table of features and versions comes in as a garment type of its own."""

from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from catalogue.reference.models import Feature, FeatureState, IssueVersion, ProfileCell, ReferenceState
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


def with_semicolons(table: str) -> str:
    """As a spreadsheet program writes it where numbers have a decimal comma."""
    return table.replace(",", ";").replace("0.", "0,")


def test_a_table_with_semicolons_and_decimal_commas_says_the_same(tmp_path):
    load(tmp_path)
    cells = list(ProfileCell.objects.order_by("state").values_list("state", "share", "how_often"))
    features = list(Feature.objects.order_by("code").values_list("code", "effort", "error", "loss", "gain"))

    told = load(tmp_path, with_semicolons(FEATURES), with_semicolons(MATRIX))

    assert told == "3 features and 3 versions read; nothing had changed, so nothing was written.\n"
    assert list(ProfileCell.objects.order_by("state").values_list("state", "share", "how_often")) == cells
    assert list(Feature.objects.order_by("code").values_list("code", "effort", "error", "loss", "gain")) == features


@pytest.mark.parametrize("separator", [",", ";"])
def test_what_a_spreadsheet_program_adds_to_a_table_is_passed_over(tmp_path, separator):
    load(tmp_path)

    def as_saved(table: str) -> str:
        lines = (with_semicolons(table) if separator == ";" else table).splitlines()
        empty = separator * (lines[0].count(separator) + 2)
        return "\r\n".join([f"\ufeffsep={separator}", *(line + separator * 2 for line in lines), empty, ""])

    assert "nothing had changed" in load(tmp_path, as_saved(FEATURES), as_saved(MATRIX))
    with pytest.raises(CommandError, match="1 fault\\."):
        load(tmp_path, as_saved(FEATURES), as_saved(MATRIX.replace("version,prior", "version,")))


def test_a_fault_in_a_table_with_semicolons_is_told_with_its_file_line_and_column(tmp_path):
    with pytest.raises(CommandError, match="1 fault\\."):
        load(tmp_path, with_semicolons(FEATURES), with_semicolons(MATRIX).replace("c;1;;;cannot-tell", "c;1;six;;yes"))


def test_one_feature_and_one_version_are_named_so(tmp_path):
    told = load(tmp_path, "feature,states\nvents,none|two\n", "version,vents\na,two\n")

    assert told == "1 feature and 1 version read; imported.\n"


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


SPOILED = [
    ("an empty file", "m", "", ["m.csv, line 1: found “an empty file”; accepted: a header line"]),
    ("no features file", "f", "", ["f.csv, line 1: found “an empty file”; accepted: a header line"]),
    (
        "a quotation mark that is not closed",
        "m",
        'version,vents,vent edge,cannot-tell\n"a,two,sewn,yes\n',
        [
            "m.csv, line 2: found “unexpected end of data”; "
            "accepted: cells between commas, quotes closed and doubled inside"
        ],
    ),
    (
        "another encoding",
        "m",
        "version,vents,vent edge,cannot-tell\nGröße,two,sewn,yes\n".encode("latin-1"),
        ["m.csv, line 2: found “bytes that are not UTF-8”; accepted: UTF-8"],
    ),
    (
        "a column twice",
        "m",
        "version,vents,vents,vent edge,cannot-tell\na,two,two,sewn,yes\n",
        ["m.csv, line 1, column vents: found “the column twice”; accepted: each column once"],
    ),
    (
        "a state that the feature lacks",
        "m",
        "version,vents,vent edge,cannot-tell\na,twoo,sewn,yes\n",
        ["m.csv, line 2, column vents: found “twoo”; accepted: one of none, two, four (did you mean two?)"],
    ),
    (
        "a column that is no feature",
        "m",
        "version,vents,vent edge,cannot-tell,cuff\na,two,sewn,yes,tab\n",
        ["m.csv, line 1, column cuff: found “cuff”; accepted: version, prior or a feature of the features file"],
    ),
    (
        "a feature without its column",
        "m",
        "version,vents,vent edge\na,two,sewn\n",
        ["m.csv, line 1, column cannot-tell: found “no such column”; accepted: a column named cannot-tell"],
    ),
    (
        "a version without a name",
        "m",
        "version,vents,vent edge,cannot-tell\n,two,sewn,yes\n",
        ["m.csv, line 2, column version: found “”; accepted: a name"],
    ),
    (
        "two versions of one name",
        "m",
        "version,vents,vent edge,cannot-tell\na,two,sewn,yes\nb,two,sewn,yes\na,none,-,yes\n",
        ["m.csv, line 4, column version: found “a”; accepted: a name not used in line 2"],
    ),
    (
        "too few cells",
        "m",
        "version,vents,vent edge,cannot-tell\na,two,sewn\n",
        ["m.csv, line 2: found “3 cells”; accepted: 4 cells, as in the header"],
    ),
    (
        "tabs for commas",
        "m",
        "version\tvents\tvent edge\tcannot-tell\na\ttwo\tsewn\tyes\n",
        [
            "m.csv, line 1: found “cells that seem to be separated by tabs”; "
            "accepted: commas or semicolons between them: save the sheet as CSV"
        ],
    ),
    (
        "no version at all",
        "m",
        "version,vents,vent edge,cannot-tell\n",
        ["m.csv, line 1, column version: found “no version”; accepted: one line for each version"],
    ),
    (
        "a circle of parents",
        "f",
        "feature,states,parent,shown_when\nvents,none|two|four,vent edge,sewn\nvent edge,sewn|metal,vents,two\n"
        "cannot-tell,yes|cannot-tell,,\n",
        [
            "f.csv, line 2, column parent: found “vent edge”; accepted: a feature that is no detail of this one",
            "f.csv, line 3, column parent: found “vents”; accepted: a feature that is no detail of this one",
        ],
    ),
]


@pytest.mark.parametrize(("file", "text", "lines"), [row[1:] for row in SPOILED], ids=[row[0] for row in SPOILED])
def test_a_spoiled_table_gets_clear_lines_and_changes_nothing(tmp_path, file, text, lines):
    load(tmp_path)
    before = state_of_the_tables()
    told = StringIO()
    (tmp_path / f"{file}.csv").write_bytes(text if isinstance(text, bytes) else text.encode())

    with pytest.raises(CommandError, match=f"Nothing was imported: {len(lines)} fault{'s' if len(lines) > 1 else ''}."):
        call_command("import_matrix", str(tmp_path / "f.csv"), str(tmp_path / "m.csv"), "--type=T", stderr=told)

    first = [line for line in told.getvalue().splitlines() if line.startswith(f"{file}.csv")]
    assert first == lines
    assert state_of_the_tables() == before


def state_of_the_tables() -> tuple:
    versions = IssueVersion.objects.order_by("code").values_list("code", "name", "current_record")
    return (ReferenceState.current_number(), list(versions), FeatureState.objects.count())


@pytest.mark.parametrize("file", ["f", "m"])
def test_a_huge_file_is_refused_before_it_is_read(tmp_path, file, monkeypatch):
    load(tmp_path)
    told = StringIO()
    with (tmp_path / f"{file}.csv").open("wb") as huge:
        huge.truncate(100_000_000)
    read_whole = Path.read_bytes
    monkeypatch.setattr(Path, "read_bytes", lambda path: read_whole(path) if path.stat().st_size < 1_000_000 else 1 / 0)

    with pytest.raises(CommandError, match="Nothing was imported: 1 fault."):
        call_command("import_matrix", str(tmp_path / "f.csv"), str(tmp_path / "m.csv"), "--type=T", stderr=told)

    assert told.getvalue().startswith(f"{file}.csv: found “100 MB”; accepted: at most 10 MB")


@pytest.mark.parametrize("name", ["no such file.csv", "a folder"])
def test_a_file_that_is_not_there_or_is_none_is_named(tmp_path, name):
    load(tmp_path)
    (tmp_path / "a folder").mkdir()
    told = StringIO()

    with pytest.raises(CommandError, match="Nothing was imported"):
        call_command("import_matrix", str(tmp_path / "f.csv"), str(tmp_path / name), "--type=T", stderr=told)

    assert told.getvalue().startswith(f"{name}: found “")


def test_a_table_never_comes_in_over_a_garment_type_that_is_not_of_its_making(demo, tmp_path):
    before = type_facts("SMK")

    with pytest.raises(CommandError, match="the garment type SMK .Fell smock. exists"):
        load(tmp_path, code="SMK")

    after = type_facts("SMK")
    assert (after.name, list(after.features), list(after.versions)) == (
        before.name,
        list(before.features),
        list(before.versions),
    )
