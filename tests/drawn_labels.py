"""Photographs of labels, drawn: invented texts in plain print, and woven, stamped, creased and worn, as cloth has them.

They show what a reader of letters makes of the difficulties one by one; what it makes of true labels only true
photographs would show.
"""

import random
from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO

import numpy as np
from PIL import Image, ImageDraw, ImageFilter, ImageFont

WIDTH, HEIGHT = 1200, 900
TYPES = ["SMOCK, WINTER", "BLOUSE, WORKING", "CAP, HILL", "COAT, STRAND", "TROUSERS, WORKING", "LINER, COAT"]
MAKERS = ["DUNSALLOW", "PELLOCK & SONS", "GARNWICK MILLS", "NORTHQUAY"]
FIBRES = ["100% COTTON", "65% POLYESTER 35% COTTON", "WOOL 80% NYLON 20%"]


@dataclass(frozen=True)
class Drawn:
    """A label as it would be typed, its stock number, and a photograph of it."""

    text: str
    number: str
    picture: Image.Image


def encoded(picture: Image.Image) -> bytes:
    """As the site would hand it to the reader."""
    file = BytesIO()
    picture.save(file, "WEBP", quality=75)
    return file.getvalue()


def label_lines(generator: random.Random) -> tuple[list[str], str]:
    stores = f"27-{generator.randint(101, 140)}-{generator.randint(1, 14):02}"
    number = generator.choice([stores, f"C/{generator.randint(11, 40)}/{generator.randint(55, 70)}"])
    maker, year = generator.choice(MAKERS), generator.randint(1958, 2006)
    size = f"SIZE {generator.choice([150, 160, 170, 180])}/{generator.choice([74, 84, 94, 104])}"
    return [generator.choice(TYPES), number, size, f"{maker} {year}", generator.choice(FIBRES)], number


def mask_of(lines: list[str], width: int = WIDTH, height: int = HEIGHT) -> np.ndarray:
    """Ink, 0 to 1, of the lines in the middle of a picture."""
    image = Image.new("L", (width, height))
    draw = ImageDraw.Draw(image)
    font = ImageFont.load_default(height / 14)
    step = height / 9
    for place, line in enumerate(lines):
        across = (width - draw.textlength(line, font=font)) / 2
        draw.text((across, height / 2 + (place - len(lines) / 2) * step), line, fill=255, font=font)
    return np.asarray(image, dtype=float) / 255


