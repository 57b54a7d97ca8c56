"""Taking in photographs that members send: what comes out is ours, what does not is said in words.

The files are opened in a child process that is bounded in memory and time (`child`, `limits`); this module hands it the
bytes and reads its answers. A child takes several pictures in turn. When one of them ends it, that picture is refused
and the next child goes on with the rest.
"""

import json
import logging
import os
import signal
import subprocess
import sys
import threading
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import astuple, dataclass
from hashlib import sha256
from pathlib import Path
from time import monotonic
from typing import Any, BinaryIO

import catalogue
from catalogue.member_examples.photographs.hiding import Area
from catalogue.member_examples.photographs.limits import (
    MEGABYTE,
    MOST_BYTES,
    MOST_CHILDREN,
    SECONDS_FOR_ALL,
    SECONDS_FOR_ONE,
)

log = logging.getLogger(__name__)
CHILD = "catalogue.member_examples.photographs.child"
CODE_FOLDER = Path(catalogue.__file__).resolve().parent.parent
MOST_ANSWERED = 20 * MEGABYTE
places = threading.BoundedSemaphore(MOST_CHILDREN)

TOO_LONG = "takes too long to open. Save it smaller, or as a plain JPEG, and send that."
COULD_NOT = "could not be opened; the site is unharmed. Save it as a plain JPEG and send that."
NO_TIME_LEFT = "was not looked at: the pictures before it took too long. Send it once more by itself."


class Refused(ValueError):
    """Why a picture was not taken, as a sentence for the member who sent it."""


@dataclass(frozen=True)
class TakenIn:
    """A photograph made ours.

    `sizes`: WebP by the longer side in pixels (1600, 800, 320), all three also for a smaller picture, which is never
    enlarged. `width` and `height` are those of the largest, upright. `sha256` is the digest of the file as it was sent.
    `perceptual_hash`: 64 bits, signed (see `hashing`).
    """

    sizes: Mapping[int, bytes]
    width: int
    height: int
    sha256: str
    perceptual_hash: int


def take_in(file: Any) -> TakenIn:
    """One uploaded file, made ours. Raises Refused with words for the member.

    `file`: Django's uploaded file, any file open for reading bytes, or bytes.
    """
    [outcome] = take_in_each([file])
    if isinstance(outcome, Refused):
        raise outcome
    return outcome


def take_in_each(files: Iterable[Any]) -> list[TakenIn | Refused]:
    """Every file in the order given: what became of it, or why it was refused. Faster than one call for each."""
    with places:
        worker = Worker()
        try:
            return [taken_or_refused(worker, file) for file in files]
        finally:
            worker.end()


def hidden(largest: bytes, areas: Sequence[Area], *, name: str = "") -> TakenIn:
    """The stored sizes made anew from the largest, with the areas blurred beyond recovery.

    `sha256` is that of the bytes given, so the photograph keeps the digest it has. Raises Refused.
    """
    with places:
        worker = Worker()
        try:
            return made_ours(worker, largest, name, areas)
        finally:
            worker.end()


def cut_out(largest: bytes, within: Area) -> TakenIn:
    """A part of a photograph that was taken in, in the stored sizes, none enlarged. Raises Refused."""
    with places:
        worker = Worker()
        try:
            return made_ours(worker, largest, "", within=within)
        finally:
            worker.end()


def taken_or_refused(worker: "Worker", file: Any) -> TakenIn | Refused:
    name = getattr(file, "name", "") or ""
    try:
        return made_ours(worker, bytes_of(file, name), name)
    except Refused as refusal:
        return refusal


def bytes_of(file: Any, name: str) -> bytes:
    """What the file holds, as far as it may be that large. Raises Refused."""
    if not isinstance(file, bytes | bytearray | memoryview):
        if getattr(file, "seekable", bool)():
            file.seek(0)
        file = file.read(MOST_BYTES + 1)
    data = bytes(file)
    if not data:
        raise refusal(name, "is empty: nothing arrived of it. Send it once more.")
    if len(data) > MOST_BYTES:
        raise refusal(name, f"has more than {MOST_BYTES // MEGABYTE} megabytes, the most that a picture may have.")
    return data


