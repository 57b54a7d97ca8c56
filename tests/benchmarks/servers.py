"""Servers on the loopback, what they cost in CPU, and a small load generator."""

import gzip
import os
import socket
import subprocess
import sys
import threading
import time
from dataclasses import dataclass
from pathlib import Path

from tests.site_server import ROOT, answers, free_port, society_environment

CLIENTS = 4
TICKS = os.sysconf("SC_CLK_TCK")
HEADERS = "Accept-Encoding: gzip\r\nAccept: text/html\r\nConnection: close"


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
    """Ask for one page from four clients at once, for so long."""
    counts, faults = [0] * CLIENTS, [0] * CLIENTS
    until = time.monotonic() + seconds

    def ask(client: int) -> None:
        while time.monotonic() < until:
            status, _ = fetched(server.port, path)
            counts[client] += 1
            faults[client] += status != 200

    before = server.cpu_seconds()
    threads = [threading.Thread(target=ask, args=(client,)) for client in range(CLIENTS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    spent = server.cpu_seconds() - before
    return Sample(sum(counts), sum(faults), spent * 1000 / max(1, sum(counts)))


def fetched(port: int, path: str) -> tuple[int, bytes]:
    """Status and body as sent, compressed.

    A bare socket and a connection each: gunicorn's synchronous workers keep none open, and a client that is slow itself
    would leave the server waiting, which costs it more for one request.
    """
    with socket.create_connection(("127.0.0.1", port), timeout=30) as connection:
        connection.sendall(f"GET {path} HTTP/1.1\r\nHost: 127.0.0.1\r\n{HEADERS}\r\n\r\n".encode())
        parts = []
        while part := connection.recv(262_144):
            parts.append(part)
    head, _, body = b"".join(parts).partition(b"\r\n\r\n")
    return int(head[9:12] or 0), body


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
