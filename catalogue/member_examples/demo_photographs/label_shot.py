"""A label from near by: cloth, tape or ribbon, its rows of stitches, and what is written on it."""

from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw, ImageFilter, ImageFont

from catalogue.member_examples.demo_photographs.cloths import base_colour, weave
from catalogue.member_examples.demo_photographs.light import Setting, brightness
from catalogue.member_examples.demo_photographs.noise import Array, blurred, creased, seeded, soft, softened
from catalogue.member_examples.demo_photographs.piece import DemoPiece
from catalogue.member_examples.demo_photographs.wording import SECOND_LABELS, Writing, writings_of

SIZE = (800, 600)
FINER = 2
BLACK, INK = (38, 38, 42), (40, 44, 78)


@dataclass(frozen=True)
class Ribbon:
    """What a label is made of: colours of cloth and letters, and how deep the letters lie in it."""

    cloth: tuple[int, int, int]
    letters: tuple[int, int, int]
    threads: float
    shine: float


RIBBONS = {
    "woven": Ribbon((48, 50, 58), (206, 200, 180), 0.13, 0.05),
    "printed_cotton": Ribbon((200, 190, 164), (52, 48, 46), 0.06, 0.0),
    "printed_nylon": Ribbon((196, 199, 198), (44, 46, 58), 0.025, 0.22),
}


def label_scene(chance: np.random.Generator, piece: DemoPiece, shot: str, setting: Setting) -> Array | None:
    """The label of that shot on its cloth, as light, (h, w, 3); None where a piece must not be opened."""
    if "do not open" in piece.label_text:
        return None
    states = piece.states
    kind = states.get("label_kind", "printed_cotton")
    writing = writing_for(piece, shot)
    cloth, hills = ground_cloth(chance, piece)
    if writing.missing:
        return lit(cloth, hills + trace(chance, writing), setting)
    if shot == "property_mark" or writing.is_stamp or kind == "ink_stamp":
        ink = stamp(chance, writing, states.get("property_mark", "") if shot == "property_mark" else "")
        return lit(cloth + (np.array(INK, np.float32) - cloth) * ink[:, :, None] * 0.72, hills, setting)
    ribbon = RIBBONS.get(kind, RIBBONS["printed_cotton"])
    return sewn_on(chance, piece, writing, ribbon, (cloth, hills), setting, behind=shot == "label_back")


def writing_for(piece: DemoPiece, shot: str) -> Writing:
    written = writings_of(piece.label_text) or [Writing((), missing=True)]
    states = piece.states
    if shot == "treatment_label":
        words = SECOND_LABELS.get(states.get("treatment_label", ""), ("WASH 40", "DO NOT BLEACH", "IRON WARM"))
        return written[1] if len(written) > 1 and not written[1].is_stamp else Writing(words)
    if shot == "size_label":
        sizes = [line for line in written[0].lines if line.startswith("SIZE") or line.replace("/", "").isdigit()]
        return Writing(tuple(sizes[:1]) or written[0].lines[:1], unreadable=written[0].unreadable and 1, missing=False)
    return written[0]


def ground_cloth(chance: np.random.Generator, piece: DemoPiece) -> tuple[Array, Array]:
    """The inside of the piece from near by: its colour, (h, w, 3), and how high it lies."""
    states = dict(piece.states)
    scale = 11.0  # pixels to a unit of the drawing, about 44 to the centimetre
    threads = weave(chance, states, SIZE, scale, 44.0)
    colour = (base_colour(states) * 0.86 + 20) * np.float32(1 + chance.normal(0, 0.04))
    hills = soft(chance, SIZE, 230) * 11 + blurred(creased(chance, SIZE, 8, 620), 9) * 8
    seam_at = chance.uniform(40, 90) + 8 * np.sin(np.linspace(0, 2.4, SIZE[0]) + chance.uniform(0, 6))
    rows = np.arange(SIZE[1], dtype=np.float32)[:, None] - seam_at[None, :].astype(np.float32)
    hills = hills + 5 / (1 + np.exp(-rows / 3)) - 3 * np.exp(-((rows - 22) ** 2) / 8) * dashes(SIZE[0], 13)
    return colour * threads[:, :, None], hills.astype(np.float32)


def dashes(width: int, pitch: int) -> Array:
    return (np.arange(width) % pitch < pitch * 0.68).astype(np.float32)[None, :]


