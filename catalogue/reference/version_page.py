"""What a version's page shows."""

from dataclasses import dataclass

from catalogue.reference.facts import CellFacts, CitationFacts, FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.separation import separation
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.words import Grade


@dataclass(frozen=True)
class ProfileRow:
    """A numbered row of the profile: what is seen, how often, on what grounds."""

    number: int
    feature: FeatureFacts
    states: tuple[str, ...]
    grounds: str
    carried_from: str
    sources: tuple[int, ...]


def version_context(facts: TypeFacts, version: VersionFacts) -> dict:
    """Everything the template needs, worked out once for each state of the reference."""
    return keep_for_state(("version page", version.code), lambda: make_context(facts, version))


def make_context(facts: TypeFacts, version: VersionFacts) -> dict:
    sources = numbered_sources(version)
    number_of = {source.source: place for place, source in enumerate(sources, start=1)}
    profile, unrecorded, inapplicable = profile_rows(facts, version, number_of)
    return {
        "facts": facts,
        "version": version,
        "profile": profile,
        "recorded": sum(len(rows) for _, rows in profile),
        "unrecorded": unrecorded,
        "inapplicable": inapplicable,
        "sources": [(place, s, Grade(s.grade).label) for place, s in enumerate(sources, start=1)],
        "supporting": [number_of[c.source] for c in version.citations if not c.contradicts],
        "contradicting": [c for c in version.citations if c.contradicts],
        "neighbours": neighbours(facts, version),
        "descendants": [v for v in facts.versions.values() if any(a.version == version.code for a in v.ancestors)],
        "continues": [a for a in version.ancestors if not a.made_from],
        "made_from": [a for a in version.ancestors if a.made_from],
    }


def numbered_sources(version: VersionFacts) -> list[CitationFacts]:
    """Each source once, in the order in which the page meets it."""
    met: dict[str, CitationFacts] = {}
    cells = [cell for cells in version.cells.values() for cell in cells]
    for holder in (version, *version.stock_numbers, *cells):
        for citation in holder.citations:
            met.setdefault(citation.source, citation)
    return list(met.values())


def profile_rows(facts: TypeFacts, version: VersionFacts, number_of: dict[str, int]):
    """Rows under their groups; features not recorded; features of parts that this version never has."""
    groups: dict[str, list[ProfileRow]] = {}
    unrecorded, inapplicable = [], []
    number = 0
    for feature in facts.features.values():
        cells = version.cells.get(feature.code)
        if cells:
            number += 1
            groups.setdefault(feature.group or "features", []).append(profile_row(number, feature, cells, number_of))
        elif facts.applies(version, feature):
            unrecorded.append(feature)
        else:
            inapplicable.append(feature)
    return list(groups.items()), unrecorded, inapplicable


def profile_row(number: int, feature: FeatureFacts, cells: tuple[CellFacts, ...], number_of) -> ProfileRow:
    cited = sorted({number_of[c.source] for cell in cells for c in cell.citations})
    return ProfileRow(
        number=number,
        feature=feature,
        states=tuple(state_words(cell, len(cells) > 1) for cell in cells),
        grounds=" / ".join(dict.fromkeys(cell.grounds for cell in cells)),
        carried_from=next((cell.carried_from for cell in cells if cell.carried_from), ""),
        sources=tuple(cited),
    )


def state_words(cell: CellFacts, several: bool) -> str:
    """A state with how often and on which pieces only, as far as that says anything."""
    extras = []
    if cell.share is not None:
        extras.append(f"{cell.share * 100:.0f} % of pieces")
    elif several or cell.how_often != "always":
        extras.append(cell.how_often)
    if cell.limits:
        extras.append(f"only {cell.limits}")
    return cell.label + (f" ({'; '.join(extras)})" if extras else "")


def neighbours(facts: TypeFacts, version: VersionFacts) -> list[dict]:
    """The other versions of the type, hardest to tell first, each with the easiest features that do."""
    features = list(facts.features.values())
    rows = []
    for other in facts.versions.values():
        if other.code != version.code:
            found = separation(version, other, features)
            rows.append({"version": other, "number": len(found.features), "words": found.words,
                         "features": [f.name for f in found.features[:4]]})  # fmt: skip
    return sorted(rows, key=lambda row: row["number"])
