"""What the site says about one garment type, as plain values read once for each state of the reference.

Pages and the identification engine work on these, never on table rows.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from catalogue.reference.marked_spots import MarkedFacts
from catalogue.reference.regions import OPENED_VIEWS, VIEW_WORDS, region_words
from catalogue.reference.uncertain_dates import in_words
from catalogue.reference.words import (
    KIND_MEANING,
    REPLACEABLE,
    RESTRICTION_PLACES,
    Certainty,
    FeatureKind,
    HazardKind,
    Restriction,
    Seen,
    ServiceChange,
    VersionKind,
)

CLOTH, SEAM = "cloth", "seam"
TAKEN_OFF = {ServiceChange.EASILY, ServiceChange.REPAIR, ServiceChange.DELIBERATE}


@dataclass(frozen=True)
class Place:
    """Where to look; left and right are the wearer's."""

    view: str
    region: str
    garment_class: str

    @property
    def words(self) -> str:
        view = VIEW_WORDS.get(self.view, self.view.replace("_", " "))
        return f"{view}: {region_words(self.garment_class, self.view, self.region)}"


def unsided(code: str) -> str:
    """`armhole` for `armhole_left` and `armhole_right`."""
    return code.removesuffix("_left").removesuffix("_right")


@dataclass(frozen=True)
class StateFacts:
    code: str
    label: str
    low: float | None = None
    high: float | None = None
    drawing: str = ""
    photograph: MarkedFacts | None = None
    explained: str = ""
    label_says: str = ""


@dataclass(frozen=True)
class FeatureFacts:
    """A diagnostic feature as it applies to one garment type."""

    code: str
    name: str
    group: str
    question: str
    kind: str
    unit: str
    spread: float
    seen: str
    effort: float
    error: float
    error_note: str
    service_change: str
    change_note: str
    absent: str | None
    loss: float
    gain: float
    parent: str | None
    shown_when: tuple[str, ...]
    basis: str
    states: tuple[StateFacts, ...]
    places: tuple[Place, ...]
    photograph: MarkedFacts | None = None

    @cached_property
    def state_by_code(self) -> Mapping[str, StateFacts]:
        return {state.code: state for state in self.states}

    def label_of(self, state: str) -> str:
        """The state's words; the code itself for a state that the feature does not have."""
        known = self.state_by_code.get(state)
        return known.label if known else state

    @property
    def is_measured(self) -> bool:
        return self.kind == FeatureKind.MEASUREMENT

    @property
    def needs_opening(self) -> bool:
        """Looked at opened, or lying inside or on the label: never asked of a piece that must stay closed."""
        return self.seen == Seen.OPENED or any(place.view in OPENED_VIEWS for place in self.places)

    @property
    def needs_handling(self) -> bool:
        return self.needs_opening or self.seen in (Seen.HANDLED, Seen.MEASURED)

    @property
    def replaceable(self) -> bool:
        return self.service_change in REPLACEABLE

    @property
    def is_of_cloth(self) -> bool:
        """Looked for on the cloth or a seam, without which there is no garment."""
        return any(CLOTH in place.region or SEAM in place.region for place in self.places)

    def lies_at(self, view: str, region: str) -> bool:
        """Whether it is looked for at that place, on either side: a record names one side of what has two."""
        here = (unsided(view), unsided(region))
        return any((unsided(place.view), unsided(place.region)) in (here, ("any", here[1])) for place in self.places)

    @property
    def seen_words(self) -> str:
        return Seen(self.seen).label

    @property
    def place_words(self) -> str:
        return " · ".join(place.words for place in self.places)


@dataclass(frozen=True)
class CitationFacts:
    source: str
    title: str
    grade: str
    contradicts: bool = False


