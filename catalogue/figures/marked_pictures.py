"""Marked photographs as pages set them: a picture that is fetched when it comes into sight, and the ring on it."""

from django.urls import reverse
from django.utils.html import format_html

from catalogue.reference.marked_spots import MarkedFacts, Spot

# The longer side of each size, in pixels: of the close-up, and of the whole.
CLOSE, WHOLE = 320, 800
# In units of CSS: where a part's picture stands.
WIDE, HIGH = 84, 56


def close_picture(shown: MarkedFacts) -> str:
    """What lies round the spot, in the place and size of a part's picture."""
    _, _, wide, high = shown.close
    return format_html(
        '<span class="part marked"><img src="{}" alt="{}" width="{}" height="{}" loading="lazy">{}</span>',
        reverse("marked:file", args=[shown.close_key, CLOSE]),
        shown.words,
        WIDE,
        HIGH,
        ring(wide, high, shown.close_spot),
    )


def whole_picture(shown: MarkedFacts) -> str:
    """The whole photograph with its spot."""
    return format_html(
        '<span class="marked whole"><img src="{}" srcset="{} 800w, {} 1600w" sizes="(min-width: 50rem) 800px, 100vw" '
        'alt="{}" width="{}" height="{}">{}</span>',
        reverse("marked:file", args=[shown.key, WHOLE]),
        reverse("marked:file", args=[shown.key, WHOLE]),
        reverse("marked:file", args=[shown.key, 1600]),
        shown.words,
        shown.width,
        shown.height,
        ring(shown.width, shown.height, shown.spot),
    )


def ring(width: float, height: float, spot: Spot) -> str:
    """A ring round the spot, dark within light so that it is seen on any picture; to be laid over it.

    A picture whose shape is not that of its frame is cut at its longer side, as `object-fit: cover` does.
    """
    circle = [f"{value:.6g}" for value in (spot.x, spot.y, spot.radius)]
    return format_html(
        '<svg viewBox="0 0 {} {}" preserveAspectRatio="xMidYMid slice" fill="none" aria-hidden="true">'
        '<circle cx="{}" cy="{}" r="{}" stroke="#fff" stroke-width="5" vector-effect="non-scaling-stroke"/>'
        '<circle cx="{}" cy="{}" r="{}" stroke="#000" stroke-width="2" vector-effect="non-scaling-stroke"/></svg>',
        *(f"{value:.6g}" for value in (width, height)),
        *circle,
        *circle,
    )
