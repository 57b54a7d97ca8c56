"""A change that what is seen on accepted pieces suggests: the rows and grounds with which its draft begins.

Nothing is proposed by it: an author looks at the draft, changes it, and sends it or not.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.evidence import Shown
from catalogue.member_examples.models import Example
from catalogue.member_examples.queries import evidence_of
from catalogue.reference.models import IssueVersion
from catalogue.reference.plurals import counted
from catalogue.reference.snapshots import type_facts
from catalogue.reference.words import Certainty, HowOften, ServiceChange
from catalogue.review.proposals.composing import row_in_words
from catalogue.review.proposals.rules import row_of
from catalogue.review.proposals.standing import Rows, rows_of_version
from catalogue.review.proposals.words import FEATURE

# The word of a share of the pieces: the nearest of those that the words mean on average, 0.77, 0.28 and 0.07
# (identification/profiles_from_catalogue.py), halfway between two.
USUALLY_FROM, SOMETIMES_FROM = 0.525, 0.175
# What changes while a piece is worn says little of how it was issued, however many pieces agree.
CHANGES_IN_SERVICE = {ServiceChange.EASILY, ServiceChange.WEAR, ServiceChange.REPAIR}
BY_WEAR = " It can change while a piece is worn, so what was recorded stays beside it."
MOST_NAMED = 12


@dataclass(frozen=True)
class Prefilled:
    """`rows`: what the draft wants otherwise. `what`: the row's name; `stands`, `wanted`: it in words."""

    rows: Rows
    grounds: str
    what: str
    stands: str
    wanted: str
    pieces: tuple[tuple[str, str], ...]


def from_pieces(version: IssueVersion, feature: str, state: str) -> Prefilled | None:
    """That a version shows a state which its record does not have, as accepted pieces show it; None where none does,
    or the record has it."""
    home = type_facts(version.garment_type.code)
    shown, known = evidence_of(home.code).of(version.code, feature), home.features.get(feature)
    codes = shown.by_state.get(state, ())
    key, base = f"{FEATURE}{feature}", rows_of_version(version)
    cells = row_of(base, key)
    if known is None or state not in known.state_by_code or not codes or state in {cell["state"] for cell in cells}:
        return None
    changes = bool(cells) and known.service_change in CHANGES_IN_SERVICE
    rows = {key: cells_with(cells, state, shown, alone=not changes)}
    many = counted(shown.pieces, "accepted piece")
    return Prefilled(
        rows=rows,
        grounds=f"{listed(codes)} {'shows' if len(codes) == 1 else 'show'} “{known.label_of(state)}”: {len(codes)} of "
        f"{many} of {version.code} on which it was looked at.{BY_WEAR if changes else ''}",
        what=known.name,
        stands=row_in_words(key, cells, home),
        wanted=row_in_words(key, rows[key], home),
        pieces=tuple((code, example_address(code)) for code in codes[:MOST_NAMED]),
    )


def cells_with(cells: Sequence[Mapping], state: str, shown: Shown, *, alone: bool) -> list[dict]:
    """The row with the state as often as pieces show it. Where all of them do it stands `alone`, or beside what was
    recorded; otherwise what was held to be always so is so as often as the others are seen."""
    number = len(shown.by_state[state])
    every = number == shown.pieces
    word = HowOften.USUALLY.value if every and not alone else word_of(number, shown.pieces)
    new = {"state": state, "how_often": word, "share": None,
           "certainty": Certainty.OBSERVED.value, "first_year": None, "last_year": None, "note": "", "sizes": "",
           "makers": [], "sources": []}  # fmt: skip
    if every and alone:
        return [new]
    others = HowOften.SOMETIMES.value if every else word_of(shown.pieces - number, shown.pieces)
    kept = [dict(cell) | ({"how_often": others} if cell["how_often"] == HowOften.ALWAYS else {}) for cell in cells]
    return [*kept, new]


def word_of(number: int, of: int) -> str:
    if number == of:
        return HowOften.ALWAYS.value
    share = number / of
    if share >= USUALLY_FROM:
        return HowOften.USUALLY.value
    return (HowOften.SOMETIMES if share >= SOMETIMES_FROM else HowOften.SELDOM).value


def from_labels(version: IssueVersion) -> Prefilled | None:
    """That a version's dates reach as far as the years on the labels of its accepted pieces; None where they do."""
    first, last = version.from_year, version.to_year
    held = Example.objects.accepted().filter(held_as=version, label_year__isnull=False)
    dated = sorted(held.values_list("label_year", "code"))
    outside = [(year, code) for year, code in dated if (first and year < first) or (last and year > last)]
    if not outside or not version.date:
        return None
    begins, ends = (version.date.split("/") * 2)[:2]
    if first and outside[0][0] < first:
        begins = str(outside[0][0])
    if last and outside[-1][0] > last:
        ends = str(outside[-1][0])
    home, base = type_facts(version.garment_type.code), rows_of_version(version)
    rows = {"date": begins if begins == ends else f"{begins}/{ends}"}
    years = ", ".join(f"{year} on {code}" for year, code in outside[:MOST_NAMED])
    return Prefilled(
        rows=rows,
        grounds=f"Label years of accepted pieces lie outside the dates: {years}.",
        what="Dates",
        stands=row_in_words("date", row_of(base, "date"), home),
        wanted=row_in_words("date", rows["date"], home),
        pieces=tuple((code, example_address(code)) for _, code in outside[:MOST_NAMED]),
    )


def listed(codes: Sequence[str]) -> str:
    """`E1`, `E1 and E2`, `E1, E2 and 9 more`."""
    some = list(codes[:MOST_NAMED])
    if len(codes) > len(some):
        return f"{', '.join(some)} and {len(codes) - len(some)} more"
    return " and ".join([", ".join(some[:-1]), some[-1]]) if len(some) > 1 else some[0]
