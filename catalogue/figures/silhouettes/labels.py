"""The label view of every class: the labels of a garment as they are sewn in, near enough to read."""

from collections.abc import Mapping

from catalogue.figures.pen import Box, BoxPen, Pen
from catalogue.figures.silhouettes import silhouette
from catalogue.reference.regions import garment_classes

SIZE = (500, 420)
REGIONS = {
    "main_label": (62, 58, 376, 138),
    "size_label": (62, 222, 172, 74),
    "treatment_label": (266, 222, 172, 74),
    "property_mark": (62, 318, 172, 86),
    "cloth": (8, 10, 484, 400),
}


@silhouette(garment_classes(), "label", size=SIZE, regions=REGIONS)
def labels(pen: Pen, profile: Mapping[str, str]) -> None:
    """A piece of the inside with the main label; beside it the other marks, as far as the record has any.

    What is written on them stays a grey line: the record says it in words.
    """
    page = pen.in_box(Box(0, 0, 100, 100))
    page.path("e", "M2 26C80 20 160 30 250 24C340 18 420 30 498 24M2 40C80 34 160 44 250 38C340 32 420 44 498 38")
    page.path("t", "M2 33C80 27 160 37 250 31C340 25 420 37 498 31")
    page.path("f", "M10 120C24 180 20 260 8 330M490 110C478 180 482 250 492 330M190 412C240 404 300 406 340 414")
    main_label(pen.in_box(Box(62, 58, 100, 100)), profile.get("label_kind", ""))
    if profile.get("size_system") not in (None, "none"):
        size_label(pen.in_box(Box(62, 222, 100, 100)))
    if profile.get("treatment_label") not in (None, "none"):
        treatment_label(pen.in_box(Box(266, 222, 100, 100)))
    if profile.get("property_mark") not in (None, "none"):
        property_mark(pen.in_box(Box(62, 318, 100, 100)))


def main_label(page: BoxPen, kind: str) -> None:
    """Woven with its ends folded under, printed and sewn round, stamped straight on the cloth, or gone."""
    words = "M40 40H336M40 62H268M40 84H312M40 106H196"
    if kind == "none":
        page.path("u", "M0 4C120 -2 260 8 376 2L372 136C250 142 120 132 4 138Z")
        return
    if kind == "ink_stamp":
        page.path("f", "M14 6H362Q374 6 374 18V120Q374 132 362 132H14Q2 132 2 120V18Q2 6 14 6Z" + words)
        page.path("f", "M18 12H358Q368 12 368 22V116Q368 126 358 126H18Q8 126 8 116V22Q8 12 18 12Z")
        return
    page.path("o", "M0 4C120 -2 260 8 376 2L372 136C250 142 120 132 4 138Z")
    page.path("f", words)
    if kind == "woven":
        page.path("e", "M16 4L20 137M361 3L357 137")
        page.path("t", "M9 4L12 138M368 3L364 136")
    else:
        page.path("t", "M8 12C120 6 260 16 368 10L364 128C250 134 120 124 12 130Z")


def size_label(page: BoxPen) -> None:
    """A narrow tape with its ends folded under."""
    page.path("o", "M0 2C60 -2 120 4 172 0L170 72C110 76 60 70 2 74Z")
    page.path("t", "M8 2L10 74M164 1L162 72")
    page.path("f", "M34 26H138M34 48H104")


def treatment_label(page: BoxPen) -> None:
    """Held along its upper edge only; the lower corner lifts."""
    page.path("o", "M0 0C60 4 120 -2 172 2L168 58C160 66 156 70 148 74C100 72 50 76 2 72Z")
    page.path("e", "M168 58C158 58 150 64 148 74")
    page.path("t", "M1 8C60 12 120 6 171 10")
    page.path("f", "M24 30H146M24 46H132M24 60H96")


def property_mark(page: BoxPen) -> None:
    """Where it is stamped, without saying what it shows."""
    page.path("f", "M86 4C108 4 126 22 126 43C126 64 108 82 86 82C64 82 46 64 46 43C46 22 64 4 86 4Z")
    page.path("f", "M86 14C102 14 116 27 116 43C116 59 102 72 86 72C70 72 56 59 56 43C56 27 70 14 86 14Z")
