"""Files as members send them: what the site makes of each, and what it says of those it refuses."""

import io
import os
import random
import re
import struct
import subprocess
import zipfile
import zlib
from pathlib import Path

import numpy as np
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, PngImagePlugin

from catalogue.member_examples.photographs.intake import Refused, TakenIn, shown_name, take_in, take_in_each
from tests.catalogue.member_examples.photographs.pictures import (
    CORNERS,
    SIDES_OF_ROW_AND_COLUMN,
    chunks_of,
    corners_of,
    drawn_scene,
    exif_with_place,
    file_of,
    four_corners,
    stored_as,
)

DATA = Path(__file__).resolve().parents[3] / "data" / "photographs"
HEIC = DATA / "four_corners.heic"


def size_of(data: bytes) -> tuple[int, int]:
    return Image.open(io.BytesIO(data)).size


def words_for(data: bytes, name: str = "smock.jpg") -> str:
    with pytest.raises(Refused) as refused:
        take_in(SimpleUploadedFile(name, data) if data else io.BytesIO(data))
    return str(refused.value)


def test_a_photograph_comes_out_in_three_sizes_of_its_own_shape():
    taken = take_in(file_of(drawn_scene(1, 800, 600).resize((4000, 3000)), quality=85))

    assert {longer: size_of(data) for longer, data in taken.sizes.items()} == {
        1600: (1600, 1200),
        800: (800, 600),
        320: (320, 240),
    }
    assert (taken.width, taken.height) == (1600, 1200)