def sewn_on(
    chance: np.random.Generator,
    piece: DemoPiece,
    writing: Writing,
    ribbon: Ribbon,
    under: tuple[Array, Array],
    setting: Setting,
    *,
    behind: bool,
) -> Array:
    """A label on the cloth, lit with it. `behind`: turned over, so that the letters show through from the back."""
    cloth, hills = under
    box = box_for(chance, writing)
    masks = [
        np.asarray(bent(chance_of(piece), one), np.float32) / 255 for one in flat_label(chance, writing, ribbon, box)
    ]
    shape, letters, thread = masks
    if behind:
        letters = letters[:, ::-1] * 0.28
    worn = {"unissued": 0.0, "very good": 0.08, "good": 0.18, "worn": 0.42, "poor": 0.6}.get(piece.condition, 0.2)
    letters = letters * np.clip(1.15 - worn * (0.7 + 0.8 * soft(chance, SIZE, 12)), 0.12, 1)
    columns = np.arange(SIZE[0], dtype=np.float32)[None, :]
    ribs = 1 + ribbon.threads * np.sin(columns * (2 * np.pi / 3.1)) * 0.6
    colour = np.array(ribbon.cloth, np.float32) * (ribs * (1 - 0.05 * worn * soft(chance, SIZE, 90)))[:, :, None]
    colour = colour + (np.array(ribbon.letters, np.float32) - colour) * letters[:, :, None] * 0.9
    colour = colour + (np.array((118, 112, 92), np.float32) - colour) * thread[:, :, None] * 0.75
    fringe = np.clip(blurred(shape, 9) - shape * 0.5, 0, 0.5)
    cloth = cloth * (1 - 0.5 * fringe * (1 - shape))[:, :, None]
    seen = cloth + (colour - cloth) * shape[:, :, None]
    high = hills + softened(shape, 2) * 4.5 - 1.6 * softened(thread) + 0.7 * softened(letters)
    wrinkles = blurred(creased(chance, SIZE, 10, 320), 5) * 3 * (0.4 + worn)
    high = high + shape * (soft(chance, SIZE, 60) * 1.6 + wrinkles)
    return lit(seen, high, setting, shine=shape * ribbon.shine)


def chance_of(piece: DemoPiece) -> np.random.Generator:
    return seeded(piece.code, "how the label is bent")


def box_for(chance: np.random.Generator, writing: Writing) -> tuple[int, int, int, int]:
    """Left, top, right and bottom of the label, by how much is written on it."""
    rows = max(2, len(writing.lines) + writing.unreadable)
    longest = max((len(line) for line in writing.lines), default=16)
    width = round(min(600, max(250, 150 + longest * 26)))
    height = round(min(400, 90 + rows * 62))
    left, top = (SIZE[0] - width) // 2 + chance.integers(-18, 19), (SIZE[1] - height) // 2 + chance.integers(0, 40)
    return int(left), int(top), int(left) + width, int(top) + height


def flat_label(
    chance: np.random.Generator, writing: Writing, ribbon: Ribbon, box: tuple[int, int, int, int]
) -> list[Image.Image]:
    """The label lying flat, painted finer: its shape, its letters, the thread that holds it."""
    sheets = [Image.new("L", (SIZE[0] * FINER, SIZE[1] * FINER)) for _ in range(3)]
    shape, letters, thread = (ImageDraw.Draw(sheet) for sheet in sheets)
    left, top, right, bottom = (value * FINER for value in box)
    shape.rectangle((left, top, right, bottom), fill=255)
    write(chance, letters, writing, (left + 50, top + 44, right - 50, bottom - 40))
    pitch, inset = 13 * FINER, 9 * FINER
    for x in range(left + inset, right - inset, pitch):
        for y in (top + inset, bottom - inset):
            if ribbon is not RIBBONS["woven"]:
                thread.line((x, y, x + pitch * 0.66, y), fill=255, width=2 * FINER)
    for y in range(top + inset, bottom - inset, pitch):
        for x in (left + inset, right - inset):
            thread.line((x, y, x, y + pitch * 0.66), fill=255, width=2 * FINER)
    return sheets


def write(
    chance: np.random.Generator, pen: ImageDraw.ImageDraw, writing: Writing, box: tuple[int, int, int, int]
) -> None:
    """The lines below each other, each as large as fits; lines that cannot be read are rows of faint dabs."""
    left, top, right, bottom = box
    rows = len(writing.lines) + writing.unreadable
    step = (bottom - top) / max(1, rows)
    for place, line in enumerate(writing.lines):
        write_line(pen, line, (left, top + place * step, right, top + (place + 0.84) * step))
    for place in range(len(writing.lines), rows):
        x, y = left, top + (place + 0.4) * step
        while x < right - 40:
            wide = chance.uniform(6, 26)
            if chance.random() < 0.8:
                pen.ellipse((x, y - step * 0.2, x + wide, y + step * 0.2), fill=int(chance.uniform(20, 90)))
            x += wide + 8


def write_line(pen: ImageDraw.ImageDraw, line: str, box: tuple[float, float, float, float]) -> None:
    left, top, right, bottom = box
    if "[bar code]" in line:
        bars(pen, line.replace("[bar code]", "").strip(), box)
        return
    size = (bottom - top) * 0.92
    font = ImageFont.load_default(size)
    wide = pen.textlength(line, font=font)
    if wide > right - left:
        font = ImageFont.load_default(size * (right - left) / wide)
        wide = right - left
    pen.text(((left + right) / 2, (top + bottom) / 2), line, font=font, fill=255, anchor="mm", stroke_width=1)


