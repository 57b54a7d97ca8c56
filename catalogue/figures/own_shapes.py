"""Sets a society's own drawing, as own_drawings.py has read it, into a drawing of the site."""

import re

from catalogue.figures.pen import Box, Pen, number
from catalogue.reference.own_drawings import KINDS, OwnDrawing

KIND = re.compile(f'class="([{"".join(KINDS)}])"')


def fitted(drawing: OwnDrawing, box: Box, pen: Pen, *, flipped: bool = False) -> str:
    """The drawing as large as fits into the box, in its middle, mirrored or not, its strokes as the pen's are."""
    left_of, top_of, width, height = drawing.box
    scale = min(box.w / width, box.h / height)
    left = box.x + (box.w - width * scale) / 2
    top = box.y + (box.h - height * scale) / 2
    across = -scale if flipped else scale
    start = left + width * scale if flipped else left
    x, y = start - left_of * across, top - top_of * scale
    markup = KIND.sub(lambda found: pen.look(found[1]), drawing.markup)
    return f'<g transform="matrix({across:.4g} 0 0 {scale:.4g} {number(x)} {number(y)})">{markup}</g>'
