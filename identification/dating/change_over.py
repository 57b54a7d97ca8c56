"""When a detail changed in the course of production, from dated pieces that show the one state or the other.

Said only where the years of the two states differ more than dealing them out at random would make them, within each
maker, and with all features of a type taken together: on histories without change at most one in twenty types is told
of any. Then the year in which the later state became the usual one, with what the pieces leave possible.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from itertools import combinations
from math import ceil
from operator import attrgetter

import numpy as np

from identification.dating.exact_tests import Tested, holm, rank_sum_test
from identification.dating.fits import Curve, curve_of_makers, weighed_curve

SURE = 0.05
# A test that the normal distribution puts beyond this chance is not counted out: it shows nothing either way.
FAR_FROM_SURE = 0.3
# A piece that the curve gives less than this chance does not fit; see `odd`.
UNLIKELY = 0.05
# A maker this likely to have changed in a year of its own is named as such; below it, it only keeps the years open.
NAMED = 0.9
IN_ORDER = attrgetter("year", "state", "maker", "code")
FEWEST_OF_A_MAKER = 2
FEWEST_TO_FIT = 6
# A detail may change and change back. So two states are compared over all their pieces and over parts of them by year;
# the parts are chosen without a look at the states, so that each test stays what it says.
WHOLE = (0.0, 1.0)
WINDOWS = (WHOLE, (0.0, 0.5), (0.5, 1.0), (0.0, 0.67), (0.33, 1.0))


@dataclass(frozen=True, slots=True)
class DatedPiece:
    """One piece with a label year: the state it shows, who made it (empty: not known), its code."""

    year: int
    state: str
    maker: str = ""
    code: str = ""


class Shown(Enum):
    """What dated pieces say of a feature."""

    CHANGED = "changed"
    NO_CHANGE = "no change"
    WITH_MAKER = "year and maker cannot be separated"
    ONE_STATE = "one state"
    TOO_FEW = "too few"


@dataclass(frozen=True)
class MakerApart:
    """A maker that changed at another time than the rest: `late` until `year`, or else early from `year`."""

    maker: str
    late: bool
    year: int
    pieces: int


@dataclass(frozen=True)
class Elsewhere:
    """Pieces that show a state on the wrong side of a whole change: the earlier one again after the last of the later,
    or the later one already before the first of the earlier. They say nothing of when the one gave way."""

    first: int
    last: int
    pieces: int
    makers: tuple[str, ...]


@dataclass(frozen=True)
class Change:
    """One state gave way to another.

    `first`–`last`: the years in which the later state may have become the usual one, at the level asked for; `about`
    the middle one. `both_from`–`both_to`: the years in which both are met at the makers that changed together, None
    where none. `pieces`: dated pieces that show either state and count here. `odd`: those that do not fit, such as
    repaired ones. `again`, `already`: those of the earlier state after it all, and of the later one before it.
    `p`: chance of so clear a difference without a change, raised for all that were tried.
    """

    before: str
    after: str
    about: int
    first: int
    last: int
    both_from: int | None
    both_to: int | None
    pieces: int
    makers_apart: tuple[MakerApart, ...]
    odd: tuple[DatedPiece, ...]
    again: Elsewhere | None
    already: Elsewhere | None
    p: float
    curve: Curve


@dataclass(frozen=True)
class History:
    """What the dated pieces say of one feature. `pieces`: how many of them show a state."""

    shown: Shown
    pieces: int
    changes: tuple[Change, ...] = ()
    confounded: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Pair:
    """Two states of a feature in a window of time, the one with the earlier years first, and the tests of them."""

    feature: str
    before: str
    after: str
    window: tuple[float, float]
    pieces: tuple[DatedPiece, ...]
    within_makers: Tested
    taken_together: Tested

    @property
    def same_way(self) -> bool:
        """Whether within makers the later state is the later one too."""
        return self.within_makers.side == (1 if self.before < self.after else -1)


def histories(features: Mapping[str, Iterable[DatedPiece]], *, level: float = 0.95) -> dict[str, History]:
    """What is shown of each feature of a type, all of them taken together.

    `level`: of the years said of a change. Raises ValueError for a level outside 0 to 1.
    """
    if not 0 < level < 1:
        raise ValueError("the level lies between 0 and 1")
    lined_up = {feature: in_line(rows) for feature, rows in features.items()}
    pieces = {feature: rows.pieces for feature, rows in lined_up.items()}
    pairs = [pair for feature, rows in lined_up.items() for pair in pairs_of(feature, rows)]
    # A test that could never have shown anything is none of those that are corrected for (Tarone 1990, from memory).
    within = raised([pair.within_makers for pair in pairs])
    together = raised([pair.taken_together for pair in pairs])
    found: dict[str, list] = defaultdict(list)
    for pair, p_within, p_together in zip(pairs, within, together, strict=True):
        found[pair.feature].append((pair, p_within, p_together))
    return {feature: history(rows, found[feature], level) for feature, rows in pieces.items()}


@dataclass(frozen=True)
class InLine:
    """The pieces of a feature by year, then state and maker; and their years, states and makers as numbers, that of a
    name being its place in `states` or `makers`."""

    pieces: tuple[DatedPiece, ...]
    years: np.ndarray
    states: list[str]
    state: np.ndarray
    makers: list[str]
    maker: np.ndarray


def in_line(rows: Iterable[DatedPiece]) -> InLine:
    """Sorted by numbers: of ten thousand pieces in forty features, comparing names took most of the time; and so would
    making a tuple of each, since Python then looks through all of them for what could be thrown away."""
    rows = list(rows)
    state_names, state = numbered([piece.state for piece in rows])
    maker_names, maker = numbered([piece.maker for piece in rows])
    year = np.array([piece.year for piece in rows], dtype=np.int64)
    order = np.lexsort((maker, state, year))
    pieces = tuple([rows[place] for place in order.tolist()])
    return InLine(pieces, year[order], state_names, state[order], maker_names, maker[order])


def numbered(names: Sequence[str]) -> tuple[list[str], np.ndarray]:
    """The different names in their order, and each name as its place among them."""
    different = sorted(set(names))
    place = {name: place for place, name in enumerate(different)}
    return different, np.array([place[name] for name in names], dtype=np.int64)


def raised(tests: Sequence[Tested]) -> list[float]:
    """Chances raised for the number of tests that could show anything at all; 1 for the others."""
    able = [place for place, test in enumerate(tests) if test.least <= SURE]
    chances = [1.0] * len(tests)
    for place, p in zip(able, holm([tests[place].p for place in able]), strict=True):
        chances[place] = p
    return chances


def pairs_of(feature: str, rows: InLine) -> list[Pair]:
    """Every two states that more than one piece shows, in every window in which more than one still does."""
    numbers = np.bincount(rows.state, minlength=len(rows.states))
    often = [place for place in range(len(rows.states)) if numbers[place] > 1]
    found = []
    for one, other in combinations(often, 2):
        both, years, chosen, maker = rows.pieces, rows.years, rows.state == other, rows.maker
        if len(rows.states) > 2:
            either = np.flatnonzero((rows.state == one) | chosen)
            both = tuple([both[place] for place in either.tolist()])
            years, chosen, maker = years[either], chosen[either], maker[either]
        by_maker = [(years[own], chosen[own]) for own in own_places(maker, len(rows.makers))]
        for window in WINDOWS:
            # From one to the other quantile of the years, both years whole; the pieces stand in the order of years.
            ends = [years[round(share * (len(both) - 1))] for share in window]
            part = between(years, *ends)
            others = int(np.count_nonzero(chosen[part]))
            few = min(others, part.stop - part.start - others) < 2
            if few or window != WHOLE and part.stop - part.start == len(both):
                continue
            strata = [(of_maker[there], shows[there]) for of_maker, shows in by_maker
                      for there in [between(of_maker, *ends)]]  # fmt: skip
            states = (rows.states[one], rows.states[other])
            found.append(pair_of(feature, window, both[part], states, strata, (years[part], chosen[part])))
    return found


def own_places(maker: np.ndarray, number: int) -> list[np.ndarray]:
    """Where the pieces of each maker stand."""
    return [own for one in range(number) if len(own := np.flatnonzero(maker == one))]


def between(years: np.ndarray, first: int, last: int) -> slice:
    """Where the years from the first to the last stand in rising years."""
    return slice(int(np.searchsorted(years, first, "left")), int(np.searchsorted(years, last, "right")))


def pair_of(
    feature: str,
    window: tuple[float, float],
    pieces: tuple[DatedPiece, ...],
    states: tuple[str, str],
    by_maker: list[tuple[np.ndarray, np.ndarray]],
    whole: tuple[np.ndarray, np.ndarray],
) -> Pair:
    """Two states tested; `by_maker` and `whole` are years with whether each shows the second state."""
    within = rank_sum_test(by_maker, most_least=SURE, far_from_sure=FAR_FROM_SURE)
    together = rank_sum_test([whole], most_least=SURE, far_from_sure=FAR_FROM_SURE)
    decisive = within if within.pieces and within.p <= together.p else together
    before, after = states if decisive.side > 0 else states[::-1]
    return Pair(feature, before, after, window, pieces, within, together)


def history(pieces: tuple[DatedPiece, ...], tried: Sequence[tuple[Pair, float, float]], level: float) -> History:
    # Of many pieces the first two states are soon met.
    if not any(piece.state != pieces[0].state for piece in pieces):
        return History(Shown.ONE_STATE if len(pieces) > 2 else Shown.TOO_FEW, len(pieces))
    changed = clearest_windows([(pair, p) for pair, p, _ in tried if p <= SURE and pair.same_way])
    if changed:
        changes = [outside_of_part(change_of(pair, p, level), pair, pieces) for pair, p in next_to(changed)]
        return History(Shown.CHANGED, len(pieces), tuple(changes_told_once(changes)))
    confounded = tuple((pair.before, pair.after) for pair, _, p in tried if p <= SURE and pair.window == WHOLE)
    if confounded:
        return History(Shown.WITH_MAKER, len(pieces), confounded=confounded)
    able = any(pair.taken_together.least <= SURE for pair, _, _ in tried)
    return History(Shown.NO_CHANGE if able else Shown.TOO_FEW, len(pieces))


def clearest_windows(changed: Sequence[tuple[Pair, float]]) -> list[tuple[Pair, float]]:
    """For each step from a state to another one window: the whole, unless a part shows the step back; then the part
    in which the step is clearest."""
    steps: dict[tuple[str, str], list[tuple[Pair, float]]] = defaultdict(list)
    for pair, p in changed:
        steps[pair.before, pair.after].append((pair, p))
    found = []
    for (before, after), tries in steps.items():
        whole = [one for one in tries if one[0].window == WHOLE]
        parts = [one for one in tries if one[0].window != WHOLE]
        if (after, before) in steps:
            found += [min(parts, key=lambda one: (one[1], one[0].window))] if parts else []
        else:
            found.append((whole or [min(parts, key=lambda one: (one[1], one[0].window))])[0])
    return found


def next_to(changed: Sequence[tuple[Pair, float]]) -> list[tuple[Pair, float]]:
    """Of a gave way to b, b to c and a to c the first two, in the order of time."""
    known = {(pair.before, pair.after) for pair, _ in changed}
    states = {state for one in known for state in one}
    direct = [
        (pair, p)
        for pair, p in changed
        if not any((pair.before, state) in known and (state, pair.after) in known for state in states)
    ]
    return sorted(direct, key=lambda one: (float(np.mean([piece.year for piece in one[0].pieces])), one[0].before))


def change_of(pair: Pair, p: float, level: float) -> Change:
    """The estimate from the makers that changed together, and those that went their own way."""
    counted, again, already = within_the_change(pair)
    curve, apart = with_makers_apart(counted, pair)
    names = {one.maker for one in apart}
    rest = [piece for piece in counted if piece.maker not in names]
    chances = {key: chance_of(*key, curve, pair.after) for key in {(piece.year, piece.state) for piece in rest}}
    odd = [piece for piece in rest if chances[piece.year, piece.state] < UNLIKELY]
    first, last = (ceil(curve.quantile((1 + side * level) / 2)) for side in (-1, 1))
    usual = [
        piece
        for piece in rest
        if chances[piece.year, piece.state] >= UNLIKELY and not is_far(piece, pair.before, pair.after, first, last)
    ]
    new = [piece.year for piece in usual if piece.state == pair.after]
    old = [piece.year for piece in usual if piece.state == pair.before]
    overlap = (min(new), max(old)) if new and old and min(new) <= max(old) else (None, None)
    return Change(
        before=pair.before,
        after=pair.after,
        about=ceil(curve.quantile(0.5)),
        first=first,
        last=last,
        both_from=overlap[0],
        both_to=overlap[1],
        pieces=len(counted),
        makers_apart=tuple(apart),
        odd=tuple(sorted(odd, key=IN_ORDER)),
        again=again,
        already=already,
        p=p,
        curve=curve,
    )


def is_far(piece: DatedPiece, before: str, after: str, first: int, last: int) -> bool:
    """Whether a piece of the earlier state lies after all years in which the change may lie, or one of the later state
    before them."""
    return (piece.state == before and piece.year > last) or (piece.state == after and piece.year < first)


def curve_of(pieces: Sequence[DatedPiece], after: str) -> Curve:
    return weighed_curve(np.array([p.year for p in pieces]), np.array([p.state == after for p in pieces]))


def chance_of(year: int, state: str, curve: Curve, after: str) -> float:
    """Chance that a piece of this year shows this state, repairs and misdatings not counted."""
    share = curve.share_in(year)
    return share if state == after else 1 - share


def within_the_change(pair: Pair) -> tuple[list[DatedPiece], Elsewhere | None, Elsewhere | None]:
    """The pieces that bear on the change, and those of the earlier state after it and of the later one before it.

    One piece alone may be a repaired one, so the limits are the last but one of the later state and the second of the
    earlier, and a single piece outside stays in.
    """
    old = [piece.year for piece in pair.pieces if piece.state == pair.before]
    new = [piece.year for piece in pair.pieces if piece.state == pair.after]
    end, begin = sorted(new)[-2], sorted(old)[1]
    again = [piece for piece in pair.pieces if piece.state == pair.before and piece.year > end]
    already = [piece for piece in pair.pieces if piece.state == pair.after and piece.year < begin]
    again = again if len(again) > 1 and len(old) - len(again) > 1 else []
    already = already if len(already) > 1 and len(new) - len(already) > 1 else []
    left_out = {id(piece) for piece in (*again, *already)}
    return [piece for piece in pair.pieces if id(piece) not in left_out], elsewhere(again), elsewhere(already)


def outside_of_part(change: Change, pair: Pair, pieces: Sequence[DatedPiece]) -> Change:
    """A change that only a part of the years shows, with the pieces of the other years that are on its wrong side."""
    if pair.window == WHOLE:
        return change
    both = [piece for piece in pieces if piece.state in (pair.before, pair.after)]
    _, again, already = within_the_change(replace(pair, pieces=tuple(both)))
    return replace(change, again=change.again or again, already=change.already or already)


def changes_told_once(changes: Sequence[Change]) -> list[Change]:
    """A state that comes back by a change of its own is not said to come back a second time."""
    steps = {(change.before, change.after) for change in changes}
    return [
        replace(change, again=None, already=None) if (change.after, change.before) in steps else change
        for change in changes
    ]


def elsewhere(pieces: Sequence[DatedPiece]) -> Elsewhere | None:
    if not pieces:
        return None
    years = [piece.year for piece in pieces]
    return Elsewhere(min(years), max(years), len(pieces), tuple(sorted({piece.maker for piece in pieces} - {""})))


def with_makers_apart(pieces: Sequence[DatedPiece], pair: Pair) -> tuple[Curve, list[MakerApart]]:
    """The curve of the makers that changed together, and the makers that did not.

    A maker with half of the pieces or more is never apart: then it is the others that are. Who is apart is not settled
    before the years are told: one whose few pieces leave that open makes them wider.
    """
    numbers = Counter(piece.maker for piece in pieces if piece.maker)
    small = sorted(maker for maker, number in numbers.items() if 2 * number < len(pieces))
    place = {maker: number for number, maker in enumerate(small)}
    curve, chances = curve_of_makers(
        np.array([piece.year for piece in pieces]),
        np.array([piece.state == pair.after for piece in pieces]),
        np.array([place.get(piece.maker, -1) for piece in pieces]),
    )
    apart = []
    for maker, chance in zip(small, chances, strict=True):
        if chance >= NAMED:
            own = [piece for piece in pieces if piece.maker == maker]
            found = [one for late in (True, False) if (one := apart_from(curve, maker, own, pair, late))]
            apart += sorted(found, key=lambda one: -one[0])[:1]
    return curve, sorted([one for _, one in apart], key=lambda one: (one.late, one.year, one.maker))


def apart_from(
    curve: Curve, maker: str, own: Sequence[DatedPiece], pair: Pair, late: bool
) -> tuple[int, MakerApart] | None:
    """How many pieces of this maker stand on the late (or early) side of the change with the wrong state, if enough."""
    from_year, to_year = curve.quantile(0.025), curve.quantile(0.975)
    there = [piece for piece in own if (piece.year > to_year if late else piece.year < from_year)]
    unusual = [piece for piece in there if piece.state == (pair.before if late else pair.after)]
    if len(unusual) < FEWEST_OF_A_MAKER:
        return None
    return len(unusual), MakerApart(maker, late, own_limit(own, unusual, pair, late), len(own))


def fitted(pieces: Sequence[DatedPiece], pair: Pair) -> Curve | None:
    """The curve of these pieces alone, or None where they are too few for one."""
    states = Counter(piece.state for piece in pieces)
    few = len(pieces) < FEWEST_TO_FIT or min(states[pair.before], states[pair.after]) < FEWEST_OF_A_MAKER
    return None if few else curve_of(pieces, pair.after)


def own_limit(own: Sequence[DatedPiece], unusual: Sequence[DatedPiece], pair: Pair, late: bool) -> int:
    """Last year of the earlier state at a late maker, or first of the later state at an early one, its own odd pieces
    left out."""
    curve = fitted(own, pair)
    usual = [p for p in unusual if curve is None or chance_of(p.year, p.state, curve, pair.after) >= UNLIKELY]
    years = [piece.year for piece in usual or unusual]
    return max(years) if late else min(years)
