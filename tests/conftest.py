"""What every test may ask for.

- `db` (of pytest-django): an EMPTY database, whatever is written is taken back after the test.
- `demo`: the same with the demo society in it, loaded once for the whole run; what a test changes is taken back.
- `demo_pieces`: the demo society with its members' pieces, likewise.
- `demo_site`, `empty_site`: the address of a real server, in a process of its own, with the settings of a society's
  server, on SQLite; with the demo society, or with nothing in it. Such tests must not write to it.
- `browser_page`: a page of a real Chromium at a phone's size (mark the test `browser`).

Tests run in this order: empty database, transactional, demo, its pieces, browser. So the demo is loaded once and
disturbs nobody.
"""

import gc
import os
import shutil
import sqlite3
from contextlib import closing, contextmanager
from pathlib import Path
from typing import ClassVar

import pytest
from django.core.management import call_command
from django.db import connection
from hypothesis import HealthCheck, settings
from pytest_django.plugin import blocking_manager_key

from catalogue.member_examples.demo import load_demo_examples
from catalogue.reference import snapshots
from catalogue.reference.demo import make_sign_ins
from catalogue.review.records.refusing import guard_everything, unguard_everything
from tests.reading import KEPT_FIGURES
from tests.site_server import DEMO_FOLDER, Server, filled

# How long a machine takes to draw an example is no property of ours; a full machine failed tests by it.
settings.register_profile("site", suppress_health_check=[HealthCheck.too_slow], deadline=None)
settings.load_profile("site")

# The same Chromium without the windows around it comes first: it opens a page in two thirds of the time.
CHROMIUMS = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
CHROMIUM = next(filter(None, map(shutil.which, CHROMIUMS)), None)
READING = ("SELECT", "(SELECT", "DECLARE", "FETCH", "CLOSE", "SAVEPOINT", "RELEASE", "ROLLBACK")
PHONE = {"width": 360, "height": 740}


def pytest_addoption(parser):
    parser.addoption(
        "--with-database-only", action="store_true", help="leave out tests without a database: any server is the same"
    )
    parser.addoption(
        "--without-database", action="store_true", help="leave out tests with a database: any Python is the same"
    )


def pytest_itemcollected(item):
    """A property of generated inputs alone is a `fuzz` test, whatever it says of itself: any Python is the same."""
    if getattr(getattr(item, "obj", None), "is_hypothesis_test", False) and not uses_database(item):
        item.add_marker("fuzz")


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config, items):
    """Empty database first, then the transactional tests, which empty it, then the demo, its pieces, the browser."""
    items.sort(key=place_in_the_run)
    for option, wanted in (("--with-database-only", True), ("--without-database", False)):
        if config.getoption(option):
            left_out = [item for item in items if uses_database(item) != wanted]
            config.hook.pytest_deselected(items=left_out)
            items[:] = [item for item in items if uses_database(item) == wanted]


def pytest_collection_finish(session):
    """Thousands of collected tests stay to the end: to look through them for garbage again and again took a tenth of
    the run."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 20, 50)


def uses_database(item) -> bool:
    names = {"db", "transactional_db", "loaded_demo"}
    if names & set(getattr(item, "fixturenames", ())) or item.get_closest_marker("django_db"):
        return True
    makes_its_own = getattr(getattr(item, "callspec", None), "params", {})
    return "postgresql" in makes_its_own.values()


def place_in_the_run(item) -> int:
    names = set(getattr(item, "fixturenames", ()))
    marker = item.get_closest_marker("django_db")
    if item.get_closest_marker("browser"):
        return 4
    if "demo_pieces" in names:
        return 3
    if "demo" in names:
        return 2
    return int("transactional_db" in names or bool(marker and marker.kwargs.get("transaction")))


def forget() -> None:
    snapshots.forget_everything()


@pytest.fixture(autouse=True)
def nothing_kept(request):
    """Each test reads the reference afresh, since one process sees many databases here; but see `kept_for_the_next`."""
    if not {"demo", "demo_pieces"} & set(request.fixturenames):
        forget()
        kept.of = ""


@pytest.hookimpl(wrapper=True)
def pytest_runtest_teardown(item):
    """A transactional test empties every table at its end, which on SQLite the guards of the records would refuse. No
    fixture can lift them: those of pytest-django are there before ours, so theirs end after ours."""
    if place_in_the_run(item) != 1 or connection.connection is None:
        return (yield)
    with item.config.stash[blocking_manager_key].unblock():
        with connection.schema_editor() as editor:
            unguard_everything(None, editor)
        try:
            return (yield)
        finally:
            with connection.schema_editor() as editor:
                guard_everything(None, editor)


class kept:  # noqa: N801 - one note for the whole run
    of = ""
    # What was worked out from each demo as it was loaded: a test that wrote leaves it as it found it, and the next
    # one need not work it out anew.
    from_the_demo: ClassVar[dict[str, list[dict]]] = {}


def keepers() -> list[dict]:
    """Where the site keeps what it worked out."""
    return [keeper.kept for keeper in snapshots.KeptForState.of_this_process]


def copies_its_tables() -> bool:
    """One of several processes of a run on SQLite: each would migrate anew what the site with nothing in it has."""
    return connection.vendor == "sqlite" and "PYTEST_XDIST_WORKER" in os.environ


@pytest.fixture(scope="session")
def django_db_modify_db_settings(django_db_modify_db_settings_parallel_suffix, django_db_blocker, request):
    if not copies_its_tables():
        return
    model = request.getfixturevalue("new_folder")("tables", "empty") / "catalogue.sqlite3"
    with django_db_blocker.unblock(), closing(sqlite3.connect(model)) as source:
        connection.close()
        connection.settings_dict["NAME"] = connection.creation._get_test_db_name()
        connection.ensure_connection()
        source.backup(connection.connection)


@pytest.fixture(scope="session")
def django_db_keepdb(request):
    return copies_its_tables() or request.config.getvalue("reuse_db")


@pytest.fixture(scope="session")
def loaded_demo(django_db_setup, django_db_blocker):
    """The demo society with its members in the test database, loaded once a run."""
    with django_db_blocker.unblock():
        call_command("import_reference", str(DEMO_FOLDER), verbosity=0)
        make_sign_ins()


@pytest.fixture(scope="session")
def loaded_pieces(loaded_demo, django_db_blocker):
    """The pieces of the demo's members too, loaded once a run."""
    with django_db_blocker.unblock():
        load_demo_examples()


