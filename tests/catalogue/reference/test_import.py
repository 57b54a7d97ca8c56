"""The society's spreadsheets come in: all or nothing, every fault at once, safe to repeat."""

import csv
import shutil
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from django.db import connection
from django.db.models.signals import post_init
from django.test.utils import CaptureQueriesContext

from catalogue.reference.actions import FaultyFolder, import_reference, wrote
from catalogue.reference.models import IssueVersion, Maker, ProfileCell, ReferenceState, Source, VersionRecord
from catalogue.reference.spreadsheets.exporting import export_reference
from catalogue.reference.spreadsheets.layout import SHEETS
from tests.reading import text
from tests.site_server import DEMO_FOLDER

pytestmark = pytest.mark.django_db


@pytest.fixture
def folder(tmp_path) -> Path:
    """A copy of the demo society's files, to be spoiled."""
    return Path(shutil.copytree(DEMO_FOLDER, tmp_path / "society"))


def change_cell(folder: Path, sheet: str, line: int, column: str, value: str) -> None:
    """Put a value into a cell; the header is line 1."""
    path = folder / f"{sheet}.csv"
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    rows[line - 1][rows[0].index(column)] = value
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows(rows)


def faults_of(folder: Path) -> list:
    with pytest.raises(FaultyFolder) as refused:
        import_reference(folder=folder)
    return refused.value.faults


def write(folder: Path, name: str, text: str | bytes) -> None:
    folder.mkdir(exist_ok=True)
    (folder / name).write_bytes(text if isinstance(text, bytes) else text.encode())


def test_the_demo_society_comes_in_whole():
    import_reference(folder=DEMO_FOLDER)

    assert IssueVersion.objects.count() == 60
    assert IssueVersion.objects.filter(current_record__isnull=False).count() == 60
    assert Source.objects.count() == 42
    version = IssueVersion.objects.get(code="BLO-57")
    assert (version.from_year, version.to_year, version.garment_type.code) == (1957, 1966, "BLO")


def test_an_import_that_changes_nothing_writes_nothing():
    import_reference(folder=DEMO_FOLDER)
    before = ReferenceState.current_number()

    with CaptureQueriesContext(connection) as asked:
        counts = import_reference(folder=DEMO_FOLDER)

    writing = [q["sql"] for q in asked if q["sql"].split()[0] in ("INSERT", "UPDATE", "DELETE")]
    assert (wrote(counts), writing, ReferenceState.current_number()) == (False, [], before)


def test_an_import_that_changes_something_marks_the_reference_once(folder):
    import_reference(folder=folder)
    before = ReferenceState.current_number()
    change_cell(folder, "makers", 2, "name", "Dunsallow Works")

    import_reference(folder=folder)

    assert ReferenceState.current_number() == before + 1
    assert Maker.objects.get(code="DUN").name == "Dunsallow Works"


def test_a_changed_profile_is_a_new_record_and_the_old_one_stays(folder):
    import_reference(folder=folder)
    change_cell(folder, "profiles", 2, "how_often", "usually")
    code = "BLO-52"

    import_reference(folder=folder)

    version = IssueVersion.objects.get(code=code)
    assert version.current_record.number == 2
    assert [r.number for r in version.records.order_by("number")] == [1, 2]
    assert VersionRecord.objects.count() == 61


def test_rows_that_an_import_leaves_out_stay_as_they_are(tmp_path):
    import_reference(folder=DEMO_FOLDER)
    write(tmp_path, "makers.csv", "maker,name\nNEW,A new works\nGAR,Garradine\n")

    import_reference(folder=tmp_path)

    assert Maker.objects.count() == 14
    garradine = Maker.objects.get(code="GAR")
    assert (garradine.name, garradine.first_year) == ("Garradine", 1961)


