"""Runs of letters found in a picture, put into the lines of a label."""

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, cos, dist, sin
from statistics import median

# Ours; no source. Below the first a run is as likely made up of a seam or a fold as of letters; below the second a
# person is asked to look twice. What was measured stands in DEVELOPERS.md.
LEAST_SCORE, SURE_SCORE = 0.6, 0.95
FEWEST_LETTERS = 3


@dataclass(frozen=True)
class Line:
    text: str
    score: float

    @property
    def is_doubtful(self) -> bool:
        return self.score < SURE_SCORE


@dataclass(frozen=True)
class Run:
    """Letters in a row: the middle and the height in pixels, along and across the label's own lines."""

    text: str
    score: float
    along: float
    across: float
    height: float


def lines_of(found: Sequence) -> list[Line]:
    """The label's lines from above, each from left to right, however the picture is turned.

    `found`: for each run its four corners, beginning with the first letter's upper corner, its text, and its score.
    Runs that hold no Latin letter or figure, or that the reader hardly believes itself, are left out: its models were
    made on Chinese as well, and it takes a cat for a character of it. One or two letters in all are no label.
    """
    kept = [one for one in found if one[2] >= LEAST_SCORE and any(is_latin(sign) for sign in one[1])]
    if sum(is_latin(sign) for _, text, _ in kept for sign in text) < FEWEST_LETTERS:
        return []
    # Long runs tell the slope best. A long run that stands upright is a label on its side.
    longest = max((one[0] for one in kept), key=lambda c: max(dist(c[0], c[1]), dist(c[1], c[2])))
    if dist(longest[1], longest[2]) > dist(longest[0], longest[1]):
        kept = [(upwards(corners), text, score) for corners, text, score in kept]
        longest = upwards(longest)
    slope = atan2(longest[1][1] - longest[0][1], longest[1][0] - longest[0][0])
    runs = sorted((run_of(one, slope) for one in kept), key=lambda run: run.across)
    rows: list[list[Run]] = []
    for run in runs:
        row = rows[-1] if rows else []
        if row and run.across - median(one.across for one in row) < 0.5 * min(run.height, row[-1].height):
            row.append(run)
        else:
            rows.append([run])
    return [
        Line(
            " ".join(run.text.strip() for run in sorted(row, key=lambda run: run.along)),
            min(run.score for run in row),
        )
        for row in rows
    ]


def is_latin(sign: str) -> bool:
    return sign.isdecimal() or unicodedata.name(sign, "").startswith("LATIN")


def upwards(corners: Sequence) -> list:
    """The corners of a run that is read upwards: the reader gives them as if it stood upright, and does not tell which
    way the letters lie. Of a label that lies on its other side the lines come last first."""
    return [corners[3], *corners[:3]]


def run_of(one: Sequence, slope: float) -> Run:
    corners, text, score = one
    x, y = sum(c[0] for c in corners) / 4, sum(c[1] for c in corners) / 4
    height = dist(corners[0], corners[3])
    return Run(text, score, x * cos(slope) + y * sin(slope), y * cos(slope) - x * sin(slope), height)
