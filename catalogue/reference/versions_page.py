"""The list of versions as a page: its rows, its facets, what narrows it now and what to drop when nothing is left."""

from django.db.models import F, QuerySet
from django.http import QueryDict

from catalogue.long_lists import page_of
from catalogue.reference.addresses import address_of
from catalogue.reference.filters import (
    FACETS,
    MOST_FEATURES_COUNTED,
    SORTS,
    Choice,
    Choices,
    VersionFilter,
    choices_now,
    facet_counts,
    state_counts,
)
from catalogue.reference.models import IssueVersion
from catalogue.reference.numbers import folded
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.uncertain_dates import in_words
from catalogue.reference.words import UNREVIEWED, VersionKind

A_PAGE = 50
MOST_CHOICES = 24
COLUMNS = (
    "code", "name", "kind", "date", "garment_type__name", "piece_seen", "current_record__standing",
    "current_record_id", "passed_record_id",
)  # fmt: skip
ORDERS = {
    "type": ("garment_type__position", "garment_type__code", "position", "code"),
    "date": (F("from_year").asc(nulls_last=True), F("to_year").asc(nulls_last=True), "code"),
}
KIND_WORDS = dict(VersionKind.choices)


def versions_context(given: QueryDict, *, number: int) -> dict:
    """Everything the template needs, for whatever the address holds."""
    choices = choices_now(number=number)
    filtered = VersionFilter(given, IssueVersion.objects.in_force(), choices=choices, number=number)
    chosen = chosen_filters(given, choices)
    context = {
        "chosen": chosen,
        "unknown": [name for name in given if name not in VersionFilter.base_filters and name != "page"],
        "typed": {name: given.get(name, "") for name in ("q", "year_from", "year_to")},
        "features": feature_choices(choices, given),
        "sorts": [{"code": c, "words": w, "chosen": c == (given.get("sort") or "type")} for c, w in SORTS.items()],
    }
    if not filtered.is_valid():
        return context | refused(filtered, choices, given)
    return context | narrowed(filtered, given, chosen, number=number)


def refused(filtered: VersionFilter, choices: Choices, given: QueryDict) -> dict:
    """The same form with what was typed and what is wrong with it, and no list."""
    faults = [
        {"field": name, "label": VersionFilter.base_filters[name].label, "words": " ".join(messages)}
        for name, messages in filtered.form.errors.items()
    ]
    facets = [facet_row(facet, choices.facets[facet], None, given.getlist(facet)) for facet in FACETS]
    states = [state_row(choices, feature, None, given) for feature in features_shown(given, choices)]
    return {"faults": faults, "fault_in": {fault["field"]: fault["words"] for fault in faults}, "facets": facets,
            "states": states}  # fmt: skip


def narrowed(filtered: VersionFilter, given: QueryDict, chosen: list[dict], *, number: int) -> dict:
    choices = filtered.choices
    counts = counts_of(filtered, chosen, number=number)
    page, odd_page = page_of(given.get("page"), ordered(filtered.rows(), given, number=number), A_PAGE)
    found = page.paginator.count
    counted = features_shown(given, choices)
    return {
        "page": page,
        "odd_page": odd_page,
        "keep": query_without(given, "page"),
        "found": found,
        "rows": [version_row(row) for row in page] if found else [],
        "facets": [facet_row(facet, choices.facets[facet], counts[facet], given.getlist(facet)) for facet in FACETS],
        "states": [
            state_row(choices, f, state_counts(filtered, f) if found and i < MOST_FEATURES_COUNTED else None, given)
            for i, f in enumerate(counted)
        ],
        "drops": what_to_drop(filtered, chosen, counts) if not found else [],
    }


def counts_of(filtered: VersionFilter, chosen: list[dict], *, number: int) -> dict[str, dict]:
    """The counts of all facets; those of the whole list are kept until the reference changes."""
    if chosen:
        return facet_counts(filtered)
    return keep_for_state(("facet counts",), lambda: facet_counts(filtered), number=number)


def ordered(rows: QuerySet, given: QueryDict, *, number: int):
    """The rows in the order asked for. Names are sorted here, because databases differ in how they sort words."""
    sort = given.get("sort") or "type"
    if sort != "name":
        return rows.order_by(*ORDERS[sort]).values(*COLUMNS)
    place = keep_for_state(("versions by name",), places_by_name, number=number)
    codes = sorted(rows.order_by().values_list("code", flat=True), key=lambda code: place.get(code, 0))
    return RowsOfCodes(codes)


def places_by_name() -> dict[str, int]:
    names = sorted((folded(name), code) for code, name in IssueVersion.objects.values_list("code", "name"))
    return {code: place for place, (_, code) in enumerate(names)}