def bars(pen: ImageDraw.ImageDraw, number: str, box: tuple[float, float, float, float]) -> None:
    """Bars whose widths follow the figures, and the number below; no code of any standard."""
    left, top, right, bottom = box
    x = left + 20
    for figure in (number or "0") * 8:
        wide = 3 + int(figure) % 4 * 2 if figure.isdigit() else 4
        if x + wide > right - 20:
            break
        pen.rectangle((x, top, x + wide, top + (bottom - top) * 0.6), fill=255)
        x += wide + 5 + int(figure) % 3 * 2 if figure.isdigit() else wide + 6
    write_line(pen, number, (left, top + (bottom - top) * 0.64, right, bottom + 6))


def stamp(chance: np.random.Generator, writing: Writing, mark: str) -> Array:
    """Ink on cloth, from 0 to 1: bled at its edges, missing in patches."""
    sheet = Image.new("L", (SIZE[0] * FINER, SIZE[1] * FINER))
    pen = ImageDraw.Draw(sheet)
    x, y = SIZE[0] * FINER / 2, SIZE[1] * FINER / 2
    if mark in ("wheel", "wave", "woven_in"):
        property_mark(pen, mark, x, y)
    else:
        write(chance, pen, writing, (round(x - 480), round(y - 210), round(x + 480), round(y + 210)))
        pen.rounded_rectangle((x - 540, y - 260, x + 540, y + 250), 40, outline=255, width=10)
    turned = sheet.rotate(chance.normal(0, 4), Image.Resampling.BILINEAR)
    ink = np.asarray(bent(chance, turned).filter(ImageFilter.GaussianBlur(1.4)), np.float32) / 255
    return ink * np.clip(0.75 + 0.4 * soft(chance, SIZE, 40) + 0.25 * soft(chance, SIZE, 5), 0.1, 1)


def property_mark(pen: ImageDraw.ImageDraw, mark: str, x: float, y: float) -> None:
    """The wheel of eight spokes, or the letters over a wave, of the invented service."""
    if mark == "wheel":
        for radius in (250, 205, 50):
            pen.ellipse((x - radius, y - radius, x + radius, y + radius), outline=255, width=16)
        for spoke in range(8):
            way = np.array((np.cos(spoke * np.pi / 4), np.sin(spoke * np.pi / 4)))
            pen.line([*(way * 50 + (x, y)), *(way * 205 + (x, y))], fill=255, width=14)
        return
    pen.text((x, y - 60), "SF", font=ImageFont.load_default(330), fill=255, anchor="mm", stroke_width=4)
    for below in (150, 195):
        across = np.linspace(-300, 300, 60)
        wave = [(x + a, y + below + 24 * np.sin(a / 48)) for a in across]
        pen.line(wave, fill=255, width=16, joint="curve")


def trace(chance: np.random.Generator, writing: Writing) -> Array:
    """Where a label was cut out: the holes of its needle in a rectangle, and a little of the press of its edge."""
    found = np.zeros((SIZE[1], SIZE[0]), np.float32)
    if not writing.cut_out:
        return found
    left, top, right, bottom = box_for(chance, Writing(("x" * 14,) * 3))
    for x in range(left, right, 13):
        found[[top, bottom], x : x + 3] -= 6
    for y in range(top, bottom, 13):
        found[y : y + 3, left] -= 6
        found[y : y + 3, right] -= 6
    inside = np.zeros_like(found)
    inside[top:bottom, left:right] = 1
    return softened(found) + blurred(inside, 6) * 2.5


def bent(chance: np.random.Generator, sheet: Image.Image) -> Image.Image:
    """The finer sheet as it lies on cloth: turned a little and waved, in the size of the picture."""
    wide, high = sheet.size
    turn, waves = chance.normal(0, 0.035), chance.normal(0, 9, 4)
    steps = 8

    def source(column: int, row: int) -> tuple[float, float]:
        x, y = column / steps * wide, row / steps * high
        dx, dy = x - wide / 2, y - high / 2
        away = waves[0] * np.sin(y / 260 + waves[2]) - turn * dy
        down = waves[1] * np.sin(x / 300 + waves[3]) + turn * dx
        return x + away, y + down

    columns = [round(n * SIZE[0] / steps) for n in range(steps + 1)]
    rows = [round(n * SIZE[1] / steps) for n in range(steps + 1)]
    mesh = [
        (
            (columns[c], rows[r], columns[c + 1], rows[r + 1]),
            (*source(c, r), *source(c, r + 1), *source(c + 1, r + 1), *source(c + 1, r)),
        )
        for c in range(steps)
        for r in range(steps)
    ]
    return sheet.filter(ImageFilter.BoxBlur(0.7)).transform(SIZE, Image.Transform.MESH, mesh, Image.Resampling.BILINEAR)


def lit(colours: Array, hills: Array, setting: Setting, shine: Array | float = 0.0) -> Array:
    """Light from the piece's own side, on what lies near."""
    near = Setting(setting.light, setting.height, setting.condition, True, 3.0)
    light, glint = brightness(hills, near)
    return colours * light[:, :, None] + 130 * (glint * shine)[:, :, None]
