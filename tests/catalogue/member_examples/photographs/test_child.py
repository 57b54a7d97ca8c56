"""The process that opens pictures keeps its bounds, and when it breaks down nothing but one picture is lost."""

import json
import os
import re
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from PIL import Image

from catalogue.member_examples.photographs import intake
from catalogue.member_examples.photographs.child import TOO_COSTLY
from catalogue.member_examples.photographs.intake import Refused, TakenIn, Worker, hidden, take_in, take_in_each
from tests.catalogue.member_examples.photographs.pictures import drawn_scene, file_of, four_corners

ROOT = Path(__file__).resolve().parents[4]
SMALL = file_of(four_corners())
HEIC = ROOT / "tests" / "data" / "photographs" / "four_corners.heic"


def run(code: str, **environment: str) -> subprocess.CompletedProcess:
    """Python in a process of its own, with the child's functions at hand."""
    begin = "from catalogue.member_examples.photographs.child import *\n"
    return subprocess.run(
        [sys.executable, "-c", begin + code], cwd=ROOT, capture_output=True, text=True, timeout=60,
        env={**os.environ, "MALLOC_ARENA_MAX": "1", **environment},
    )  # fmt: skip


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux bounds memory so")
def test_memory_ends_where_it_was_allowed_to_grow_to():
    code = (
        "allow_memory({allowed} * 1_000_000)\n"
        "kept = []\n"
        "try:\n"
        "    while True: kept.append(bytearray(b'x' * 1_000_000))\n"
        "except MemoryError:\n"
        "    kept.clear(); print(open('/proc/self/status').read())\n"
    )
    for allowed in (100, 200):
        assert allowed - 15 < most_resident(run(code.format(allowed=allowed)).stdout) <= allowed


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux bounds memory so")
def test_a_picture_that_would_cost_too_much_is_refused_in_words():
    """The bound is set lower here than the site's, on the same code."""
    code = (
        "from catalogue.member_examples.photographs import reading\n"
        "from tests.catalogue.member_examples.photographs.pictures import file_of\n"
        "small, large = (file_of(Image.new('RGB', (width, 4000)), 'PNG') for width in (500, 5000))\n"
        "reading.MEMORY_FOR_OTHERS = addresses_and_resident()[1] + 20_000_000\n"
        "print(answer_to(small, ())[0], answer_to(large, ())[0], sep='\\n')\n"
    )
    small, large = run(code).stdout.splitlines()

    assert "'width': 200" in small
    assert large == str({"refused": TOO_COSTLY})


def test_time_of_the_processor_ends_the_process():
    began = time.monotonic()
    ended = run("import signal\nallow_seconds(0)\nwhile True: pass")

    assert ended.returncode == -24
    assert time.monotonic() - began < 10


def test_no_file_can_be_written_from_within(tmp_path):
    ended = run(f"forbid()\nwith open({str(tmp_path / 'a')!r}, 'w') as file: file.write('a')")

    assert "File too large" in ended.stderr
    assert (tmp_path / "a").read_bytes() == b""


def test_the_child_knows_none_of_the_sites_settings(monkeypatch):
    monkeypatch.setenv("CATALOGUE_SECRET_KEY", "very secret")
    monkeypatch.setenv("CATALOGUE_DATABASE_URL", "postgresql://u:p@h/d")

    given = json.dumps(intake.environment())

    assert "secret" not in given
    assert "postgresql" not in given


def test_the_child_imports_neither_django_nor_numpy():
    code = (
        "import sys\nprint(sorted(name for name in ('django', 'numpy', 'catalogue.settings') if name in sys.modules))"
    )

    assert run(code).stdout.strip() == "[]"


def test_a_child_that_breaks_down_loses_one_picture_and_no_other():
    worker = Worker()
    try:
        first, _ = worker.ask(SMALL, ())
        worker.child.kill()
        worker.child.wait()
        second, _ = worker.ask(SMALL, ())
        third, _ = worker.ask(SMALL, ())
    finally:
        worker.end()

    assert first["width"] == third["width"] == 400
    assert second == {"refused": "could not be opened; the site is unharmed. Save it as a plain JPEG and send that."}


def test_a_picture_that_takes_too_long_is_refused_and_the_next_is_taken(monkeypatch):
    slow = file_of(drawn_scene(1, 2400, 1800).resize((4800, 3600)), progressive=True)
    seconds = iter([0.15, 20, 20])
    outcomes = []
    worker = Worker()
    try:
        worker.ask(SMALL, ())
        for data in (slow, SMALL):
            monkeypatch.setattr(intake, "SECONDS_FOR_ONE", next(seconds))
            outcomes.append(worker.ask(data, ())[0])
    finally:
        worker.end()

    assert outcomes[0]["refused"] == "takes too long to open. Save it smaller, or as a plain JPEG, and send that."
    assert outcomes[1]["width"] == 400


def test_when_the_time_for_all_is_used_up_the_rest_is_refused_and_said_so(monkeypatch):
    monkeypatch.setattr(intake, "SECONDS_FOR_ALL", 0)

    [outcome] = take_in_each([SMALL])

    assert str(outcome) == (
        "The picture was not looked at: the pictures before it took too long. Send it once more by itself."
    )


