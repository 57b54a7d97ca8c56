"""One version as two: which of its pieces would go to which, by what was seen on them, and which to neither. Pure."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from catalogue.member_examples.evidence import PieceSeen
from catalogue.reference.uncertain_dates import year_span
from catalogue.review.proposals import rules
from catalogue.review.proposals.merged import Follower, contradicted
from catalogue.review.proposals.rules import Rows, row_of


@dataclass(frozen=True)
class Nowhere:
    """A piece that the divided version takes in and neither of the two would. `seen`: features, each with the codes of
    the versions whose records it shows otherwise."""

    piece: PieceSeen
    seen: tuple[str, ...]


@dataclass(frozen=True)
class Divided:
    followers: tuple[Follower, ...]
    nowhere: tuple[Nowhere, ...]

    def to(self, code: str) -> list[Follower]:
        return [one for one in self.followers if one.to == code]


def after_split(
    pieces: Iterable[PieceSeen],
    *,
    code: str,
    before: Rows,
    both: Sequence[str],
    rows: Sequence[Rows],
    years: Mapping[str, int],
) -> Divided:
    """What becomes of the pieces of `code` when it is divided into `both`, whose whole rows are given in their order;
    `years`: on the labels of pieces, by their code.

    Only features count of which one of the two says something else than the divided version did: in the others a piece
    stands as it stood. It goes where nothing speaks against it that did not before, and where less does. Where that is
    so of both, the year on its label decides, if it lies within the dates of one alone; where that does not tell
    either, it goes to the first and is doubtful. Where something new speaks against it in both, it would be nowhere.
    """
    followers, nowhere = [], []
    touched = {key for of in rows for key in rules.changed_rows(before, of)}
    said = [{key: row_of(of, key) for key in touched} for of in (before, *rows)]
    for piece in pieces:
        if piece.version != code:
            continue
        known, *found = (contradicted(piece, of) for of in said)
        against = dict(zip(both, found, strict=True))
        fitting = [new for new in both if set(against[new]) <= set(known)]
        if not fitting:
            new_there = dict.fromkeys(one for new in both for one in against[new] if one not in known)
            nowhere.append(Nowhere(piece, tuple(new_there)))
            continue
        fewest = min(len(against[new]) for new in fitting)
        fitting = [new for new in fitting if len(against[new]) == fewest]
        if len(fitting) == 2:
            fitting = by_label(years.get(piece.code), dict(zip(both, rows, strict=True))) or fitting
        to, *others = fitting
        followers.append(Follower(piece, to, against[to], others[0] if others else ""))
    return Divided(tuple(followers), tuple(nowhere))


def by_label(year: int | None, of: Mapping[str, Rows]) -> list[str]:
    """The one version within whose dates the year lies; none where that tells nothing."""
    if year is None:
        return []
    within = [code for code, rows in of.items() if lies_within(year, str(row_of(rows, "date")))]
    return within if len(within) == 1 else []


def lies_within(year: int, date: str) -> bool:
    """Whether a year is one of a date's; of an open or missing end every year beyond."""
    first, last = year_span(date) if date else (None, None)
    return (first is None or first <= year) and (last is None or year <= last)
