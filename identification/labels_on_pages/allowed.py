"""The versions that a label allows, with what speaks for and against each."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from urllib.parse import urlencode

from django.urls import reverse

from catalogue.member_examples.dated import doubts_of_ends
from catalogue.member_examples.queries import keep_evidence_of
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import TypeFacts, VersionFacts, years_in_words
from catalogue.reference.label_context import countries_of_makers, serial_forms
from catalogue.reference.models import StockNumber
from catalogue.reference.snapshots import keep_for_state
from identification import engine
from identification.engine.label_witness import LEEWAY, CarriedNumber, LabelRecord, LabelSeen, hear_label
from identification.label_reading import Form
from identification.label_reading.society_numbers import years_in_use
from identification.labels_on_pages.evidence import Evidence
from identification.labels_on_pages.said import (
    AGAINST,
    FOR,
    UNKNOWN,
    Reason,
    Said,
    chances_said,
    reasons_said,
    ruled_out,
    said_by,
    together,
)
from identification.profiles_from_catalogue import WEIGHT_OF_RARITY
from identification.walk_through.packs import pack_for

MOST_SHOWN = 12
EMPTY: Mapping[str, str] = {}
SURE_ENDS = (0, 0)
NO_FORMS: Mapping[str, Form] = {}
LEEWAY_WORDS = "allowed for, since labels repeat the year of a pattern or a contract"
# A converted or modified piece keeps the label, and so the number, of the piece it was made from.
KEEPS_ITS_LABEL = ("conversion", "depot_modification")


@dataclass(frozen=True)
class Carried:
    """A number on record of one version."""

    number: str
    bare: str
    first_year: int | None
    last_year: int | None
    misprint_of: str
    note: str
    form: str
    from_donor: str = ""


@dataclass(frozen=True)
class Allowed:
    """A version with its reasons; `fits` where nothing on the label speaks against it."""

    version: VersionFacts
    address: str
    type_name: str
    reasons: tuple[Reason, ...]
    fits: bool
    weight: float


def numbers_on_record(number: int) -> dict[str, tuple[Carried, ...]]:
    """Every recorded number by version, read once for each state of the reference."""

    def read() -> dict[str, tuple[Carried, ...]]:
        found = defaultdict(list)
        columns = ("number", "bare", "first_year", "last_year", "misprint_of", "note")
        for row in StockNumber.objects.order_by("pk").values("version__code", "form__code", *columns):
            found[row["version__code"]].append(
                Carried(*(row[column] for column in columns), form=row["form__code"] or "")
            )
        return {version: tuple(rows) for version, rows in found.items()}

    return keep_for_state(("numbers on labels",), read, number=number)


def carried_by(version: VersionFacts, on_record: dict[str, tuple[Carried, ...]]) -> tuple[Carried, ...]:
    """The numbers that labels of the version carry; an altered piece has those of its donors as well."""
    own = on_record.get(version.code, ())
    if version.kind not in KEEPS_ITS_LABEL:
        return own
    donors = [(a.version, a.name) for a in version.ancestors if a.made_from]
    return own + tuple(replace(one, from_donor=name) for code, name in donors for one in on_record.get(code, ()))


def makers_on_labels(version: VersionFacts, versions: Mapping[str, VersionFacts]) -> dict[str, str]:
    """Makers whose labels the version carries, by code: of an altered piece those of its donors, where any is known."""
    donors = [versions[a.version] for a in version.ancestors if a.made_from and a.version in versions]
    makers = {one.code: one.name for donor in donors for one in donor.makers}
    if version.kind in KEEPS_ITS_LABEL and makers:
        return makers
    return {one.code: one.name for one in version.makers}


def altered_by(version: VersionFacts) -> dict[str, str]:
    """Whose work an altered version is, by code: they may have left a mark of their own beside the maker's label."""
    return {one.code: one.name for one in version.makers} if version.kind in KEEPS_ITS_LABEL else {}


def carries_serial(version: VersionFacts, form: Form) -> bool:
    """Whether such serials stand on its pieces: it is of their kind, and of the years in which they were given out."""
    first, last = years_in_use(form.years)
    too_late = first and version.to_year and version.to_year < first - LEEWAY
    too_early = last and version.from_year and version.from_year > last + LEEWAY
    return version.kind == form.of_kind and not too_late and not too_early


