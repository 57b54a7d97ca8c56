"""Two versions as one: the rows that a merge begins with, and which pieces would follow or become doubtful. Pure."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from catalogue.member_examples.evidence import PieceSeen
from catalogue.reference.size_tables import in_a_table
from catalogue.reference.uncertain_dates import year_span
from catalogue.reference.words import Certainty
from catalogue.review.proposals.rules import CAUTIONS, Rows, against_of, row_of
from catalogue.review.proposals.words import FEATURE

# Of a cell; one without a word is carried over or asserted.
BEST_FOUNDED_FIRST = (Certainty.DOCUMENTED, Certainty.OBSERVED, Certainty.INFERRED, "")


def merged_rows(stays: Rows, goes: Rows, *, goes_code: str, order: Mapping[str, Sequence[str]]) -> dict[str, object]:
    """The rows of the version that stays as a merge would begin: every state, name and source of both, and dates that
    cover both. `order`: states by feature, as rows have them. Its author writes on from there."""
    found = dict(stays)
    names = [*row_of(stays, "other_names"), row_of(goes, "name"), *row_of(goes, "other_names")]
    found["other_names"] = [name for name in dict.fromkeys(names) if name != stays["name"]]
    found["sources"] = list(dict.fromkeys([*row_of(stays, "sources"), *row_of(goes, "sources")]))
    above = list(row_of(stays, "continues"))
    if goes_code in above:  # it continued what now is one with it, and so what that continued
        place = above.index(goes_code)
        above[place : place + 1] = row_of(goes, "continues")
    against = [*row_of(stays, "contradicting_sources"), *row_of(goes, "contradicting_sources")]
    found["contradicting_sources"] = [one for one in dict.fromkeys(against) if one not in found["sources"]]
    found["restrictions"] = sorted({*row_of(stays, "restrictions"), *row_of(goes, "restrictions")})
    found["passes_for"] = sorted({*row_of(stays, "passes_for"), *row_of(goes, "passes_for")})
    found |= {key: row_of(stays, key) or row_of(goes, key) for key in ("cut", "colourway", "issuer")}
    found["continues"] = list(dict.fromkeys(above))
    found["made_from"] = list(dict.fromkeys([*row_of(stays, "made_from"), *row_of(goes, "made_from")]))
    found["makers"] = sorted({*row_of(stays, "makers"), *row_of(goes, "makers")})
    measured = {(one["mark"], one["what"]) for one in row_of(stays, "sizes")}
    more = [one for one in row_of(goes, "sizes") if (one["mark"], one["what"]) not in measured]
    found["sizes"] = sorted([*row_of(stays, "sizes"), *more], key=lambda one: in_a_table(one["mark"], one["what"]))
    if not row_of(stays, "hazard_kind"):
        found |= {key: row_of(goes, key) or row_of(stays, key) for key in CAUTIONS}
    found["date"] = date_of_both(str(row_of(stays, "date")), str(row_of(goes, "date")))
    for key in goes:
        if key.startswith(FEATURE):
            places = {state: place for place, state in enumerate(order.get(key.removeprefix(FEATURE), ()))}
            cells = cells_of_both(row_of(stays, key), row_of(goes, key))
            found[key] = sorted(cells, key=lambda cell: places.get(cell["state"], len(places)))
    return found


def date_of_both(one: str, other: str) -> str:
    """From the earlier beginning to the later end; the first as it is where either is open or not there."""
    if not one or not other or one == other:
        return one or other
    (begins, ends), (others_begin, others_end) = year_span(one), year_span(other)
    if None in (begins, ends, others_begin, others_end):
        return one
    if begins <= others_begin and others_end <= ends:
        return one
    return f"{min(begins, others_begin)}/{max(ends, others_end)}"


def cells_of_both(one: Sequence[Mapping], other: Sequence[Mapping]) -> list[Mapping]:
    """Each state of either, with what it rests on in both. What was always so on one alone is no longer: usual where
    the other shows it too."""
    if not one or not other:
        return list(one or other)
    mine, theirs = ({cell["state"]: cell for cell in cells} for cells in (one, other))
    on_both = mine.keys() & theirs.keys()
    several = mine.keys() != theirs.keys()
    found = mine | {state: grounded(mine[state], cell) if state in mine else cell for state, cell in theirs.items()}
    return [loosened(cell, state in on_both, several) for state, cell in found.items()]


def grounded(cell: Mapping, other: Mapping) -> Mapping:
    """A cell with what the same state rests on in the other record too: the sources and notes of both, and as sure as
    the better founded of them."""
    notes = dict.fromkeys(one["note"] for one in (cell, other) if one["note"])
    sources = list(dict.fromkeys([*cell["sources"], *other["sources"]]))
    against = dict.fromkeys([*cell.get("against", ()), *other.get("against", ())])
    return {
        **{name: value for name, value in cell.items() if name != "against"},
        **against_of([one for one in against if one not in sources]),
        "certainty": min(cell["certainty"], other["certainty"], key=BEST_FOUNDED_FIRST.index),
        "sources": sources,
        "note": " ".join(notes),
    }


def loosened(cell: Mapping, on_both: bool, several: bool) -> Mapping:
    if not several or cell["how_often"] != "always":
        return cell
    return {**cell, "how_often": "usually" if on_both else "sometimes"}


@dataclass(frozen=True)
class Follower:
    """A piece that a decision moves, or makes doubtful where it is. `against`: features that it shows otherwise than
    the record that it comes to; `or_as_well`: the version that it could be as well, where nothing seen on it tells;
    `led_by`: the year on its label, where that alone led it; `outside`: the same where it lies outside the dates that
    it comes to, and lay within those that it had."""

    piece: PieceSeen
    to: str
    against: tuple[str, ...] = ()
    or_as_well: str = ""
    led_by: int | None = None
    outside: int | None = None

    @property
    def moves(self) -> bool:
        return self.piece.version != self.to

    @property
    def is_doubtful(self) -> bool:
        return bool(self.against or self.or_as_well or self.outside)


def contradicted(piece: PieceSeen, rows: Rows) -> tuple[str, ...]:
    """Features that people saw on a piece otherwise than these rows record; what they do not record says nothing."""
    return tuple(
        feature
        for feature, state in piece.states.items()
        if (cells := row_of(rows, f"{FEATURE}{feature}")) and state not in {cell["state"] for cell in cells}
    )


def after_merge(
    pieces: Iterable[PieceSeen], *, stays: str, goes: str, before: Rows, merged: Rows
) -> tuple[Follower, ...]:
    """What becomes of the pieces of both. `before`, `merged`: whole rows of the version that stays. A piece of that one
    is doubtful only by what did not stand against it before."""
    found = []
    for piece in pieces:
        if piece.version not in (stays, goes):
            continue
        against = contradicted(piece, merged)
        if piece.version == stays:
            against = tuple(one for one in against if one not in contradicted(piece, before))
        if piece.version == goes or against:
            found.append(Follower(piece, stays, against))
    return tuple(found)


def after_return(
    pieces: Iterable[PieceSeen], *, version: str, before: Rows, after: Rows, but: Iterable[str]
) -> tuple[Follower, ...]:
    """Pieces of a version, `but` those that leave it, that its changed record newly contradicts."""
    left = set(but)
    own = [piece for piece in pieces if piece.version == version and piece.code not in left]
    return after_merge(own, stays=version, goes="", before=before, merged=after)
