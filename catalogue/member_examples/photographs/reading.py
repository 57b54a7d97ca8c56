"""From the bytes of a stranger's file to upright pixels in sRGB without anything else. Runs in the child only."""

from collections.abc import Callable
from contextlib import suppress
from io import BytesIO

from PIL import Image, ImageCms

from catalogue.member_examples.photographs.file_kinds import kind_of, words_for_other
from catalogue.member_examples.photographs.limits import (
    COEFFICIENT_BYTES_OF_A_JPEG,
    MEMORY_FOR_JPEG,
    MEMORY_FOR_OTHERS,
    MOST_COEFFICIENT_BYTES,
    MOST_MEGAPIXELS,
    SIZES,
)

FORMATS = {"JPEG": "JPEG", "PNG": "PNG", "WebP": "WEBP", "HEIC": "HEIF"}
PAPER = (255, 255, 255)
ORIENTATION = 0x0112
# How a picture with each value of the orientation tag is turned upright (TIFF 6.0 and Exif 2.3, tag 274).
TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
# Colour spaces by the modes that a profile of theirs can be applied to.
SPACES = {"RGB": "RGB ", "L": "GRAY", "CMYK": "CMYK"}


class NotTaken(Exception):
    """Why a picture is refused, as the rest of a sentence that begins with its name."""


def upright_pixels(data: bytes, allow_memory: Callable[[int], None]) -> Image.Image:
    """The picture at no more than the largest stored size, upright, in sRGB, on white, without any metadata.

    `allow_memory` is called with the number of bytes that the process may grow to before pixels are decoded.
    Raises NotTaken, or whatever the decoders raise for a damaged file.
    """
    kind = kind_of(data)
    if not kind:
        raise NotTaken(words_for_other(data))
    image = opened(data, kind)
    refuse_too_many_pixels(image, kind)
    refuse_moving(image, kind)
    allow_memory(memory_for_jpeg(image, data) if kind == "JPEG" else MEMORY_FOR_OTHERS)
    profile, turn = image.info.get("icc_profile"), turn_of(image)
    return turned(on_paper(reduced(image, kind), profile), turn)


def opened(data: bytes, kind: str) -> Image.Image:
    """The picture with its header read and no pixel decoded."""
    if kind == "HEIC":
        register_heic()
    Image.MAX_IMAGE_PIXELS = None  # counted by kind, in refuse_too_many_pixels
    try:
        return Image.open(BytesIO(data), formats=[FORMATS[kind]])
    except Image.UnidentifiedImageError:
        raise NotTaken(damaged(kind)) from None


def damaged(kind: str) -> str:
    return (
        f"begins as a {kind} picture and cannot be read to its end. "
        "Copy it from the camera once more and send it again."
    )


def register_heic() -> None:
    try:
        import pi_heif
    except ImportError:
        raise NotTaken(
            "is a HEIC picture, which this site is not set up to read. Save it as JPEG and send that; "
            "many phones do so by themselves when the picture is chosen from its album."
        ) from None
    pi_heif.options.DECODE_THREADS = 1
    pi_heif.register_heif_opener(thumbnails=False)


def refuse_too_many_pixels(image: Image.Image, kind: str) -> None:
    width, height = image.size
    most = MOST_MEGAPIXELS[kind]
    if width * height > most * 1_000_000:
        raise NotTaken(
            f"has {width} × {height} pixels, which is {width * height / 1_000_000:.0f} megapixels; "
            f"a {kind} picture may have {most}. Send it smaller."
        )


def memory_for_jpeg(image: Image.Image, data: bytes) -> int:
    """What it may take: one that is decoded row by row little, one that has to be held whole what it has to hold.

    Raises NotTaken where that is more than any picture may take.
    """
    if not is_held_whole(image, data):
        return MEMORY_FOR_JPEG
    bytes_each = coefficient_bytes(image)
    width, height = image.size
    held = width * height * bytes_each
    if held > MOST_COEFFICIENT_BYTES:
        raise NotTaken(
            f"is saved in several passes (“progressive”), with {width * height / 1_000_000:.1f} megapixels in "
            f"{len(image.layer)} colours, which has to be held whole to be opened; such a one may have "
            f"{MOST_COEFFICIENT_BYTES / bytes_each / 1_000_000:.0f}. "
            "Save it as an ordinary JPEG, without “progressive”, or smaller, and send that."
        )
    return MEMORY_FOR_JPEG if held <= COEFFICIENT_BYTES_OF_A_JPEG else MEMORY_FOR_OTHERS