@dataclass(frozen=True)
class CellFacts:
    """One state that a version shows, with its grounds."""

    feature: str
    state: str
    label: str
    how_often: str
    share: float | None
    certainty: str
    sizes: tuple[str, ...]
    makers: tuple[str, ...]
    first_year: int | None
    last_year: int | None
    note: str
    citations: tuple[CitationFacts, ...]
    carried_from: str | None = None

    @property
    def grounds(self) -> str:
        """Documented, observed, inferred, carried over (as in the version it continues) or asserted (no source)."""
        if self.carried_from:
            return "Carried over"
        if self.certainty:
            return Certainty(self.certainty).label
        return "Recorded" if self.supported else "Asserted"

    @property
    def supported(self) -> bool:
        """Whether a source is named for it; one against it is no ground."""
        return any(not one.contradicts for one in self.citations)

    @property
    def limits(self) -> str:
        """On which pieces only, in words; empty for all."""
        parts = []
        if self.makers:
            parts.append(f"made by {', '.join(self.makers)}")
        if self.sizes:
            parts.append(f"sizes {', '.join(self.sizes)}")
        if self.first_year or self.last_year:
            parts.append(years_in_words(self.first_year, self.last_year))
        return "; ".join(parts)


def years_in_words(first: int | None, last: int | None) -> str:
    if first and last:
        return str(first) if first == last else f"{first}–{last}"
    if first:
        return f"from {first}"
    return f"until {last}" if last else ""


@dataclass(frozen=True)
class NameFacts:
    name: str
    by_sellers: bool = False
    never_issued: bool = False


@dataclass(frozen=True)
class NumberFacts:
    number: str
    form: str
    years: str
    misprint_of: str
    note: str
    citations: tuple[CitationFacts, ...]


@dataclass(frozen=True)
class SizeFacts:
    """One cell of a documented size table, in millimetres, with the paper that gives it."""

    mark: str
    what: str
    mm: int
    source: CitationFacts


@dataclass(frozen=True)
class CompanionFacts:
    """Another version that this one fits, or was worn with. `joined_by`: code of the feature of both that shows how."""

    version: str
    name: str
    fits: bool
    joined_by: str
    note: str
    citations: tuple[CitationFacts, ...]


@dataclass(frozen=True)
class MakerFacts:
    code: str
    name: str


@dataclass(frozen=True)
class OpenQuestionFacts:
    """A disputed matter; `features`: the codes of those whose rows it is about."""

    code: str
    question: str
    settled: bool
    features: tuple[str, ...] = ()


@dataclass(frozen=True)
class Ancestor:
    version: str
    name: str
    made_from: bool


@dataclass(frozen=True)
class VersionFacts:
    """An issue version, copy or conversion, and its current record. `became`: of a retired one, what it became."""

    code: str
    name: str
    kind: str
    cut: str
    colourway: str
    issuer: str
    date: str
    from_year: int | None
    to_year: int | None
    rarity: int
    abundance: float | None
    certainty: str
    piece_seen: bool
    reason: str
    note: str
    hazard_kind: str
    hazard: str
    names: tuple[NameFacts, ...]
    makers: tuple[MakerFacts, ...]
    ancestors: tuple[Ancestor, ...]
    passes_for: tuple[str, ...]
    citations: tuple[CitationFacts, ...]
    stock_numbers: tuple[NumberFacts, ...]
    open_questions: tuple[OpenQuestionFacts, ...]
    record_number: int | None
    standing: str
    cells: Mapping[str, tuple[CellFacts, ...]]
    retired_why: str = ""
    became: tuple[str, ...] = ()
    sizes: tuple[SizeFacts, ...] = ()
    companions: tuple[CompanionFacts, ...] = ()
    restrictions: tuple[str, ...] = ()
    issuer_date: str = ""

    def only_asserts(self, feature: str) -> bool:
        """Whether what the record says of the feature rests on nothing that it names."""
        cells = self.cells.get(feature, ())
        return bool(cells) and all(cell.grounds == "Asserted" for cell in cells)

    @property
    def kind_words(self) -> str:
        return VersionKind(self.kind).label

    @property
    def kind_meaning(self) -> str:
        return KIND_MEANING[VersionKind(self.kind)]

    @property
    def date_words(self) -> str:
        return in_words(self.date)

    @property
    def certainty_words(self) -> str:
        return Certainty(self.certainty).label

    @property
    def hazard_words(self) -> str:
        """The kind of hazard. A hazard that was written down without one is no less a caution."""
        return HazardKind(self.hazard_kind).label if self.hazard_kind else "Caution" if self.hazard else ""

    @property
    def restriction_words(self) -> list[tuple[str, str]]:
        """What is said of what the law may restrict, each with its place on the page of cautions."""
        return [(Restriction(kind).label, RESTRICTION_PLACES[Restriction(kind)]) for kind in self.restrictions]

    @cached_property
    def must_stay_closed(self) -> bool:
        return self.hazard_kind == HazardKind.DO_NOT_OPEN

    @property
    def members_names(self) -> tuple[NameFacts, ...]:
        return tuple(name for name in self.names if not name.by_sellers)

    @property
    def sellers_names(self) -> tuple[NameFacts, ...]:
        return tuple(name for name in self.names if name.by_sellers)


