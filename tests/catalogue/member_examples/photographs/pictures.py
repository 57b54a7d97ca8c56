"""Pictures whose every corner is known, and files made from them by tools that are not the site's own."""

import struct
from io import BytesIO

import numpy as np
import piexif
from PIL import Image

RED, GREEN, BLUE, WHITE = (200, 30, 30), (30, 160, 60), (40, 60, 200), (240, 240, 240)
# Upright, from the upper left corner clockwise.
CORNERS = (RED, GREEN, WHITE, BLUE)
# The orientation tag in the words of its standard (TIFF 6.0, tag 274, taken over by Exif 2.3): which side of the
# visible picture the file's row 0 is, and which its column 0.
SIDES_OF_ROW_AND_COLUMN = {
    1: ("top", "left"),
    2: ("top", "right"),
    3: ("bottom", "right"),
    4: ("bottom", "left"),
    5: ("left", "top"),
    6: ("right", "top"),
    7: ("right", "bottom"),
    8: ("left", "bottom"),
}


def four_corners(width: int = 400, height: int = 300) -> Image.Image:
    """An upright picture with another colour in each quarter."""
    image = Image.new("RGB", (width, height), RED)
    image.paste(GREEN, (width // 2, 0, width, height // 2))
    image.paste(WHITE, (width // 2, height // 2, width, height))
    image.paste(BLUE, (0, height // 2, width // 2, height))
    return image


def stored_as(upright: Image.Image, orientation: int) -> Image.Image:
    """The pixels as a camera would store them that says `orientation`, straight from the standard's words."""
    row, column = SIDES_OF_ROW_AND_COLUMN[orientation]
    pixels = np.asarray(upright)
    if row in ("left", "right"):
        pixels = pixels.swapaxes(0, 1)
    if row in ("bottom", "right"):
        pixels = pixels[::-1]
    if column in ("bottom", "right"):
        pixels = pixels[:, ::-1]
    return Image.fromarray(np.ascontiguousarray(pixels))


def corners_of(data: bytes) -> tuple[tuple[int, int, int], ...]:
    """Of each corner, clockwise, the known colour that is nearest to it."""
    image = Image.open(BytesIO(data)).convert("RGB")
    right, bottom = image.width - 9, image.height - 9
    seen = [image.getpixel(spot) for spot in ((8, 8), (right, 8), (right, bottom), (8, bottom))]
    return tuple(
        min(CORNERS, key=lambda known: sum((a - b) ** 2 for a, b in zip(known, one, strict=True))) for one in seen
    )


def file_of(image: Image.Image, kind: str = "JPEG", **options) -> bytes:
    file = BytesIO()
    image.save(file, kind, **options)
    return file.getvalue()


def jpeg_of_a_pass_for_each_colour(width: int, height: int) -> bytes:
    """A grey picture as ITU-T T.81 has it, with a scan for each of three colours; every coefficient is nought, which
    takes two bits a block."""

    def segment(marker: int, content: bytes) -> bytes:
        return struct.pack(">BBH", 0xFF, marker, len(content) + 2) + content

    blocks = -(-width // 8) * -(-height // 8)
    one_code = bytes([1] + [0] * 15 + [0])
    frame = struct.pack(">BHHB", 8, height, width, 3) + b"".join(bytes([colour, 0x11, 0]) for colour in (1, 2, 3))
    scans = (segment(0xDA, bytes([1, colour, 0, 0, 63, 0])) + bytes(-(-blocks // 4)) for colour in (1, 2, 3))
    tables = segment(0xDB, bytes([0] + [1] * 64)) + segment(0xC4, b"\0" + one_code + b"\x10" + one_code)
    return b"\xff\xd8" + tables + segment(0xC0, frame) + b"".join(scans) + b"\xff\xd9"


def exif_with_place(orientation: int = 1) -> bytes:
    """Orientation, camera, owner and coordinates, written by piexif."""
    return piexif.dump(
        {
            "0th": {
                piexif.ImageIFD.Orientation: orientation,
                piexif.ImageIFD.Make: b"Invented Camera Works",
                piexif.ImageIFD.Artist: b"Ada Lovegarment",
            },
            "Exif": {piexif.ExifIFD.UserComment: b"ASCII\0\0\0my house"},
            "GPS": {
                piexif.GPSIFD.GPSLatitudeRef: b"N",
                piexif.GPSIFD.GPSLatitude: ((51, 1), (30, 1), (0, 1)),
                piexif.GPSIFD.GPSLongitudeRef: b"E",
                piexif.GPSIFD.GPSLongitude: ((3, 1), (7, 1), (0, 1)),
            },
        }
    )


def chunks_of(webp: bytes) -> list[bytes]:
    """The chunks of a WebP file by name, as its container specification lays them out (RIFF)."""
    assert webp[:4] == b"RIFF"
    assert webp[8:12] == b"WEBP"
    assert struct.unpack("<I", webp[4:8])[0] == len(webp) - 8
    found, at = [], 12
    while at < len(webp):
        length = struct.unpack("<I", webp[at + 4 : at + 8])[0]
        found.append(webp[at : at + 4])
        at += 8 + length + length % 2
    return found


def drawn_scene(seed: int, width: int = 1200, height: int = 900) -> Image.Image:
    """Something like a photograph: soft shapes of several sizes in several colours, and grain."""
    chance = np.random.default_rng(seed)
    picture = np.zeros((height, width, 3))
    for cells, weight in ((4, 70), (9, 45), (24, 25), (70, 12)):
        for channel in range(3):
            coarse = Image.fromarray(chance.normal(0, weight, (cells, cells)).astype(np.float32))
            picture[:, :, channel] += np.asarray(coarse.resize((width, height), Image.Resampling.BICUBIC))
    picture += 120 + chance.normal(0, 3, picture.shape)
    return Image.fromarray(np.clip(picture, 0, 255).astype(np.uint8))
