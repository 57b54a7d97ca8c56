"""One version as two: which of its pieces would go to which, by what was seen on them, and which to neither. Pure."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from catalogue.member_examples.evidence import PieceSeen
from catalogue.review.label_years import Span, gap, newly_outside, span_of_rows
from catalogue.review.proposals import rules
from catalogue.review.proposals.merged import Follower, contradicted
from catalogue.review.proposals.rules import Rows, row_of


@dataclass(frozen=True)
class Nowhere:
    """A piece that the divided version takes in and neither of the two would. `seen`: features, each with the codes of
    the versions whose records it shows otherwise; `year`: on its label, where that lies within the dates of the divided
    version and outside those of both."""

    piece: PieceSeen
    seen: tuple[str, ...] = ()
    year: int | None = None


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
    either, it goes to the first and is doubtful; so is one whose label lies outside the dates of the only one that
    takes in what was seen. Where something new speaks against it in both, it would be nowhere, as would one whose label
    was within the dates and is within those of neither.
    """
    followers, nowhere = [], []
    touched = {key for of in rows for key in rules.changed_rows(before, of)}
    said = [{key: row_of(of, key) for key in touched} for of in (before, *rows)]
    span, spans = span_of_rows(before), {new: span_of_rows(of) for new, of in zip(both, rows, strict=True)}
    for piece in pieces:
        if piece.version != code:
            continue
        known, *found = (contradicted(piece, of) for of in said)
        against = dict(zip(both, found, strict=True))
        fitting = [new for new in both if set(against[new]) <= set(known)]
        year = years.get(piece.code)
        too_far = [new for new in both if year is not None and newly_outside(year, span, spans[new])]
        if not fitting or len(too_far) == len(both):
            new_there = dict.fromkeys(one for new in both for one in against[new] if one not in known)
            seen = () if fitting else tuple(new_there)
            nowhere.append(Nowhere(piece, seen, year if len(too_far) == len(both) else None))
            continue
        fewest = min(len(against[new]) for new in fitting)
        fitting = [new for new in fitting if len(against[new]) == fewest]
        led = by_label(year, spans) if len(fitting) == len(both) else ""
        to, *others = [led] if led else fitting
        followers.append(
            Follower(
                piece, to, against[to], others[0] if others else "",
                led_by=year if led else None, outside=year if to in too_far else None,
            )
        )  # fmt: skip
    return Divided(tuple(followers), tuple(nowhere))


def by_label(year: int | None, spans: Mapping[str, Span]) -> str:
    """The one version within whose dates the year lies; empty where that tells nothing."""
    within = [code for code, span in spans.items() if year is not None and not gap(year, *span)]
    return within[0] if len(within) == 1 else ""
