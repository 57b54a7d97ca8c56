"""What stands behind the change of a detail on record, type by type: a paper that ordered it, pieces or reasoning it
was inferred from, or nothing; and the types where it would be expected and is not recorded."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalogue.reference.facts import CitationFacts, TypeFacts, VersionFacts
from catalogue.reference.words import Certainty, SourceKind, VersionKind

ORDERED, INFERRED, GUESSED = "ordered", "inferred", "guessed"
# Kinds of papers by which a service orders a change. What else documents one is a witness.
ORDERING = (SourceKind.ORDER, SourceKind.SPECIFICATION, SourceKind.TENDER, SourceKind.LEDGER)
# Stocks of the earlier state are used up for so long after the change elsewhere. Ours.
USED_UP_WITHIN = 3
# A changeover by order of the depot shows the later state first, and what is issued afterwards continues it.
OF_THE_LINE = (VersionKind.ISSUE, VersionKind.TRANSITIONAL)
# The state that says a part is not there. That a garment got pockets, or lost them, makes nobody expect it elsewhere.
NO_PART = "none"


@dataclass(frozen=True)
class RecordedChange:
    """A version of a type shows a state that the one it continues did not: the first that is recorded to.

    `papers`: what it rests on; `carried_from`: the version whose papers those are. `year`: the first of the version.
    `beside`: the version of the main line that kept the earlier state meanwhile, so that the type did not change.
    """

    before: tuple[str, ...]
    after: tuple[str, ...]
    version: VersionFacts
    year: int | None
    certainty: str
    papers: tuple[CitationFacts, ...]
    carried_from: str
    beside: VersionFacts | None = None


@dataclass(frozen=True)
class Expected:
    """A type that goes on showing the earlier state in a version made after the later one came in elsewhere."""

    type_name: str
    version: VersionFacts
    before: str
    after: str
    year: int
    elsewhere: tuple[str, ...]


def states_of(version: VersionFacts, feature: str) -> tuple[str, ...]:
    return tuple(cell.state for cell in version.cells.get(feature, ()))


def issued(facts: TypeFacts) -> list[VersionFacts]:
    return [version for version in facts.versions.values() if version.kind == VersionKind.ISSUE]


def recorded_changes(facts: TypeFacts, feature: str) -> list[RecordedChange]:
    """The changes of a feature along the line of issued versions and changeovers, in the order of their years."""
    found = []
    for version in facts.versions.values():
        if version.kind not in OF_THE_LINE:
            continue
        above = [facts.versions[code] for code in sorted(continued(version)) if code in facts.versions]
        before = tuple(dict.fromkeys(state for one in above for state in states_of(one, feature)))
        after = states_of(version, feature)
        if not before or not after or set(before) & set(after):
            continue
        cells = version.cells[feature]
        papers = tuple(dict.fromkeys(one for cell in cells for one in cell.citations if not one.contradicts))
        carried = next((cell.carried_from for cell in cells if cell.carried_from), "")
        beside = kept_beside(facts, version, above, feature, before)
        found.append(
            RecordedChange(before, after, version, version.from_year, cells[0].certainty, papers, carried, beside)
        )
    return sorted(found, key=lambda one: (one.year or 9999, one.version.code))


def kept_beside(
    facts: TypeFacts, version: VersionFacts, above: list[VersionFacts], feature: str, before: tuple[str, ...]
) -> VersionFacts | None:
    """The version made beside this one that kept the earlier state until this one was given up, or longer, on the line
    that this one left: one that it continues, or another that continues those, of their cut and colourway. A fire
    district's blouse is no change of the blouse."""
    if version.to_year is None or version.kind == VersionKind.TRANSITIONAL:
        return None
    cuts = {(one.cut, one.colourway) for one in above}
    line = {one.code for one in above}
    # Records stand in no order of descent: whoever continues one of the line joins it, until nobody does.
    while joined := [
        one for one in issued(facts) if one.code not in line | {version.code} and line.intersection(continued(one))
    ]:
        line |= {one.code for one in joined}
    kept = [
        one
        for one in issued(facts)
        if one.code in line
        and (one.cut, one.colourway) in cuts
        and set(states_of(one, feature)) & set(before)
        # A later one that has the state again says nothing of the years between.
        and (one.from_year or version.to_year) <= version.to_year <= (one.to_year or 0)
    ]
    return max(kept, key=lambda one: (one.to_year or 0, one.code), default=None)


def continued(version: VersionFacts) -> set[str]:
    return {one.version for one in version.ancestors if not one.made_from}


def grounds_of(one: RecordedChange, kinds: Mapping[str, str]) -> str:
    """Ordered where a paper of the service says so, inferred from whatever else it rests on, guessed from nothing.
    `kinds`: what kind of source each is, by its code."""
    orders = [paper for paper in one.papers if is_order(kinds.get(paper.source, ""))]
    if orders and one.certainty == Certainty.DOCUMENTED:
        return ORDERED
    return INFERRED if one.certainty or one.papers else GUESSED


def is_order(kind: str) -> bool:
    return kind in ORDERING


def expected_changes(
    types: Iterable[TypeFacts],
    feature: str,
    came_in: Mapping[tuple[str, str], Mapping[str, int]],
    seen: Mapping[str, set[str]],
) -> list[Expected]:
    """Types of which a version with the earlier state was made well after the later one came in on another type, while
    no version and no piece of theirs shows the later one. `came_in`: for each change the year by name of type; `seen`:
    the states that dated examples of each type show, by its code."""
    found = []
    for facts in types:
        shown = seen.get(facts.code, set()) | {state for one in issued(facts) for state in states_of(one, feature)}
        for (before, after), years in came_in.items():
            others = {name: year for name, year in years.items() if name != facts.name}
            if (
                after in shown
                or {before, after} & {NO_PART, facts.features[feature].absent}
                or after not in states_known(facts, feature)
                or not others
            ):
                continue
            year = min(others.values())
            late = [one for one in issued(facts) if states_of(one, feature) == (before,) and made_after(one, year)]
            if late:
                last = max(late, key=lambda one: (one.to_year or 9999, one.code))
                found.append(Expected(facts.name, last, before, after, year, tuple(others)))
    return found


def states_known(facts: TypeFacts, feature: str) -> set[str]:
    return set(facts.features[feature].state_by_code)


def made_after(version: VersionFacts, year: int) -> bool:
    return version.to_year is not None and version.to_year > year + USED_UP_WITHIN
