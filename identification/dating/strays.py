"""Pieces that do not go with a change: who still made the earlier state after it, and the odd ones far from it.

Counted, not weighed: a description of the pieces, piece by piece, beside what `change_over` estimates. Makers that went
their own way by far are named there (`makers_apart`), and so is a state that came back (`again`, `already`).
"""

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from identification.dating.change_over import IN_ORDER, Change, DatedPiece, is_far


@dataclass(frozen=True)
class StillMade:
    """A maker whose labels show the earlier state when others had begun with the later one, `first` to `last`."""

    maker: str
    first: int
    last: int
    pieces: int


def still_made(change: Change, pieces: Iterable[DatedPiece]) -> tuple[StillMade, ...]:
    """By maker the pieces of the earlier state from the year on in which another maker is met with the later one, where
    this maker itself began later; those of most pieces first."""
    odd = set(odd_ones(change, pieces))
    usual = [piece for piece in of_change(change, pieces) if piece.maker and piece not in odd]
    begun: dict[str, int] = {}
    for piece in usual:
        if piece.state == change.after:
            begun[piece.maker] = min(piece.year, begun.get(piece.maker, piece.year))
    years: dict[str, list[int]] = defaultdict(list)
    for piece in usual:
        others = min((year for maker, year in begun.items() if maker != piece.maker), default=None)
        began_as_soon = others is not None and begun.get(piece.maker, others + 1) <= others
        if piece.state == change.before and others is not None and piece.year >= others and not began_as_soon:
            years[piece.maker].append(piece.year)
    found = [StillMade(maker, min(own), max(own), len(own)) for maker, own in years.items()]
    return tuple(sorted(found, key=lambda one: (-one.pieces, one.maker)))


def half_made_by(change: Change, pieces: Iterable[DatedPiece]) -> tuple[str, int, int] | None:
    """The maker of half or more of the pieces that a change rests on, how many those are, and of how many; None where
    it is the only maker. If it changed in a year of its own, its year is the one that is told."""
    counted = of_change(change, pieces)
    makers = Counter(piece.maker for piece in counted if piece.maker)
    if len(makers) < 2:
        return None
    maker, number = min(makers.items(), key=lambda one: (-one[1], one[0]))
    return (maker, number, len(counted)) if 2 * number >= len(counted) else None


def odd_ones(change: Change, pieces: Iterable[DatedPiece]) -> tuple[DatedPiece, ...]:
    """Pieces of the earlier state after all years in which the change may lie, or of the later state before them, and
    those that the curve of the change makes unlikely; in order of their years."""
    span = change.before, change.after, change.first, change.last
    far = {piece for piece in of_change(change, pieces) if is_far(piece, *span)}
    return tuple(sorted(far | set(change.odd), key=IN_ORDER))


def of_change(change: Change, pieces: Iterable[DatedPiece]) -> list[DatedPiece]:
    """Pieces of either state, but for makers that are named as apart and for states that are told to be met again or
    already."""
    apart = {one.maker for one in change.makers_apart}
    found = []
    for piece in pieces:
        again = change.again and piece.state == change.before and piece.year >= change.again.first
        already = change.already and piece.state == change.after and piece.year <= change.already.last
        if piece.state in (change.before, change.after) and piece.maker not in apart and not again and not already:
            found.append(piece)
    return found