def test_what_the_law_may_restrict_comes_in_is_shown_and_goes_out(client, tmp_path):
    """What to say is the society's wording; what the law is, no page says."""
    write(tmp_path, "types.csv", "type,name\nCOA,Coat\n")
    versions = "version,type,name,kind,certainty,restrictions\nC1,COA,Coat,issue,observed,export wearing\n"
    write(tmp_path, "versions.csv", versions)

    import_reference(folder=tmp_path)

    page = text(client, "/issue-versions/C1/")
    assert "Export may need a licence. Ask before posting abroad." in page
    assert "never use a piece to pass as someone" in page
    assert "an emblem that the law protects" not in page
    export_reference(tmp_path / "out")
    line = next(csv.DictReader((tmp_path / "out" / "versions.csv").open(encoding="utf-8", newline="")))
    assert line["restrictions"] == "wearing export"
    assert not wrote(import_reference(folder=tmp_path / "out"))


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
@pytest.mark.parametrize("separator", [",", ";"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_files_are_read_as_any_spreadsheet_program_writes_them(tmp_path, newline, separator, mark):
    lines = [separator.join(row) for row in (["maker", "name"], ["EDD", '"Eddlemuir, and; Sons"'], ["", ""])]
    write(tmp_path, "makers.csv", mark + newline.join(lines).encode())

    import_reference(folder=tmp_path)

    assert Maker.objects.get().name == "Eddlemuir, and; Sons"


@pytest.mark.parametrize(
    "text",
    [
        "maker;name;;\nEDD;Eddlemuir, Sons;;\n;;;\n",
        "maker;name;;\r\nEDD;Eddlemuir, Sons\r\n",
        "maker;name\nEDD;Eddlemuir, Sons;;\n",
        "sep=;\nmaker;name\nEDD;Eddlemuir, Sons\n",
        "\ufeffsep=;\r\n\r\nmaker;name;;\r\nEDD;Eddlemuir, Sons;;\r\n",
        'SEP=,\nmaker,name,\nEDD,"Eddlemuir, Sons",\n',
        '"sep=,",\nmaker,name\nEDD,"Eddlemuir, Sons"\n',
    ],
)
def test_what_a_spreadsheet_program_adds_is_passed_over(tmp_path, text):
    write(tmp_path, "makers.csv", text)

    import_reference(folder=tmp_path)

    assert list(Maker.objects.values_list("code", "name")) == [("EDD", "Eddlemuir, Sons")]


def test_lines_keep_their_numbers_behind_a_line_that_names_the_separator(tmp_path):
    write(tmp_path, "makers.csv", "sep=;\nmaker;name;;\nEDD;Eddlemuir;;\nA B;Another;;\n")

    assert [(fault.line, fault.found) for fault in faults_of(tmp_path)] == [(4, "A B")]


def test_twelve_faults_of_twelve_kinds_are_twelve_lines(folder):
    change_cell(folder, "versions", 3, "kind", "issued")  # a word outside its list
    twice = (folder / "versions.csv").read_text(encoding="utf-8").splitlines()[1]
    with (folder / "versions.csv").open("a", encoding="utf-8") as file:
        file.write(f"{twice}\n")  # a code that stands twice
    change_cell(folder, "versions", 5, "date", "1968-13")  # no such month
    change_cell(folder, "versions", 6, "makers", "DUN PLE GAR")  # a code misspelt
    change_cell(folder, "versions", 7, "rarity", "9")  # a number out of range
    change_cell(folder, "versions", 8, "piece_seen", "perhaps")  # neither yes nor no
    change_cell(folder, "profiles", 2, "state", "button")  # a state that the feature lacks
    change_cell(folder, "features", 2, "places", "front:centre_frnt")  # a place that the garment lacks
    change_cell(folder, "features", 3, "parent", "closure_cover")  # a circle of parents
    change_cell(folder, "features", 3, "shown_when", "exposed")
    change_cell(folder, "states", 17, "low", "7")  # a gap between bands
    change_cell(folder, "stock_numbers", 2, "last_year", "1950")  # a span that runs backward
    change_cell(folder, "sources", 2, "title", "")  # something missing

    faults = faults_of(folder)

    found = [(fault.file, fault.line, fault.column) for fault in faults]
    assert found == [
        ("sources.csv", 2, "title"),
        ("features.csv", 2, "places"),
        ("features.csv", 3, "parent"),
        ("states.csv", 17, "low"),
        ("versions.csv", 3, "kind"),
        ("versions.csv", 5, "date"),
        ("versions.csv", 6, "makers"),
        ("versions.csv", 7, "rarity"),
        ("versions.csv", 8, "piece_seen"),
        ("versions.csv", 62, "version"),
        ("profiles.csv", 2, "state"),
        ("stock_numbers.csv", 2, "last_year"),
    ]
    assert IssueVersion.objects.count() == 0


def test_a_fault_says_where_what_and_what_is_nearest(folder):
    change_cell(folder, "profiles", 2, "state", "button")

    assert str(faults_of(folder)[0]) == (
        "profiles.csv, line 2, column state: found “button”. Accepted: a state of front_closure: buttons, hook_loop, "
        "neck_buttons, neck_zip, none, press_studs, ties, toggles, zip. Nearest: buttons."
    )


def test_the_command_names_every_fault_and_writes_nothing(folder):
    change_cell(folder, "makers", 2, "first_year", "nineteen")
    change_cell(folder, "sources", 2, "grade", "F")
    told = StringIO()

    with pytest.raises(CommandError, match="Nothing was imported: 2 faults"):
        call_command("import_reference", str(folder), stdout=StringIO(), stderr=told)

    assert len(told.getvalue().strip().splitlines()) == 2
    assert Maker.objects.count() == 0


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("", "an empty file"),
        ("maker,name,name\nA,B,C\n", "the column twice"),
        ("maker,name,colour\nA,B,C\n", "colour"),
        ("maker\nA\n", "no such column"),
        ("maker,name\nA\n", "1 cell"),
        ("maker,name\nA,B,,C\n", "4 cells"),
        ("maker,name,,\nA,B,,\nC,D,E,F\nG,H,I,\n", "E in line 3, under no heading"),
        ("maker,,name\nA,x,B\nC,y,D\n", "x in line 2, under no heading"),
        ("maker,name\nA,B,C\n", "3 cells"),
        ('maker,name\nA,"B\n', "a quotation mark that is not closed"),
        ("maker,name\nA,B\0\n", "a NUL character"),
        ("maker,name\nA,Größe\n".encode("latin-1"), "letters that are not written in UTF-8"),
        ("maker,name\nA B,C\n", "A B"),
        ("maker,name\ncannot-tell,C\n", "cannot-tell"),
        ("maker,name\n_a,C\n", "_a"),
        ("maker,name\nA,C\na,C\n", "a"),
    ],
)
def test_a_spoiled_file_gets_one_clear_line(tmp_path, text, found):
    write(tmp_path, "makers.csv", text)

    assert [fault.found for fault in faults_of(tmp_path)] == [found]
    assert Maker.objects.count() == 0


