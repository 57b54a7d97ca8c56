"""DEVELOPERS.md and README.md say what the code says: settings, commands, folders, tables, columns."""

import re
from pathlib import Path

import pytest
from django.apps import apps
from django.core.management import BaseCommand, get_commands, load_command_class

from catalogue.reference.spreadsheets.layout import SHEETS, Sheet

ROOT = Path(__file__).resolve().parent.parent
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
README = (ROOT / "README.md").read_text(encoding="utf-8")
FENCE = re.compile(r"^```.*?\n(.*?)^```$", re.MULTILINE | re.DOTALL)
SETTING = re.compile(r"\bCATALOGUE_[A-Z]+(?:_[A-Z]+)*\b")
MAPPED = ("catalogue", "identification", "templates", "static", "fixtures", "tests")


def settings_read_in_code() -> set[str]:
    sources = (ROOT / "catalogue").rglob("*.py")
    return {name for path in sources for name in SETTING.findall(path.read_text(encoding="utf-8"))}


def own_commands() -> list[str]:
    files = ROOT.glob("*/management/commands/*.py")
    return sorted(path.stem for path in files if path.stem != "__init__")


def rows_of_commands() -> dict[str, str]:
    """The row of each command in the guide's table."""
    table = GUIDE.split("### Commands")[1].split("\n## ")[0]
    rows = [line for line in table.splitlines() if line.startswith("| `manage.py ")]
    return {re.match(r"\| `manage\.py (\w+)", row).group(1): row for row in rows}


def own_options(name: str) -> set[str]:
    """The options that a command has beyond those of every command."""

    def options(command) -> set[str]:
        actions = command.create_parser("manage.py", name)._actions
        return {option for action in actions for option in action.option_strings if option.startswith("--")}

    return options(load_command_class(get_commands()[name], name)) - options(BaseCommand())


def folders() -> list[str]:
    """Every folder down to the second level that holds something of ours."""
    found = [path for top in MAPPED for path in [ROOT / top, *(ROOT / top).iterdir()] if path.is_dir()]
    return sorted(f"{path.name}/" for path in found if path.name != "__pycache__" and any(path.iterdir()))


@pytest.mark.parametrize("name", sorted(settings_read_in_code()))
def test_every_setting_stands_in_the_guide(name):
    assert f"`{name}`" in GUIDE


def test_no_document_names_a_setting_that_is_not_read():
    named = set(SETTING.findall(GUIDE + README))

    assert {name.removesuffix("_FILE") for name in named} <= settings_read_in_code()


def test_the_commands_of_the_guide_are_those_there_are():
    assert len(own_commands()) >= 4
    assert sorted(rows_of_commands()) == own_commands()
    assert set(own_commands()) <= set(get_commands())


@pytest.mark.parametrize("name", own_commands())
def test_every_option_of_a_command_stands_in_its_row_and_no_other(name):
    assert set(re.findall(r"--[a-z-]+", rows_of_commands()[name])) == own_options(name)


@pytest.mark.parametrize("name", ["start_demo", "import_reference", "export_reference", "import_matrix"])
def test_the_readme_names_the_commands_that_a_secretary_needs(name):
    assert re.search(rf"manage\.py {name}\b", README)


def test_no_document_names_a_command_that_is_not_there():
    named = set(re.findall(r"manage\.py ([a-z_]+)", GUIDE + README))

    assert named <= set(get_commands())


@pytest.mark.parametrize("folder", folders())
def test_every_folder_stands_in_the_map_of_the_house(folder):
    house = GUIDE.split("## A map of the house")[1].split("\n## ")[0]

    assert re.search(rf"(?<![\w/]){re.escape(folder)}", house)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_every_spreadsheet_stands_in_the_guide_with_its_columns(sheet):
    section = GUIDE.split("## Spreadsheets")[1].split("\n## ")[0]

    assert in_the_guide(sheet) in section, f"DEVELOPERS.md should say:\n\n{in_the_guide(sheet)}"


def in_the_guide(sheet: Sheet) -> str:
    """The sheet as the guide describes it; columns that may not be empty have a star."""
    rows = [
        row(f"`{column.name}`{'*' if column.required else ''}", column.meaning, column.accepts)
        for column in sheet.columns
    ]
    key = " and ".join(f"`{name}`" for name in sheet.key)
    head = [f"### {sheet.file}", "", f"{sheet.about} Known by {key}.", "", row("column", "meaning", "accepted")]
    return "\n".join([*head, "|---|---|---|", *rows])


def row(*cells: str) -> str:
    """A line of a table; a stroke within a cell must not end the cell."""
    return f"| {' | '.join(cell.replace('|', '&#124;') for cell in cells)} |"


@pytest.mark.parametrize("model", sorted(m.__name__ for m in apps.get_app_config("catalogue").get_models()))
def test_every_table_stands_in_the_glossary(model):
    glossary = GUIDE.split("## Glossary")[1].split("\n## ")[0]

    assert f"`{model}`" in glossary


def test_the_readme_opens_with_the_job_in_one_paragraph():
    title, paragraph, following = README.split("\n\n")[:3]

    assert title.startswith("# ")
    assert "\n" not in paragraph.strip()
    assert following.startswith("#")


def test_the_first_line_to_copy_sets_up_and_starts_the_demo():
    line = FENCE.findall(README)[0]

    assert_one_chained_line(line)
    assert line.rstrip().endswith("manage.py start_demo")


def test_the_second_line_to_copy_installs_the_test_extra_and_runs_every_test():
    line = FENCE.findall(README)[1]

    assert_one_chained_line(line)
    assert '".[test]"' in line
    assert re.search(r"python -m pytest( -n auto)?$", line.rstrip())


def assert_one_chained_line(block: str) -> None:
    assert block.count("\n") == 1
    assert block.startswith("python3 -m venv .venv && ")
    assert not re.search(r"[;|\\]|(?<!&)&(?!&)", block)


@pytest.mark.parametrize("text", [GUIDE, README], ids=["DEVELOPERS.md", "README.md"])
def test_a_document_names_no_machine_and_no_folder_that_is_not_there(text):
    assert not re.search(r"/(work|tmp|root|home|opt)\b", text)
    named = set(re.findall(r"`((?:[\w.]+/)+[\w.]*)`", text))
    assert {path for path in named if path.split("/")[0] in MAPPED and not (ROOT / path).exists()} == set()
