"""A part that is hidden cannot be read again, in any size; all else stays as it was."""

from io import BytesIO

import numpy as np
import pytest
from PIL import Image, ImageDraw, ImageFont

from catalogue.member_examples.photographs.hiding import NOISE, Area
from catalogue.member_examples.photographs.intake import hidden, take_in
from catalogue.member_examples.photographs.limits import SIZES
from tests.catalogue.member_examples.photographs.pictures import chunks_of, drawn_scene, file_of

NAME = Area(0.25, 0.4, 0.5, 0.1)


def label(words: str) -> bytes:
    """A label with a name on it, as it is stored."""
    image = drawn_scene(3, 1600, 1200)
    ImageDraw.Draw(image).text((410, 485), words, font=ImageFont.load_default(90), fill="black")
    return take_in(file_of(image, quality=92)).sizes[1600]


def pixels(data: bytes, area: Area | None = None) -> np.ndarray:
    image = Image.open(BytesIO(data)).convert("RGB")
    return np.asarray(image.crop(area.in_pixels(*image.size)) if area else image, dtype=float)


def test_every_size_is_blurred_there_and_nowhere_else():
    before = label("R. Plover 114")

    after = hidden(before, [NAME])

    assert [Image.open(BytesIO(after.sizes[longer])).size for longer in SIZES] == [(1600, 1200), (800, 600), (320, 240)]
    assert chunks_of(after.sizes[1600]) == [b"VP8 "]
    outside = np.abs(pixels(before) - pixels(after.sizes[1600]))
    left, top, right, bottom = NAME.in_pixels(1600, 1200)
    outside[top - 8 : bottom + 8, left - 8 : right + 8] = 0  # the blocks of the encoding reach over the edge
    assert outside.mean() < 2
    for longer in SIZES:
        rows = pixels(after.sizes[longer], NAME).mean(axis=2)[3:-3, 3:-3]
        assert np.abs(np.diff(rows, axis=0)).max() < 8  # no edge of any letter is left


def test_what_is_left_does_not_say_which_name_it_was():
    """Two names under the blur differ no more than the same name twice: the noise on each cell is as large."""

    def left_over(words: str) -> np.ndarray:
        return pixels(hidden(label(words), [NAME]).sizes[1600], NAME).mean(axis=(0, 1))

    same = np.abs(left_over("R. Plover 114") - left_over("R. Plover 114")).max()
    other = np.abs(left_over("R. Plover 114") - left_over("K. Dunlin 998")).max()
    assert max(same, other) <= 2 * NOISE + 6


def test_hiding_everything_leaves_four_smears():
    after = hidden(label("R. Plover 114"), [Area(-1, -1, 9, 9)])

    rows = pixels(after.sizes[1600]).mean(axis=2)
    assert np.abs(np.diff(rows, axis=0)).max() < 8


def test_two_places_are_hidden_at_once_and_the_hash_is_that_of_what_is_left():
    before = take_in(label("R. Plover 114"))

    after = hidden(before.sizes[1600], [Area(0, 0, 0.5, 1), Area(0.5, 0, 0.5, 1)])

    assert after.perceptual_hash != before.perceptual_hash
    assert (after.width, after.height) == (before.width, before.height)


@pytest.mark.parametrize(
    "numbers",
    [(0, 0, 0, 1), (0, 0, 1, -1), (1, 0, 1, 1), (-2, 0, 1, 1), (float("nan"), 0, 1, 1), (0, 0, float("nan"), 1)],
)
def test_an_area_without_any_of_the_picture_is_no_area(numbers):
    with pytest.raises(ValueError, match="Nothing of the picture"):
        Area(*numbers)


def test_an_area_reaches_every_pixel_that_it_touches():
    assert Area(0.1, 0.1, 0.1, 0.1).in_pixels(15, 15) == (1, 1, 3, 3)
    assert Area(-1, -1, 3, 3).in_pixels(15, 15) == (0, 0, 15, 15)
    assert Area(0.999, 0.999, 0.0001, 0.0001).in_pixels(15, 15) == (14, 14, 15, 15)
