"""A real server process of the site, as a society first starts it."""

import fcntl
import os
import shutil
import socket
import subprocess
import sys
import time
from http.client import HTTPConnection
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
DEMO_FOLDER = ROOT / "fixtures" / "demo_society"
# How a data folder of each kind comes about. The demo has the pictures of its first pieces.
SET_UP = {
    "empty": (("migrate", "--verbosity=0"), ("collectstatic", "--noinput", "--verbosity=0")),
    "demo": (("start_demo", "--no-serve", "--pictures", "4"), ("collectstatic", "--noinput", "--verbosity=0")),
}
SAID = "said_at_set_up.txt"  # in each such folder: what the commands printed


class Server:
    """A server process of the site with a data folder of its own."""

    def __init__(self, folder: Path):
        self.folder = folder
        self.port = free_port()
        self.address = f"http://127.0.0.1:{self.port}"
        self.environment = society_environment(folder)
        self.process: subprocess.Popen | None = None

    def manage(self, *words: str) -> str:
        """Run a command of the site in its folder, which must succeed; what it printed is given back."""
        command = [sys.executable, str(ROOT / "manage.py"), *words]
        done = subprocess.run(command, env=self.environment, capture_output=True, text=True, cwd=ROOT)
        assert done.returncode == 0, f"manage.py {' '.join(words)}:\n{done.stdout}\n{done.stderr}"
        return done.stdout + done.stderr

    def start(self) -> None:
        command = [sys.executable, "-m", "waitress", f"--listen=127.0.0.1:{self.port}", "catalogue.wsgi:application"]
        with (self.folder / "server.log").open("w") as log:
            self.process = subprocess.Popen(command, env=self.environment, cwd=ROOT, stdout=log, stderr=log)
        for _ in range(150):
            if answers(self.port):
                return
            time.sleep(0.1)
        self.stop()
        raise AssertionError("the server did not start:\n" + (self.folder / "server.log").read_text())

    def stop(self) -> None:
        if self.process:
            self.process.terminate()
            self.process.wait(timeout=10)


def filled(folder: Path, kind: str, kept: Path) -> Path:
    """Put a data folder of this kind at `folder`, which must be empty or absent; the same folder is given back.

    Each kind is set up once a run, in `kept`, which the run's processes share, and copied from then on: to set up the
    demo takes half a minute, to copy it a blink.
    """
    kept.mkdir(parents=True, exist_ok=True)
    model = kept / kind
    with (kept / f"{kind}.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not model.exists():
            beginning = Server(kept / f"{kind}.begun")
            said = [beginning.manage(*words) for words in SET_UP[kind]]
            (beginning.folder / SAID).write_text("".join(said))
            beginning.folder.rename(model)
    shutil.copytree(model, folder, dirs_exist_ok=True)
    return folder


def society_environment(folder: Path) -> dict[str, str]:
    """The environment without any setting of ours but the data folder: a server as a society first starts it."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("CATALOGUE_")}
    return kept | {"CATALOGUE_DATA_FOLDER": str(folder), "DJANGO_SETTINGS_MODULE": "catalogue.settings"}


def free_port() -> int:
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        return listener.getsockname()[1]


def answers(port: int) -> bool:
    connection = HTTPConnection("127.0.0.1", port, timeout=5)
    try:
        connection.request("GET", "/robots.txt")
        return connection.getresponse().status < 500
    except OSError:
        return False
    finally:
        connection.close()
