"""How wide a text may come out in a font that nobody knows yet: measured so that it is hardly ever wider."""

import unicodedata

NARROW = frozenset(" .,:;'’‘“”|!ijltfrI()[]-/")
WIDE = frozenset("mwMW@%—…&")
# In parts of the type size; a little above what the widest of the common sans-serif fonts need.
OF_NARROW, OF_SMALL, OF_CAPITAL, OF_WIDE, OF_FULL = 0.42, 0.64, 0.76, 1.0, 1.1
BOLDER = 1.1


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Width in the unit of `size`."""
    return sum(map(sign_width, text)) * size * (BOLDER if bold else 1)


def sign_width(sign: str) -> float:
    if unicodedata.combining(sign):
        return 0.0
    if unicodedata.east_asian_width(sign) in "WF":
        return OF_FULL
    if sign in NARROW:
        return OF_NARROW
    if sign in WIDE:
        return OF_WIDE
    return OF_CAPITAL if sign.isupper() else OF_SMALL


def cut_to(text: str, width: float, size: float, *, bold: bool = False) -> str:
    """The text, or as many of its words as fit with an ellipsis behind; of a first word that is too long its beginning,
    and never less than the ellipsis."""
    if text_width(text, size, bold=bold) <= width:
        return text
    left = width - text_width("…", size, bold=bold)
    kept = 0
    for sign in text:
        left -= text_width(sign, size, bold=bold)
        if left < 0:
            break
        kept += 1
    words, space, _ = text[: kept + 1].rpartition(" ")
    return (words if space and words.strip() else text[:kept]).rstrip(" ,;:(–-") + "…"


def wrapped(text: str, width: float, size: float, *, most: int) -> tuple[str, ...]:
    """The text in so many lines at most, turned at its words; the last is cut where it must be."""
    lines: list[str] = [""]
    words = text.split() or [text]
    for place, word in enumerate(words):
        joined = f"{lines[-1]} {word}" if lines[-1] else word
        if text_width(joined, size) <= width or not lines[-1]:
            lines[-1] = joined
        elif len(lines) < most:
            lines.append(word)
        else:
            lines[-1] = " ".join([lines[-1], *words[place:]])
            break
    return tuple(cut_to(line, width, size) for line in lines)