def test_no_child_is_left_behind():
    taken = take_in_each([SMALL, SMALL])

    assert all(isinstance(one, TakenIn) for one in taken)
    with pytest.raises(ChildProcessError):
        os.waitpid(-1, os.WNOHANG)


def test_members_who_send_at_the_same_time_wait_for_each_other_and_all_are_served():
    outcomes = []
    threads = [threading.Thread(target=lambda: outcomes.append(take_in(SMALL))) for _ in range(5)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)

    assert len(outcomes) == 5
    assert len({one.perceptual_hash for one in outcomes}) == 1


def test_without_the_heic_extra_the_member_is_told_what_to_do(tmp_path, monkeypatch):
    """A folder with a module of that name that cannot be imported stands before the real one."""
    (tmp_path / "pi_heif.py").write_text("raise ImportError('not installed')")
    monkeypatch.setattr(intake, "CODE_FOLDER", f"{tmp_path}{os.pathsep}{intake.CODE_FOLDER}")

    with pytest.raises(Refused) as refused:
        take_in(HEIC.read_bytes())

    assert str(refused.value) == (
        "The picture is a HEIC picture, which this site is not set up to read. Save it as JPEG and send that; "
        "many phones do so by themselves when the picture is chosen from its album."
    )


def most_resident(status: str) -> float:
    """Megabytes, as the system tells of a process. (`ru_maxrss` of a new process begins with that of its parent.)"""
    return int(re.search(r"VmHWM:\s+(\d+) kB", status).group(1)) * 1024 / 1e6


def peak_of(code: str) -> float:
    """Megabytes that the child grew to while it took in what the code makes."""
    whole = (
        "from PIL import Image\n"
        "from tests.catalogue.member_examples.photographs.pictures import *\n"
        "from catalogue.member_examples.photographs.intake import Worker\n"
        f"{code}\n"
        "worker = Worker()\n"
        "assert worker.ask(sent, ())[0].get('width') == 1600\n"
        "print(open(f'/proc/{worker.child.pid}/status').read())\n"
        "worker.end()\n"
    )
    ended = subprocess.run([sys.executable, "-c", whole], cwd=ROOT, capture_output=True, text=True, timeout=120)
    assert ended.returncode == 0, ended.stderr
    return most_resident(ended.stdout)


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux tells and bounds memory so")
@pytest.mark.parametrize(
    ("code", "most"),
    [
        ("sent = file_of(Image.new('RGB', (8900, 6700), 'green'), subsampling=0)", 200),
        ("sent = file_of(Image.new('RGB', (8000, 6000), 'green'), subsampling=2, progressive=True)", 200),
        ("sent = file_of(Image.new('RGB', (6000, 4000), 'green'), subsampling=0, progressive=True)", 200),
        ("sent = file_of(Image.new('RGB', (8940, 6700), 'green'), subsampling=2, progressive=True)", 500),
        ("sent = file_of(Image.new('RGB', (8940, 6700), 'green'), subsampling=0, progressive=True)", 500),
        ("sent = file_of(Image.effect_noise((8940, 6700), 40).convert('RGB'), subsampling=0, progressive=True)", 500),
        ("sent = file_of(Image.new('CMYK', (8000, 6700), 'green'), progressive=True)", 500),
        ("sent = jpeg_of_a_pass_for_each_colour(8940, 6700)", 500),
        ("sent = jpeg_of_a_pass_for_each_colour(6000, 4000)", 200),
        ("sent = file_of(Image.new('RGB', (5800, 4100), 'green'), 'PNG')", 500),
        ("sent = file_of(Image.new('RGBA', (5800, 4100), (9, 90, 9, 90)), 'PNG')", 500),
        ("sent = file_of(Image.new('RGBA', (5800, 4100), (9, 90, 9, 90)), 'WEBP', method=0)", 500),
    ],
    ids=[
        "JPEG of 60 megapixels",
        "progressive JPEG of 48 with halved colours",
        "progressive JPEG of 24 with full colours",
        "progressive JPEG of 60 with halved colours",
        "progressive JPEG of 60 with full colours",
        "progressive JPEG of 60 with full colours and fine grain",
        "progressive JPEG of 54 in four inks",
        "JPEG of 60 with a pass for each colour",
        "JPEG of 24 with a pass for each colour",
        "PNG of 24",
        "PNG of 24 with alpha",
        "WebP of 24 with alpha",
    ],
)
def test_the_largest_pictures_that_may_be_sent_fit_into_the_memory_allowed(code, most):
    assert peak_of(code) < most


def test_a_progressive_jpeg_that_would_take_more_memory_than_any_picture_may_is_refused_in_words():
    with pytest.raises(Refused) as refused:
        take_in(file_of(Image.new("CMYK", (8940, 6700), "green"), progressive=True))

    assert str(refused.value) == (
        "The picture is saved in several passes (“progressive”), with 59.9 megapixels in 4 colours, which has to be "
        "held whole to be opened; such a one may have 54. Save it as an ordinary JPEG, without “progressive”, or "
        "smaller, and send that."
    )


def test_hiding_needs_a_picture_that_can_be_read():
    with pytest.raises(Refused, match="not a picture"):
        hidden(b"no picture", [])
