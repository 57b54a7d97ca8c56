"""Dated examples of the issued versions of a type, and what dating makes of them, once for each state."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil

from django.utils import timezone

from catalogue.member_examples.kept_histories import kept_histories
from catalogue.member_examples.models import Example
from catalogue.member_examples.queries import evidence_of, keep_evidence, keep_evidence_of
from catalogue.member_examples.words import Condition
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.uncertain_dates import year_span
from catalogue.reference.words import Certainty, VersionKind
from identification.dating.change_over import DatedPiece, History
from identification.dating.spans import Documented, VersionDates, date_version

OFFICIAL_DATED = "A"  # a grade of source: official dated paper
UNSURE_MARKS = "~?%"
# By how many years a date "about" may be off where no labels say better, and the most that is taken for it. Ours.
ABOUT, MOST_DOUBT = 3, 10


@dataclass(frozen=True)
class IssuedExample:
    """An accepted piece held as an issued version: what its labels say, and by feature the state people agree on.

    `wear`: the place of its condition in the society's scale, 0 being unissued; None where it is not recorded.
    """

    code: str
    version: str
    year: int | None
    maker: str
    maker_name: str
    size_mark: str
    wear: int | None
    states: Mapping[str, str]
    contract: str = ""


def issued_examples(facts: TypeFacts, *, number: int) -> tuple[IssuedExample, ...]:
    """Those held as an issued version of the type, dated ones first by year; copies and conversions date nothing."""
    return keep_evidence(("issued", facts.code), lambda: read_issued(facts, number=number), number=number)


def keep_issued_of(types: Iterable[TypeFacts], *, number: int) -> None:
    """Read what is not kept yet of several types: four queries in all."""
    lacking = [facts for facts in types if keep_evidence.lacks(("issued", facts.code), number=number)]
    if not lacking:
        return
    keep_evidence_of([facts.code for facts in lacking], number=number)
    for code, found in read_issued_of(lacking, number=number).items():
        keep_evidence.keep(("issued", code), found, number=number)


def read_issued(facts: TypeFacts, *, number: int) -> tuple[IssuedExample, ...]:
    return read_issued_of([facts], number=number)[facts.code]


def read_issued_of(types: Sequence[TypeFacts], *, number: int) -> dict[str, tuple[IssuedExample, ...]]:
    home = {facts.code: facts for facts in types}
    rows = (
        Example.objects.accepted()
        .filter(garment_type__code__in=home, held_as__isnull=False)
        .values_list(
            "garment_type__code", "code", "held_as__code", "label_year", "maker__code", "maker__name", "size_mark",
            "condition", "contract",
        )
    )  # fmt: skip
    seen = {facts.code: evidence_of(facts.code, number=number).by_code for facts in types}
    wear = {condition.value: place for place, condition in enumerate(Condition)}
    found: dict[str, list[IssuedExample]] = {code: [] for code in home}
    for type_code, code, version, year, maker, name, mark, condition, contract in rows:
        versions = home[type_code].versions
        if version not in versions or versions[version].kind != VersionKind.ISSUE:
            continue
        states = seen[type_code][code].states if code in seen[type_code] else {}
        worn = wear.get(condition)
        one = IssuedExample(code, version, year, maker or "", name or "", mark, worn, states, contract)
        found[type_code].append(one)
    return {
        code: tuple(sorted(every, key=lambda one: (one.year is None, one.year or 0, one.code)))
        for code, every in found.items()
    }


def dated_examples(facts: TypeFacts, *, number: int) -> tuple[IssuedExample, ...]:
    return tuple(one for one in issued_examples(facts, number=number) if one.year is not None)


def maker_names(examples: tuple[IssuedExample, ...]) -> dict[str, str]:
    return {one.maker: one.maker_name for one in examples if one.maker}


def pieces_of_features(facts: TypeFacts, examples: tuple[IssuedExample, ...]) -> dict[str, list[DatedPiece]]:
    """The dated pieces of each feature that any of them shows, in the order of the type's features."""
    found: dict[str, list[DatedPiece]] = defaultdict(list)
    for one in examples:
        for feature, state in one.states.items():
            found[feature].append(DatedPiece(one.year, state, one.maker, one.code))
    return {feature: found[feature] for feature in facts.features if feature in found}


