"""Waist- and hip-length upper garments."""

from collections.abc import Mapping

from catalogue.figures.pen import Box, Pen
from catalogue.figures.silhouettes import silhouette

FRONT = Box(0, 0, 500, 500)


@silhouette(("jacket",), "front")
def jacket_front(pen: Pen, profile: Mapping[str, str]) -> None:
    page = pen.in_box(FRONT)
    page.path("o", "M38 11C30 14 24 17 22 20C25 40 25 60 24 84C40 87 60 87 76 84C75 60 75 40 78 20C76 17 70 14 62 11Z")
