"""Lengths as people type them, in millimetres."""

import re

from catalogue.member_examples.lengths import MM_AN_INCH
from catalogue.reference.words import LONGEST_MM, Measured

MILLIMETRES = {"cm": 10.0, "in": MM_AN_INCH, "mm": 1.0}
FRACTIONS = {"¼": 0.25, "½": 0.5, "¾": 0.75, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875}
LENGTH = re.compile(
    r"(?P<whole>\d{1,4})(?:[.,](?P<part>\d{1,2}))?"
    r"(?:\s*(?P<sign>[¼½¾⅛⅜⅝⅞])|\s+(?P<over>\d{1,2})/(?P<under>2|4|8|16))?"
    r"\s*(?P<unit>mm|cm|in|\"|″)?",
    re.ASCII,
)
UPPER = (Measured.PIT_TO_PIT, Measured.BACK_LENGTH, Measured.SLEEVE, Measured.SHOULDER, Measured.HEM)
LEGS = (Measured.WAIST, Measured.INSIDE_LEG, Measured.RISE, Measured.HEM)
# Which lengths tell something of a class of garment; common practice, no source.
BY_CLASS = {
    "jacket": UPPER,
    "coat": UPPER,
    "pullover": UPPER,
    "shirt": UPPER,
    "liner": UPPER,
    "waistcoat": (Measured.PIT_TO_PIT, Measured.BACK_LENGTH, Measured.SHOULDER, Measured.HEM),
    "trousers": LEGS,
    "over-trousers": LEGS,
    "cap": (Measured.HEAD,),
    "hat": (Measured.HEAD, Measured.BRIM),
    "hood": (Measured.HEAD, Measured.BACK_LENGTH),
}


def lengths_for(garment_class: str) -> tuple[str, ...]:
    return BY_CLASS.get(garment_class, tuple(Measured))


def millimetres(typed: str, unit: str) -> int | None:
    """Whole millimetres of `55`, `55.5`, `21 1/2`, `21½ in`; a unit that was typed wins. None for anything else."""
    match = LENGTH.fullmatch(typed.strip().lower())
    if not match:
        return None
    number = float(f"{match['whole']}.{match['part'] or 0}")
    if match["sign"]:
        number += FRACTIONS[match["sign"]]
    if match["over"]:
        number += int(match["over"]) / int(match["under"])
    own = {'"': "in", "″": "in"}.get(match["unit"] or "", match["unit"]) or unit
    mm = round(number * MILLIMETRES.get(own, 10.0))
    return mm if 1 <= mm <= LONGEST_MM else None
