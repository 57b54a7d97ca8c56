"""The check rows of tests/data/labels, and how an answer is compared with what a row expects."""

import csv
import hashlib
import json
import random
import string
from dataclasses import dataclass
from pathlib import Path

DATA = Path(__file__).resolve().parents[2] / "data" / "labels"
REFERENCE_YEAR = 2026
SETS = {"between"}
FREE_TEXT = {"remark", "note"}
# Generated inputs, by the expression that a row names; nothing out of a file is evaluated.
GENERATED = {
    "''.join(random.Random(20260101).choices(string.ascii_letters+string.digits+string.punctuation+' \\n',k=10000))": (
        lambda: "".join(
            random.Random(20260101).choices(string.ascii_letters + string.digits + string.punctuation + " \n", k=10000)
        )
    ),
    "'X '*2000": lambda: "X " * 2000,
    "'X '*2000+'X'": lambda: "X " * 2000 + "X",
}


@dataclass(frozen=True)
class Row:
    id: str
    field: str
    text: str
    context: dict
    expected: dict


def rows_of(name: str) -> list[Row]:
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return [
            Row(
                row["id"],
                row["field"],
                text_of(row),
                json.loads(row["context_json"] or "{}"),
                json.loads(row["expected_json"]),
            )
            for row in csv.DictReader(file)
        ]


def text_of(row: dict) -> str:
    if not row.get("generator"):
        return json.loads(row["input_json"])
    expression, digest = row["generator"].split("; sha256 ")
    text = GENERATED[expression]()
    assert hashlib.sha256(text.encode()).hexdigest() == digest, row["id"]
    return text


def differences(expected, found, path: str = "") -> list[str]:
    """What is not as expected: only the keys given are compared, numbers within 0.05, lists in full and in order."""
    if isinstance(expected, dict):
        if not isinstance(found, dict):
            return [f"{path}: {found!r} is no object"]
        return [
            line
            for key, value in expected.items()
            if key != "max_seconds"
            for line in compared(key, value, found, f"{path}.{key}")
        ]
    if isinstance(expected, list):
        if not isinstance(found, list) or len(found) != len(expected):
            return [f"{path}: {found!r} instead of {expected!r}"]
        return [
            line
            for i, (e, f) in enumerate(zip(expected, found, strict=True))
            for line in differences(e, f, f"{path}[{i}]")
        ]
    if isinstance(expected, int | float) and not isinstance(expected, bool):
        same = isinstance(found, int | float) and not isinstance(found, bool) and abs(found - expected) <= 0.05
        return [] if same else [f"{path}: {found!r} instead of {expected!r}"]
    return [] if expected == found and type(expected) is type(found) else [f"{path}: {found!r} instead of {expected!r}"]


def compared(key: str, value, found: dict, path: str) -> list[str]:
    there = found.get(key)
    if key in FREE_TEXT:
        return [] if isinstance(there, str) and there.strip() else [f"{path}: no text"]
    if key in SETS:
        return [] if set(there or ()) == set(value) else [f"{path}: {there!r} instead of {value!r}"]
    return differences(value, there, path)
