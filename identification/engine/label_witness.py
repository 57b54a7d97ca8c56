"""A label as one witness: everything that stands on it counts together, weighted by the chance that it belongs.

A label can be moved from piece to piece, so it never excludes a version: with chance `belongs` it was sewn into this
piece, else into some other one. P(label | v) = b P1(label | v) + (1 - b) S, where S is what any version's label would
have said, the mean of P1. Number, year and maker within P1 are multiplied; answers about the label itself (its kind,
its size marking) may be handed in as `inside`, so that they share the doubt instead of counting a second time. How it
is sewn in says nothing of a version: it moves `belongs`. Starting values are the project's own, no source.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from math import log10

import numpy as np

from identification.engine.counting import count
from identification.engine.model import Answers
from identification.engine.pack import Pack

# Chance that a label was sewn into the piece it is found in.
BELONGS = 0.95
# What is seen of how the label is sewn in, by code, with its chance where the label belongs to the piece and where it
# came from another one. Of several the first that is true counts: it says most against the label.
SEWN = {
    "other_label": (0.01, 0.18),
    "empty_row": (0.02, 0.30),
    "other": (0.12, 0.36),
    "glued": (0.03, 0.05),
    "on_cloth": (0.10, 0.01),
    "same": (0.72, 0.10),
}
# Chance of a number, or a maker, that is not on the version's record although others are.
OTHER_NUMBER, OTHER_MAKER = 0.02, 0.05
# Chance that a piece says to be made where none of the version's makers worked.
OTHER_COUNTRY = 0.05
# Chance of the serial of a trial, or of another small lot, on a piece of it; and on any other piece, as rare as the
# number of one other version: that labels are moved is counted apart.
SERIAL_OF_ITS_LOT, SERIAL_OF_ANOTHER = 0.7, 0.002
# Chance of a depot's mark on what that depot altered by order, and on any other piece, which it may have mended.
ALTERED_MARKED, MENDED_MARKED = 0.6, 0.03
# Chance of a year outside the version's recorded span, halved with every second year away.
OUTSIDE_SPAN, HALVED_IN_YEARS = 0.05, 2.0
# Labels repeat the year of the pattern or of the contract: a year more on each side costs nothing.
LEEWAY = 1
# A contract is signed before the piece is made: deliveries go on for so many years after.
DELIVERED_WITHIN = 5


@dataclass(frozen=True)
class CarriedNumber:
    """A number that labels of a version carry, letters and figures only, and in which years."""

    number: str
    first_year: int | None = None
    last_year: int | None = None


@dataclass(frozen=True)
class LabelRecord:
    """What is on record of the labels of one version; an altered piece keeps its donors' numbers and makers.
    `altered_by`: whose work the alteration is."""

    version: str
    numbers: tuple[CarriedNumber, ...] = ()
    first_year: int | None = None
    last_year: int | None = None
    makers: tuple[str, ...] = ()
    prior: float = 1.0
    # Of each of its makers of whom it is known the country.
    countries: tuple[str, ...] = ()
    altered_by: tuple[str, ...] = ()
    # By how many years its first and its last year, where they are estimated, may lie elsewhere, on either side.
    first_doubt: int = 0
    last_doubt: int = 0
    # Forms of serials that its pieces, and pieces of its kind alone, carry.
    serials: tuple[str, ...] = ()


@dataclass(frozen=True)
class LabelSeen:
    """What was read on one label, and confirmed where it had to be; `years` is first and last possible year. `repairs`:
    depots whose mark stands on it, which mended or altered the piece and did not make it.

    `contract`: the year in which a contract on it was signed, of use where the label has no year of its own. `sewn`:
    one of SEWN, or anything else where nobody looked or could tell. `country`: that of making, where no maker is named:
    a maker says it too, and counts once.
    """

    numbers: tuple[str, ...] = ()
    years: tuple[int, int] | None = None
    makers: tuple[str, ...] = ()
    contract: int | None = None
    sewn: str = ""
    country: str = ""
    repairs: tuple[str, ...] = ()
    # Forms of the serials on it that tell a kind of version.
    serials: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        said = self.numbers or self.makers or self.country or self.repairs or self.serials
        return bool(said or self.possible_years)

    @property
    def possible_years(self) -> tuple[int, int] | None:
        """The years on the label, else those in which a piece under its contract may have been made: never before."""
        if self.years or self.contract is None:
            return self.years
        return self.contract, self.contract + DELIVERED_WITHIN


@dataclass(frozen=True)
class LabelWitness:
    """`likelihood` of the label by version, `alone` as if it surely belonged, `stray` what any label would say.

    `aspects` has, by version, each thing on the label with its likelihood over the mean: number, year, maker, country,
    repair, serial, inside.
    """

    likelihood: Mapping[str, float]
    alone: Mapping[str, float]
    stray: float
    belongs: float
    aspects: Mapping[str, Mapping[str, float]] = field(default_factory=dict)

    def decibans(self, version: str, other: str | None = None) -> float:
        """What the label says for a version against another, or against one that is not recorded."""
        against = self.likelihood[other] if other else self.stray
        return 10 * log10(self.likelihood[version] / against)

    def stray_given(self, version: str) -> float:
        """The chance that the label came from another piece, if the piece is of this version."""
        return (1 - self.belongs) * self.stray / self.likelihood[version]


def belongs_when(sewn: str) -> float:
    """The chance that a label belongs to its piece, by how it is sewn in."""
    if sewn not in SEWN:
        return BELONGS
    own, moved = SEWN[sewn]
    return BELONGS * own / (BELONGS * own + (1 - BELONGS) * moved)


def hear_label(
    records: Sequence[LabelRecord],
    seen: LabelSeen,
    *,
    belongs: float | None = None,
    inside: Mapping[str, float] | None = None,
) -> LabelWitness:
    """What a label says of each version. What no version's record knows says nothing; records decide, never silence.

    `belongs`: the chance that the label belongs to its piece, if it is not to follow from how it is sewn in.
    """
    belongs = belongs_when(seen.sewn) if belongs is None else belongs
    parts = {
        "number": [number_likelihoods(records, number) for number in seen.numbers],
        "year": [year_likelihoods(records, seen)] if seen.possible_years else [],
        "maker": [maker_likelihoods(records, maker) for maker in seen.makers],
        "country": [country_likelihoods(records, seen.country)] if seen.country else [],
        "repair": [repair_likelihoods(records, depot) for depot in seen.repairs],
        "serial": [serial_likelihoods(records, form) for form in seen.serials],
        "inside": [[inside.get(record.version) for record in records]] if inside else [],
    }
    weights = [record.prior for record in records]
    alone = [1.0] * len(records)
    aspects: dict[str, dict[str, float]] = {record.version: {} for record in records}
    for name, columns in parts.items():
        for column in columns:
            filled, mean = with_neutral(column, weights)
            for place, record in enumerate(records):
                alone[place] *= filled[place]
                aspects[record.version][name] = aspects[record.version].get(name, 1.0) * filled[place] / mean
    total = sum(weights) or 1.0
    stray = sum(weight * chance for weight, chance in zip(weights, alone, strict=True)) / total or 1.0
    likelihood = [belongs * chance + (1 - belongs) * stray for chance in alone]
    names = [record.version for record in records]
    return LabelWitness(
        likelihood=dict(zip(names, likelihood, strict=True)),
        alone=dict(zip(names, alone, strict=True)),
        stray=stray,
        belongs=belongs,
        aspects=aspects,
    )


def with_neutral(column: Sequence[float | None], weights: Sequence[float]) -> tuple[list[float], float]:
    """The column with the mean of what is known where nothing is recorded; all ones where nothing is known at all."""
    known = [(chance, weight) for chance, weight in zip(column, weights, strict=True) if chance is not None]
    total = sum(weight for _, weight in known)
    if not known or not total:
        return [1.0] * len(column), 1.0
    mean = sum(chance * weight for chance, weight in known) / total
    return [mean if chance is None else chance for chance in column], mean


def number_likelihoods(records: Sequence[LabelRecord], number: str) -> list[float | None]:
    """A number known for several versions counts for all of them alike; one that nobody knows says nothing."""
    every = {carried.number for record in records for carried in record.numbers}
    if number not in every:
        return [None] * len(records)
    others = max(1, len(every) - 1)
    return [
        None
        if not record.numbers
        else 1 - OTHER_NUMBER
        if any(carried.number == number for carried in record.numbers)
        else OTHER_NUMBER / others
        for record in records
    ]


def year_likelihoods(records: Sequence[LabelRecord], seen: LabelSeen) -> list[float | None]:
    """The year by version: even over the years of its labels, falling off outside, and softer at estimated ends."""
    first, last = seen.possible_years
    latest = max([record.last_year or 0 for record in records] + [last])
    found: list[float | None] = []
    for record in records:
        span = years_of_labels(record, seen, latest)
        if span is None:
            found.append(None)
            continue
        years = range(first, last + 1)
        doubts = doubts_of(record, seen)
        found.append(sum(softened(year, span, doubts) for year in years) / len(years))
    return found


def doubts_of(record: LabelRecord, seen: LabelSeen) -> tuple[int, int]:
    """The doubts of the ends that `years_of_labels` takes from the version; years on record of a number have none."""
    own = seen_of_record(record, seen)
    by_number = any(carried.first_year for carried in own), any(carried.last_year for carried in own)
    return 0 if by_number[0] else record.first_doubt, 0 if by_number[1] else record.last_doubt


def seen_of_record(record: LabelRecord, seen: LabelSeen) -> list[CarriedNumber]:
    return [carried for carried in record.numbers if carried.number in seen.numbers]


def years_of_labels(record: LabelRecord, seen: LabelSeen, latest: int) -> tuple[int, int] | None:
    """The years of the number on the label where the version carries it, else those of the version."""
    own = seen_of_record(record, seen)
    firsts = [carried.first_year for carried in own if carried.first_year] or [record.first_year]
    lasts = [carried.last_year for carried in own if carried.last_year] or [record.last_year]
    first = min((year for year in firsts if year), default=None)
    last = max((year for year in lasts if year), default=None)
    if first is None and last is None:
        return None
    first = first if first is not None else last
    last = last if last is not None else max(latest, first)
    return first - LEEWAY, last + LEEWAY


def year_chance(year: int, span: tuple[int, int]) -> float:
    first, last = span
    if first <= year <= last:
        return (1 - OUTSIDE_SPAN) / (last - first + 1)
    away = first - year if year < first else year - last
    ratio = 0.5 ** (1 / HALVED_IN_YEARS)
    # Both tails together hold the chance of a year outside.
    return OUTSIDE_SPAN * ratio**away / (2 * ratio / (1 - ratio))


@lru_cache(maxsize=8192)
def softened(year: int, span: tuple[int, int], doubts: tuple[int, int]) -> float:
    """The chance of a year where the ends may lie elsewhere: the mean of `year_chance` over every place that each end
    may have, all alike and each end for itself; a span turned round by that is of one year.

    P(y) = mean over b in first±d1, e in last±d2 of P(y | b, max(b, e)). Only whole years, as everywhere in dating.
    """
    (first, last), (early, late) = span, doubts
    begins, ends = range(first - early, first + early + 1), range(last - late, last + late + 1)
    chances = [year_chance(year, (begin, max(begin, end))) for begin in begins for end in ends]
    return sum(chances) / len(chances)


def maker_likelihoods(records: Sequence[LabelRecord], maker: str) -> list[float | None]:
    every = {known for record in records for known in record.makers}
    if maker not in every:
        return [None] * len(records)
    return [
        None
        if not record.makers
        else (1 - OTHER_MAKER) / len(record.makers)
        if maker in record.makers
        else OTHER_MAKER / max(1, len(every) - len(record.makers))
        for record in records
    ]


def country_likelihoods(records: Sequence[LabelRecord], country: str) -> list[float | None]:
    """By the share of a version's makers that worked there. A maker may have had pieces sewn elsewhere."""
    every = {known for record in records for known in record.countries}
    if country not in every:
        return [None] * len(records)
    others = max(1, len(every) - 1)
    return [
        None
        if not record.countries
        else (1 - OTHER_COUNTRY) * record.countries.count(country) / len(record.countries)
        if country in record.countries
        else OTHER_COUNTRY / others
        for record in records
    ]


