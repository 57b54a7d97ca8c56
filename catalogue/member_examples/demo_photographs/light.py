"""Light from one side on a relief of cloth, and the shadow that it throws."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from catalogue.member_examples.demo_photographs.cloths import BUTTONS, base_colour, cloth_colours, wear, weave
from catalogue.member_examples.demo_photographs.noise import Array, blurred, creased, soft, softened
from catalogue.member_examples.demo_photographs.relief import Relief

METAL_COLOUR = np.array((150, 148, 140), np.float32)
DARK_COLOUR = np.array((44, 44, 42), np.float32)


@dataclass(frozen=True)
class Setting:
    """What is settled once for a picture: the light's way over it (a unit vector) and how high it stands (0 to 1)."""

    light: tuple[float, float]
    height: float
    condition: str
    inside: bool
    scale: float


def hills_of(chance: np.random.Generator, relief: Relief, states: Mapping[str, str], setting: Setting) -> Array:
    """How high each point of the cloth lies, in pixels: thickness, rolled edges, seams, folds, creases."""
    size = relief.level.shape[1], relief.level.shape[0]
    scale, unit = setting.scale, size[0] / 1000
    stiff = {"light": 1.35, "heavy": 0.7}.get(states.get("hand", ""), 1.0)
    crumpled = {"unissued": 0.55, "very good": 0.75, "worn": 1.2, "poor": 1.35}.get(setting.condition, 1.0) * stiff
    thick = softened(relief.level, 2) * 1.1 * scale
    rolled = blurred(relief.covered, 5 * scale) * 3.2 * scale + blurred(relief.covered, 24 * scale) * 9 * scale
    seams = -0.9 * softened(relief.seam) + 0.9 * blurred(relief.seam, 3.2 * scale) * scale
    rows = -0.35 * softened(relief.stitch)
    near_seam = np.clip(blurred(relief.seam + 0.8 * relief.stitch, 5 * scale) * 3, 0, 1)
    puckers = near_seam * soft(chance, size, 3.4 * scale) * 0.4 * scale
    folds = (blurred(relief.fold, 5 * scale) * 5 * scale + blurred(relief.fold, 2.2 * scale) * 1.2 * scale) * crumpled
    large = soft(chance, size, 170 * unit) * 9 * unit + soft(chance, size, 70 * unit, 120 * unit) * 3.6 * unit
    sharp = creased(chance, size, 46, 420 * unit, lean=1) * 7 * unit + creased(chance, size, 80, 170 * unit) * 3.5 * unit
    small = soft(chance, size, 30 * unit) * 0.7 * unit
    pressed = pressing(chance, size, setting.condition) * 2.2 * unit
    return thick + rolled + seams + rows + puckers + folds + (large + sharp + small) * crumpled + pressed


def pressing(chance: np.random.Generator, size: tuple[int, int], condition: str) -> Array:
    """The lines of a piece that lay folded on a shelf."""
    strength = {"unissued": 1.5, "very good": 0.9, "good": 0.4}.get(condition, 0.1)
    width, height = size
    rows, columns = np.arange(height, dtype=np.float32)[:, None], np.arange(width, dtype=np.float32)[None, :]
    found = np.zeros((height, width), np.float32)
    for share in (0.36, 0.62):
        at = height * (share + chance.normal(0, 0.02))
        found += np.exp(-np.abs(rows - at - columns * chance.normal(0, 0.015)) / 4) * strength
    at = width * (0.5 + chance.normal(0, 0.015))
    return found + np.exp(-np.abs(columns - at - rows * chance.normal(0, 0.015)) / 4) * strength * 0.7


def brightness(hills: Array, setting: Setting) -> tuple[Array, Array]:
    """Light on each point, about 1 on what lies flat; and what a wet or smooth cloth throws back, 0 to 1."""
    down, across = np.gradient(hills)
    x, y = setting.light
    high = setting.height
    length = np.sqrt(across * across + down * down + 1)
    falls = (-(across * x + down * y) * np.sqrt(1 - high * high) + high) / length
    hollow = np.clip((blurred(hills, 10 * setting.scale) - hills) * 0.022, -0.08, 0.2)
    lit = 0.42 + 0.58 * np.clip(falls, 0, None) / high - hollow
    return lit, np.clip((falls - high) / (1 - high), 0, 1) ** 3


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
    lit = lit * (1 - 0.42 * thrown_by_parts(relief.level, setting)) - 0.16 * softened(relief.seam)
    colours = cloth_colours(states, where, relief.level, float(chance.uniform(0, 200)))
    tone = 1 + chance.normal(0, 0.045) + chance.normal(0, 0.012, 3).astype(np.float32)
    if setting.inside:  # the back of a print is pale, and dyed cloth has not faded there
        colours = colours * 0.55 + base_colour(states) * 0.3 + 34
    pieces = 1 + 0.02 * np.sin(np.floor(relief.level + 0.5) * 2.4)  # no two pieces are cut from one place
    cloth = colours * tone * (weave(chance, states, size, setting.scale) * pieces)[:, :, None]
    faded = wear(chance, setting.condition, hills / (4 * setting.scale), relief.covered)[:, :, None]
    cloth = cloth + (np.array((206, 202, 190), np.float32) - cloth) * np.clip(faded, 0, 0.5)
    thread = relief.stitch[:, :, None] * 0.34
    cloth = cloth * (1 - thread) + (cloth * 0.55 + 70) * thread
    for name, colour in (
        ("button", np.array(BUTTONS.get(states.get("button_material", ""), BUTTONS["urea"]), np.float32)),
        ("metal", METAL_COLOUR),
        ("dark", DARK_COLOUR),
    ):
        share = relief.made_of[name][:, :, None]
        cloth = cloth * (1 - share) + colour * share
    shine = glint * (0.5 if states.get("weave") == "coated" else 0.07) + glint * relief.made_of["metal"]
    return cloth * lit[:, :, None] + 150 * shine[:, :, None]
