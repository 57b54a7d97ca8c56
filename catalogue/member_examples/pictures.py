"""Photographs as pages show them: one address for each size, behind the same gate as the piece."""

from dataclasses import dataclass

from django.urls import reverse

from catalogue.member_examples.models import Photograph
from catalogue.member_examples.words import Shot

SMALL, LARGE = 320, 1600


@dataclass(frozen=True)
class Picture:
    """`srcset` names every size with its width in pixels; `words` is what the picture shows."""

    small: str
    large: str
    srcset: str
    width: int
    height: int
    words: str
    caption: str
    credit: str
    drawn: bool
    hidden: bool


def picture_of(photograph: Photograph) -> Picture | None:
    """The picture's addresses, or None where no size of it is kept."""
    sizes = sorted(
        (size for size in photograph.files if size.get("name") and size.get("longer")), key=lambda s: s["longer"]
    )
    if not sizes:
        return None
    pairs = []
    for size in sizes:
        scale = min(1, size["longer"] / max(photograph.width, photograph.height))
        pairs.append((address(photograph.pk, size["longer"]), size.get("width") or round(photograph.width * scale)))
    words = Shot(photograph.view).label
    return Picture(
        small=pairs[0][0],
        large=pairs[-1][0],
        srcset=", ".join(f"{where} {width}w" for where, width in pairs),
        width=photograph.width,
        height=photograph.height,
        words=f"Drawing in place of a photograph: {words}" if photograph.drawn else words,
        caption=photograph.caption,
        credit=" · ".join(part for part in (photograph.credit, photograph.licence) if part),
        drawn=photograph.drawn,
        hidden=photograph.hidden,
    )


def address(number: int, longer: int) -> str:
    return reverse("member_examples:photograph", args=[number, longer])
