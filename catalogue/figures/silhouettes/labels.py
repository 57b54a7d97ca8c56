"""The labels inside a garment, as they are sewn in."""

from collections.abc import Mapping

from catalogue.figures.pen import Box, Pen
from catalogue.figures.silhouettes import silhouette
from catalogue.reference.regions import garment_classes

SIZE = (500, 420)
REGIONS = {
    "main_label": (60, 36, 380, 150), "size_label": (60, 210, 170, 76), "treatment_label": (270, 210, 170, 76),
    "property_mark": (60, 310, 170, 90), "cloth": (20, 16, 460, 390),
}  # fmt: skip


@silhouette(garment_classes(), "label", size=SIZE, regions=REGIONS)
def labels(pen: Pen, profile: Mapping[str, str]) -> None:
    """A piece of the lining with the main label and, where they are recorded, the others beside it."""
    page = pen.in_box(Box(0, 0, 500, 420))
    page.path("f", "M2 6C30 2 60 8 98 4M2 96C40 100 70 92 98 97")
    main = pen.in_box(Box(60, 36, 380, 150))
    main.path("o", "M0 3C30 0 70 4 100 1L99 98C70 101 30 97 1 100Z")
    main.path("t", "M2 8C30 5 70 9 98 6L97 92C70 95 30 91 3 94Z")
    main.path("f", "M16 30H84M16 46H70M16 62H78M16 78H52")
    if profile.get("size_system") not in (None, "none"):
        small = pen.in_box(Box(60, 210, 170, 76))
        small.path("o", "M0 0H100V100H0Z")
        small.path("t", "M4 0V100M96 0V100")
    if profile.get("treatment_label") not in (None, "none"):
        small = pen.in_box(Box(270, 210, 170, 76))
        small.path("o", "M0 0H100V100H0Z")
        small.path("t", "M0 10H100M0 90H100")