def label_record(
    version: VersionFacts,
    carried: Iterable[Carried],
    makers: Iterable[str] = (),
    countries: Mapping[str, str] = EMPTY,
    serials: Mapping[str, Form] = NO_FORMS,
    doubts: tuple[int, int] = SURE_ENDS,
) -> LabelRecord:
    """`countries`: by code of a maker where it worked; `serials`: forms that one kind of version alone carries;
    `doubts`: of its first and its last year."""
    makers = tuple(makers)
    prior = version.abundance if version.abundance is not None else WEIGHT_OF_RARITY.get(version.rarity, 1.0)
    return LabelRecord(
        version.code,
        tuple(CarriedNumber(one.bare, one.first_year, one.last_year) for one in carried),
        version.from_year,
        version.to_year,
        makers,
        prior,
        first_doubt=doubts[0],
        last_doubt=doubts[1],
        altered_by=tuple(altered_by(version)),
        countries=tuple(countries[code] for code in makers if code in countries),
        serials=tuple(code for code, form in serials.items() if carries_serial(version, form)),
    )


def versions_allowed(types: Collection[TypeFacts], evidence: Evidence, number: int) -> list[Allowed]:
    """Versions for which something on the label speaks, best first. A number narrows: every version that carries it
    is named, also where the year or the maker does not fit."""
    seen = evidence.seen
    on_record = numbers_on_record(number)
    pairs = [(facts, version) for facts in types for version in facts.versions.values()]
    carried = {version.code: carried_by(version, on_record) for _, version in pairs}
    makers = {version.code: makers_on_labels(version, facts.versions) for facts, version in pairs}
    known = {one.bare for rows in carried.values() for one in rows}
    said = {facts.code: said_by(facts.features, evidence.signs) for facts in types}
    chances = chances_of_types([facts for facts in types if said[facts.code]], said, number)
    inside = {code: chance for of_type in chances.values() for code, chance in together(of_type).items()}
    countries = countries_of_makers(number)
    serials = serial_forms(number)
    doubts = doubts_of_ends(types, number=number) if seen.possible_years else {}
    records = [
        label_record(v, carried[v.code], makers[v.code], countries, serials, doubts.get(v.code, SURE_ENDS))
        for _, v in pairs
    ]
    heard = hear_label(records, seen, inside=inside)
    numbered = [one for one in seen.numbers if one in known]
    found = []
    for facts, version in pairs:
        if numbered and not any(one.bare in seen.numbers for one in carried[version.code]):
            continue
        reasons = reasons_for(version, carried[version.code], makers[version.code], seen, countries, serials)
        fits = not any(reason.direction == "against" for reason in reasons)
        if of_type := chances.get(facts.code):
            reasons += reasons_said(facts, said[facts.code], of_type, version.code)
            fits = fits and not ruled_out(of_type, version.code)
        if not any(reason.direction == "for" for reason in reasons):
            continue
        if not numbered and not fits:
            continue
        weight = heard.likelihood[version.code] * label_record(version, ()).prior
        found.append(Allowed(version, address_of("version", version.code), facts.name, tuple(reasons), fits, weight))
    return sorted(found, key=lambda one: (not one.fits, -one.weight, one.version.code))


def chances_of_types(
    types: list[TypeFacts], said: Mapping[str, Said], number: int
) -> dict[str, dict[str, dict[str, float]]]:
    """By type and feature the chance of what the label says, for each version: as the walk of the type counts it."""
    keep_evidence_of([facts.code for facts in types], number=number)
    return {
        facts.code: chances_said(pack_for(facts, engine.Context(), number), facts, said[facts.code]) for facts in types
    }


def reasons_for(
    version: VersionFacts,
    carried: tuple[Carried, ...],
    makers: dict[str, str],
    seen: LabelSeen,
    countries: Mapping[str, str],
    serials: Mapping[str, Form],
) -> list[Reason]:
    """What each thing on the label says of the version."""
    reasons = []
    own = [one for one in carried if one.bare in seen.numbers]
    for one in own:
        words = f"number {one.number}" + (f", as a misprint of {one.misprint_of}" if one.misprint_of else "")
        if one.from_donor:
            words += f", kept from {one.from_donor}"
        if one.note and not one.misprint_of:
            words += f" ({one.note})"
        reasons.append(Reason(*FOR, words))
    if seen.possible_years:
        reasons.append(year_reason(version, own, seen))
    for maker in seen.makers:
        reasons.append(maker_reason(makers, maker))
    if seen.country:
        reasons.append(country_reason(makers, seen.country, countries))
    for depot in seen.repairs:
        reasons.append(repair_reason(version, depot))
    reasons += [serial_reason(version, serials[code]) for code in seen.serials if code in serials]
    return reasons