class RowsOfCodes:
    """What a paginator slices: the codes in order, of which only a page's rows are read."""

    def __init__(self, codes: list[str]):
        self.codes = codes

    def __len__(self) -> int:
        return len(self.codes)

    def __getitem__(self, part: slice) -> list[dict]:
        wanted = self.codes[part]
        rows = {row["code"]: row for row in IssueVersion.objects.filter(code__in=wanted).values(*COLUMNS)}
        return [rows[code] for code in wanted if code in rows]


def version_row(row: dict) -> dict:
    return {
        "name": row["name"],
        "code": row["code"],
        "address": address_of("version", row["code"]),
        "type": row["garment_type__name"],
        "kind": KIND_WORDS[row["kind"]],
        "dates": in_words(row["date"]) or "not known",
        "seen": row["piece_seen"],
        "unreviewed": row["current_record__standing"] in UNREVIEWED
        and row["passed_record_id"] != row["current_record_id"],
    }


def facet_row(facet: str, choices: dict[str, Choice], counts: dict | None, ticked: list[str]) -> dict:
    """A facet with its commonest choices, how many versions each would show, and whether it is ticked."""
    rows = [
        {
            "code": c.code,
            "words": c.words,
            "number": counts.get(c.key, 0) if counts else None,
            "ticked": c.code in ticked,
        }
        for c in choices.values()
        if counts is None or counts.get(c.key) or c.code in ticked
    ]
    shown = rows
    if len(rows) > MOST_CHOICES:
        commonest = sorted(rows, key=lambda row: (not row["ticked"], -(row["number"] or 0)))
        shown = commonest[:MOST_CHOICES]
    return {"name": facet, "label": FACETS[facet][1], "choices": shown, "more": len(rows) - len(shown)}


def features_shown(given: QueryDict, choices: Choices) -> list[str]:
    """Features whose states are offered: those picked, and those of which a state is ticked."""
    ticked = [value.partition(":")[0] for value in given.getlist("state")]
    wanted = dict.fromkeys([*ticked, *given.getlist("feature")])
    return [feature for feature in wanted if feature in choices.states]


def state_row(choices: Choices, feature: str, counts: dict | None, given: QueryDict) -> dict:
    ticked = set(given.getlist("state"))
    return {
        "feature": feature,
        "label": choices.features[feature],
        "choices": [
            {"code": c.code, "words": c.words, "number": counts.get(c.key, 0) if counts else None,
             "ticked": c.code in ticked}
            for c in choices.states[feature].values()
        ],
    }  # fmt: skip


def feature_choices(choices: Choices, given: QueryDict) -> list[dict]:
    shown = features_shown(given, choices)
    return [{"code": code, "name": name} for code, name in choices.features.items() if code not in shown]


def chosen_filters(given: QueryDict, choices: Choices) -> list[dict]:
    """What narrows the list now, each with the address without it."""
    found = []
    for name in given:
        if name not in VersionFilter.base_filters or name in ("sort", "feature"):
            continue
        for value in dict.fromkeys(given.getlist(name)):
            if value:
                words = f"{VersionFilter.base_filters[name].label}: {value_words(name, value, choices)}"
                found.append({"name": name, "words": words, "without": without(given, name, value)})
    return found


def value_words(name: str, value: str, choices: Choices) -> str:
    """The value as people read it; as it was typed when nothing is known of it."""
    if name == "state":
        feature = value.partition(":")[0]
        known = choices.states.get(feature, {}).get(value)
        return f"{choices.features[feature]}, {known.words.lower()}" if known else value
    known = choices.facets.get(name, {}).get(value)
    return known.words if known else value


def without(given: QueryDict, name: str, value: str) -> str:
    rest = given.copy()
    rest.setlist(name, [other for other in rest.getlist(name) if other != value])
    rest.pop("page", None)
    return f"?{rest.urlencode()}"


def query_without(given: QueryDict, name: str) -> str:
    rest = given.copy()
    rest.pop(name, None)
    return f"{rest.urlencode()}&" if rest else ""


def what_to_drop(filtered: VersionFilter, chosen: list[dict], counts: dict) -> list[dict]:
    """For each filter of an empty list: how many versions there would be without it, most first."""
    drops = []
    for name in dict.fromkeys(row["name"] for row in chosen):
        values = [row for row in chosen if row["name"] == name]
        number = sum(counts[name].values()) if name in counts and name != "maker" else None
        if number is None:
            number = filtered.rows(without=name).count()
        rest = filtered.data.copy()
        rest.pop(name, None)
        rest.pop("page", None)
        words = "; ".join(row["words"] for row in values)
        drops.append({"words": words, "number": number, "address": f"?{rest.urlencode()}"})
    return sorted((drop for drop in drops if drop["number"]), key=lambda drop: -drop["number"])
