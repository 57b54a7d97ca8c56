"""What accepting a piece as a version would change. Pure: facts and counts in, words out."""

from collections.abc import Mapping
from dataclasses import dataclass

from catalogue.member_examples.evidence import Evidence
from catalogue.reference.facts import TypeFacts, VersionFacts


@dataclass(frozen=True)
class Change:
    """One cell whose count would grow. `before`: accepted pieces of the version that show the state; `of`: all that
    speak of the feature; `recorded`: the record names this state; `silent`: the record names none."""

    feature: str
    name: str
    label: str
    before: int
    of: int
    recorded: bool
    silent: bool

    @property
    def settles(self) -> bool:
        """Neither the record nor any piece spoke of it."""
        return self.silent and not self.of

    @property
    def contradicts(self) -> bool:
        return not self.silent and not self.recorded


@dataclass(frozen=True)
class Effects:
    """`pieces`: accepted examples of the version now. `span`: words where the label year is new to the version."""

    pieces: int = 0
    changes: tuple[Change, ...] = ()
    span: str = ""

    @property
    def settles(self) -> list[Change]:
        return [one for one in self.changes if one.settles]

    @property
    def contradicts(self) -> list[Change]:
        return [one for one in self.changes if one.contradicts]


def effects_of(
    facts: TypeFacts,
    version: VersionFacts,
    evidence: Evidence,
    agreed: Mapping[str, str],
    year: int | None,
    years: tuple[int, int] | None,
) -> Effects:
    """`agreed`: by feature the state that people agree on, altered features left out; `year`: on the piece's label;
    `years`: first and last label year of the version's accepted pieces, None where none is dated."""
    changes = []
    for code, feature in facts.features.items():
        if not (state := agreed.get(code)):
            continue
        recorded = {cell.state for cell in version.cells.get(code, ())}
        shown = evidence.of(version.code, code)
        changes.append(
            Change(code, feature.name, feature.label_of(state), shown.showing([state]), shown.pieces,
                   state in recorded, not recorded)
        )  # fmt: skip
    return Effects(len(evidence.by_version.get(version.code, ())), tuple(changes), span_words(year, years))


def span_words(year: int | None, years: tuple[int, int] | None) -> str:
    """How the label years of a version would grow; empty where they would not."""
    if year is None:
        return ""
    if years is None:
        return f"the first label year of this version: {year}"
    first, last = years
    if first <= year <= last:
        return ""
    return f"label years {between(first, last)} become {between(min(first, year), max(last, year))}"


def between(first: int, last: int) -> str:
    return str(first) if first == last else f"{first} to {last}"
