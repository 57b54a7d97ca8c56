"""How far drawn shapes reach, read from what the site's own pen has written."""

import math
import re
from collections.abc import Iterable, Sequence
from functools import lru_cache

from catalogue.figures.pen import AXES, TOKEN, Box

ELEMENT = re.compile(r"<(path|rect|circle|text)([^>]*)>")
ATTRIBUTE = re.compile(r' (d|x|y|width|height|cx|cy|r)="([^"]*)"')
HIDING = re.compile(r'class="[obck]"')

Reach = tuple[float, float, float, float]


def middle_piece(markup: str, *, but: str = "") -> Box | None:
    """The box round all shapes, but those of one kind of stroke; where its middle lies on none of them, as between
    two eyelets, the box of the shape nearest to it. None where there is no shape. Of curves the ends count, not the
    points that shape them, so that the box never reaches beyond what is drawn."""
    reached = reached_by(markup, but)
    whole = round_all(reached)
    if whole is None:
        return None
    x, y = whole.centre
    if any(left <= x <= right and top <= y <= bottom for left, top, right, bottom in reached):
        return whole
    boxes = [round_all([one]) for one in reached]
    return min(boxes, key=lambda box: math.dist(box.centre, (x, y)))


def box_round(markup: str, *, but: str = "") -> Box | None:
    """The box round all shapes, as `middle_piece` counts them."""
    return round_all(reached_by(markup, but))


def reached_by(markup: str, but: str = "") -> list[Reach]:
    passed_over = f'class="{but}"'
    every = [(kind, words) for kind, words in ELEMENT.findall(markup) if not but or passed_over not in words]
    return [found for kind, words in every for found in reach(kind, words)]


def filled_by(markup: str) -> list[Box]:
    """The boxes of the shapes that hide what lies below them."""
    hiding = [(kind, words) for kind, words in ELEMENT.findall(markup) if HIDING.search(words)]
    return [round_all([found]) for kind, words in hiding for found in reach(kind, words)]


def round_all(reached: Sequence[Reach]) -> Box | None:
    if not reached:
        return None
    lefts, tops, rights, bottoms = zip(*reached, strict=True)
    left, top = min(lefts), min(tops)
    return Box(left, top, max(rights) - left, max(bottoms) - top)


@lru_cache(maxsize=8192)
def reach(kind: str, words: str) -> tuple[Reach, ...]:
    """Left, top, right and bottom of one element; of each stroke of a path, for one path draws what lies at both sides.
    Kept, since the same parts are drawn again."""
    of = dict(ATTRIBUTE.findall(words))
    if kind == "path":
        strokes = [stroke for stroke in of.get("d", "").split("M") if stroke]
        return tuple(found for stroke in strokes if (found := reach_of_stroke(f"M{stroke}")))
    if kind == "circle":
        x, y, r = float(of["cx"]), float(of["cy"]), float(of["r"])
        return ((x - r, y - r, x + r, y + r),)
    x, y = float(of["x"]), float(of["y"])
    return ((x, y, x + float(of.get("width", 0)), y + float(of.get("height", 0))),)


def reach_of_stroke(data: str) -> Reach | None:
    across: list[float] = []
    down: list[float] = []
    for axis, value in ends_in(data):
        (across if axis == "x" else down).append(value)
    return (min(across), min(down), max(across), max(down)) if across and down else None


def ends_in(data: str) -> Iterable[tuple[str, float]]:
    """Every number of a path's ends and turning points, with the axis that it lies on."""
    axes, turn = "", 0
    for token in TOKEN.findall(data):
        if token in AXES:
            axes, turn = AXES[token], 0
            continue
        place = turn % len(axes)
        if place >= len(axes) - 2:
            yield axes[place], float(token)
        turn += 1


def common(one: Box, other: Box) -> Box | None:
    """Where two boxes overlap; None where they do not."""
    left, top = max(one.x, other.x), max(one.y, other.y)
    right, bottom = min(one.x + one.w, other.x + other.w), min(one.y + one.h, other.y + other.h)
    return Box(left, top, right - left, bottom - top) if left <= right and top <= bottom else None


def holds(box: Box, point: tuple[float, float]) -> bool:
    return box.x <= point[0] <= box.x + box.w and box.y <= point[1] <= box.y + box.h