def made_ours(
    worker: "Worker", data: bytes, name: str, areas: Sequence[Area] = (), within: Area | None = None
) -> TakenIn:
    head, body = worker.ask(data, areas, within)
    if "refused" in head:
        if "because" in head:
            log.info("A picture could not be read: %s", head["because"])
        raise refusal(name, head["refused"])
    sizes, start = {}, 0
    for longer, length in head["sizes"]:
        sizes[longer] = body[start : start + length]
        start += length
    return TakenIn(sizes, head["width"], head["height"], sha256(data).hexdigest(), head["hash"])


def refusal(name: str, why: str) -> Refused:
    return Refused(f"{shown_name(name)} {why}")


def shown_name(name: str, most: int = 48) -> str:
    """A file's name as it can stand in a sentence: no folders, no signs that turn or hide text, not too long."""
    last = name.replace("\\", "/").rsplit("/", 1)[-1]
    plain = "".join(sign for sign in last if unicodedata.category(sign)[0] != "C")
    plain = " ".join(plain.split())
    if len(plain) > most:
        plain = f"{plain[: most - 12]}…{plain[-11:]}"
    return f"“{plain}”" if plain else "The picture"


class Worker:
    """One child at a time, begun when it is needed, and anew after one has come to its end."""

    def __init__(self) -> None:
        self.child: subprocess.Popen | None = None
        self.until = monotonic() + SECONDS_FOR_ALL

    def ask(self, data: bytes, areas: Sequence[Area], within: Area | None = None) -> tuple[Mapping, bytes]:
        """The child's answer to one picture; a child that breaks down or takes too long is a refusal as well."""
        seconds = min(SECONDS_FOR_ONE, self.until - monotonic())
        if seconds <= 0:
            return {"refused": NO_TIME_LEFT}, b""
        child = self.running()
        late = threading.Event()
        alarm = threading.Timer(seconds, lambda: (late.set(), child.kill()))
        alarm.start()
        try:
            return exchange(child, data, areas, within)
        except (OSError, ValueError, KeyError) as problem:
            self.end()
            log.warning("A child that opens pictures ended with %s: %s", child.returncode, problem)
            took_too_long = late.is_set() or child.returncode == -signal.SIGXCPU
            return {"refused": TOO_LONG if took_too_long else COULD_NOT}, b""
        finally:
            alarm.cancel()
            if late.is_set():  # it may have answered in the same moment, and is dead all the same
                self.end()

    def running(self) -> subprocess.Popen:
        if self.child is None:
            self.child = subprocess.Popen(  # noqa: S603 - this project's own module, with nothing of the request in it
                [sys.executable, "-m", CHILD],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                env=environment(),
                cwd="/",
                start_new_session=True,
            )
        return self.child

    def end(self) -> None:
        """Ends the child, whatever it is doing."""
        child, self.child = self.child, None
        if child is None:
            return
        child.kill()
        with suppress(BrokenPipeError), child:  # closes its pipes, one of which may hold what it never read
            pass
        child.wait()


def environment() -> dict[str, str]:
    """Of the site's environment only where its code lies: no secrets. One arena, since each reserves addresses."""
    return {
        "PYTHONPATH": os.pathsep.join([str(CODE_FOLDER), *filter(None, sys.path)]),
        "PYTHONDONTWRITEBYTECODE": "1",
        "PYTHONSAFEPATH": "1",
        "MALLOC_ARENA_MAX": "1",
    }


def exchange(child: subprocess.Popen, data: bytes, areas: Sequence[Area], within: Area | None) -> tuple[Mapping, bytes]:
    """One request and its answer. Raises OSError or ValueError where the child does not answer as it should."""
    assert child.stdin
    assert child.stdout
    hide, part = [astuple(area) for area in areas], astuple(within) if within else None
    head = {"bytes": len(data), "hide": hide, "within": part}
    child.stdin.write(json.dumps(head).encode() + b"\n" + data)
    child.stdin.flush()
    return read_answer(child.stdout)


def read_answer(answers: BinaryIO) -> tuple[Mapping, bytes]:
    answered = json.loads(answers.readline(10_000))
    length = answered["bytes"]
    if not 0 <= length <= MOST_ANSWERED:
        raise ValueError(f"An answer of {length} bytes")
    body = answers.read(length)
    if len(body) != length:
        raise ValueError(f"An answer that breaks off after {len(body)} of {length} bytes")
    return answered, body
