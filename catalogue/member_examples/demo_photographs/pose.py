"""How a piece lies: never quite straight, its sleeves not alike, its edges a little wavy."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from catalogue.figures.pen import Box

Points = np.ndarray


@dataclass(frozen=True)
class Lying:
    """`bend`: in units of the drawing, and back to what was drawn there; `turn`: of the whole, in radians."""

    bend: Callable[[Points], Points]
    turn: float

    def turned(self, points: Points, centre: tuple[float, float]) -> Points:
        """The points bent, then turned about the centre."""
        away = self.bend(points) - centre
        c, s = np.cos(self.turn), np.sin(self.turn)
        return away @ np.array(((c, s), (-s, c))) + centre


def lying(
    chance: np.random.Generator, named: Mapping[str, tuple[float, float]], width: float, *, neat: float = 1.0
) -> Lying:
    """`named`: the silhouette's points; where it has cuffs there are sleeves to lay. `neat`: 1 by hand, 0 exactly."""
    waves = [
        (chance.normal(0, 1.9 / order) * neat, chance.uniform(0.5, 1) * order * 2 * np.pi / 420, chance.uniform(0, 6.3))
        for order in (1, 1, 2, 2, 3, 5)
    ]
    sleeves = [sleeve(chance, named, side, width, neat) for side in ("left", "right") if f"cuff_{side}" in named]

    def bend(points: Points) -> Points:
        x, y = points[:, 0].copy(), points[:, 1].copy()
        for turn, (far, often, begin) in enumerate(waves):
            if turn % 2:
                x = x + far * np.sin(often * y + begin)
            else:
                y = y + far * np.sin(often * x + begin)
        bent = np.stack([x, y], axis=1)
        for lay in sleeves:
            bent = lay(bent)
        return bent

    return Lying(bend, chance.normal(0, 0.035) * neat)


def sleeve(
    chance: np.random.Generator, named: Mapping[str, tuple[float, float]], side: str, width: float, neat: float
) -> Callable[[Points], Points]:
    """Swings what lies beyond the body round the shoulder, the more the further out."""
    shoulder, under = np.array(named[f"shoulder_{side}"]), named[f"underarm_{side}"]
    outwards = 1 if shoulder[0] > width / 2 else -1
    edge = max(abs(under[0] - width / 2), abs(named[f"hem_{side}"][0] - width / 2)) + 2
    swing = chance.normal(0.02, 0.075) * neat

    def lay(points: Points) -> Points:
        beyond = np.clip(((points[:, 0] - width / 2) * outwards - edge) / 55, 0, 1)
        angle = swing * outwards * beyond * beyond * (3 - 2 * beyond)
        away = points - shoulder
        c, s = np.cos(angle), np.sin(angle)
        turned = np.stack([away[:, 0] * c - away[:, 1] * s, away[:, 0] * s + away[:, 1] * c], axis=1)
        return turned + shoulder

    return lay


def frame_round(points: Points, margin: float) -> Box:
    """The box of the points, with so much more of its longer side at each edge."""
    low, high = points.min(axis=0), points.max(axis=0)
    more = margin * max(high - low)
    return Box(low[0] - more, low[1] - more, high[0] - low[0] + 2 * more, high[1] - low[1] + 2 * more)
