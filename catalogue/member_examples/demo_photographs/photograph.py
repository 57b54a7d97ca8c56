"""One picture of one piece: `demo_photograph`."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from catalogue.figures.composing import Shown, box_of, composed, with_counterpart
from catalogue.figures.pen import Box, Pen
from catalogue.figures.silhouettes import Silhouette
from catalogue.member_examples.demo_photographs.camera import lay_rule, photographed
from catalogue.member_examples.demo_photographs.cloths import CENTIMETRES, USUAL_CENTIMETRES
from catalogue.member_examples.demo_photographs.grounds import GROUNDS, Ground
from catalogue.member_examples.demo_photographs.label_shot import label_scene
from catalogue.member_examples.demo_photographs.light import Setting, lit_piece, on_ground
from catalogue.member_examples.demo_photographs.noise import Array, seeded
from catalogue.member_examples.demo_photographs.piece import (
    LABEL_SHOTS,
    NEARNESS,
    SHOTS,
    USUAL_NEARNESS,
    WITH_RULE,
    DemoPiece,
)
from catalogue.member_examples.demo_photographs.pose import Lying, frame_round, lying
from catalogue.member_examples.demo_photographs.relief import relief_of
from catalogue.member_examples.demo_photographs.shapes import Shape, shapes_of

LONGER = 800
OF_A_DETAIL = 40.0  # units of the drawing, some ten centimetres
OPENED = ("inside", "crown_inside", "neck_inside", "waistband_inside", "sweatband")


def demo_photograph(piece: DemoPiece, shot: str, *, close_to: str = "") -> bytes | None:
    """A JPEG of the piece as a member's camera would give it, marked as drawn; always the same for the same piece.

    `shot`: a code of the standard shots (SHOTS, LABEL_SHOTS). `close_to`: a feature whose first part in that view
    stands in the middle, as large as a detail can be photographed. None where the piece's class has no drawing of
    that view.
    """
    chance = seeded(piece.code, shot)
    setting = setting_of(chance, piece, shot)
    ground = ground_of(piece)
    if shot in LABEL_SHOTS:
        label = label_scene(chance, piece, shot, setting)
        return None if label is None else photographed(chance, label, steady=0.6)
    view, places = SHOTS[shot][0], piece.places_of(shot)
    shown = piece.shown
    pen = Pen()
    body = composed(pen, piece.facts.garment_class, view, shown)
    if body is None:
        return None
    shapes = shapes_of(pen.svg)
    lies = lying(seeded(piece.code, view), body.points, body.width)
    nearness = NEARNESS.get(shot, USUAL_NEARNESS)
    detail = next((shape for shape in shapes if close_to and shape.part == close_to), None)
    if detail:
        frame = frame_on(detail, body, lies)
    else:
        frame = frame_of(piece, shapes, body, view, places, nearness, lies)
    seen, near = scene(chance, piece, shown, shapes, body, lies, frame, setting, ground)
    if shot in WITH_RULE:
        lay_rule(seen, near)
    return photographed(chance, seen)


def setting_of(chance: np.random.Generator, piece: DemoPiece, shot: str) -> Setting:
    """One place and one hour for all shots of a piece: the light comes from the same side."""
    same = seeded(piece.code, "light")
    angle = same.normal(-2.25, 0.35)  # from the upper left, as most people lay things beside a window
    return Setting(
        light=(float(np.cos(angle)), float(np.sin(angle))),
        height=float(same.uniform(0.5, 0.68)),
        condition=piece.condition,
        inside=shot in OPENED,
        scale=2.0,
    )


def ground_of(piece: DemoPiece) -> Ground:
    return GROUNDS[int(seeded(piece.code, "ground").integers(len(GROUNDS)))]


def frame_on(detail: Shape, body: Silhouette, lies: Lying) -> Box:
    """What a picture of one detail shows, in units of the drawing."""
    points = lies.turned(np.concatenate(detail.lines), (body.width / 2, body.height / 2))
    x, y = (points.min(axis=0) + points.max(axis=0)) / 2
    return Box(x - OF_A_DETAIL / 2, y - OF_A_DETAIL * 0.375, OF_A_DETAIL, OF_A_DETAIL * 0.75)


def frame_of(
    piece: DemoPiece,
    shapes: Sequence[Shape],
    body: Silhouette,
    view: str,
    places: Sequence[str],
    nearness: float,
    lies: Lying,
) -> Box:
    """What the picture shows, in units of the drawing: the whole piece, or what lies round a place."""
    every = np.concatenate([line for shape in shapes if shape.kind == "o" for line in shape.lines])
    centre = (body.width / 2, body.height / 2)
    for place in places:
        names = dict(with_counterpart(place, piece.facts.garment_class, view, body))
        if place in names:
            box = box_of(piece.facts.garment_class, view, place, body)
            middle = np.array([[box.x + box.w / 2, min(box.y + box.h / 2, box.y + nearness / 2)]])
            x, y = lies.turned(middle, centre)[0]
            wide = nearness if nearness < USUAL_NEARNESS else max(nearness, box.w * 1.5)
            return Box(x - wide / 2, y - wide * 0.375, wide, wide * 0.75)
    return frame_round(lies.turned(every, centre), 0.07)


def scene(
    chance: np.random.Generator,
    piece: DemoPiece,
    shown: dict[str, Shown],
    shapes: Sequence[Shape],
    body: Silhouette,
    lies: Lying,
    frame: Box,
    setting: Setting,
    ground: Ground,
) -> tuple[Array, float]:
    """The piece on its ground as light, (h, w, 3), in the shape of a camera's picture; its pixels to a centimetre."""
    size = (LONGER, LONGER * 3 // 4) if frame.w >= frame.h * 0.98 else (LONGER * 3 // 4, LONGER)
    scale = min(size[0] / frame.w, size[1] / frame.h)
    middle = np.array(frame.centre)
    centre = (body.width / 2, body.height / 2)

    def pose(points: np.ndarray) -> np.ndarray:
        return (lies.turned(points, centre) - middle) * scale + np.array(size) / 2

    relief = relief_of(shapes, size, scale, pose)
    columns = (np.arange(size[0], dtype=np.float32) - size[0] / 2) / scale + middle[0]
    rows = (np.arange(size[1], dtype=np.float32) - size[1] / 2) / scale + middle[1]
    centimetres = CENTIMETRES.get(piece.facts.garment_class, USUAL_CENTIMETRES)
    setting = replace(setting, scale=scale, near=scale / centimetres)
    states = {code: one.state for code, one in shown.items()}
    seen = on_ground(ground(seeded(piece.code, "ground"), size), relief.covered, setting)
    down, over = span(relief.covered.max(axis=1)), span(relief.covered.max(axis=0))
    where = np.meshgrid(columns[over] * centimetres, rows[down] * centimetres)
    cloth = lit_piece(chance, relief.part(down, over), states, (where[0], where[1]), setting)
    below = seen[down, over]
    below += (cloth - below) * relief.covered[down, over, None]
    return seen, setting.near


def span(covered: Array, more: int = 8) -> slice:
    """From the first to the last that is covered, and a little more; of even length, so that it can be halved."""
    places = np.flatnonzero(covered > 0)
    first = max(0, int(places[0]) - more)
    last = min(len(covered), int(places[-1]) + 1 + more)
    return slice(first, last - (last - first) % 2)