OTHER_SIZE = "another"


@dataclass(frozen=True)
class Limits:
    """Makers and sizes that decide over some state of a type, and whether a year does. Where a state is limited to
    some makers or sizes, those are named as well that rule it out: the other makers of its versions, `OTHER_SIZE`."""

    makers: tuple[str, ...]
    sizes: tuple[str, ...]
    years: bool


@dataclass(frozen=True)
class TypeFacts:
    """A garment type with its features in reading order and its versions in the order of their records.

    `silhouettes`: the society's own outlines as SVG, by view. `retired`: what is held to be no version any more; it
    keeps its page and its history, and is no answer to anything. `called`: what versions may name by code, such as
    cuts, with their names.
    """

    code: str
    name: str
    other_names: tuple[str, ...]
    garment_class: str
    issuer: str
    issuer_name: str
    description: str
    caution: str
    features: Mapping[str, FeatureFacts]
    versions: Mapping[str, VersionFacts]
    silhouettes: Mapping[str, str] = field(default_factory=dict)
    retired: Mapping[str, VersionFacts] = field(default_factory=dict)
    called: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    @cached_property
    def must_stay_closed(self) -> bool:
        """A version of the type may be dangerous when opened: no question asks for handling, whatever was accepted."""
        return any(version.must_stay_closed for version in self.versions.values())

    def can_be_missing(self, feature: FeatureFacts) -> bool:
        """Whether what the feature asks about can be gone from a piece: it, or a part that it is a detail of, can be
        lost, taken off or replaced. Nobody loses a weave or a seam."""
        if feature.absent or (feature.service_change in TAKEN_OFF and not feature.is_of_cloth):
            return True
        return feature.parent in self.features and self.can_be_missing(self.features[feature.parent])

    @cached_property
    def limits(self) -> Limits:
        """Worked out once: every page of a walk asks for it."""
        makers, sizes, years = set(), set(), False
        for version in self.versions.values():
            for cell in (cell for cells in version.cells.values() for cell in cells):
                if cell.makers:
                    makers |= {*cell.makers, *(maker.code for maker in version.makers)}
                sizes.update(cell.sizes)
                years = years or bool(cell.first_year or cell.last_year)
        return Limits(makers=tuple(sorted(makers)), sizes=(*sorted(sizes), OTHER_SIZE) if sizes else (), years=years)

    def known(self, code: str) -> VersionFacts | None:
        """The version with this code, in force or retired."""
        return self.versions.get(code) or self.retired.get(code)

    def in_force(self, code: str) -> tuple[VersionFacts, ...]:
        """What stands for this code now: the version itself, or all that a retired one became in the end."""
        found: dict[str, VersionFacts] = {}
        waiting, met = [code], set()
        while waiting:
            one = waiting.pop(0)
            if one in self.versions:
                found[one] = self.versions[one]
            elif one in self.retired and one not in met:
                met.add(one)
                waiting += self.retired[one].became
        return tuple(found.values())

    def is_now(self, code: str, held: str) -> bool:
        """Whether who named the one version is at one with who holds the other: it is that version, or one of those
        that a retired one became."""
        return code == held or any(one.code == held for one in self.in_force(code))

    def row_numbers(self, version: VersionFacts) -> dict[str, int]:
        """The number of each recorded feature in the version's profile: what the call-outs of its figure say."""
        recorded = [code for code in self.features if version.cells.get(code)]
        return {code: place for place, code in enumerate(recorded, start=1)}

    def applies(self, version: VersionFacts, feature: FeatureFacts) -> bool:
        """False where the record says that the part a detail belongs to is never there on this version."""
        if feature.parent is None or feature.parent not in self.features:
            return True
        parent = self.features[feature.parent]
        if not self.applies(version, parent):
            return False
        cells = version.cells.get(parent.code)
        return not cells or any(cell.state in feature.shown_when for cell in cells)
