"""What a camera makes of a scene: a little aslant, darker at the corners, grain; and the words that it is drawn."""

from io import BytesIO

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from catalogue.member_examples.demo_photographs.noise import Array, grained

WORDS = "drawn, not photographed"
# Lights roll off softly, darks keep a little of the air's light.
LIGHT = np.arange(512, dtype=np.float32)
FILM = (np.where(LIGHT > 190, 190 + 62 * np.tanh((LIGHT - 190) / 62), LIGHT) * 0.975 + 5).astype(np.uint8)


def photographed(chance: np.random.Generator, scene: Array, *, steady: float = 1.0) -> bytes:
    """A JPEG of the scene as a camera gives it. `steady`: how much it may be held aslant, 0 to 1."""
    height, width, _ = scene.shape
    x = np.linspace(-1, 1, width, dtype=np.float32)[None, :]
    y = np.linspace(-1, 1, height, dtype=np.float32)[:, None]
    way = chance.normal(0, 0.05, 2).astype(np.float32)
    fall = (1 - 0.13 * (x * x + y * y) + way[0] * x + way[1] * y) * np.float32(1 + chance.normal(0.02, 0.05))
    warmth = (1 + np.array((1, 0.1, -1)) * chance.normal(0.012, 0.028)).astype(np.float32)
    seen = scene * fall[:, :, None]
    seen *= warmth
    seen += grained(chance, (width, height))[:, :, None] * 0.9
    picture = Image.fromarray(FILM[np.clip(seen, 0, len(FILM) - 1, out=seen).astype(np.uint16)])
    picture = aslant(chance, picture, 0.018 * steady)
    caption(picture)
    file = BytesIO()
    picture.save(file, "JPEG", quality=88)
    return file.getvalue()


def lay_rule(scene: Array, near: float) -> None:
    """A rule of steel along the lower edge, in centimetres. `near`: pixels to a centimetre."""
    height, width, _ = scene.shape
    strip = Image.new("L", (width, 74), 186)
    pen = ImageDraw.Draw(strip)
    font = ImageFont.load_default(19)
    for tick in range(int(width / near * 10) + 1):
        x, place = 14 + tick * near / 10, tick % 10
        if place == 0 or near >= 30 or (place == 5 and near >= 12):
            pen.line((x, 0, x, 26 if place == 0 else 18 if place == 5 else 11), fill=40)
        if place == 0 and (near >= 24 or tick % 100 == 0):
            pen.text((x + 3, 28), str(tick // 10), font=font, fill=44)
    top = height - 118
    steel = np.asarray(strip, np.float32) * (1 + 0.10 * np.sin(np.linspace(0, 5, width, dtype=np.float32)))[None, :]
    scene[top : top + 74] = steel[:, :, None] * np.array((1, 1, 0.98), np.float32)
    scene[top + 74 : top + 80] *= 0.62  # its shadow


def aslant(chance: np.random.Generator, picture: Image.Image, most: float) -> Image.Image:
    """Seen from not quite above: each corner moved inwards by its own share of the picture."""
    width, height = picture.size
    inwards = np.abs(chance.normal(0, most, (4, 2))) * (width, height)
    ways = np.array(((1, 1), (1, -1), (-1, -1), (-1, 1)))
    corners = np.array(((0, 0), (0, height), (width, height), (width, 0))) + ways * inwards
    quad = [float(value) for value in corners.ravel()]
    return picture.transform(picture.size, Image.Transform.QUAD, quad, Image.Resampling.BILINEAR)


def caption(picture: Image.Image) -> None:
    """Says in the picture that it is drawn; light on a dark strip, so that it is read on any ground."""
    font = ImageFont.load_default(max(11, picture.width // 58))
    pen = ImageDraw.Draw(picture, "RGBA")
    left, top, right, bottom = pen.textbbox((0, 0), WORDS, font=font)
    x, y = picture.width - (right - left) - 12, picture.height - (bottom - top) - 13
    pen.rectangle((x - 6, y - 2, picture.width, picture.height), fill=(20, 20, 20, 150))
    pen.text((x, y - top + 2), WORDS, font=font, fill=(255, 255, 255, 235))
