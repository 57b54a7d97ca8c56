"""One command brings the demo up: on nothing, again on itself, and never beside somebody's own reference."""

import os
import socket
import sqlite3
import subprocess
import sys
import time
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from catalogue.accounts.models import Member
from catalogue.management.commands import start_demo
from catalogue.reference.demo import DEMO_PASSWORD, SIGN_INS
from catalogue.reference.models import IssueVersion, Maker, ReferenceState
from tests.making import make_type
from tests.site_server import ROOT, SAID, answers, free_port, society_environment


def start(folder: Path, *words: str) -> subprocess.CompletedProcess:
    """The command in a process of its own, as a person first runs it."""
    command = [sys.executable, str(ROOT / "manage.py"), "start_demo", *words]
    return subprocess.run(command, env=society_environment(folder), cwd=ROOT, capture_output=True, text=True)


def everything_in(folder: Path) -> list[str]:
    connection = sqlite3.connect(folder / "catalogue.sqlite3")
    try:
        return list(connection.iterdump())
    finally:
        connection.close()


def told(*words: str) -> str:
    out = StringIO()
    call_command("start_demo", "--no-serve", "--pictures=0", *words, stdout=out)
    return out.getvalue()


def test_on_an_empty_folder_the_demo_is_set_up_and_a_second_run_changes_nothing_and_says_so(new_folder):
    folder = new_folder("again", "demo")
    first = (folder / SAID).read_text()
    before = everything_in(folder)
    again = start(folder, "--no-serve", "--pictures", "4", "--port", "8123")

    assert (again.returncode, again.stderr) == (0, "")
    assert "The demo society was loaded." in first
    assert "The demo society is there already." in again.stdout
    assert everything_in(folder) == before
    made = sum('INSERT INTO "catalogue_issueversion"' in line for line in before)
    assert made == 63  # one of them merged again, two of a split that was revoked
    for said, port in ((first, 8000), (again.stdout, 8123)):
        assert f"http://127.0.0.1:{port}/admin/" in said
        assert all(username in said for username, _ in SIGN_INS)
        assert DEMO_PASSWORD in said


@pytest.mark.django_db
def test_what_was_added_by_hand_stays_and_what_the_files_say_is_put_back():
    told()
    Maker.objects.create(code="NEW", name="A new works")
    Maker.objects.filter(code="GAR").update(name="Something else")
    plover = Member.objects.get(username="Plover")
    plover.set_password("a-password-of-my-own")
    plover.save()

    assert "The demo society was loaded." in told()

    assert Maker.objects.get(code="NEW").name == "A new works"
    assert Maker.objects.get(code="GAR").name == "Garradine & Daughters"
    assert Member.objects.get(username="Plover").check_password("a-password-of-my-own")


@pytest.mark.django_db
def test_another_reference_is_refused_and_left_alone():
    make_type("OWN")
    before = ReferenceState.current_number()

    with pytest.raises(CommandError, match=r"holds another reference.*Nothing was changed.*CATALOGUE_DATA_FOLDER"):
        told()

    assert (IssueVersion.objects.count(), Member.objects.count(), ReferenceState.current_number()) == (0, 0, before)


@pytest.mark.parametrize("port", ["0", "-1", "65536", "99999"])
@pytest.mark.parametrize("more", [[], ["--no-serve"]])
def test_a_port_that_cannot_be_is_refused_in_plain_words(port, more):
    with pytest.raises(CommandError, match=f"There is no port {port}: a port is a number from 1 to 65535"):
        call_command("start_demo", f"--port={port}", *more)


def test_a_port_that_is_no_number_is_refused_in_plain_words():
    with pytest.raises(CommandError, match="invalid int value: 'eighty'"):
        call_command("start_demo", "--port", "eighty")


def test_a_taken_port_is_refused_in_plain_words_before_anything_is_written(tmp_path):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        done = start(tmp_path, "--port", str(port))

    assert done.returncode == 1
    assert done.stderr.startswith(f"CommandError: Port {port} of this machine is in use")
    assert "--port" in done.stderr
    assert list(tmp_path.glob("*.sqlite3")) == []


def test_a_port_that_is_taken_while_the_demo_is_set_up_is_refused_in_the_same_words(new_folder):
    folder, port = new_folder("overtaken", "demo"), free_port()
    command = [sys.executable, str(ROOT / "manage.py"), "start_demo", "--pictures=0", f"--port={port}"]
    site = subprocess.Popen(
        command, env=society_environment(folder), cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True
    )
    with socket.socket() as overtaking:
        assert soon(lambda: f":{port}/" in (folder / "start_demo.lock").read_text(), 60)
        overtaking.bind(("127.0.0.1", port))
        overtaking.listen()
        said = site.communicate(timeout=120)[1]

    assert site.returncode == 1
    assert said.startswith(f"CommandError: Port {port} of this machine is in use")
    assert said.count("\n") == 1


def test_a_second_start_on_one_data_folder_is_refused_in_words_while_the_first_sets_up_or_serves(new_folder):
    folder = new_folder("twice", "demo")
    first, second = free_port(), free_port()
    command = [sys.executable, str(ROOT / "manage.py"), "start_demo", "--pictures=0", f"--port={first}"]
    site = subprocess.Popen(command, env=society_environment(folder), cwd=ROOT, stdout=subprocess.DEVNULL)
    try:
        assert soon(lambda: f":{first}/" in (folder / "start_demo.lock").read_text(), 60)
        setting_up = start(folder, "--no-serve")
        assert soon(lambda: answers(first), 60)
        serving = start(folder, f"--port={second}")
    finally:
        site.terminate()
        site.wait(timeout=20)

    for refused in (setting_up, serving):
        assert refused.returncode == 1
        assert refused.stderr.startswith(
            f"CommandError: The demo is being set up, or runs already, on the data folder {folder} "
            f"(for http://127.0.0.1:{first}/)."
        )
        assert refused.stderr.count("\n") == 1
    assert start(folder, "--no-serve").returncode == 0


def test_a_port_that_this_person_may_not_use_is_refused_in_plain_words(monkeypatch):
    class Refusing(socket.socket):
        def bind(self, address):
            raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(start_demo.socket, "socket", Refusing)

    with pytest.raises(CommandError, match=r"Port 80 cannot be used \(permission denied\)"):
        call_command("start_demo", "--port=80")


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="needs /proc to find the process that draws")
def test_a_site_that_is_stopped_from_outside_leaves_nothing_behind_that_draws(new_folder):
    port = free_port()
    command = [sys.executable, str(ROOT / "manage.py"), "start_demo", "--pictures", "0", "--port", str(port)]
    site = subprocess.Popen(
        command, env=society_environment(new_folder("stopped", "demo")), cwd=ROOT, stdout=subprocess.DEVNULL
    )
    try:
        assert soon(lambda: answers(port), 60)
        drawing = children_of(site.pid)
    finally:
        site.terminate()
        site.wait(timeout=20)

    assert len(drawing) == 1
    assert soon(lambda: not any(Path(f"/proc/{pid}").exists() for pid in drawing), 5)


def children_of(pid: int) -> list[int]:
    return [int(child) for task in os.listdir(f"/proc/{pid}/task")
            for child in Path(f"/proc/{pid}/task/{task}/children").read_text().split()]  # fmt: skip


def soon(holds, seconds: float) -> bool:
    """Whether it holds within so many seconds."""
    deadline = time.monotonic() + seconds
    while not holds():
        if time.monotonic() > deadline:
            return False
        time.sleep(0.1)
    return True
