"""`manage.py read_labels`: JSON lines in, JSON lines out, and no line that ends the run."""

import json
import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]


def run(lines: bytes, *options: str) -> list[dict]:
    environment = {**os.environ, "DJANGO_SETTINGS_MODULE": "tests.settings"}
    done = subprocess.run(
        [sys.executable, "manage.py", "read_labels", *options],
        input=lines,
        capture_output=True,
        cwd=ROOT,
        env=environment,
        timeout=120,
        check=True,
    )
    assert done.stderr == b""
    return [json.loads(line) for line in done.stdout.splitlines()]


def test_each_line_gets_its_answer_in_order_and_a_bad_one_its_fault():
    requests = [
        {"id": "a", "text": "8415-12-345-6789", "context": {}},
        {"id": 7, "text": "12/84", "context": {"reference_year": 2026}},
        {"id": "c"},
        {"id": "d", "text": "x", "context": {"garment": 3}},
        {"id": "e", "text": ""},
    ]
    lines = b"\n".join(json.dumps(request).encode() for request in requests)
    answers = run(lines + b'\nnot json\n[1]\n\xff\xfe\n\n{"id": "f", "text": "\\ud800 1984"}\n')

    assert [answer["id"] for answer in answers] == ["a", 7, "c", "d", "e", None, None, None, "f"]
    assert answers[0]["stock_number"]["country"] == "Germany"
    assert answers[1]["date"]["edtf"] == "1984-12"
    assert ["error" in answer for answer in answers] == [False, False, True, True, False, True, True, True, False]
    assert answers[4]["label"]["reason"] == "empty"
    assert answers[8]["date"]["edtf"] == "1984"


def test_the_caller_brings_the_society_s_forms():
    form = {"form": "stores", "name": "Stores number", "pattern": "(99)-(999)-(99)", "years": "1971/2009"}
    request = {"id": 1, "text": "27-114-06", "context": {"number_forms": [form]}}
    (answer,) = run(json.dumps(request).encode())

    assert answer["numbers"][0]["groups"] == ["27", "114", "06"]
