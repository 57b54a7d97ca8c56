"""From the shapes of a flat to the maps that light falls on: what lies how high, and what it is made of."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw

from catalogue.member_examples.demo_photographs.shapes import Shape

FINER = 2  # maps are painted so many times finer, then made smaller
BASE, STEP = 40, 16
GROUND, CLOTH, THREAD, BUTTON, METAL, DARK = 0, 60, 90, 120, 180, 240
# Features whose laid-on pieces are metal or plastic, not cloth.
HARDWARE = {
    "zip_teeth", "front_closure", "closure_cover", "button_fix", "button_material", "front_buttons", "fly",
    "liner_fixing", "crown_vents", "underarm_vent",
}  # fmt: skip
# Features whose lines are stitches so dense that the thread hides the cloth.
DENSE = {"bartack"}
LARGEST_HARD = 14.0  # units of the drawing: what is larger is cloth
Pose = Callable[[np.ndarray], np.ndarray]


@dataclass(frozen=True)
class Relief:
    """Maps of one size, each from 0 to 1 but `level` (0 ground, 1 the body, more for what lies on it).

    `made_of`: share of thread, buttons, metal and what is dark, by name, as far as there is any.
    """

    level: np.ndarray
    covered: np.ndarray
    seam: np.ndarray
    stitch: np.ndarray
    fold: np.ndarray
    made_of: dict[str, np.ndarray]

    def part(self, rows: slice, columns: slice) -> "Relief":
        """A rectangle of every map."""
        maps = {name: getattr(self, name)[rows, columns] for name in ("level", "covered", "seam", "stitch", "fold")}
        return Relief(**maps, made_of={name: one[rows, columns] for name, one in self.made_of.items()})


class Sheets:
    """The finer pictures that shapes are painted on, one after the other, each covering what lies below it."""

    def __init__(self, size: tuple[int, int], scale: float) -> None:
        self.size, self.scale = size, scale * FINER
        fine = size[0] * FINER, size[1] * FINER
        self.pictures = {name: Image.new("L", fine) for name in ("level", "made_of", "seam", "stitch", "fold")}
        self.pens = {name: ImageDraw.Draw(picture) for name, picture in self.pictures.items()}

    def paint(self, shape: Shape, points: Sequence[np.ndarray]) -> None:
        if shape.kind in "ob":
            self.lay_on(shape, points)
        elif shape.kind == "k":
            for line in points:
                self.pens["made_of"].polygon(flat(line), fill=DARK)
        elif shape.kind == "t":
            for line in points:
                self.stitches(line)
        elif shape.kind in "ef":
            for line in points:
                if shape.kind == "e" and shape.part in DENSE and not shape.round_:
                    self.dense(line)
                elif shape.kind == "e":
                    self.line("seam", line, 1.2)
                else:
                    self.tapering(line)

    def lay_on(self, shape: Shape, points: Sequence[np.ndarray]) -> None:
        """A piece of cloth or a hard part on top of what is there."""
        below = max(self.level_at(points[0].mean(axis=0)), self.level_at(points[0][0]) if shape.part else 0)
        small = np.ptp(points[0], axis=0).max() < LARGEST_HARD * self.scale
        is_hard = shape.round_ or (shape.kind == "b" and shape.part in HARDWARE and small)
        made_of = CLOTH if not is_hard else METAL if shape.part in ("zip_teeth", "crown_vents") else BUTTON
        level = min(240, below + (STEP if below else BASE))
        for line, closed in zip(points, shape.closed, strict=True):
            if not closed and len(line) < 3:
                continue
            self.pens["level"].polygon(flat(line), fill=level)
            self.pens["made_of"].polygon(flat(line), fill=made_of)
            for name in ("seam", "stitch", "fold"):
                self.pens[name].polygon(flat(line), fill=0)
            self.line("seam", line, 1.2 if shape.kind == "o" else 0.9)

    def level_at(self, point: np.ndarray) -> int:
        x, y = (int(value) for value in point)
        picture = self.pictures["level"]
        return picture.getpixel((x, y)) if 0 <= x < picture.width and 0 <= y < picture.height else 0

    def line(self, name: str, line: np.ndarray, width: float) -> None:
        fill = THREAD if name == "made_of" else 255
        self.pens[name].line(flat(line), fill=fill, width=max(1, round(width * self.scale)), joint="curve")

    def dense(self, line: np.ndarray, pitch: float = 0.62) -> None:
        """A bar of zigzag stitches side by side, of which a flat draws a few: thread that stands out of the cloth, and
        the furrow that it has drawn in."""
        third = max(1, len(line) // 3)
        along = line[-third:].mean(axis=0) - line[:third].mean(axis=0)
        along /= max(1.0, float(np.hypot(*along)))
        begin = line[0]
        long = float(np.ptp((line - begin) @ along))
        over = np.array((-along[1], along[0]))
        reach = (line - begin) @ over
        low, high = float(reach.min()), float(reach.max())
        corners = [begin + along * x + over * y for x, y in ((0, low), (long, low), (long, high), (0, high))]
        self.pens["seam"].polygon(flat(np.array(corners)), fill=150)
        steps = np.arange(0, long, pitch / 2 * self.scale)
        zigzag = [begin + along * x + over * (low, high)[n % 2] for n, x in enumerate(steps)]
        self.line("made_of", np.array(zigzag), 0.34)

    def tapering(self, line: np.ndarray, width: float = 4.0) -> None:
        """A fold: widest and highest in its middle, gone at its ends."""
        for n, (begin, end) in enumerate(zip(line, line[1:], strict=False)):
            share = 1 - (2 * (n + 0.5) / (len(line) - 1) - 1) ** 2
            thick = max(1, round(width * share * self.scale))
            self.pens["fold"].line([*begin, *end], fill=round(60 + 195 * share), width=thick)

    def stitches(self, line: np.ndarray, pitch: float = 1.5, share: float = 0.66) -> None:
        """Thread above, thread below, in turn; from too far away to tell them apart, a faint line."""
        if pitch * self.scale < 7:
            self.pens["stitch"].line(flat(line), fill=130, width=max(1, round(0.5 * self.scale)))
            return
        steps = np.hypot(*np.diff(line, axis=0).T)
        along = np.concatenate([[0], np.cumsum(steps)])
        stops = np.arange(0, along[-1], pitch * self.scale)
        begins = np.stack([np.interp(stops, along, line[:, axis]) for axis in (0, 1)], axis=1)
        ends = np.stack(
            [np.interp(stops + pitch * share * self.scale, along, line[:, axis]) for axis in (0, 1)], axis=1
        )
        width = max(1, round(0.55 * self.scale))
        for begin, end in zip(begins, ends, strict=True):
            self.pens["stitch"].line([*begin, *end], fill=255, width=width)

    def relief(self) -> Relief:
        small = {name: self.smaller(picture) for name, picture in self.pictures.items() if name != "made_of"}
        level = small["level"]
        covered = self.smaller(self.pictures["level"].point(lambda value: 255 if value else 0)) / 255
        counted = self.pictures["made_of"].histogram()
        made_of = {
            name: self.smaller(self.pictures["made_of"].point([255 * (value == code) for value in range(256)])) / 255
            for name, code in (("thread", THREAD), ("button", BUTTON), ("metal", METAL), ("dark", DARK))
            if counted[code]
        }
        return Relief(
            level=np.where(level > 0, 1 + (level - BASE) / STEP, 0).astype(np.float32),
            covered=covered,
            seam=small["seam"] / 255,
            stitch=small["stitch"] / 255,
            fold=small["fold"] / 255,
            made_of=made_of,
        )

    def smaller(self, picture: Image.Image) -> np.ndarray:
        return np.asarray(picture.reduce(FINER), dtype=np.float32)


def flat(line: np.ndarray) -> list[tuple[float, float]]:
    return [tuple(point) for point in line.tolist()]


def relief_of(shapes: Sequence[Shape], size: tuple[int, int], scale: float, pose: Pose) -> Relief:
    """`scale`: pixels to a unit of the drawing. `pose`: from units of the drawing to pixels of the picture."""
    sheets = Sheets(size, scale)
    painted = [shape for shape in shapes if shape.kind and shape.kind in "obketf"]
    lines = [line for shape in painted for line in shape.lines]
    ends = np.cumsum([len(line) for line in lines])[:-1]
    laid = iter(np.split(pose(np.concatenate(lines)) * FINER, ends))
    for shape in painted:
        sheets.paint(shape, [next(laid) for _ in shape.lines])
    return sheets.relief()