def repair_likelihoods(records: Sequence[LabelRecord], depot: str) -> list[float | None]:
    """A depot's mark speaks for what it altered by order; of all else it says only that the piece was mended."""
    if not any(depot in record.altered_by for record in records):
        return [None] * len(records)
    return [ALTERED_MARKED if depot in record.altered_by else MENDED_MARKED for record in records]


def serial_likelihoods(records: Sequence[LabelRecord], form: str) -> list[float | None]:
    """A serial of trials speaks for the trials in whose years its form was in use; where there is none, for nothing."""
    if not any(form in record.serials for record in records):
        return [None] * len(records)
    return [SERIAL_OF_ITS_LOT if form in record.serials else SERIAL_OF_ANOTHER for record in records]


def inside_of(pack: Pack, answers: Answers) -> dict[str, float]:
    """What answers about the label itself say of each version, for `hear_label`."""
    counted, _ = count(pack, answers)
    chances = np.ones(len(pack.versions))
    for one in counted:
        chances = chances * one.of_version
    return dict(zip(pack.version_codes, chances.tolist(), strict=True))


def with_label(pack: Pack, witness: LabelWitness, shared: Collection[str] = ()) -> Pack:
    """The pack of a piece in which this label was found.

    The label comes before all answers, as part of what is known of the versions: their weights are multiplied by what
    it says. Its mean over the versions is what it says of one that is not recorded, so the chance of that stays.
    Features in `shared` were handed to the witness and say nothing a second time.
    """
    versions = tuple(
        replace(version, weight=version.weight * witness.likelihood.get(version.code, witness.stray) / witness.stray)
        for version in pack.versions
    )
    found = tuple(
        np.repeat(base[:, None], len(pack.versions), axis=1) if feature.code in shared else own
        for feature, own, base in zip(pack.features, pack.found, pack.base_found, strict=True)
    )
    return replace(pack, versions=versions, found=found)


@dataclass(frozen=True)
class BodyAndLabel:
    """A body of one version with a label of another, and how likely that is."""

    body: str
    label: str
    chance: float


def married(witness: LabelWitness, body: Mapping[str, float], *, at_least: float = 0.5) -> BodyAndLabel | None:
    """Whether the label rather came from another piece, given what the piece itself says.

    `body` has the chance of each recorded version by everything but the label. None where the label fits the body well
    enough, or where nothing on it points to one version.
    """
    versions = [version for version in body if version in witness.likelihood]
    total = sum(body[version] * witness.likelihood[version] for version in versions)
    if not total:
        return None
    stray = sum(body[v] * (1 - witness.belongs) * witness.stray for v in versions) / total
    best_body = max(versions, key=lambda v: body[v] * witness.likelihood[v])
    best_label = max(versions, key=lambda v: witness.alone[v])
    if stray < at_least or best_body == best_label or witness.alone[best_label] <= witness.stray:
        return None
    return BodyAndLabel(best_body, best_label, stray)