def year_reason(version: VersionFacts, own: list[Carried], seen: LabelSeen) -> Reason:
    """The year on the label, or that of its contract, which is only the earliest in which the piece was made."""
    firsts = [one.first_year for one in own if one.first_year] or ([version.from_year] if version.from_year else [])
    lasts = [one.last_year for one in own if one.last_year] or ([version.to_year] if version.to_year else [])
    first, last = min(firsts, default=None), max(lasts, default=None)
    years = seen.possible_years
    label = years_in_words(*years) if seen.years else f"contract of {seen.contract}, so made that year or later"
    if first is None and last is None:
        return Reason(*UNKNOWN, f"{label}: its years are not recorded")
    span = years_in_words(first, last)
    what = "labels with this number" if any(one.first_year or one.last_year for one in own) else "recorded"
    if (first and years[1] < first - LEEWAY) or (last and years[0] > last + LEEWAY):
        return Reason(*AGAINST, f"{label} on the label; {what} {span}" if seen.years else f"{label}; {what} {span}")
    if (first and years[1] < first) or (last and years[0] > last):
        return Reason(*FOR, f"{label}, a year beyond ({what} {span}): {LEEWAY_WORDS}")
    return Reason(*FOR, f"{label} ({what} {span})")


def maker_reason(names: dict[str, str], maker: str) -> Reason:
    if not names:
        return Reason(*UNKNOWN, "no maker of it is recorded")
    if maker in names:
        return Reason(*FOR, f"made by {names[maker]}")
    return Reason(*AGAINST, f"this maker is not recorded for it, but {', '.join(names.values())}")


def country_reason(names: dict[str, str], country: str, countries: Mapping[str, str]) -> Reason:
    there = [name for code, name in names.items() if countries.get(code) == country]
    if there:
        return Reason(*FOR, f"made in {country}, where {' and '.join(there)} worked")
    known = list(dict.fromkeys(countries[code] for code in names if code in countries))
    if country not in countries.values():
        return Reason(*UNKNOWN, f"made in {country}: no maker on record worked there")
    if not known:
        return Reason(*UNKNOWN, f"made in {country}: where its makers worked is not recorded")
    return Reason(*AGAINST, f"made in {country}; its makers worked in {' and '.join(known)}")


def repair_reason(version: VersionFacts, depot: str) -> Reason:
    if name := altered_by(version).get(depot):
        return Reason(*FOR, f"mark of {name}, whose work it is")
    return Reason(*UNKNOWN, "mark of a repair: a piece of any version may have been mended")


def serial_reason(version: VersionFacts, form: Form) -> Reason:
    years = years_in_words(*years_in_use(form.years))
    words = f"{form.title[:1].lower()}{form.title[1:]}: on such pieces{f' of {years}' if years else ''} alone"
    return Reason(*(FOR if carries_serial(version, form) else AGAINST), words)


def walk_addresses(found: list[Allowed], types: dict[str, TypeFacts], evidence: Evidence) -> list[dict]:
    """The walk-through of each garment type that the label allows, with the label's evidence in its address."""
    years = evidence.seen.years
    given = {
        "_label_number": ",".join(evidence.numbers),
        "_label_year": years[0] if years and years[0] == years[1] else "",
        "_label_maker": ",".join(evidence.seen.makers),
        "_label_repair": ",".join(evidence.seen.repairs),
        "_label_contract": evidence.seen.contract or "",
        "_label_country": evidence.seen.country,
        "_label_serial": ",".join(evidence.seen.serials),
        "_label_sewn": evidence.seen.sewn,
    }
    codes = dict.fromkeys(code for one in found for code, facts in types.items() if one.version.code in facts.versions)
    walks = [
        {
            "name": types[code].name,
            "address": reverse("walk_through:type", args=[code])
            + query_of(given | {"_label_says": says_of(types[code], evidence)}),
        }
        for code in codes
    ]
    if len(walks) > 1:
        walks.append({"name": "Not sure which of these", "address": reverse("walk_through:any") + query_of(given)})
    return walks


def query_of(given: Mapping[str, object]) -> str:
    return f"?{urlencode({name: value for name, value in given.items() if value}, safe=',:')}"


def says_of(facts: TypeFacts, evidence: Evidence) -> str:
    """The states of the type's features that the label shows by what it says, as an address has them."""
    said = said_by(facts.features, evidence.signs)
    return ",".join(f"{code}:{state}" for code, states in said.items() for state in states)
