"""Every kind of fault that the import knows, planted alone in a sound folder: exactly one line, and which."""

import os
from pathlib import Path

import pytest

from catalogue.reference.actions import FaultyFolder, import_reference
from catalogue.reference.models import GarmentType
from catalogue.reference.regions import garment_classes
from tests.catalogue.reference.planted_faults import PLANTED, SOUND

pytestmark = pytest.mark.django_db


@pytest.fixture
def folder(tmp_path) -> Path:
    made = tmp_path / "society"
    made.mkdir()
    for sheet, text in SOUND.items():
        (made / f"{sheet}.csv").write_text(text, encoding="utf-8")
    return made


def spoil(folder: Path, sheet: str, before: str | None, after: str | bytes) -> None:
    """Put `after` for the one place of `before`, or for the whole file."""
    path = folder / f"{sheet}.csv"
    text = path.read_text(encoding="utf-8")
    if before is not None:
        assert text.count(before) == 1, f"{before!r} stands {text.count(before)} times in {sheet}.csv"
        after = text.replace(before, after)
    path.write_bytes(after if isinstance(after, bytes) else after.encode())


def lines_of(folder: Path) -> list[str]:
    with pytest.raises(FaultyFolder) as refused:
        import_reference(folder=folder)
    return [str(fault) for fault in refused.value.faults]


def whole(line: str) -> str:
    return line.replace("{outlines}", ", ".join(garment_classes()))


def test_the_folder_without_a_planted_fault_comes_in(folder):
    import_reference(folder=folder)

    assert GarmentType.objects.count() == 2


@pytest.mark.once
@pytest.mark.parametrize(("planted", "line"), PLANTED.values(), ids=PLANTED.keys())
def test_a_planted_fault_is_exactly_one_line(folder, planted, line):
    spoil(folder, *planted)

    assert lines_of(folder) == [whole(line)]
    assert GarmentType.objects.count() == 0


@pytest.mark.once
@pytest.mark.parametrize("sheet", SOUND)
def test_a_heading_that_is_wrong_is_one_line_whichever_it_is(folder, sheet):
    """Misspelt; written again behind the others, over nothing; written over the next one."""
    before = SOUND[sheet]
    header, *rows = before.splitlines()
    columns = header.split(",")
    for place, column in enumerate(columns):
        over = [column if at == (place + 1) % len(columns) else name for at, name in enumerate(columns)]
        spoiled = {
            "misspelt": "\n".join([",".join([*columns[:place], f"{column}x", *columns[place + 1 :]]), *rows]),
            "again": "\n".join([f"{header},{column}", *(f"{row}," for row in rows)]),
            "over the next": "\n".join([",".join(over), *rows]),
        }
        for how, text in spoiled.items():
            spoil(folder, sheet, None, text + "\n")
            assert len(lines := lines_of(folder)) == 1, (how, column, lines)


TWELVE = [  # in the order of files and lines
    "a maker that ends before it begins",
    "a column misspelt",
    "an outline that cannot be drawn",
    "a lost part that leaves another feature's state",
    "a gap between bands",
    "a word outside its list",
    "a bracket without a name",
    "neither yes nor no",
    "a state that the feature lacks",
    "a number out of range",
    "a number whose years run backward",
    "two views that stand",
]


def test_twelve_faults_of_twelve_kinds_are_exactly_twelve_lines(folder):
    for name in TWELVE:
        spoil(folder, *PLANTED[name][0])

    assert lines_of(folder) == [whole(PLANTED[name][1]) for name in TWELVE]
    assert GarmentType.objects.count() == 0


OTHER_CAPITALS = {
    "a code": (
        ("makers", "PEA,Peat", "pea,Peat"),
        "makers.csv, line 3, column maker: found “pea”. Accepted: a code that is there already, as it is written "
        "there, or one that differs by more than capitals. Nearest: PEA.",
    ),
    "a state": (
        ("states", "front,zip", "front,Zip"),
        "states.csv, line 2, column state: found “Zip”. Accepted: a code that is there already, as it is written "
        "there, or one that differs by more than capitals. Nearest: zip.",
    ),
}


@pytest.mark.parametrize(("planted", "line"), OTHER_CAPITALS.values(), ids=OTHER_CAPITALS.keys())
def test_what_the_tables_hold_in_other_capitals_is_one_line(folder, planted, line):
    import_reference(folder=folder)
    sheet = planted[0]
    for path in folder.iterdir():
        if path.stem != sheet:
            path.unlink()
    spoil(folder, *planted)

    assert lines_of(folder) == [line]


def test_a_folder_in_place_of_a_file_is_one_line(folder):
    (folder / "makers.csv").unlink()
    (folder / "makers.csv").mkdir()

    assert lines_of(folder) == ["makers.csv: found “no ordinary file”. Accepted: a CSV file."]


def test_a_file_that_is_too_large_is_one_line(folder):
    with (folder / "makers.csv").open("wb") as huge:
        huge.truncate(100_000_000)

    assert lines_of(folder) == [
        "makers.csv: found “100 MB”. Accepted: at most 10 MB; split the file or leave out what does not belong."
    ]


def test_a_file_that_may_not_be_read_is_one_line(folder):
    (folder / "makers.csv").chmod(0)
    if os.access(folder / "makers.csv", os.R_OK):
        pytest.skip("this account may read every file")

    assert lines_of(folder) == ["makers.csv: found “Permission denied”. Accepted: a file that may be read."]


def test_a_file_with_a_misspelt_name_is_one_line(folder):
    (folder / "makers.csv").rename(folder / "maker.csv")
    (folder / "versions.csv").write_text("version,type,name,kind,certainty\n", encoding="utf-8")
    (folder / "profiles.csv").write_text("version,feature,state,how_often\n", encoding="utf-8")
    for sheet in ("stock_numbers", "sizes", "companions", "open_questions", "question_views"):
        (folder / f"{sheet}.csv").unlink()

    (line,) = lines_of(folder)
    assert line.startswith("maker.csv: found “a file with this name”. Accepted: the names colourways.csv, ")
    assert line.endswith(" Nearest: makers.csv.")


def test_a_folder_that_is_not_there_and_one_without_a_file_are_one_line_each(tmp_path):
    (line,) = lines_of(tmp_path / "nowhere")
    assert line.endswith("nowhere: found “no such folder”. Accepted: a folder with the society's CSV files.")
    (line,) = lines_of(tmp_path)
    assert "found “no CSV file”. Accepted: colourways.csv, companions.csv, cuts.csv, " in line


def test_a_file_full_of_open_quotation_marks_is_not_told_line_by_line_without_end(folder):
    (folder / "makers.csv").write_text("maker,name\n" + '"A","B\n' * 5_000, encoding="utf-8")

    assert len(lines_of(folder)) == 50
