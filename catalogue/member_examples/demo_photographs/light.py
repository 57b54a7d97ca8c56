"""Light from one side on a relief of cloth, and the shadow that it throws."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from PIL import Image

from catalogue.member_examples.demo_photographs.cloths import BUTTONS, base_colour, cloth_colours, wear, weave
from catalogue.member_examples.demo_photographs.noise import Array, blurred, creased, soft, softened, stretched
from catalogue.member_examples.demo_photographs.relief import Relief

METAL_COLOUR = np.array((150, 148, 140), np.float32)
FADED = np.array((206, 202, 190), np.float32)
THREAD_COLOUR = np.array((158, 151, 122), np.float32)
DARK_COLOUR = np.array((44, 44, 42), np.float32)


@dataclass(frozen=True)
class Setting:
    """What is settled once for a picture: the light's way over it (a unit vector) and how high it stands (0 to 1).

    `scale`: pixels to a unit of the drawing; `near`: to a centimetre.
    """

    light: tuple[float, float]
    height: float
    condition: str
    inside: bool
    scale: float
    near: float = 8.0


def hills_of(chance: np.random.Generator, relief: Relief, states: Mapping[str, str], setting: Setting) -> Array:
    """How high each point of the cloth lies, in pixels: thickness, seams, rows of stitches, and the soft rest."""
    soft_rest = softly_lying(chance, relief, states, setting)
    thick = softened(relief.level, 2) * (1.1 * setting.scale)
    return soft_rest + thick - 0.9 * softened(relief.seam) - 0.35 * softened(relief.stitch)


def softly_lying(chance: np.random.Generator, relief: Relief, states: Mapping[str, str], setting: Setting) -> Array:
    """Rolled edges, puckered seams, folds, creases: nothing sharp, so it is worked out on a picture half as large."""
    covered, seam, stitch, fold = (halved(one) for one in (relief.covered, relief.seam, relief.stitch, relief.fold))
    size = covered.shape[1], covered.shape[0]
    scale, unit = setting.scale, max(size) * 2 / 1000
    near = scale / 2  # of the smaller picture
    stiff = {"light": 1.35, "heavy": 0.7}.get(states.get("hand", ""), 1.0)
    crumpled = {"unissued": 0.55, "very good": 0.75, "worn": 1.2, "poor": 1.35}.get(setting.condition, 1.0) * stiff
    rolled = blurred(covered, 5 * near) * 3.2 * scale + blurred(covered, 24 * near) * 9 * scale
    seams = 0.9 * blurred(seam, 3.2 * near) * scale
    near_seam = np.clip(blurred(seam + 0.8 * stitch, 5 * near) * 3, 0, 1)
    puckers = near_seam * soft(chance, size, 3.6 * near) * 0.27 * scale
    folds = (blurred(fold, 5 * near) * 5 + blurred(fold, 2.2 * near) * 1.2) * scale * crumpled
    large = soft(chance, size, 85 * unit) * 9 + soft(chance, size, 35 * unit, 60 * unit) * 3.6
    sharp = creased(chance, size, 46, 210 * unit, lean=1) * 7 + creased(chance, size, 80, 85 * unit) * 3.5
    small = soft(chance, size, 15 * unit) * 0.7
    pressed = pressing(chance, size, setting.condition) * (1.8 if setting.near < 16 else 0)
    hills = rolled + seams + puckers + folds + ((large + sharp + small) * crumpled + pressed) * unit
    return stretched(hills.astype(np.float32), (relief.level.shape[1], relief.level.shape[0]))


def halved(field: Array) -> Array:
    return np.asarray(Image.fromarray(field).reduce(2))


def pressing(chance: np.random.Generator, size: tuple[int, int], condition: str) -> Array:
    """The lines of a piece that lay folded on a shelf."""
    strength = {"unissued": 1.5, "very good": 0.9, "good": 0.4}.get(condition, 0.1)
    width, height = size
    rows, columns = np.arange(height, dtype=np.float32)[:, None], np.arange(width, dtype=np.float32)[None, :]
    found = np.zeros((height, width), np.float32)
    for share in ((0.5,), (0.36, 0.64), (0.4,), (0.3, 0.55))[int(chance.integers(4))]:
        at = height * (share + chance.normal(0, 0.03))
        found += np.exp(-np.abs(rows - at - columns * chance.normal(0, 0.02)) / 4) * strength * chance.uniform(0.4, 1)
    at = width * (0.5 + chance.normal(0, 0.02))
    return found + np.exp(-np.abs(columns - at - rows * chance.normal(0, 0.02)) / 4) * strength * 0.6


def brightness(hills: Array, setting: Setting) -> tuple[Array, Array]:
    """Light on each point, about 1 on what lies flat; and what a wet or smooth cloth throws back, 0 to 1."""
    down, across = slopes(hills)
    x, y = setting.light
    high = setting.height
    length = np.sqrt(across * across + down * down + 1)
    falls = (-(across * x + down * y) * np.sqrt(1 - high * high) + high) / length
    hollow = np.clip((blurred(hills, 10 * setting.scale) - hills) * 0.022, -0.08, 0.2)
    lit = 0.42 + 0.58 * np.clip(falls, 0, None) / high - hollow
    return lit, np.clip((falls - high) * (1 / (1 - high)), 0, 1) ** 3


def slopes(hills: Array) -> tuple[Array, Array]:
    """How much higher it is a pixel further down, and a pixel further across."""
    down, across = np.zeros_like(hills), np.zeros_like(hills)
    np.subtract(hills[2:], hills[:-2], out=down[1:-1])
    np.subtract(hills[:, 2:], hills[:, :-2], out=across[:, 1:-1])
    down *= 0.5
    across *= 0.5
    return down, across


def thrown_by_parts(level: Array, setting: Setting) -> Array:
    """Shadow of a flap on what lies below it, 0 to 1."""
    reach = max(1, round(1.4 * setting.scale))
    x, y = setting.light
    moved = np.roll(level, (round(-y * reach), round(-x * reach)), (0, 1))
    return softened(np.clip(moved - level, 0, 1), 2)


def on_ground(ground: Array, covered: Array, setting: Setting) -> Array:
    """The ground with the piece's shadow on it."""
    x, y = setting.light
    far = 7 * setting.scale
    moved = np.roll(covered, (round(-y * far), round(-x * far)), (0, 1))
    shade = 0.48 * blurred(moved, 7 * setting.scale) + 0.22 * blurred(covered, 26 * setting.scale)
    return ground * (1 - np.clip(shade, 0, 0.66))[:, :, None]


