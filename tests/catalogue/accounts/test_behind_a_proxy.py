"""The server as the README starts it for a society, behind a proxy that speaks https."""

import re
import shlex
import subprocess
import sys
import time
from http.client import HTTPConnection
from urllib.parse import urlencode

import pytest

from tests.site_server import ROOT, Server, answers

HOST = "catalogue.example"


def command_of_the_readme(port: int) -> list[str]:
    line = re.search(r"waitress-serve (.*)$", (ROOT / "README.md").read_text(encoding="utf-8"), re.MULTILINE).group(1)
    return [sys.executable, "-m", "waitress", *shlex.split(line.replace("127.0.0.1:8000", f"127.0.0.1:{port}"))]


@pytest.fixture
def port(new_folder):
    folder = new_folder("proxy", "empty")
    server = Server(folder)
    server.environment |= {"CATALOGUE_HTTPS": "yes", "CATALOGUE_HOSTS": HOST}
    server.environment["DJANGO_SUPERUSER_PASSWORD"] = "a-long-password"
    server.manage("createsuperuser", "--noinput", "--username", "Root", "--email", "root@example.org")
    with (folder / "server.log").open("w") as log:
        command = command_of_the_readme(server.port)
        process = subprocess.Popen(command, env=server.environment, cwd=ROOT, stdout=log, stderr=log)
    deadline = time.monotonic() + 60
    while not answers(server.port) and time.monotonic() < deadline:
        time.sleep(0.2)
    yield server.port
    process.terminate()
    process.wait(timeout=10)


def asked(port: int, method: str, visitor: str, sent: dict | None = None, **more):
    """One request as the proxy passes it on; the answer and its text."""
    headers = {"Host": HOST, "X-Forwarded-Proto": "https", "X-Forwarded-For": visitor}
    headers |= {name.replace("_", "-"): value for name, value in more.items()}
    connection = HTTPConnection("127.0.0.1", port, timeout=30)
    connection.request(method, "/account/login/", urlencode(sent) if sent else None, headers)
    response = connection.getresponse()
    return response, response.read().decode()


def sign_in(port: int, visitor: str, password: str):
    response, page = asked(port, "GET", visitor)
    cookie = response.getheader("Set-Cookie").split(";")[0]
    token = re.search(r'csrfmiddlewaretoken" value="([^"]+)', page).group(1)
    return asked(
        port, "POST", visitor,
        {"csrfmiddlewaretoken": token, "login": f"{password}@example.org" if password == "wrong" else "Root",
         "password": password},
        Cookie=cookie, Origin=f"https://{HOST}", Content_Type="application/x-www-form-urlencoded",
    )  # fmt: skip


def test_the_secretary_signs_in_through_it_and_attempts_are_counted_by_visitor(port):
    response, _ = sign_in(port, "203.0.113.1", "a-long-password")
    assert (response.status, response.getheader("Location")) == (302, "/my/")
    assert "Secure" in response.getheader("Set-Cookie")

    pages = [sign_in(port, "203.0.113.2", "wrong")[1] for _ in range(6)]
    assert "Too many attempts" in pages[-1]
    assert "Too many attempts" not in sign_in(port, "203.0.113.3", "a-long-password")[1]
