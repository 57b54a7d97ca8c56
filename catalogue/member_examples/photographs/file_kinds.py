"""What a file is, by its first bytes; its name is never believed."""

import re

TAKEN = "The site takes photographs as JPEG, PNG, WebP or HEIC."
HEIC_BRANDS = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"hevm", b"hevs", b"mif1", b"msf1"}

# What people send by mistake, in their words.
OTHERS = (
    (rb"GIF8", "a GIF"),
    (rb"BM.{4}\x00\x00\x00\x00", "a BMP picture"),
    (rb"II\*\x00|MM\x00\*|II\+\x00|MM\x00\+|II\x55\x00", "a TIFF or a camera's raw file"),
    (rb"%PDF", "a PDF"),
    (rb"PK[\x03\x05\x07]", "a packed folder or an office document"),
    (rb"Rar!|7z\xbc\xaf|\x1f\x8b", "a packed folder"),
    (rb"\xff\x0a|\x00\x00\x00\x0cJXL ", "a JPEG XL picture"),
    (rb"\x00\x00\x00\x0cjP  ", "a JPEG 2000 picture"),
    (rb"\x1a\x45\xdf\xa3", "a film"),
    (rb"(?i)(?:\xef\xbb\xbf)?\s*(?:<\?xml.*?)?(?:<!--.*?-->\s*|<!doctype svg.*?)*<svg", "an SVG drawing"),
    (rb"(?i)(?:\xef\xbb\xbf)?\s*(?:<!doctype html|<html|<head|<body|<script)", "a web page"),
)


def kind_of(data: bytes) -> str:
    """JPEG, PNG, WebP or HEIC; empty for anything else."""
    if data.startswith(b"\xff\xd8\xff"):
        return "JPEG"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "PNG"
    if data.startswith(b"RIFF") and data[8:12] == b"WEBP":
        return "WebP"
    brands = brands_of(data)
    if brands & HEIC_BRANDS and not brands & {b"avif", b"avis"}:
        return "HEIC"
    return ""


def brands_of(data: bytes) -> set[bytes]:
    """The brands of an ISO base media file, its major one and those it is compatible with; empty for other files."""
    if data[4:8] != b"ftyp":
        return set()
    end = min(int.from_bytes(data[:4], "big"), 256)
    return {data[8:12]} | {data[at : at + 4] for at in range(16, end, 4)}


def words_for_other(data: bytes) -> str:
    """Why a file of no kind we take is refused, as the rest of a sentence that begins with its name."""
    brands = brands_of(data)
    if brands & {b"avif", b"avis"}:
        return f"is an AVIF picture. {TAKEN}"
    if brands:
        return f"is a film. {TAKEN}"
    start = data[:2000]
    for pattern, words in OTHERS:
        if re.match(pattern, start, re.DOTALL):
            return f"is {words}, whatever its name says. {TAKEN}"
    return f"is not a picture that the site can read. {TAKEN}"