@dataclass(frozen=True)
class DetailsOfType:
    """By feature the dated pieces, and what they say, all features of the type taken together."""

    pieces: Mapping[str, list[DatedPiece]]
    histories: Mapping[str, History]


def details_of_type(facts: TypeFacts, *, number: int) -> DetailsOfType:
    return keep_evidence(
        ("details", facts.code), lambda: read_details([facts], number=number)[facts.code], number=number
    )


def keep_details_of(types: Iterable[TypeFacts], *, number: int) -> None:
    """Read what is not kept yet of several types: as many queries as for one."""
    lacking = [facts for facts in types if keep_evidence.lacks(("details", facts.code), number=number)]
    keep_issued_of(lacking, number=number)
    for code, found in read_details(lacking, number=number).items():
        keep_evidence.keep(("details", code), found, number=number)


def read_details(types: Sequence[TypeFacts], *, number: int) -> dict[str, DetailsOfType]:
    pieces = {facts.code: pieces_of_features(facts, dated_examples(facts, number=number)) for facts in types}
    told = kept_histories(pieces) if pieces else {}
    return {code: DetailsOfType(pieces[code], told[code]) for code in pieces}


@dataclass(frozen=True)
class DatedLabel:
    """A label with a year on an accepted piece of an issued version, and the contract printed on it, if any."""

    year: int
    contract: str


def labels_by_version(facts: TypeFacts, *, number: int) -> Mapping[str, tuple[DatedLabel, ...]]:
    """By code of an issued version the dated labels of its accepted pieces, by year; versions without one left out."""
    return keep_evidence(("labels", facts.code), lambda: read_labels_of([facts])[facts.code], number=number)


def keep_labels_of(types: Iterable[TypeFacts], *, number: int) -> None:
    """Read what is not kept yet of the labels of several types: one query."""
    lacking = [facts for facts in types if keep_evidence.lacks(("labels", facts.code), number=number)]
    for code, found in read_labels_of(lacking).items():
        keep_evidence.keep(("labels", code), found, number=number)


def read_labels_of(types: Sequence[TypeFacts]) -> dict[str, dict[str, tuple[DatedLabel, ...]]]:
    """Nothing is asked of the database for no type at all."""
    home = {facts.code: facts for facts in types}
    found: dict[str, dict[str, list[DatedLabel]]] = {code: defaultdict(list) for code in home}
    rows = (
        Example.objects.accepted()
        .filter(garment_type__code__in=home, held_as__isnull=False, label_year__isnull=False)
        .order_by("label_year", "code")
        .values_list("garment_type__code", "held_as__code", "label_year", "contract")
    )
    for type_code, version, year, contract in rows if home else ():
        known = home[type_code].versions.get(version)
        if known is not None and known.kind == VersionKind.ISSUE:
            found[type_code][version].append(DatedLabel(year, contract))
    return {code: {version: tuple(labels) for version, labels in every.items()} for code, every in found.items()}


def version_dates(facts: TypeFacts, version: VersionFacts, *, number: int) -> tuple[VersionDates | None, list[int]]:
    """What label years say of a version, and these years; None without any."""
    years = [label.year for label in labels_by_version(facts, number=number).get(version.code, ())]
    return date_version(years, documented(version)), years


def dates_of_versions(types: Iterable[TypeFacts], *, number: int) -> dict[str, VersionDates]:
    """By code what label years say of every issued version that has any. One query where nothing is kept yet."""
    types = list(types)
    keep_labels_of(types, number=number)
    found: dict[str, VersionDates] = {}
    for facts in types:
        found |= keep_evidence(("dates", facts.code), lambda facts=facts: date_type(facts, number), number=number)
    return found


def date_type(facts: TypeFacts, number: int) -> dict[str, VersionDates]:
    every = {version.code: version_dates(facts, version, number=number)[0] for version in facts.versions.values()}
    return {code: dates for code, dates in every.items() if dates is not None}


