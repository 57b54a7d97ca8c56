"""Two to four versions side by side, differing features first."""

from dataclasses import dataclass
from itertools import combinations

from catalogue.reference.facts import FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.separation import Separation, separation, states_of

MOST = 4


@dataclass(frozen=True)
class ComparedRow:
    """A feature and what each version's record says of it; `differs` where some two have no state in common."""

    feature: FeatureFacts
    cells: tuple[str, ...]
    differs: bool


@dataclass(frozen=True)
class Comparison:
    versions: tuple[VersionFacts, ...]
    differing: tuple[ComparedRow, ...]
    partly: tuple[ComparedRow, ...]
    alike: tuple[ComparedRow, ...]
    not_recorded: tuple[FeatureFacts, ...]
    pairs: tuple[Separation, ...]


def cell_words(facts: TypeFacts, version: VersionFacts, feature: FeatureFacts) -> str:
    """What the record says, in words; why nothing is said otherwise."""
    cells = version.cells.get(feature.code)
    if cells:
        parts = [
            cell.label
            + (f" ({cell.how_often})" if len(cells) > 1 else "")
            + (f" [{cell.limits}]" if cell.limits else "")
            for cell in cells
        ]
        return "; or ".join(parts)
    home = facts
    return "not recorded" if home.applies(version, feature) else "does not apply"


def compare(homes: list[TypeFacts], versions: list[VersionFacts]) -> Comparison:
    """The comparison. Versions of different types are compared in the features that their types share."""
    shared = [f for code, f in homes[0].features.items() if all(code in home.features for home in homes)]
    rows, not_recorded = [], []
    for feature in shared:
        cells = tuple(cell_words(home, version, feature) for home, version in zip(homes, versions, strict=True))
        if all(cell == "not recorded" for cell in cells):
            not_recorded.append(feature)
        else:
            rows.append(ComparedRow(feature, cells, differs(feature, versions)))
    differing = tuple(row for row in rows if row.differs)
    alike = tuple(row for row in rows if not row.differs and len(set(row.cells)) == 1)
    partly = tuple(row for row in rows if row not in differing and row not in alike)
    pairs = tuple(separation(a, b, shared) for a, b in combinations(versions, 2))
    return Comparison(tuple(versions), differing, partly, alike, tuple(not_recorded), pairs)


def differs(feature: FeatureFacts, versions: list[VersionFacts]) -> bool:
    sets = [states for version in versions if (states := states_of(version, feature.code))]
    return any(not a & b for a, b in combinations(sets, 2))
