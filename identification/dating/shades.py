"""The shade of one piece where light falls and where it does not: compared within the piece, before pieces are compared
with each other."""

from dataclasses import dataclass
from enum import Enum
from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt

Lab = tuple[float, float, float]
# Two measurements of the same cloth differ by about so much (common practice, no source).
SAME_WITHIN = 2.0


def ciede2000(one: Lab, other: Lab) -> float:
    """The colour difference of two CIELAB colours (L, a, b) by CIEDE2000, with all weights 1; 0 for the same colour.

    As written out by Sharma, Wu and Dalal 2005, Color Research and Application 30:21-30.
    """
    middle_chroma = (hypot(one[1], one[2]) + hypot(other[1], other[2])) / 2
    stretch = 1.5 - sqrt(middle_chroma**7 / (middle_chroma**7 + 25**7)) / 2
    (chroma, hue), (other_chroma, other_hue) = (polar(stretch * a, b) for _, a, b in (one, other))
    turn = other_hue - hue
    if chroma * other_chroma == 0:
        turn, middle_hue = 0.0, hue + other_hue
    elif abs(turn) <= 180:
        middle_hue = (hue + other_hue) / 2
    else:
        turn -= 360 if turn > 180 else -360
        middle_hue = (hue + other_hue + (360 if hue + other_hue < 360 else -360)) / 2
    lighter, stronger = other[0] - one[0], other_chroma - chroma
    turned = 2 * sqrt(chroma * other_chroma) * sin(radians(turn / 2))
    from_middle = ((one[0] + other[0]) / 2 - 50) ** 2
    mean = (chroma + other_chroma) / 2
    by_hue = (
        1
        - 0.17 * cos(radians(middle_hue - 30))
        + 0.24 * cos(radians(2 * middle_hue))
        + 0.32 * cos(radians(3 * middle_hue + 6))
        - 0.20 * cos(radians(4 * middle_hue - 63))
    )
    light = lighter / (1 + 0.015 * from_middle / sqrt(20 + from_middle))
    strong = stronger / (1 + 0.045 * mean)
    hued = turned / (1 + 0.015 * mean * by_hue)
    blue = 60 * exp(-(((middle_hue - 275) / 25) ** 2))
    cross = -2 * sqrt(mean**7 / (mean**7 + 25**7)) * sin(radians(blue))
    return sqrt(light**2 + strong**2 + hued**2 + cross * strong * hued)


def polar(a: float, b: float) -> tuple[float, float]:
    """Chroma, and hue in degrees from 0; 0 without any colour."""
    return hypot(a, b), degrees(atan2(b, a)) % 360 if a or b else 0.0


class Protected(Enum):
    """The protected place, as a person sees it beside the exposed one."""

    SAME = "same"
    DEEPER = "deeper"
    PALER = "paler"
    OTHER = "other"
    CANNOT_TELL = "cannot_tell"


class WithinPiece(Enum):
    """What the two places of one piece say."""

    FADED = "faded"
    SAME = "the same"
    DARKER_OUTSIDE = "darker where light falls"
    OTHER_COLOUR = "another colour"
    CANNOT_TELL = "cannot tell"


BY_EYE = {
    Protected.SAME: WithinPiece.SAME,
    Protected.DEEPER: WithinPiece.FADED,
    Protected.PALER: WithinPiece.DARKER_OUTSIDE,
    Protected.OTHER: WithinPiece.OTHER_COLOUR,
    Protected.CANNOT_TELL: WithinPiece.CANNOT_TELL,
}


@dataclass(frozen=True)
class TwoPlaces:
    """`by`: the difference in units of CIEDE2000, None where it was not measured."""

    says: WithinPiece
    by: float | None = None


def compared_by_eye(protected: Protected) -> TwoPlaces:
    return TwoPlaces(BY_EYE[protected])


def compared_measured(exposed: Lab, protected: Lab) -> TwoPlaces:
    """Faded where the exposed place is lighter, or as light and weaker in colour, by more than `SAME_WITHIN`."""
    by = ciede2000(exposed, protected)
    if by <= SAME_WITHIN:
        return TwoPlaces(WithinPiece.SAME, by)
    lighter = exposed[0] - protected[0]
    weaker = hypot(*protected[1:]) - hypot(*exposed[1:])
    faded = lighter > 1 or (abs(lighter) <= 1 and weaker > 0)
    return TwoPlaces(WithinPiece.FADED if faded else WithinPiece.DARKER_OUTSIDE, by)


MEANING = {
    WithinPiece.FADED: (
        "Faded: deeper under a flap or inside a pocket than where light falls. Its shade speaks of wear; with other "
        "pieces compare only the protected place."
    ),
    WithinPiece.SAME: (
        "The same in both places, so not faded there. A shade that other pieces have not is then the cloth's own: of "
        "its batch, its maker or its version."
    ),
    WithinPiece.DARKER_OUTSIDE: (
        "Darker where light falls, which fading does not do: dirt, a dressing, or dye added later. Cannot tell its "
        "first shade."
    ),
    WithinPiece.OTHER_COLOUR: "Another colour in the protected place: dyed again, or the part was replaced.",
    WithinPiece.CANNOT_TELL: "Cannot tell whether it has faded.",
}


def two_places_sentence(found: TwoPlaces) -> str:
    if found.by is None:
        return MEANING[found.says]
    return (
        f"{MEANING[found.says]} Measured {found.by:.1f} units apart (CIEDE2000; {SAME_WITHIN:g} or less is the same)."
    )