def doubts_of_ends(types: Iterable[TypeFacts], *, number: int) -> dict[str, tuple[int, int]]:
    """By code of a version by how many years its first and its last year on record may lie elsewhere. Versions of which
    both are sure are left out. One query where nothing is kept yet."""
    types = list(types)
    dates = dates_of_versions(types, number=number)
    every = {
        version.code: doubts_of(version, dates.get(version.code))
        for facts in types
        for version in facts.versions.values()
    }
    return {code: doubts for code, doubts in every.items() if any(doubts)}


def doubts_of(version: VersionFacts, dates: VersionDates | None) -> tuple[int, int]:
    """An end that is sure, or none, has no doubt. One that is estimated may lie half as far off as the interval reaches
    beyond the labels, since chances tail off towards its bound; where labels tell no interval, ABOUT years."""
    first, last = sure_ends(version.date)
    early = beyond(dates and dates.low, dates and dates.first) if version.from_year and first is None else 0
    late = beyond(dates and dates.last, dates and dates.high) if version.to_year and last is None else 0
    return early, late


def beyond(sooner: int | None, later: int | None) -> int:
    if sooner is None or later is None:
        return ABOUT
    return min(max(ceil((later - sooner) / 2), 1), MOST_DOUBT)


def contracts_of_ends(facts: TypeFacts, version: VersionFacts, *, number: int) -> tuple[str, str]:
    """The contracts on the earliest and on the latest dated label of a version; empty where none is read."""
    labels = labels_by_version(facts, number=number).get(version.code, ())
    dated = [label for label in labels if label.contract]
    return (dated[0].contract, dated[-1].contract) if dated else ("", "")


def label_years_of(versions: Iterable[str]) -> dict[str, list[int | None]]:
    """By code of a version the label years of all accepted pieces held as it, of any kind; None for a piece without
    one. Versions without a piece are left out. One query."""
    found: dict[str, list[int | None]] = defaultdict(list)
    rows = Example.objects.accepted().filter(held_as__code__in=list(versions)).order_by("label_year", "code")
    for version, year in rows.values_list("held_as__code", "label_year"):
        found[version].append(year)
    return found


def years_on_labels(version: str) -> dict[str, int]:
    """By code of each accepted piece held as a version the year on its label, where there is one."""
    rows = Example.objects.accepted().filter(held_as__code=version, label_year__isnull=False)
    return dict(rows.values_list("code", "label_year"))


def documented(version: VersionFacts) -> Documented:
    """What bounds the making of a version: papers, else the years of the service that gave it out, and today.

    Of its record those ends that a cited official paper with a date may stand for, and that are not estimated.
    """
    papers = [c for c in version.citations if c.grade == OFFICIAL_DATED and not c.contradicts]
    bounds = bounds_of_service(version, timezone.localdate().year)
    if version.certainty != Certainty.DOCUMENTED or not papers:
        return bounds
    first, last = sure_ends(version.date)
    return replace(
        bounds,
        first=first,
        last=last,
        not_before=bounds.not_before if first is None else None,
        not_after=bounds.not_after if last is None else None,
    )


def bounds_of_service(version: VersionFacts, this_year: int) -> Documented:
    """No service gave out a garment before it began or after it ended, and nobody made one in a year to come. Ends that
    are estimated are no bounds."""
    began, ended = sure_ends(version.issuer_date)
    last = ended is not None and ended <= this_year
    return Documented(
        not_before=began,
        not_after=ended if last else this_year,
        why_not_before=f"when the {version.issuer} began" if began is not None else "",
        why_not_after=f"when the {version.issuer} ended" if last else "this year",
    )


def sure_ends(date: str) -> tuple[int | None, int | None]:
    """First and last year of an uncertain date, each None where it is open or estimated."""
    early, _, late = date.partition("/")
    first, last = year_span(date) if date else (None, None)
    return first if is_sure(early) else None, last if is_sure(late or early) else None


def is_sure(date: str) -> bool:
    return bool(date) and date != ".." and date[-1] not in UNSURE_MARKS