def lit_piece(
    chance: np.random.Generator, relief: Relief, states: Mapping[str, str], where: tuple[Array, Array], setting: Setting
) -> Array:
    """The piece in colour, (h, w, 3), also where the ground shows."""
    size = relief.level.shape[1], relief.level.shape[0]
    hills = hills_of(chance, relief, states, setting)
    lit, glint = brightness(hills, setting)
    lit *= 1 - 0.42 * thrown_by_parts(relief.level, setting)
    lit -= 0.16 * softened(relief.seam)
    cloth = cloth_colours(states, where, relief.level, float(chance.uniform(0, 200))).astype(np.float32)
    if setting.inside:  # the back of a print is pale, and dyed cloth has not faded there
        cloth = cloth * 0.55 + (base_colour(states) * 0.3 + 34)
    tone = (1 + chance.normal(0, 0.045) + chance.normal(0, 0.012, 3)).astype(np.float32)
    pieces = 1 + 0.02 * np.sin(np.floor(relief.level + 0.5) * 2.4)  # no two pieces are cut from one place
    threads = weave(chance, states, size, setting.scale, setting.near) * pieces + 0.12 * relief.stitch
    cloth *= tone
    cloth *= threads[:, :, None]
    faded = np.clip(wear(chance, setting.condition, hills / (4 * setting.scale), relief.covered), 0, 0.5)
    if faded.any():
        cloth += (FADED - cloth) * faded[:, :, None]
    for name, colour in (
        ("button", np.array(BUTTONS.get(states.get("button_material", ""), BUTTONS["urea"]), np.float32)),
        ("thread", THREAD_COLOUR),
        ("metal", METAL_COLOUR),
        ("dark", DARK_COLOUR),
    ):
        if name not in relief.made_of:
            continue
        at = relief.made_of[name] > 0
        share = relief.made_of[name][at][:, None]
        cloth[at] = cloth[at] * (1 - share) + colour * share
    cloth *= lit[:, :, None]
    shine = glint * ((0.5 if states.get("weave") == "coated" else 0.07) + relief.made_of.get("metal", 0))
    cloth += 150 * shine[:, :, None]
    return cloth