def test_a_folder_whose_files_are_separated_by_tabs_is_told_so_once_for_each_file(folder):
    for path in folder.glob("*.csv"):
        with path.open(encoding="utf-8", newline="") as file:
            rows = list(csv.reader(file))
        with path.open("w", encoding="utf-8", newline="") as file:
            csv.writer(file, delimiter="\t").writerows(rows)
    before = {path.name for path in folder.glob("*.csv")}
    first = min(before)
    write(folder, first, b"\n\n" + (folder / first).read_bytes())

    faults = faults_of(folder)

    assert [(fault.file, fault.line) for fault in faults if fault.file != first] == [
        (name, 1) for name in order_of_the_sheets(before - {first})
    ]
    assert [fault.line for fault in faults if fault.file == first] == [3]
    assert {(fault.found, fault.wanted) for fault in faults} == {
        ("cells that seem to be separated by tabs", "commas or semicolons between them: save the sheet as CSV")
    }


def order_of_the_sheets(names: set[str]) -> list[str]:
    return [sheet.file for sheet in SHEETS if sheet.file in names]


def test_a_tab_within_a_heading_does_not_make_a_file_one_of_tabs(tmp_path):
    write(tmp_path, "makers.csv", "maker\t,name\nA,B\n")

    import_reference(folder=tmp_path)

    assert Maker.objects.get(code="A").name == "B"


def test_a_huge_file_is_refused_before_it_is_read(tmp_path):
    with (tmp_path / "makers.csv").open("wb") as file:
        file.truncate(100_000_000)

    assert [fault.found for fault in faults_of(tmp_path)] == ["100 MB"]


def test_what_refers_into_an_unreadable_file_is_not_complained_about(folder):
    write(folder, "makers.csv", b"\xff\xfe")

    assert [fault.file for fault in faults_of(folder)] == ["makers.csv"]


@pytest.mark.parametrize("name", ["nothing here", "empty"])
def test_a_folder_without_a_known_file_is_a_fault(tmp_path, name):
    (tmp_path / "empty").mkdir()

    assert len(faults_of(tmp_path / name)) == 1


