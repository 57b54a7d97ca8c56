"""The named regions of each garment class and view, as the reference lists give them."""

import csv
from collections.abc import Collection
from dataclasses import dataclass
from functools import cache

from django.conf import settings

from catalogue.reference.spreadsheets.faults import nearest

VIEW_WORDS = {
    "front": "Front",
    "back": "Back",
    "inside": "Inside",
    "sleeve_left": "Left sleeve",
    "sleeve_right": "Right sleeve",
    "hood": "Hood",
    "label": "Label",
    "side_left": "Left side",
    "top": "Top",
    "palm": "Palm",
    "cuff": "Cuff",
    "flap": "Flap",
    "strap": "Strap",
    "any": "Anywhere",
}
OPENED_VIEWS = ("inside", "label")
MOST_LISTED = 10


@dataclass(frozen=True)
class Region:
    """A place on a drawing: its box in percent of the view; `side` is the wearer's."""

    garment_class: str
    view: str
    code: str
    label: str
    side: str
    box: tuple[float, float, float, float]


@cache
def all_regions() -> dict[tuple[str, str, str], Region]:
    """Every region by (garment class, view, code)."""
    path = settings.BASE_DIR / "fixtures" / "reference_lists" / "regions.csv"
    with path.open(encoding="utf-8", newline="") as file:
        rows = [
            Region(
                row["garment"],
                row["view"],
                row["region"],
                row["label"],
                row["wearers_side"],
                tuple(float(row[side]) for side in "xywh"),
            )
            for row in csv.DictReader(file)
        ]
    return {(r.garment_class, r.view, r.code): r for r in rows}


@cache
def garment_classes() -> tuple[str, ...]:
    """The classes of garment that can be drawn, in the order of the list."""
    return tuple(dict.fromkeys(garment for garment, _, _ in all_regions()))


@cache
def views_of(garment_class: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(view for garment, view, _ in all_regions() if garment == garment_class))


def region_words(garment_class: str, view: str, code: str) -> str:
    """The place in words; the bare code where the list has no such region (a society's own)."""
    if view == "any":
        views = [key for key in all_regions() if key[0] == garment_class and key[2] == code]
        view = views[0][1] if views else view
    region = all_regions().get((garment_class, view, code))
    return region.label if region else code.replace("_", " ")


def fault_of_place(view: str, region: str, outlines: Collection[str]) -> tuple[str, str] | None:
    """What is wrong with a place, as ("view" or "region", words with the nearest that there is); None where nothing is.

    The place must lie on each of the `outlines` that the list knows; where it knows none of them, on any of its own.
    """
    known = [one for one in garment_classes() if one in outlines]
    if not known:
        faults = [fault_on(outline, view, region) for outline in garment_classes()]
        return None if None in faults else min(faults, key=lambda fault: fault[0] == "view", default=None)
    return next((fault for outline in known if (fault := fault_on(outline, view, region))), None)


def fault_on(outline: str, view: str, region: str) -> tuple[str, str] | None:
    views = (*views_of(outline), "any")
    if view not in views:
        return "view", f"“{view}” is no view of a {garment_words(outline)}.{near(view, views)}"
    regions = list(dict.fromkeys(key[2] for key in all_regions() if key[0] == outline and view in (key[1], "any")))
    if region not in regions:
        where = "" if view == "any" else f" in the view “{view}”"
        return "region", f"“{region}” is no region of a {garment_words(outline)}{where}.{near(region, regions)}"
    return None


def near(word: str, known: Collection[str]) -> str:
    """What is spelled nearly so, and all there is where that is little."""
    found = nearest(word, known)
    listed = f" There are: {', '.join(known)}." if not found or len(known) <= MOST_LISTED else ""
    return (f" Nearest: {found}." if found else "") + listed


def garment_words(outline: str) -> str:
    return outline.replace("_", " ")
