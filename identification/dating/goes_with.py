"""Whether a state, or a measured shade, goes with the year, the maker, the size or the wear of a piece.

Each is tested twice: with all pieces taken together, and within strata of pieces that are alike in the others. What
goes with a state only because something else does disappears in the second. Where the strata leave too few pieces to
show anything, the two cannot be separated, and that is the answer.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

import numpy as np

from identification.dating.exact_tests import (
    NOTHING,
    Tested,
    false_discovery,
    in_strata,
    rank_sum_test,
    share_test,
    signed_rank_test,
    trend_test,
)
from identification.dating.shades import ciede2000

SURE = 0.05
BAND = 5  # years that count as one time, when something else is tested
FEWEST_OF_A_MAKER = 2


class Factor(Enum):
    YEAR = "year"
    MAKER = "maker"
    SIZE = "size"
    WEAR = "wear"


# What else is held alike while a factor is tested. The year stands in bands.
HELD = {
    Factor.YEAR: (Factor.MAKER,),
    Factor.MAKER: (Factor.YEAR,),
    Factor.SIZE: (Factor.YEAR, Factor.MAKER),
    Factor.WEAR: (Factor.YEAR, Factor.MAKER),
}


@dataclass(frozen=True)
class Piece:
    """One piece: `shows`, 1 or 0 for a state or any number for a measured shade; the rest None or empty if not known.

    `size` and `wear` are numbers in the order of size and of wear, 0 being unissued.
    """

    shows: float
    year: int | None = None
    maker: str = ""
    size: float | None = None
    wear: int | None = None
    code: str = ""


class Standing(Enum):
    """What the two tests of a factor say together."""

    GOES = "goes with it"
    NOT_SEPARATED = "cannot be separated"
    EXPLAINED = "explained by something else"
    NO_SIGN = "no sign"
    TOO_FEW = "too few"


@dataclass(frozen=True)
class Link:
    """One factor. `together` and `within`: the two tests; `p_together`, `p_within`: raised for all that were tried.

    `more`: which end has more of the state (or the higher shade): later years, a maker's name, larger sizes, more wear.
    `less`: True where it is less. `pieces`: those with the factor known.
    """

    factor: Factor
    standing: Standing
    together: Tested
    within: Tested
    p_together: float
    p_within: float
    pieces: int
    more: str
    less: bool


def links(pieces: Sequence[Piece]) -> tuple[Link, ...]:
    """The four factors for one state, corrected for the tries among them."""
    return links_of_all({"": pieces})[""]


def links_of_all(states: Mapping[str, Sequence[Piece]]) -> dict[str, tuple[Link, ...]]:
    """The four factors for each of many states, corrected for all tries together (false discoveries at most 5 %)."""
    tests = {
        (name, factor): tested(sorted(pieces, key=in_order), factor)
        for name, pieces in states.items()
        for factor in Factor
    }
    able = [key for key, (_, _, together, _) in tests.items() if together.least <= SURE]
    p_together = dict(zip(able, false_discovery([tests[key][2].p for key in able]), strict=True))
    p_within = dict(zip(able, false_discovery([tests[key][3].p for key in able]), strict=True))
    return {
        name: tuple(
            link(factor, *tests[name, factor], p_together.get((name, factor), 1.0), p_within.get((name, factor), 1.0))
            for factor in Factor
        )
        for name in states
    }


def in_order(piece: Piece) -> tuple:
    return piece.code, piece.shows, piece.year or 0, piece.maker, piece.size or 0, piece.wear or 0


def link(
    factor: Factor, pieces: int, more: str, together: Tested, within: Tested, p_together: float, p_within: float
) -> Link:
    decisive = within if within.pieces and p_within <= SURE else together
    if together.least > SURE:
        standing = Standing.TOO_FEW
    elif p_within <= SURE:
        standing = Standing.GOES
    elif p_together > SURE:
        standing = Standing.NO_SIGN
    elif not can_show(together, within):
        standing = Standing.NOT_SEPARATED
    else:
        standing = Standing.EXPLAINED
    return Link(factor, standing, together, within, p_together, p_within, pieces, more, decisive.side < 0)


def can_show(together: Tested, within: Tested) -> bool:
    """Whether the strata would have shown a tie as strong as the one seen, with half of the pieces or more in them."""
    return within.least <= SURE and within.pieces * 2 >= together.pieces


def tested(pieces: Sequence[Piece], factor: Factor) -> tuple[int, str, Tested, Tested]:
    """Number of pieces, the name of the end with more, the test of all together and the test within strata."""
    known = [piece for piece in pieces if value_of(piece, factor) not in (None, "")]
    strata = ["/".join(stratum(piece, held) for held in HELD[factor]) for piece in known]
    if factor is Factor.MAKER:
        return (len(known), *maker_tested(known, strata))
    values = [value_of(piece, factor) for piece in known]
    shows = [piece.shows for piece in known]
    together = association([""] * len(known), values, shows)
    within = association(strata, values, shows)
    return len(known), "", together, within


def value_of(piece: Piece, factor: Factor):
    return getattr(piece, factor.value)


def stratum(piece: Piece, held: Factor) -> str:
    value = value_of(piece, held)
    return str(value // BAND) if held is Factor.YEAR and value is not None else str(value)


def association(strata: Sequence[str], values: Sequence[float], shows: Sequence[float]) -> Tested:
    """Exact where a state is shown or not, by drawn dealings where a shade is measured."""
    if not values:
        return NOTHING
    if set(shows) <= {0, 1}:
        return rank_sum_test(in_strata(strata, values, np.array(shows, dtype=bool)))
    return trend_test(in_strata(strata, values, shows))


def maker_tested(known: Sequence[Piece], strata: Sequence[str]) -> tuple[str, Tested, Tested]:
    """Each maker against all others; the one that differs most stands, its chance times the number of makers."""
    makers = sorted(
        maker for maker, number in Counter(piece.maker for piece in known).items() if number >= FEWEST_OF_A_MAKER
    )
    if len({piece.maker for piece in known}) < 2 or not makers:
        return "", NOTHING, NOTHING
    shows = [piece.shows for piece in known]
    found = []
    for maker in makers:
        own = [piece.maker == maker for piece in known]
        together = against_others([""] * len(known), own, shows)
        found.append((maker, together, against_others(strata, own, shows)))
    # Two makers and nobody else: the two tests are one.
    tries = 1 if len(makers) == len({piece.maker for piece in known}) == 2 else len(makers)
    clearest, together, _ = min(found, key=lambda one: (one[1].p, -one[1].side, one[0]))
    # Where only two makers share a time, each differs from the other: the one that differs from all is meant.
    within_clearest, _, within = min(found, key=lambda one: (one[2].p, one[1].p, -one[2].side, one[0]))
    name = within_clearest if within.p * tries <= SURE else clearest
    return name, times(together, tries), times(within, tries)


def against_others(strata: Sequence[str], own: Sequence[bool], shows: Sequence[float]) -> Tested:
    if set(shows) <= {0, 1}:
        return share_test(in_strata(strata, np.array(shows, dtype=int), np.array(own)))
    return rank_sum_test(in_strata(strata, shows, np.array(own)))


def times(test: Tested, tries: int) -> Tested:
    p, least = min(1.0, test.p * tries), min(1.0, test.least * tries)
    return Tested(p, least, test.pieces, test.side, test.shift, test.exact)


@dataclass(frozen=True)
class Shade:
    """A shade measured in the exposed and in the protected place of one piece, in CIELAB: (L, a, b) of each."""

    exposed: tuple[float, float, float]
    protected: tuple[float, float, float]
    year: int | None = None
    maker: str = ""
    size: float | None = None
    wear: int | None = None
    code: str = ""

    @property
    def faded_by(self) -> float:
        """The colour difference of the two places, in units of CIEDE2000."""
        return ciede2000(self.exposed, self.protected)


@dataclass(frozen=True)
class ShadeFindings:
    """What measured shades say.

    `within`: the exposed against the protected place of the same piece (positive: lighter where exposed), `lighter`
    of `pieces`. `fading`: whether the difference of the two goes with the wear. `protected`: for L, a and b in the
    protected place, the four factors.
    """

    within: Tested
    lighter: int
    pieces: int
    median_difference: float
    fading: tuple[Link, ...]
    protected: dict[str, tuple[Link, ...]]


def shade_findings(shades: Iterable[Shade]) -> ShadeFindings:
    """First the two places of each piece, which share year, maker and cloth; only then pieces with each other."""
    rows = sorted(shades, key=lambda row: (row.code, row.protected, row.exposed))
    lighter = [row.exposed[0] - row.protected[0] for row in rows]
    axes = {
        axis: [shown(row, row.protected[place]) for row in rows] for place, axis in enumerate(("lightness", "a", "b"))
    }
    together = links_of_all({**axes, "fading": [shown(row, row.faded_by) for row in rows]})
    return ShadeFindings(
        within=signed_rank_test(lighter),
        lighter=sum(difference > 0 for difference in lighter),
        pieces=len(rows),
        median_difference=float(np.median([row.faded_by for row in rows])) if rows else 0.0,
        fading=together.pop("fading"),
        protected=together,
    )


def shown(row: Shade, value: float) -> Piece:
    return Piece(value, row.year, row.maker, row.size, row.wear, row.code)