def test_fine_lines_of_a_large_photograph_are_still_there_in_the_largest_size():
    """Lines of ten pixels in 4,000 are four in 1,600: a decode that throws away too much would leave grey."""
    rows = np.where(np.arange(3000) // 10 % 2, 230, 20).astype(np.uint8)
    striped = Image.fromarray(np.repeat(rows[:, None], 4000, axis=1)).convert("RGB")

    stored = np.asarray(Image.open(io.BytesIO(take_in(file_of(striped)).sizes[1600])).convert("L"), float)

    expected = np.where(np.arange(1200) // 4 % 2, 230, 20)
    assert np.corrcoef(stored.mean(axis=1), expected)[0, 1] > 0.95


def test_a_small_picture_is_never_enlarged():
    taken = take_in(file_of(four_corners(500, 700)))

    assert [size_of(data) for data in taken.sizes.values()] == [(500, 700), (500, 700), (229, 320)]
    assert (taken.width, taken.height) == (500, 700)


@pytest.mark.parametrize("size", [(6000, 40), (40, 6000), (1, 1), (1, 3000)])
def test_a_picture_of_an_odd_shape_keeps_at_least_one_pixel_each_way(size):
    taken = take_in(file_of(Image.new("RGB", size, CORNERS[0])))

    assert min(min(size_of(data)) for data in taken.sizes.values()) >= 1
    assert taken.width * size[1] == pytest.approx(taken.height * size[0], rel=0.1) or 1 in (taken.width, taken.height)


@pytest.mark.parametrize("orientation", SIDES_OF_ROW_AND_COLUMN)
def test_a_turned_photograph_is_upright_and_says_nothing_of_where_it_was_taken(orientation):
    stored = stored_as(four_corners(), orientation)

    taken = take_in(file_of(stored, exif=exif_with_place(orientation)))

    assert (taken.width, taken.height) == (400, 300)
    for data in taken.sizes.values():
        assert corners_of(data) == CORNERS
        assert chunks_of(data) == [b"VP8 "]
        assert b"Lovegarment" not in data


@pytest.mark.parametrize("orientation", [0, 9, 77])
def test_an_orientation_that_means_nothing_turns_nothing(orientation):
    taken = take_in(file_of(four_corners(), exif=exif_with_place(orientation)))

    assert corners_of(taken.sizes[1600]) == CORNERS


def test_a_broken_exif_block_costs_its_own_words_only():
    broken = b"Exif\0\0MM\0*\xff\xff\xff\xf0" + os.urandom(40)

    assert corners_of(take_in(file_of(four_corners(), exif=broken)).sizes[320]) == CORNERS


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_comments_xmp_coordinates_and_profile_go(kind):
    xmp = b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><secret>my house</secret></x:xmpmeta>'
    options = {"exif": exif_with_place(), "xmp": xmp}
    if kind == "JPEG":
        options["comment"] = b"my house"
    if kind == "PNG":
        options["pnginfo"] = PngImagePlugin.PngInfo()
        options["pnginfo"].add_text("Comment", "my house")
    sent = file_of(four_corners(), kind, **options)
    assert b"my house" in sent

    for data in take_in(sent).sizes.values():
        assert chunks_of(data) == [b"VP8 "]
        assert b"my house" not in data


def test_exiftool_finds_nothing_but_pixels_in_what_is_stored(tmp_path):
    """ExifTool by Phil Harvey reads every kind of metadata of a file."""
    try:
        subprocess.run(["exiftool", "-ver"], check=True, capture_output=True)
    except FileNotFoundError:
        pytest.skip("exiftool is not on this machine")
    sent, stored = tmp_path / "sent.jpg", tmp_path / "stored.webp"
    sent.write_bytes(file_of(four_corners(), exif=exif_with_place(6), comment=b"my house"))
    stored.write_bytes(take_in(sent.read_bytes()).sizes[1600])

    def told(path):
        found = subprocess.run(["exiftool", "-G1", "-s", str(path)], check=True, capture_output=True, text=True).stdout
        return {line[1 : line.index("]")] for line in found.splitlines()}

    assert {"GPS", "IFD0", "ExifIFD"} <= told(sent)
    assert told(stored) == {"ExifTool", "System", "File", "RIFF", "Composite"}


@pytest.mark.parametrize("name", ["four_corners.heic", "four_corners_turned.heic"])
def test_a_heic_picture_of_another_encoder_is_taken_upright_and_without_its_coordinates(name):
    """How the two files were made is in NOTICE.md beside them."""
    pytest.importorskip("pi_heif")
    sent = (DATA / name).read_bytes()
    assert b"Lovegarment" in sent

    taken = take_in(sent)

    assert (taken.width, taken.height) == (400, 300)
    assert corners_of(taken.sizes[1600]) == CORNERS
    assert chunks_of(taken.sizes[320]) == [b"VP8 "]


def test_a_second_picture_behind_a_jpeg_is_left_away():
    """A multi-picture file (CIPA DC-007), as phones write for a depth map or a brighter copy."""
    sent = file_of(four_corners(), "MPO", save_all=True, append_images=[Image.new("RGB", (400, 300))])
    assert b"MPF\0" in sent

    assert corners_of(take_in(sent).sizes[800]) == CORNERS


@pytest.mark.parametrize(
    "picture",
    [
        four_corners().convert("CMYK"),
        four_corners().convert("L"),
    ],
    ids=lambda image: image.mode,
)
def test_a_jpeg_of_another_colour_space_is_taken(picture):
    taken = take_in(file_of(picture, quality=95))

    seen = Image.open(io.BytesIO(taken.sizes[1600])).convert("RGB").getpixel((10, 10))
    assert seen == pytest.approx(picture.convert("RGB").getpixel((10, 10)), abs=6)


def test_what_is_transparent_becomes_white():
    image = four_corners().convert("RGBA")
    image.paste((0, 0, 0, 0), (0, 0, 200, 150))

    for sent in (file_of(image, "PNG"), file_of(image, "WEBP", lossless=True)):
        stored = Image.open(io.BytesIO(take_in(sent).sizes[1600])).convert("RGB")
        assert min(stored.getpixel((60, 60))) > 245
        assert corners_of(take_in(sent).sizes[1600])[1:] == CORNERS[1:]


def test_a_palette_with_a_transparent_entry_becomes_white_there():
    image = four_corners().convert("P", palette=Image.Palette.ADAPTIVE, colors=8)
    clear = image.getpixel((10, 10))

    stored = Image.open(io.BytesIO(take_in(file_of(image, "PNG", transparency=clear)).sizes[1600])).convert("RGB")

    assert min(stored.getpixel((60, 60))) > 245
    assert corners_of(take_in(file_of(image, "PNG")).sizes[1600]) == CORNERS


@pytest.mark.parametrize("value", [0, 8000, 32768, 52000, 65535])
def test_sixteen_bits_of_grey_become_the_same_grey(value):
    stored = Image.open(io.BytesIO(take_in(file_of(Image.new("I;16", (60, 60), value), "PNG")).sizes[320]))

    assert stored.convert("L").getpixel((30, 30)) == pytest.approx(value / 257, abs=2)


def test_one_bit_of_grey_is_taken():
    assert take_in(file_of(four_corners().convert("1"), "PNG")).width == 400


@pytest.mark.parametrize(
    "name",
    [
        "arithmetic.jpg",
        "arithmetic_progressive.jpg",
        "one_colour_after_another.jpg",
        "four_inks.jpg",
        "two_pictures.heic",
    ],
)
def test_rare_kinds_of_file_are_read_as_well(name):
    assert corners_of(take_in((DATA / name).read_bytes()).sizes[1600]) == CORNERS


def test_a_moving_picture_is_refused():
    frames = [Image.new("RGB", (60, 60), colour) for colour in CORNERS]
    for kind in ("PNG", "WEBP"):
        sent = file_of(frames[0], kind, save_all=True, append_images=frames[1:])
        assert words_for(sent, "a.png") == ("“a.png” is a moving picture. Send one still picture of what matters.")


def test_an_empty_file_is_refused():
    assert words_for(b"") == "The picture is empty: nothing arrived of it. Send it once more."


def test_a_file_of_more_than_25_megabytes_is_refused_and_one_of_25_is_opened():
    padded = file_of(four_corners()).ljust(25_000_000, b"\0")

    assert take_in(padded).width == 400
    assert words_for(padded + b"\0") == "“smock.jpg” has more than 25 megabytes, the most that a picture may have."


def png_that_claims(width: int, height: int) -> bytes:
    def chunk(name: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"\0" * 10_000))
        + chunk(b"IEND", b"")
    )


