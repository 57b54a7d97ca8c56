"""`python -m identification` run as somebody else's program runs it, and the files that it is given."""

import csv
import io
import json
import subprocess
import sys
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

from identification.__main__ import main
from identification.engine import States

ROOT = Path(__file__).resolve().parent.parent.parent
FEATURES = """feature,states,effort,error,absent,loss,gain,parent,shown_when
closure,buttons|zip,1,0.03,,,,,
flap,none|square|round,1.5,0.05,none,0.1,0.01,,
button,brass|horn,,,,,,flap,square|round
"""
MATRIX = """version,prior,closure,flap,button
P52,3,buttons,square,brass
P57,,buttons,square:0.8|round:0.2,horn
P71,2,zip,none,-
P86,,,square|round,
"""
OBSERVATIONS = """specimen,feature,answer
s2,closure,zip
s1,flap,square
s1,button,horn
s1,closure,?
s2,flap,none
s2,button,-
"""


def run(*words, text: str = "", cwd=ROOT) -> subprocess.CompletedProcess:
    """Run the program without any site setting in its environment."""
    command = [sys.executable, "-m", "identification", *map(str, words)]
    return subprocess.run(command, input=text, capture_output=True, text=True, cwd=cwd, encoding="utf-8", timeout=60)


def run_here(*words) -> subprocess.CompletedProcess:
    """The same in this process: to be told of one fault after another needs no new Python for each."""
    told = [io.TextIOWrapper(io.BytesIO(), encoding="utf-8") for _ in range(2)]
    with redirect_stdout(told[0]), redirect_stderr(told[1]):
        try:
            ended = main([str(word) for word in words])
        except SystemExit as refused:
            ended = refused.code
    for stream in told:
        stream.flush()
    return subprocess.CompletedProcess(words, ended, *(stream.buffer.getvalue().decode() for stream in told))


def lines(done: subprocess.CompletedProcess) -> list[dict]:
    assert done.returncode == 0, done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


def without(words: list[str], option: str) -> list[str]:
    place = words.index(option)
    return words[:place] + words[place + 2 :]


def text_of(answer) -> str:
    return answer.states[0] if isinstance(answer, States) else "?"


def write_problem(folder, reference, pieces) -> None:
    columns = ["feature", "states", "effort", "error", "absent", "loss", "gain", "parent", "shown_when"]
    features = [
        [
            f.code,
            "|".join(f.states),
            f.effort,
            f.error,
            f.absent or "",
            f.loss,
            f.gain,
            f.parent or "",
            "|".join(f.shown_when),
        ]
        for f in reference.features
    ]
    cells = [
        [v.code, v.weight, *(cell_text(v.cells.get(f.code, ())) for f in reference.features)]
        for v in reference.versions
    ]
    seen = [
        [f"s{i}", code, text_of(answer)] for i, (_, answers) in enumerate(pieces) for code, answer in answers.items()
    ]
    save(folder / "features.csv", columns, features)
    save(folder / "matrix.csv", ["version", "prior", *(f.code for f in reference.features)], cells)
    save(folder / "observations.csv", ["specimen", "feature", "answer"], seen)


def cell_text(cell) -> str:
    return "|".join(one.state if one.share is None else f"{one.state}:{one.share!r}" for one in cell)


def save(path, header, rows) -> None:
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([header, *rows])