def test_a_file_with_a_misspelt_name_is_named_with_the_nearest(folder):
    (folder / "maker.csv").write_text("maker,name\n")

    assert [(fault.file, fault.nearest) for fault in faults_of(folder)] == [("maker.csv", "makers.csv")]


def test_versions_that_descend_from_one_another_in_a_circle_are_one_fault(folder):
    change_cell(folder, "versions", 2, "continues", "BLO-71")

    assert [(fault.column, fault.found) for fault in faults_of(folder)] == [
        ("continues", "BLO-52 → BLO-71 → BLO-57 → BLO-52")
    ]


def test_a_type_without_versions_and_a_version_without_cells_are_no_faults(tmp_path):
    write(tmp_path, "types.csv", "type,name\nA,A thing\nB,Another\n")
    write(tmp_path, "versions.csv", "version,type,name,kind,certainty\nA-1,A,First,issue,inferred\n")

    import_reference(folder=tmp_path)

    assert IssueVersion.objects.get().current_record is None


def test_an_import_at_verbosity_0_says_nothing_when_all_is_well():
    told = StringIO()

    call_command("import_reference", str(DEMO_FOLDER), verbosity=0, stdout=told)

    assert IssueVersion.objects.count() == 60
    assert told.getvalue() == ""


def counts_told(folder: Path) -> dict[str, str]:
    """What the command says of each kind of record, and at its end."""
    told = StringIO()
    call_command("import_reference", str(folder), stdout=told)
    lines = told.getvalue().splitlines()
    assert "Read makers.csv: 13 rows" in lines
    after_the_steps = lines[[place for place, line in enumerate(lines) if line.startswith("Step ")][-1] + 1 :]
    return {kind: words for kind, _, words in (line.partition(": ") for line in after_the_steps)}


def test_an_import_says_of_each_kind_of_record_what_was_added_changed_and_left(folder):
    first = counts_told(folder)
    again = counts_told(folder)
    change_cell(folder, "profiles", 2, "how_often", "usually")
    change_cell(folder, "makers", 2, "name", "Dunsallow Works")
    change_cell(folder, "versions", 2, "makers", "DUN PEL")  # a list within a row
    change_cell(folder, "versions", 2, "sources", "S01")  # and another in the same
    with (folder / "cuts.csv").open("a", encoding="utf-8") as file:
        file.write("new,A new cut,\n")
    rows = (folder / "colourways.csv").read_text(encoding="utf-8").splitlines(keepends=True)
    (folder / "colourways.csv").write_text("".join([rows[0], *reversed(rows[1:])]), encoding="utf-8")
    changed = counts_told(folder)

    assert list(first.items())[-7:] == [
        ("number forms", "9 added"),
        ("stock numbers", "68 added"),
        ("sizes", "54 added"),
        ("companions", "12 added"),
        ("open questions", "8 added"),
        ("question views", "16 added"),
        ("Imported.", ""),
    ]
    assert {words.split()[-1] for words in first.values() if words} == {"added"}
    assert (first["profiles"], again["profiles"]) == ("60 added", "60 as before")
    assert {words.partition(" ")[2] for words in again.values() if words} == {"as before"}
    assert list(again)[-1] == "Nothing had changed, so nothing was written."
    differing = {kind: words for kind, words in changed.items() if words != again.get(kind)}
    assert differing == {
        "makers": "1 changed, 12 as before",
        "cuts": "1 added, 3 as before",
        "colourways": "3 as before, in another order",
        "versions": "1 changed, 59 as before",
        "profiles": "1 changed, 59 as before",
        "Imported.": "",
    }


def test_a_small_import_reads_of_a_large_reference_only_what_it_names(demo, tmp_path):
    """Were the whole reference read to fill the columns left out, each import would take longer than the last."""
    version = IssueVersion.objects.get(code="BLO-52")
    cell = version.current_record.cells.select_related("state__feature").first()
    write(
        tmp_path,
        "profiles.csv",
        f"version,feature,state,how_often\nBLO-52,{cell.state.feature.code},{cell.state.code},always\n",
    )
    read: list[int] = []

    def note(instance, **kwargs):
        read.append(instance.record_id)

    post_init.connect(note, sender=ProfileCell)
    try:
        import_reference(folder=tmp_path)
    finally:
        post_init.disconnect(note, sender=ProfileCell)

    version.refresh_from_db()
    assert set(read) == {version.current_record_id, cell.record_id}