def test_a_bomb_is_refused_by_its_size_before_a_pixel_is_decoded():
    assert words_for(png_that_claims(60_000, 60_000), "bomb.png") == (
        "“bomb.png” has 60000 × 60000 pixels, which is 3600 megapixels; a PNG picture may have 24. Send it smaller."
    )
    huge = bytearray(file_of(Image.new("L", (64, 64))))
    at = huge.index(b"\xff\xc0") + 5
    huge[at : at + 4] = struct.pack(">HH", 9000, 7000)
    assert "63 megapixels; a JPEG picture may have 60" in words_for(bytes(huge))


def test_a_compressed_text_that_swells_is_refused_or_left_unread():
    info = PngImagePlugin.PngInfo()
    info.add_text("Comment", "0" * 90_000_000, zip=True)

    outcome = take_in_each([file_of(four_corners(), "PNG", pnginfo=info), file_of(four_corners())])

    assert isinstance(outcome[1], TakenIn)
    assert isinstance(outcome[0], TakenIn) or "cannot be read to its end" in str(outcome[0])


def test_a_picture_that_breaks_off_is_refused():
    whole = file_of(drawn_scene(2), quality=80)
    for kind in ("JPEG", "PNG", "WEBP"):
        whole = file_of(drawn_scene(2), kind)
        assert re.fullmatch(
            r"“smock\.jpg” begins as a (JPEG|PNG|WebP) picture and cannot be read to its end\. "
            r"Copy it from the camera once more and send it again\.",
            words_for(whole[: len(whole) // 2]),
        )


def zipped() -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as folder:
        folder.writestr("a.txt", "a")
    return file.getvalue()


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>', "an SVG drawing"),
        (b'<?xml version="1.0"?>\n<!-- a -->\n<svg></svg>', "an SVG drawing"),
        (b"<!DOCTYPE html><script>alert(1)</script>", "a web page"),
        (zipped(), "a packed folder or an office document"),
        (b"%PDF-1.7\n", "a PDF"),
        (file_of(four_corners().convert("P"), "GIF"), "a GIF"),
        (file_of(four_corners(), "TIFF"), "a TIFF or a camera's raw file"),
        (file_of(four_corners(), "BMP"), "a BMP picture"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_only_calls_itself_a_photograph_is_named(data, what):
    assert words_for(data) == (
        f"“smock.jpg” is {what}, whatever its name says. The site takes photographs as JPEG, PNG, WebP or HEIC."
    )


def test_other_pictures_films_and_texts_are_refused():
    assert words_for(b"\0\0\0\x20ftypavif\0\0\0\0avifmif1miaf" + b"\0" * 40).startswith(
        "“smock.jpg” is an AVIF picture."
    )
    assert words_for(b"\0\0\0\x18ftypisom\0\0\0\0isomavc1" + b"\0" * 40).startswith("“smock.jpg” is a film.")
    assert words_for(b"just words").startswith("“smock.jpg” is not a picture that the site can read.")


def test_what_is_hidden_behind_a_picture_goes():
    sent = file_of(four_corners()) + b"<script>alert(1)</script>" + zipped()

    for data in take_in(sent).sizes.values():
        assert b"script" not in data
        assert not zipfile.is_zipfile(io.BytesIO(data))


def test_a_long_name_with_marks_that_turn_text_stays_readable():
    name = "a\u202egpj." + "ü" * 300 + ".jpg"

    assert shown_name(name) == "“agpj." + "ü" * 31 + "…" + "ü" * 7 + ".jpg”"
    assert shown_name("C:\\Users\\Ada\\smock.jpg") == shown_name("/home/ada/smock.jpg") == "“smock.jpg”"
    assert shown_name("\u200f\n") == "The picture"


def test_each_of_several_is_told_apart_and_order_is_kept():
    good, cut = file_of(drawn_scene(3)), file_of(drawn_scene(4))[:9000]

    first, second, third, fourth = take_in_each([good, cut, b"", good])

    assert isinstance(first, TakenIn)
    assert first == fourth
    assert "cannot be read to its end" in str(second)
    assert "is empty" in str(third)


def test_the_digest_is_that_of_the_file_sent():
    """The SHA-256 of "abc" is in FIPS 180-2, appendix B; here coreutils computes that of the file."""
    sent = file_of(four_corners())
    told = subprocess.run(["sha256sum"], input=sent, capture_output=True, check=True).stdout.split()[0].decode()

    assert take_in(sent).sha256 == told


KINDS = {
    "JPEG": file_of(drawn_scene(5, 240, 180)),
    "progressive": file_of(drawn_scene(5, 240, 180), progressive=True),
    "PNG": file_of(drawn_scene(5, 120, 90), "PNG"),
    "WebP": file_of(drawn_scene(5, 240, 180), "WEBP"),
    "HEIC": HEIC.read_bytes(),
}


@pytest.mark.fuzz
@pytest.mark.parametrize("kind", KINDS)
@settings(max_examples=3, deadline=None)
@given(seed=st.integers(0, 2**32))
def test_whatever_is_broken_in_a_file_it_is_taken_or_refused_in_words(kind, seed):
    chance = random.Random(seed)
    broken = []
    for _ in range(25):
        data = bytearray(KINDS[kind])
        for _ in range(chance.choice((1, 3, 30))):
            data[chance.randrange(len(data))] = chance.randrange(256)
        broken.append(bytes(data[: chance.choice((len(data), chance.randrange(len(data))))]) or b"\0")

    outcomes = take_in_each([*broken, KINDS["JPEG"]])

    assert isinstance(outcomes[-1], TakenIn)
    for one in outcomes:
        assert isinstance(one, TakenIn) or re.fullmatch(r"The picture .*\.", str(one))
