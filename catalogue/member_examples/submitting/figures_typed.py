"""Figures of a shade as people type them."""

import re

from identification.dating.shades import Lab


def lab(words: str) -> Lab | None:
    """Three figures of CIELAB, spaces, commas or semicolons between; None where they are none."""
    parts = re.split(r"[\s;]+|,\s+", words.replace("−", "-"))
    if len(parts) != 3 or not all(re.fullmatch(r"-?\d{1,3}([.,]\d{1,4})?", part) for part in parts):
        return None
    light, a, b = (float(part.replace(",", ".")) for part in parts)
    return (light, a, b) if 0 <= light <= 100 and abs(a) <= 128 and abs(b) <= 128 else None
