"""Sets a society's own drawing, as own_drawings.py has read it, into a drawing of the site."""

import re

from catalogue.figures.pen import Box, Pen, number
from catalogue.reference.own_drawings import KINDS, OwnDrawing

WIDTHS = re.compile(r'(stroke-width|stroke-dasharray)="([\d. ]+)"')
EDGE = 0.03  # of the larger side: room for half of a stroke along the edge
USUAL = 'stroke-width="5"'  # what a drawing that stands alone says of every stroke of no kind
KIND = re.compile(f'class="([{"".join(KINDS)}])"')
SHAPE_OF_KIND = re.compile(f'<[a-z]+ [^<>]*class="([{"".join(KINDS)}])"[^<>]*/>')


def fitted(drawing: OwnDrawing, box: Box, pen: Pen, *, flipped: bool = False) -> str:
    """The drawing as large as fits into the box, in its middle, mirrored or not, its strokes as the pen's are. What
    reaches out of its own viewBox is cut off there, so that it hides nothing else."""
    left_of, top_of, width, height = drawing.box
    scale = min(box.w / width, box.h / height)
    left = box.x + (box.w - width * scale) / 2
    top = box.y + (box.h - height * scale) / 2
    across = -scale if flipped else scale
    start = left + width * scale if flipped else left
    x, y = start - left_of * across, top - top_of * scale
    shapes = SHAPE_OF_KIND.sub(lambda found: "" if found[1] in pen.without else found[0], drawing.markup)
    markup = KIND.sub(lambda found: as_wide(pen.look(found[1]), scale), shapes)
    look = f" {as_wide(USUAL, scale)}" if pen.alone else ""
    edge = EDGE * max(width, height) * scale
    frame = [number(n) for n in (left - edge, top - edge, width * scale + 2 * edge, height * scale + 2 * edge)]
    clipped = 'x="{}" y="{}" width="{}" height="{}" viewBox="{} {} {} {}"'.format(*frame, *frame)
    moved = f"matrix({across:.4g} 0 0 {scale:.4g} {number(x)} {number(y)})"
    return f'<svg {clipped}><g{look} transform="{moved}">{markup}</g></svg>'


def as_wide(look: str, scale: float) -> str:
    """A look whose widths come out as they are said, however much the shape is enlarged; a page's style sheet sees to
    that itself (`vector-effect`)."""
    return WIDTHS.sub(
        lambda found: f'{found[1]}="{" ".join(f"{float(n) / scale:.3g}" for n in found[2].split())}"', look
    )
