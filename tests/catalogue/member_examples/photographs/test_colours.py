"""Colours of pictures with a profile, against the conversion that CSS Color 4 publishes.

The numbers are those of CSS Color Module Level 4 (W3C), "Sample code for color conversions": Display P3 and sRGB share
a transfer curve and their white, D65.
"""

import struct
from io import BytesIO

import numpy as np
import pytest
from PIL import Image, ImageCms

from catalogue.member_examples.photographs.intake import take_in
from tests.catalogue.member_examples.photographs.pictures import file_of

P3_TO_XYZ = np.array(
    [
        [0.4865709486482162, 0.26566769316909306, 0.1982172852343625],
        [0.2289745640697488, 0.6917385218365064, 0.079286914093745],
        [0.0, 0.04511338185890264, 1.043944368900976],
    ]
)
XYZ_TO_SRGB = np.array(
    [
        [3.2409699419045213, -1.5373831775700935, -0.4986107602930033],
        [-0.9692436362808798, 1.8759675015077206, 0.04155505740717561],
        [0.05563007969699361, -0.20397695888897657, 1.0569715142428786],
    ]
)
# Bradford, D65 to D50: the same page; ICC profiles are written for D50.
D65_TO_D50 = np.array(
    [
        [1.0479297925449969, 0.022946870601609652, -0.05019226628920524],
        [0.02962780877005599, 0.9904344267538799, -0.017073799063418826],
        [-0.009243040646204504, 0.015055191490298152, 0.7518742814281371],
    ]
)
OLIVE, KHAKI, FACING = (96, 98, 64), (176, 160, 120), (200, 40, 50)


def linear(encoded: np.ndarray) -> np.ndarray:
    return np.where(encoded <= 0.04045, encoded / 12.92, ((encoded + 0.055) / 1.055) ** 2.4)


def encoded(light: np.ndarray) -> np.ndarray:
    light = np.clip(light, 0, 1)
    return np.where(light <= 0.0031308, light * 12.92, 1.055 * light ** (1 / 2.4) - 0.055)


def p3_as_srgb(colour: tuple[int, int, int]) -> list[int]:
    light = XYZ_TO_SRGB @ P3_TO_XYZ @ linear(np.array(colour) / 255)
    return [round(value) for value in encoded(light) * 255]


def fixed(value: float) -> bytes:
    return struct.pack(">i", round(value * 65536))


def p3_profile() -> bytes:
    """A display profile with three columns and a curve, laid out as ICC.1:2010 (version 4.3) says."""
    columns = (D65_TO_D50 @ P3_TO_XYZ).T
    # Parametric curve of type 3: g a b c d, here the transfer curve of sRGB.
    curve = b"para\0\0\0\0\0\3\0\0" + b"".join(fixed(v) for v in (2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045))
    name = "Display P3".encode("utf-16-be")
    text = b"mluc\0\0\0\0" + struct.pack(">II", 1, 12) + b"enUS" + struct.pack(">II", len(name), 28) + name
    white = b"XYZ \0\0\0\0" + fixed(0.9642) + fixed(1) + fixed(0.8249)
    tags = [(b"desc", text), (b"cprt", text), (b"wtpt", white)]
    for letter, column in zip(b"rgb", columns, strict=True):
        tags.append((bytes([letter]) + b"XYZ", b"XYZ \0\0\0\0" + b"".join(fixed(value) for value in column)))
        tags.append((bytes([letter]) + b"TRC", curve))
    table, body, at = struct.pack(">I", len(tags)), b"", 128 + 4 + 12 * len(tags)
    for tag, data in tags:
        table += tag + struct.pack(">II", at + len(body), len(data))
        body += data + b"\0" * (-len(data) % 4)
    date = struct.pack(">6H", 2026, 1, 1, 0, 0, 0)
    head = struct.pack(
        ">I4s4s4s4s4s12s4s", at + len(body), b"\0\0\0\0", b"\4\x30\0\0", b"mntr", b"RGB ", b"XYZ ", date, b"acsp"
    )
    head += b"\0" * 28 + fixed(0.9642) + fixed(1) + fixed(0.8249)
    return head.ljust(128, b"\0") + table + body


def stored_colour(sent: bytes) -> tuple[int, int, int]:
    return Image.open(BytesIO(take_in(sent).sizes[1600])).convert("RGB").getpixel((50, 50))


@pytest.mark.parametrize("colour", [OLIVE, KHAKI, FACING, (128, 128, 128), (255, 255, 255), (60, 120, 200)])
def test_a_colour_in_display_p3_is_stored_as_its_srgb(colour):
    sent = file_of(Image.new("RGB", (100, 100), colour), "PNG", icc_profile=p3_profile())

    assert stored_colour(sent) == pytest.approx(p3_as_srgb(colour), abs=3)  # WebP itself moves a colour by up to 2


def test_without_the_conversion_the_red_facing_would_be_seen_to_be_wrong():
    assert max(abs(a - b) for a, b in zip(FACING, p3_as_srgb(FACING), strict=True)) > 10


def test_red_that_srgb_does_not_have_is_stored_as_its_reddest():
    """color(display-p3 1 0 0) lies outside sRGB (CSS Color 4, example of gamut mapping); each channel is cut off."""
    sent = file_of(Image.new("RGB", (100, 100), (255, 0, 0)), "PNG", icc_profile=p3_profile())

    assert stored_colour(sent) == pytest.approx((255, 0, 0), abs=3)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_profile_that_cannot_be_used_leaves_the_colours_as_they_stand(kind):
    for profile in (b"nonsense", p3_profile()[:200], p3_profile().replace(b"RGB ", b"CMYK")):
        sent = file_of(Image.new("RGB", (100, 100), KHAKI), kind, icc_profile=profile)
        assert stored_colour(sent) == pytest.approx(KHAKI, abs=4)


def test_srgb_stays_as_it_is():
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()

    assert stored_colour(file_of(Image.new("RGB", (100, 100), OLIVE), "PNG", icc_profile=profile)) == pytest.approx(
        OLIVE, abs=3
    )
