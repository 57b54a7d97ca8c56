"""What a camera makes of a scene: a little aslant, darker towards the corners, grain; and the words that it is drawn."""

from io import BytesIO

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from catalogue.member_examples.demo_photographs.noise import Array

WORDS = "drawn, not photographed"


def photographed(chance: np.random.Generator, scene: Array, *, steady: float = 1.0) -> bytes:
    """A JPEG of the scene as a camera gives it. `steady`: how much it may be held aslant, 0 to 1."""
    height, width, _ = scene.shape
    x = np.linspace(-1, 1, width, dtype=np.float32)[None, :]
    y = np.linspace(-1, 1, height, dtype=np.float32)[:, None]
    way = chance.normal(0, 0.05, 2)
    fall = (1 - 0.13 * (x * x + y * y) + way[0] * x + way[1] * y).astype(np.float32)
    warmth = (1 + np.array((1, 0.1, -1)) * chance.normal(0.012, 0.028)).astype(np.float32)
    exposure = np.float32(1 + chance.normal(0.02, 0.05))
    seen = scene * (fall * exposure)[:, :, None] * warmth
    seen += chance.normal(0, 1.5, (height, width, 1)).astype(np.float32)
    picture = Image.fromarray(np.clip(film(seen), 0, 255).astype(np.uint8))
    picture = aslant(chance, picture, 0.018 * steady)
    caption(picture)
    file = BytesIO()
    picture.save(file, "JPEG", quality=88)
    return file.getvalue()


def film(light: Array) -> Array:
    """Lights roll off softly, darks keep a little of the air's light."""
    return np.where(light > 190, 190 + 62 * np.tanh((light - 190) / 62), light) * 0.975 + 5


def aslant(chance: np.random.Generator, picture: Image.Image, most: float) -> Image.Image:
    """Seen from not quite above: each corner moved inwards by its own share of the picture."""
    width, height = picture.size
    inwards = np.abs(chance.normal(0, most, (4, 2))) * (width, height)
    ways = np.array(((1, 1), (1, -1), (-1, -1), (-1, 1)))
    corners = np.array(((0, 0), (0, height), (width, height), (width, 0))) + ways * inwards
    quad = [float(value) for value in corners.ravel()]
    return picture.transform(picture.size, Image.Transform.QUAD, quad, Image.Resampling.BICUBIC)


def caption(picture: Image.Image) -> None:
    """Says in the picture that it is drawn; light on a dark strip, so that it is read on any ground."""
    font = ImageFont.load_default(max(11, picture.width // 58))
    pen = ImageDraw.Draw(picture, "RGBA")
    left, top, right, bottom = pen.textbbox((0, 0), WORDS, font=font)
    x, y = picture.width - (right - left) - 12, picture.height - (bottom - top) - 13
    pen.rectangle((x - 6, y - 2, picture.width, picture.height), fill=(20, 20, 20, 150))
    pen.text((x, y - top + 2), WORDS, font=font, fill=(255, 255, 255, 235))
