"""Servers on the loopback, and what a page costs them in CPU. Needs wrk (Debian package of that name)."""

import gzip
import os
import re
import socket
import subprocess
import sys
import time
from dataclasses import dataclass
from http.client import HTTPConnection
from http.cookies import SimpleCookie
from pathlib import Path

from tests.site_server import ROOT, answers, free_port, society_environment

CLIENTS = 4
TICKS = os.sysconf("SC_CLK_TCK")
HEADERS = ["Accept-Encoding: gzip", "Accept: text/html", "Connection: close"]


class Gunicorn:
    """gunicorn with two synchronous workers: the server of the published baseline figures."""

    def __init__(self, name: str, application: str, environment: dict[str, str]):
        self.name = name
        self.port = free_port()
        command = [sys.executable, "-m", "gunicorn", "--workers=2", "--log-level=error", "--worker-tmp-dir=/dev/shm"]
        command += [f"--bind=127.0.0.1:{self.port}", application]
        self.process = subprocess.Popen(command, env=environment, cwd=ROOT)
        for _ in range(100):
            if answers(self.port):
                return
            time.sleep(0.1)
        self.stop()
        raise RuntimeError(f"{name} did not start")

    def cpu_seconds(self) -> float:
        """User and system time of the master and its workers so far (Linux: /proc/PID/stat, fields 14 and 15)."""
        return sum(cpu_ticks(pid) for pid in [self.process.pid, *children(self.process.pid)]) / TICKS

    def stop(self) -> None:
        self.process.terminate()
        self.process.wait(timeout=15)


def children(pid: int) -> list[int]:
    return [int(child) for child in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]


def cpu_ticks(pid: int) -> int:
    fields = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    return int(fields[11]) + int(fields[12])


@dataclass
class Sample:
    requests: int
    faults: int
    milliseconds: float  # of CPU, for one request


def measured(server: Gunicorn, path: str, seconds: float) -> Sample:
    """Ask for one page over four connections, for so long.

    By wrk, as the published figures were taken. A load generator in Python is no substitute: it takes so much of the
    machine that a page which is answered at once leaves the server half idle, and one that is not shares its cores.
    """
    before = server.cpu_seconds()
    command = ["wrk", f"--connections={CLIENTS}", "--threads=1", f"--duration={seconds:.0f}s"]
    command += [word for header in HEADERS for word in ("--header", header)]
    printed = subprocess.run([*command, f"http://127.0.0.1:{server.port}{path}"], check=True, capture_output=True)
    spent = server.cpu_seconds() - before
    said = printed.stdout.decode()
    requests = int(re.search(r"(\d+) requests in", said)[1])
    faults = sum(map(int, re.findall(r"Non-2xx or 3xx responses: (\d+)", said)))
    faults += sum(map(int, re.findall(r"(?:connect|read|write|timeout) (\d+)", said)))
    return Sample(requests, faults, spent * 1000 / max(1, requests))


def fetched(port: int, path: str) -> tuple[int, bytes]:
    """Status and body as sent, compressed.

    A connection each: gunicorn's synchronous workers keep none open.
    """
    with socket.create_connection(("127.0.0.1", port), timeout=30) as connection:
        lines = [f"GET {path} HTTP/1.1", "Host: 127.0.0.1", *HEADERS, "", ""]
        connection.sendall("\r\n".join(lines).encode())
        parts = []
        while part := connection.recv(262_144):
            parts.append(part)
    head, _, body = b"".join(parts).partition(b"\r\n\r\n")
    return int(head[9:12] or 0), body


def pass_cautions(port: int, paths: list[str]) -> None:
    """Every later request carries the cookies of somebody who has read the cautions of these pages."""
    kept = SimpleCookie()
    for path in paths:
        for method in ("GET", "POST"):
            connection = HTTPConnection("127.0.0.1", port, timeout=30)
            cookies = "; ".join(f"{name}={one.value}" for name, one in kept.items())
            connection.request(method, path, headers={"Cookie": cookies} if cookies else {})
            kept.load("; ".join(connection.getresponse().headers.get_all("Set-Cookie", [])))
            connection.close()
    HEADERS.append("Cookie: " + "; ".join(f"{name}={one.value}" for name, one in kept.items()))


def bytes_of(server: Gunicorn, path: str) -> tuple[int, int]:
    """Bytes on the wire, and bytes of the page itself."""
    _, body = fetched(server.port, path)
    return len(body), len(gzip.decompress(body)) if body[:2] == b"\x1f\x8b" else len(body)


def minimal_environment(folder: Path, stack: str) -> dict[str, str]:
    return society_environment(folder) | {
        "DJANGO_SETTINGS_MODULE": "tests.benchmarks.minimal_django.settings",
        "MINIMAL_DATABASE": str(folder / "minimal.sqlite3"),
        "MINIMAL_STACK": stack,
        "PYTHONPATH": str(ROOT),
    }
