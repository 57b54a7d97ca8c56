"""Two to four versions side by side, differing features first."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from catalogue.reference.facts import FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.separation import Separation, separation, states_of

MOST = 4
NOT_RECORDED, DOES_NOT_APPLY = "not recorded", "does not apply"


@dataclass(frozen=True)
class ComparedRow:
    """A feature and what each version's record says of it; `differs` where some two have no state in common."""

    feature: FeatureFacts
    cells: tuple[str, ...]
    differs: bool


@dataclass(frozen=True)
class Comparison:
    """`partly`: neither all alike nor with two that exclude each other, or not recorded for all."""

    versions: tuple[VersionFacts, ...]
    differing: tuple[ComparedRow, ...]
    partly: tuple[ComparedRow, ...]
    alike: tuple[ComparedRow, ...]
    not_recorded: tuple[FeatureFacts, ...]
    pairs: tuple[Separation, ...]


def cell_words(home: TypeFacts, version: VersionFacts, feature: FeatureFacts) -> str:
    """What the record says, in words; why nothing is said otherwise."""
    cells = version.cells.get(feature.code)
    if not cells:
        return NOT_RECORDED if home.applies(version, feature) else DOES_NOT_APPLY
    parts = []
    for cell in cells:
        extras = [cell.how_often] if len(cells) > 1 or cell.how_often != "always" else []
        extras += [f"only {cell.limits}"] if cell.limits else []
        parts.append(cell.label + (f" ({'; '.join(extras)})" if extras else ""))
    return "; or ".join(parts)


def compare(homes: Sequence[TypeFacts], versions: Sequence[VersionFacts]) -> Comparison:
    """The comparison. Versions of different types are compared in the features that their types share."""
    shared = [f for code, f in homes[0].features.items() if all(code in home.features for home in homes)]
    rows, not_recorded = [], []
    for feature in shared:
        cells = tuple(cell_words(home, version, feature) for home, version in zip(homes, versions, strict=True))
        if all(cell == NOT_RECORDED for cell in cells):
            not_recorded.append(feature)
        elif any(cell != DOES_NOT_APPLY for cell in cells):
            rows.append(ComparedRow(feature, cells, differs(feature, versions)))
    differing = sorted((row for row in rows if row.differs), key=lambda row: row.feature.needs_handling)
    alike = tuple(row for row in rows if not row.differs and len(set(row.cells)) == 1)
    partly = tuple(row for row in rows if not row.differs and len(set(row.cells)) > 1)
    pairs = tuple(separation(a, b, shared) for a, b in combinations(versions, 2))
    return Comparison(tuple(versions), tuple(differing), partly, alike, tuple(not_recorded), pairs)


def differs(feature: FeatureFacts, versions: Sequence[VersionFacts]) -> bool:
    """True where two of the versions have no recorded state in common."""
    sets = [states for version in versions if (states := states_of(version, feature.code))]
    return any(not a & b for a, b in combinations(sets, 2))