def smooth_noise(noise: np.random.Generator, cell: int, shape: tuple[int, int] = (HEIGHT, WIDTH)) -> np.ndarray:
    """Noise of 0 to 1 in patches of so many pixels."""
    small = noise.random((shape[0] // cell + 2, shape[1] // cell + 2)) * 255
    image = Image.fromarray(small.astype(np.uint8)).resize((shape[1], shape[0]), Image.Resampling.BICUBIC)
    return np.asarray(image, dtype=float) / 255


def printed(
    ink: np.ndarray, noise: np.random.Generator, *, ink_colour=(40, 40, 60), cloth=(226, 220, 204)
) -> np.ndarray:
    """Ink on cloth with a little weave and uneven light; 0 to 255, three colours."""
    y, x = np.mgrid[:HEIGHT, :WIDTH]
    weave = 1 + 0.03 * np.sin(x * 1.3) * np.sin(y * 1.3) + 0.02 * noise.standard_normal((HEIGHT, WIDTH))
    light = 0.85 + 0.2 * smooth_noise(noise, 300)
    ground = np.array(cloth)[None, None] * (weave * light)[..., None]
    return ground + (np.array(ink_colour) - ground) * ink[..., None]


def as_picture(pixels: np.ndarray) -> Image.Image:
    return Image.fromarray(pixels.clip(0, 255).astype(np.uint8))


def plain(lines: list[str], noise: np.random.Generator) -> Image.Image:
    return as_picture(printed(mask_of(lines), noise))


def turned(lines: list[str], noise: np.random.Generator) -> Image.Image:
    angle = float(noise.uniform(5, 12)) * (1 if noise.random() < 0.5 else -1)
    return plain(lines, noise).rotate(angle, Image.Resampling.BICUBIC, fillcolor=(150, 140, 120))


def on_its_side(lines: list[str], noise: np.random.Generator) -> Image.Image:
    return plain(lines, noise).transpose(Image.Transpose.ROTATE_90)


def blurred(lines: list[str], noise: np.random.Generator) -> Image.Image:
    return plain(lines, noise).filter(ImageFilter.GaussianBlur(4))


def woven(lines: list[str], noise: np.random.Generator) -> Image.Image:
    """Letters out of threads: of 5 pixels each, in rows that alternate."""
    thread = 5
    coarse = mask_of(lines, WIDTH // thread, HEIGHT // thread) > 0.45
    ink = np.kron(coarse, np.ones((thread, thread)))[:HEIGHT, :WIDTH].astype(float)
    y, x = np.mgrid[:HEIGHT, :WIDTH]
    ribs = 0.72 + 0.28 * np.sin(np.pi * (y % thread + 0.5) / thread) * (0.8 + 0.2 * ((x // thread + y // thread) % 2))
    pixels = printed(ink * 0.85, noise, ink_colour=(150, 40, 40), cloth=(225, 220, 210)) * ribs[..., None]
    return as_picture(pixels).filter(ImageFilter.GaussianBlur(1.2))


def stamped(lines: list[str], noise: np.random.Generator) -> Image.Image:
    """A rubber stamp on dark twill: ink that took in patches and ran a little."""
    ink = np.asarray(Image.fromarray((mask_of(lines) * 255).astype(np.uint8)).filter(ImageFilter.GaussianBlur(2.5)))
    took = (smooth_noise(noise, 40) > 0.3) * (0.35 + 0.5 * smooth_noise(noise, 120))
    y, x = np.mgrid[:HEIGHT, :WIDTH]
    twill = 1 + 0.12 * np.sin((x + y) * 0.7)
    pixels = printed((ink / 255.0) * took, noise, ink_colour=(30, 25, 50), cloth=(150, 145, 110)) * twill[..., None]
    return as_picture(pixels).filter(ImageFilter.GaussianBlur(1))


def creased(lines: list[str], noise: np.random.Generator) -> Image.Image:
    """Folds that shift the letters and throw shadows."""
    y, x = np.mgrid[:HEIGHT, :WIDTH].astype(float)
    shift_y, shade = np.zeros_like(x), np.ones_like(x)
    for _ in range(4):
        angle, at = noise.uniform(0, np.pi), noise.uniform(-300, 300)
        along = (x - WIDTH / 2) * np.cos(angle) + (y - HEIGHT / 2) * np.sin(angle) - at
        shift_y += 14 * np.tanh(along / 25)
        shade *= 1 - 0.45 * np.exp(-((along / 18) ** 2))
    pixels = printed(mask_of(lines), noise)
    rows = (y + shift_y).clip(0, HEIGHT - 1).astype(int)
    return as_picture(pixels[rows, x.astype(int)] * shade[..., None])


def worn(lines: list[str], noise: np.random.Generator) -> Image.Image:
    """Print that is washed to a fifth of its depth, with patches rubbed off."""
    left = (smooth_noise(noise, 30) > 0.35) * 0.22
    return as_picture(printed(mask_of(lines) * left, noise)).filter(ImageFilter.GaussianBlur(1.2))


KINDS: dict[str, Callable[[list[str], np.random.Generator], Image.Image]] = {
    "plain print": plain,
    "turned 5 to 12 degrees": turned,
    "on its side": on_its_side,
    "out of focus": blurred,
    "woven": woven,
    "stamped": stamped,
    "creased": creased,
    "worn": worn,
}


def drawn_label(kind: str, seed: int) -> Drawn:
    lines, number = label_lines(random.Random(seed))
    return Drawn("\n".join(lines), number, KINDS[kind](lines, np.random.default_rng(seed)))


def nothing_on_it() -> Image.Image:
    """A photograph of cloth without a letter."""
    return as_picture(printed(np.zeros((HEIGHT, WIDTH)), np.random.default_rng(1)))


def a_cat() -> Image.Image:
    """A drawn cat on a rug, striped and whiskered."""
    image = nothing_on_it()
    draw = ImageDraw.Draw(image)
    fur, dark = (140, 105, 70), (60, 45, 30)
    draw.ellipse((350, 420, 950, 860), fill=fur)
    draw.ellipse((470, 180, 830, 520), fill=fur)
    for left in (480, 720):
        draw.polygon([(left, 260), (left + 45, 90), (left + 110, 220)], fill=fur, outline=dark)
    for x in range(420, 900, 60):
        draw.line([(x, 560), (x + 30, 820)], fill=dark, width=14)
    for eye in (580, 690):
        draw.ellipse((eye, 310, eye + 44, 350), fill=(200, 210, 90), outline=dark)
        draw.ellipse((eye + 16, 312, eye + 28, 348), fill=dark)
    draw.polygon([(632, 400), (678, 400), (655, 425)], fill=(210, 130, 130))
    for y in (395, 415, 435):
        draw.line([(440, y - 20), (610, y)], fill=dark, width=3)
        draw.line([(700, y), (870, y - 20)], fill=dark, width=3)
    return image.filter(ImageFilter.GaussianBlur(2))