def is_held_whole(image: Image.Image, data: bytes) -> bool:
    """A JPEG in several passes: a progressive one, or one that gives its colours one after the other."""
    return "progressive" in image.info or colours_of_first_pass(data) < len(image.layer)


def colours_of_first_pass(data: bytes) -> int:
    """As its scan header says (ITU-T T.81, B.2.3); none where the segments before it are not in order."""
    at = 2
    while data[at : at + 1] == b"\xff":
        marker = data[at + 1 : at + 2]
        if marker == b"\xff":  # a marker may be filled up from the left
            at += 1
            continue
        if marker == b"\xda":
            return data[at + 4] if at + 4 < len(data) else 0
        at += 2 + int.from_bytes(data[at + 2 : at + 4], "big")
    return 0


def coefficient_bytes(image: Image.Image) -> float:
    """For each pixel, by the number of samples of each of its colours."""
    sampling = [(across, down) for _, across, down, _ in image.layer]
    full = max(across for across, _ in sampling) * max(down for _, down in sampling)
    return 2 * sum(across * down for across, down in sampling) / full


def refuse_moving(image: Image.Image, kind: str) -> None:
    """A second picture behind a JPEG (a depth map, a brighter copy) or in a HEIC is nothing that moves."""
    if kind in ("PNG", "WebP") and getattr(image, "is_animated", False):
        raise NotTaken("is a moving picture. Send one still picture of what matters.")


def turn_of(image: Image.Image) -> int | None:
    """How it must be turned; None where nothing is said, or what is said cannot be read."""
    with suppress(Exception):  # whatever a broken tag raises, the picture is still a picture
        return TURNS.get(image.getexif().get(ORIENTATION, 1))
    return None


def reduced(image: Image.Image, kind: str) -> Image.Image:
    """The pixels at no more than the largest stored size, in a mode that colours can be converted from."""
    size = size_within(*image.size, SIZES[0])
    if kind == "JPEG":
        # The box has the picture's own shape: of a square box the shorter side would decide.
        image.draft(None, size)
    image.load()
    image = in_plain_mode(image)
    if image.size == size:
        return image
    return image.resize(size, Image.Resampling.LANCZOS, reducing_gap=3.0)


def in_plain_mode(image: Image.Image) -> Image.Image:
    """RGB, RGBA, L, LA or CMYK."""
    if image.mode == "I;16":
        return sixteen_to_eight(image)
    if image.mode in ("P", "PA"):
        return image.convert("RGBA" if "transparency" in image.info or image.mode == "PA" else "RGB")
    if image.mode in ("RGB", "RGBA", "L", "LA", "CMYK"):
        if "transparency" in image.info:  # one colour of a PNG that stands for nothing
            return image.convert("RGBA")
        return image
    return image.convert("L" if image.mode == "1" else "RGB")


def sixteen_to_eight(image: Image.Image) -> Image.Image:
    """Grey of sixteen bits: the upper eight of each. Pillow's own conversion would make all but the darkest white."""
    return Image.frombytes("L", image.size, image.tobytes()[1::2])


def on_paper(image: Image.Image, profile: bytes | None) -> Image.Image:
    """The pixels in sRGB pasted on white into a new picture, which carries nothing over from the file."""
    alpha = image.getchannel("A") if "A" in image.getbands() else None
    if alpha:
        image = image.convert("L" if image.mode == "LA" else "RGB")
    sheet = Image.new("RGB", image.size, PAPER)
    sheet.paste(in_srgb(image, profile), mask=alpha)
    return sheet


def in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """Converted from the profile that the file carries; without one, or with one that cannot be used, as it stands."""
    if profile:
        with suppress(ImageCms.PyCMSError, OSError, ValueError):
            source = ImageCms.ImageCmsProfile(BytesIO(profile))
            if source.profile.xcolor_space == SPACES[image.mode] and not is_srgb(source):
                return ImageCms.profileToProfile(image, source, ImageCms.createProfile("sRGB"), outputMode="RGB")
    return image.convert("RGB")


def is_srgb(profile: ImageCms.ImageCmsProfile) -> bool:
    return (profile.profile.profile_description or "").startswith("sRGB")


def turned(image: Image.Image, turn: int | None) -> Image.Image:
    return image if turn is None else image.transpose(turn)


def size_within(width: int, height: int, longer: int) -> tuple[int, int]:
    """Width and height in the same shape, the longer side at most so many pixels; never enlarged, never nothing."""
    scale = min(1, longer / max(width, height))
    return max(1, round(width * scale)), max(1, round(height * scale))
