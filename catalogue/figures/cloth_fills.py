"""What fills the cloth of a flat in black and white: a hatch for a colour, a motif for a print.

The hatches are our own: each colour group has its direction and closeness of lines. They mean nothing elsewhere; in
particular they are not those of heraldry.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from html import escape


@dataclass(frozen=True)
class Hatch:
    """`degrees`: 0 upright, 90 flat, 45 rising to the right. `dash`: the length of each stroke and of each gap; nothing
    for unbroken lines. `tone`: the colour itself, as #rrggbb, for the small picture; flats stay uncoloured.
    """

    degrees: int
    pitch: int
    tone: str
    dash: tuple[int, int] | None = None


# No two sets of lines cross: that would be taken for quilting or a net.
HATCHES = {
    "slate": Hatch(45, 4, "#5d7796"),
    "moss": Hatch(135, 4, "#6d8044"),
    "drab": Hatch(90, 5, "#94845c"),
    "sand": Hatch(90, 6, "#d9c79c", dash=(1, 6)),
    "grey": Hatch(90, 5, "#9a9c9e", dash=(9, 5)),
    "orange": Hatch(0, 4, "#e2762a"),
    "yellow": Hatch(0, 8, "#edcd2f", dash=(8, 4)),
    "silver": Hatch(90, 12, "#e9ebee"),
}


def sprig(x: int, y: int, lean: int = 1) -> str:
    """A sprig of heather that stands on a point: a bent stem, bells along it, a few needles."""
    stem = f"M{x} {y}Q{x} {y - 9} {x + lean * 5} {y - 18}"
    needles = f"M{x} {y - 1}L{x - lean * 4} {y - 4}M{x} {y - 1}L{x + lean * 5} {y - 4}"
    bells = "".join(
        f"M{x + lean * dx} {y - dy}C{x + lean * (dx + out)} {y - dy - 6} {x + lean * (dx + out)} {y - dy + 4} "
        f"{x + lean * dx} {y - dy}"
        for dx, dy, out in ((1, 7, 9), (1, 8, -9), (2, 12, 9), (2, 13, -9), (4, 17, 8), (4, 18, -7))
    )
    return stem + needles + bells


def stone(x: int, y: int, w: int, h: int) -> str:
    """A beach stone in a box: rounded, never quite an egg."""
    return (
        f"M{x} {y + h // 2}C{x} {y} {x + w // 2} {y} {x + w * 2 // 3} {y + 1}"
        f"C{x + w} {y + 2} {x + w} {y + h} {x + w // 2} {y + h}C{x + w // 6} {y + h} {x} {y + h - 2} {x} {y + h // 2}Z"
    )


# Width and height of the piece that repeats, and what is drawn in it.
MOTIFS = {
    "ling": (
        *(46, 44),
        "M8 42Q8 30 14 21M9 36L3 32M9 34L17 31M10 31L4 27M11 29L18 25"
        "M36 21Q36 9 30 1M35 15L41 11M35 13L27 10M34 10L40 6M33 8L26 4",
    ),
    "shingle": (36, 34, stone(2, 2, 18, 13) + stone(23, 7, 11, 9) + stone(9, 20, 19, 12)),
    "other_print": (32, 32, "M3 11L12 3L19 12L9 17ZM20 27L29 19M19 23L27 16"),
}


def fill_for(profile: Mapping[str, str], name: str = "cloth") -> tuple[str, str]:
    """The pattern that fills this record's cloth, and the reference to it; two empty texts where nothing is recorded.

    `name`: the pattern's id, which must be the only one of its kind on the page. A print hides the hatch of its ground.
    The lines are faint, so that seams stay readable over them, and lie on the paper's colour, so that what lies on top
    covers what lies below.
    """
    kind, colour = profile.get("cloth_pattern", ""), profile.get("colour", "")
    if kind in MOTIFS:
        width, height, path = MOTIFS[kind]
        return pattern(name, width, height, path), f"url(#{name})"
    if colour in HATCHES:
        one = HATCHES[colour]
        length = sum(one.dash) if one.dash else one.pitch
        drawn = f"M1 0V{one.dash[0] if one.dash else length}"
        return pattern(name, one.pitch, length, drawn, one.degrees), f"url(#{name})"
    return "", ""


def pattern(name: str, width: int, height: int, path: str, degrees: int = 0) -> str:
    turned = f' patternTransform="rotate({degrees})"' if degrees else ""
    return (
        f'<pattern id="{escape(name)}" width="{width}" height="{height}" patternUnits="userSpaceOnUse"{turned}>'
        f'<rect class="b" x="-5" y="-5" width="{width + 10}" height="{height + 10}"/>'
        f'<path stroke-width="1" stroke-opacity=".22" d="{path}"/></pattern>'
    )
