"""The house rules that a reader can rely on, read from the code's own imports and from the folders on disk."""

import ast
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
TOP_LEVEL = {
    "README.md", "DEVELOPERS.md", "manage.py", "pyproject.toml",
    "catalogue", "identification", "templates", "static", "fixtures", "tests",
}  # fmt: skip
# Each slice may import only those before it; the pages around them may import all.
SLICES = ["accounts", "reference", "figures", "member_examples", "price_reports", "review", "publishing"]
PURE = ["identification.engine", "identification.label_reading", "identification.dating", "identification.health"]
VAGUE_NAMES = {"utils", "common", "core", "helpers", "services", "misc"}
# mark_safe and its kin, each with the reason why nothing typed by a person can reach it.
SAFE_MARKUP = {
    "catalogue/templatetags/drawings.py": "prints drawings, whose pen escapes every word of a record",
    "catalogue/templatetags/catalogue_parts.py": "prints the fixed first-screen style, whose hash the policy holds",
}
SAFE_CALLS = {"mark_safe", "SafeString", "SafeText"}
TEMPLATES = sorted((ROOT / "templates").rglob("*.html"))


def modules_under(*folders: str) -> list[Path]:
    return sorted(
        path for folder in folders for path in (ROOT / folder).rglob("*.py") if "migrations" not in path.parts
    )


def imports_of(source: str) -> set[str]:
    """Full names of what a module imports, with what it takes out of each; also inside functions."""
    found = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert not node.level, "a relative import hides which slice it reaches"
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return found


def within(name: str, package: str) -> bool:
    return name == package or name.startswith(package + ".")


def is_slice(name: str) -> bool:
    return name in SLICES


def breaches_of_purity(source: str) -> set[str]:
    outside = ("django", "catalogue", "identification")
    return {
        name
        for name in imports_of(source)
        if any(within(name, package) for package in outside) and not any(within(name, package) for package in PURE)
    }


def breaches_of_slice(source: str, own: str) -> set[str]:
    """Imports of a slice that is not before this one, of the pages around the slices, or of identification's site."""
    allowed = SLICES[: SLICES.index(own) + 1]
    forbidden = [f"catalogue.{name}" for name in SLICES if name not in allowed]
    forbidden += ["catalogue.site_pages", "catalogue.urls", "catalogue.models", "catalogue.admin"]
    return {name for name in imports_of(source) if any(within(name, package) for package in forbidden)}


def breaches_of_halves(source: str) -> set[str]:
    return {
        name
        for name in imports_of(source)
        if within(name, "identification") and not any(within(name, package) for package in PURE)
    }


def named(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def found_in(paths: list[Path], breaches: Callable) -> dict:
    """What `breaches` finds in the text of each file, of those in which it finds anything. There are files."""
    assert len(paths) > 20
    found = {named(path): breaches(path.read_text(encoding="utf-8")) for path in paths}
    return {name: faults for name, faults in found.items() if faults}


def test_pure_modules_import_no_django_and_nothing_of_the_site():
    pure = modules_under(*(package.replace(".", "/") for package in PURE))

    assert found_in(pure, breaches_of_purity) == {}


@pytest.mark.parametrize("name", [name for name in SLICES if (ROOT / "catalogue" / name).is_dir()])
def test_a_slice_imports_only_those_before_it(name):
    modules = modules_under(f"catalogue/{name}")
    found = {named(path): breaches_of_slice(path.read_text(encoding="utf-8"), name) for path in modules}

    assert {module: faults for module, faults in found.items() if faults} == {}


def test_the_catalogue_imports_only_the_pure_half_of_identification():
    assert found_in(modules_under("catalogue"), breaches_of_halves) == {}


@pytest.mark.parametrize("source", ["from catalogue.review import actions", "import catalogue.review.actions"])
def test_an_import_of_a_later_slice_would_be_seen(source):
    assert breaches_of_slice(source, "reference")
    assert not breaches_of_slice(source, "publishing")
    assert breaches_of_purity("def weigh():\n    from django.conf import settings")
    assert breaches_of_halves("from identification.walk_through import views")
    assert not breaches_of_halves("from identification.engine import compile_pack")


def test_every_slice_with_tables_is_named_in_the_models_module():
    with_tables = {
        path.relative_to(ROOT).parts[1] for name in SLICES for path in (ROOT / "catalogue" / name).glob("models*")
    }
    source = (ROOT / "catalogue" / "models.py").read_text(encoding="utf-8")

    assert {name.split(".")[1] for name in imports_of(source) if within(name, "catalogue")} == with_tables


def test_every_folder_of_the_catalogue_is_a_slice_or_known():
    known = {"site_pages", "management", "migrations", "templatetags", *SLICES}
    folders = {path.parent.name for path in (ROOT / "catalogue").glob("*/__init__.py")}

    assert folders <= known


def test_the_top_level_holds_only_the_fixed_names():
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True)
    committed = {line.split("/")[0] for line in listed.stdout.splitlines()} if listed.returncode == 0 else set()
    built = {"build"} | {path.name for path in ROOT.glob("*.egg-info")}
    visible = {path.name for path in ROOT.iterdir()} - built | committed

    assert {name for name in visible if not name.startswith(".")} - TOP_LEVEL == set()


def test_no_module_has_a_name_that_says_nothing():
    assert [named(p) for p in modules_under("catalogue", "identification", "tests") if p.stem in VAGUE_NAMES] == []
    folders = [
        path for top in ("catalogue", "identification", "tests", "templates") for path in (ROOT / top).rglob("*/")
    ]
    assert [named(path) for path in folders if path.name in VAGUE_NAMES] == []


def test_a_template_has_no_inline_script_or_style():
    assert found_in(TEMPLATES, inline_parts) == {}


def inline_parts(text: str) -> list[str]:
    """Style attributes, style and script blocks, and handlers such as onclick; a script file by `src` is none."""
    return re.findall(r"""\sstyle\s*=|<style\b|<script(?![^>]*\ssrc=)[^>]*>|\son[a-z]+\s*=\s*["']|javascript:""", text)


def test_an_inline_script_or_style_would_be_seen():
    assert inline_parts('<p style="color:red"><script>1</script><b onclick="x()"><style>') != []
    assert len(inline_parts('<p style="color:red"><script>1</script><b onclick="x()"><style>')) == 4
    assert inline_parts('<script type="module" src="/a.js"></script><a class="style">') == []


def test_markup_is_marked_safe_only_where_a_reason_is_given():
    found = found_in(
        modules_under("catalogue", "identification"), lambda text: SAFE_CALLS & set(re.findall(r"\w+", text))
    )

    assert {name: calls for name, calls in found.items() if not SAFE_MARKUP.get(name)} == {}


def test_a_template_never_switches_escaping_off():
    assert found_in(TEMPLATES, lambda text: re.findall(r"\|\s*safe\b|autoescape\s+off", text)) == {}