@pytest.fixture
def demo(loaded_demo, db):
    """The demo society in the database. What the test changes is taken back afterwards."""
    yield from kept_for_the_next("demo")


@pytest.fixture
def demo_pieces(loaded_pieces, db):
    """The demo society with the pieces of its members. What the test changes is taken back afterwards."""
    yield from kept_for_the_next("pieces")


def kept_for_the_next(what: str):
    """Keep what was worked out from the demo for the next test with the same in the database, but only as long as
    nothing is written: the first statement that writes ends that, every one forgets, and so does the end of the test.
    """
    if kept.of != what:
        forget()
        for keeper, entries in zip(keepers(), kept.from_the_demo.get(what, ()), strict=False):
            keeper.update(entries)
    kept.of = what

    def watch(execute, sql, params, many, context):
        # Kept figures are themselves worked out: to put them away changes nothing.
        if not sql.lstrip().upper().startswith(READING) and not any(table in sql for table in KEPT_FIGURES):
            put_by(what)
            forget()
        return execute(sql, params, many, context)

    with connection.execute_wrapper(watch):
        yield
    put_by(what)


def put_by(what: str) -> None:
    """Note what is kept, unless the demo has been written to."""
    if kept.of == what:
        kept.from_the_demo[what] = [dict(keeper) for keeper in keepers()]
        kept.of = ""


@pytest.fixture(scope="session")
def new_folder(tmp_path_factory):
    """A function: the name of a folder to be made and a kind, "empty" or "demo"; a data folder of a test's own."""
    base = tmp_path_factory.getbasetemp()
    shared = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base

    def made(name: str, kind: str) -> Path:
        return filled(tmp_path_factory.mktemp(name), kind, shared / "data_folders")

    return made


def served(folder: Path):
    """Serve a data folder that is set up, and stop at the end."""
    server = Server(folder)
    server.start()
    yield server.address
    server.stop()


@pytest.fixture(scope="session")
def demo_site(new_folder):
    """The address of a running site with the demo society."""
    yield from served(new_folder("demo_site", "demo"))


@pytest.fixture(scope="session")
def empty_site(new_folder):
    """The address of a running site with nothing in it."""
    yield from served(new_folder("empty_site", "empty"))


@pytest.fixture(scope="session")
def chromium():
    """A headless Chromium, started once."""
    playwright = pytest.importorskip("playwright.sync_api", reason="the package playwright is not installed")
    if not CHROMIUM:
        pytest.skip("no Chromium on this machine (Debian: apt install chromium)")
    with playwright.sync_playwright() as driver:
        browser = driver.chromium.launch(
            executable_path=CHROMIUM, args=["--no-sandbox", "--disable-dev-shm-usage", "--disable-gpu"]
        )
        yield browser
        browser.close()


@pytest.fixture
def browser_page(chromium):
    """A fresh page, 360 x 740, that fails the test when a script throws or the content policy stops something."""
    with watched_page(chromium) as (page, faults):
        yield page
    assert not faults, f"the browser reported: {faults}"


@contextmanager
def watched_page(chromium):
    """A page, 360 x 740, with the list of what the browser reports while it is open."""
    context = chromium.new_context(viewport=PHONE, locale="en-GB")
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda message: faults.append(message.text) if message.type == "error" else None)
    yield page, faults
    context.close()
