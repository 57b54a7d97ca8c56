"""The pages that say when a detail changed: of one type, of all its details, and of all types of an issuer."""

import csv
from collections import Counter
from collections.abc import Iterable, Mapping
from io import StringIO

from django.urls import reverse

from catalogue.figures.change_charts import TypeRow, detail_chart, for_screens, issuer_chart
from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.dated import (
    IssuedExample,
    details_of_type,
    issued_examples,
    keep_details_of,
    maker_names,
)
from catalogue.member_examples.detail_papers import (
    Expected,
    RecordedChange,
    expected_changes,
    grounds_of,
    is_order,
    recorded_changes,
)
from catalogue.member_examples.queries import keep_evidence
from catalogue.member_examples.shades import is_shade, not_faded, shades_of_type
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.models import Source, VersionRecord
from identification.dating.change_over import Change, DatedPiece, History, Shown
from identification.dating.comparing_words import link_sentences, link_sentences_unchanged
from identification.dating.goes_with import Piece, Standing, links_of_all
from identification.dating.size_marks import place_of_mark
from identification.dating.strays import odd_ones, still_made
from identification.dating.words import counted, history_sentences, still_made_sentence, years_between

FEWEST_TO_COMPARE = 3
SAYING = (Standing.GOES, Standing.NOT_SEPARATED, Standing.EXPLAINED)
# What a page of all details lists, in this order.
SHOWN = {
    Shown.CHANGED: "Changed",
    Shown.WITH_MAKER: "Year and maker cannot be separated",
    Shown.NO_CHANGE: "No change shown",
    Shown.ONE_STATE: "One state only",
    Shown.TOO_FEW: "Too few dated labels",
}
CSV_COLUMNS = ("garment_type", "feature", "state", "year", "maker", "version", "example")


def detail_address(type_code: str, feature: str) -> str:
    return reverse("details:detail", args=[type_code, feature])


def issuer_detail_address(issuer: str, feature: str) -> str:
    return reverse("details:of_issuer", args=[issuer, feature])


def labels_of(feature: FeatureFacts) -> dict[str, str]:
    return {state.code: state.label for state in feature.states}


def details_context(facts: TypeFacts, *, number: int) -> dict:
    """Every detail of a type that dated examples show, those that changed first."""
    details = details_of_type(facts, number=number)
    makers = maker_names(issued_examples(facts, number=number))
    groups: dict[Shown, list[dict]] = {shown: [] for shown in SHOWN}
    for code, history in details.histories.items():
        feature = facts.features[code]
        row = {"name": feature.name, "address": detail_address(facts.code, code), "number": history.pieces}
        row["words"] = history_sentences(history, labels_of(feature), makers)[0]
        groups[history.shown].append(row)
    return {
        "facts": facts,
        "type_address": address_of("type", facts.code),
        "groups": [{"words": SHOWN[shown], "rows": rows} for shown, rows in groups.items() if rows],
        "dated": sum(one.year is not None for one in issued_examples(facts, number=number)),
    }


def detail_context(facts: TypeFacts, feature: FeatureFacts, *, number: int) -> dict:
    """When one detail changed: in words, drawn, and piece by piece. Kept for the state."""
    key = ("detail page", facts.code, feature.code)
    return keep_evidence(key, lambda: make_context(facts, feature, number=number), number=number)


def make_context(facts: TypeFacts, feature: FeatureFacts, *, number: int) -> dict:
    details = details_of_type(facts, number=number)
    pieces = details.pieces.get(feature.code, [])
    history = details.histories.get(feature.code, History(Shown.TOO_FEW, 0))
    makers = maker_names(issued_examples(facts, number=number))
    labels = labels_of(feature)
    title = f"{facts.name}: {feature.name}, dated examples by state and year"
    chart = detail_chart(title, pieces, history, labels, makers)
    return {
        "facts": facts,
        "feature": feature,
        "type_address": address_of("type", facts.code),
        "details_address": reverse("details:of_type", args=[facts.code]),
        "csv_address": reverse("details:csv", args=[facts.code, feature.code]),
        "issuer_address": issuer_detail_address(facts.issuer, feature.code) if facts.issuer else "",
        "number": len(pieces),
        "sentences": history_sentences(history, labels, makers) if pieces else [],
        "strays": [strays_of(change, pieces, labels, makers) for change in history.changes],
        "changed": history.shown is Shown.CHANGED,
        "chart": for_screens(lambda width: detail_chart(title, pieces, history, labels, makers, width).svg)
        if chart
        else "",
        "signs": chart.signs if chart else (),
        "shades": shades_of_type(facts, number=number) if is_shade(feature) else [],
        "goes": goes_with(facts, feature, makers, changed=history.shown is Shown.CHANGED, number=number),
        "rows": rows_of(facts, feature, number=number),
    }


def strays_of(change: Change, pieces: list[DatedPiece], labels: Mapping[str, str], makers: Mapping[str, str]) -> dict:
    """Who made the earlier state of one change after it, and each piece that lies far from it."""
    odd = [
        {
            "code": piece.code,
            "address": example_address(piece.code),
            "year": piece.year,
            "state": labels.get(piece.state, piece.state),
            "maker": makers.get(piece.maker, piece.maker),
        }
        for piece in odd_ones(change, pieces)
    ]
    return {"still_made": still_made_sentence(still_made(change, pieces), makers), "odd": odd}


def goes_with(
    facts: TypeFacts, feature: FeatureFacts, makers: Mapping[str, str], *, changed: bool, number: int
) -> list[str]:
    """What the commoner states go with, corrected for all of them together; of two states one says it for both.
    `changed`: whether the history of the detail shows a change."""
    showing = [one for one in issued_examples(facts, number=number) if feature.code in one.states]
    left_out = []
    if is_shade(feature):
        every, showing = showing, not_faded(facts, showing, number=number)
        if len(showing) < len(every):
            left = counted(len(every) - len(showing), "piece whose two places differ", "pieces whose two places differ")
            left_out = [f"Left out below: {left}; {counted(len(showing), 'other')} compared with each other."]
    often = Counter(one.states[feature.code] for one in showing)
    states = [state for state, many in often.items() if many >= FEWEST_TO_COMPARE and many < len(showing)]
    if len(often) == 2:
        states = states[-1:]
    system = commonest_system([one.size_mark for one in showing])
    tried = {state: [piece_showing(one, feature.code, state, system) for one in showing] for state in states}
    labels = labels_of(feature)
    found = links_of_all(tried)
    words = link_sentences if changed else link_sentences_unchanged
    told = [
        sentence
        for state, links in found.items()
        if any(link.standing in SAYING for link in links)
        for sentence in words(links, f"“{labels.get(state, state)}”", makers)
    ]
    if told or not found:
        return left_out + told
    return left_out + [
        f"No state is shown to go with the year, the maker, the size or the wear ({counted(len(showing), 'piece')})."
    ]


def piece_showing(one: IssuedExample, feature: str, state: str, system: str) -> Piece:
    shows = float(one.states[feature] == state)
    return Piece(shows, one.year, one.maker, size_in(one.size_mark, system), one.wear, one.code)


def commonest_system(marks: list[str]) -> str:
    """Sizes are compared within one way of marking only."""
    places = Counter(place.system for mark in marks if (place := place_of_mark(mark, "pit_to_pit")))
    return min(places, key=lambda system: (-places[system], system), default="")


def size_in(mark: str, system: str) -> float | None:
    place = place_of_mark(mark, "pit_to_pit")
    return place.number if place and place.system == system else None


def rows_of(facts: TypeFacts, feature: FeatureFacts, *, number: int) -> list[dict]:
    """The dated examples of a detail, one a row, by year."""
    return [
        {
            "state": feature.label_of(one.states[feature.code]),
            "code": one.states[feature.code],
            "year": one.year,
            "maker": one.maker_name,
            "maker_code": one.maker,
            "version": one.version,
            "version_address": address_of("version", one.version),
            "example": one.code,
            "example_address": example_address(one.code),
        }
        for one in issued_examples(facts, number=number)
        if one.year is not None and feature.code in one.states
    ]


def detail_csv(facts: TypeFacts, feature: FeatureFacts, *, number: int) -> str:
    """The rows as a spreadsheet: UTF-8, commas, RFC 4180; codes as the society writes them."""
    text = StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(CSV_COLUMNS)
    for row in rows_of(facts, feature, number=number):
        writer.writerow(
            [facts.code, feature.code, row["code"], row["year"], row["maker_code"], row["version"], row["example"]]
        )
    return text.getvalue()


def of_issuer(issuer: str, types: list[TypeFacts]) -> list[TypeFacts]:
    """Types that the issuer of this code gave out."""
    return [facts for facts in types if facts.issuer == issuer]


def issuer_details_context(issuer, types: list[TypeFacts], *, number: int) -> dict:
    """Which details can be followed over the issuer's types, with how many of them changed."""
    key = ("details of issuer", issuer.code)
    return keep_evidence(key, lambda: make_issuer_details(issuer, types, number=number), number=number)


def make_issuer_details(issuer, types: list[TypeFacts], *, number: int) -> dict:
    names: dict[str, str] = {}
    changed, dated = Counter(), Counter()
    keep_details_of(of_issuer(issuer.code, types), number=number)
    for facts in of_issuer(issuer.code, types):
        for code, history in details_of_type(facts, number=number).histories.items():
            names.setdefault(code, facts.features[code].name)
            dated[code] += 1
            changed[code] += history.shown is Shown.CHANGED
    rows = [
        {
            "name": names[code],
            "address": issuer_detail_address(issuer.code, code),
            "words": f"changed in {changed[code]} of {counted(dated[code], 'garment type')}",
            "changed": changed[code],
        }
        for code in names
    ]
    return issuer_frame(issuer) | {"rows": sorted(rows, key=lambda row: (-row["changed"], row["name"]))}


def issuer_frame(issuer) -> dict:
    return {"issuer": issuer, "issuer_address": address_of("issuer", issuer.code)}


def issuer_detail_context(issuer, types: list[TypeFacts], code: str, *, number: int) -> dict | None:
    """One detail of all types of an issuer on the same years; None where no type of it has the feature."""
    having = [facts for facts in of_issuer(issuer.code, types) if code in facts.features]
    if not having:
        return None
    key = ("detail of issuer", issuer.code, code)
    return keep_evidence(key, lambda: make_issuer_detail(issuer, having, code, number=number), number=number)


def make_issuer_detail(issuer, having: list[TypeFacts], code: str, *, number: int) -> dict:
    rows, on_record, undated = [], {}, []
    keep_details_of(having, number=number)
    for facts in having:
        details = details_of_type(facts, number=number)
        on_record[facts.name] = recorded_changes(facts, code)
        pieces = tuple(details.pieces.get(code, ()))
        if not pieces and not on_record[facts.name]:
            undated.append(facts.name)
            continue
        history = details.histories.get(code, History(Shown.TOO_FEW, 0))
        words = short_words(history, labels_of(facts.features[code])) if pieces else "no dated example"
        years = tuple(one.year for one in on_record[facts.name] if one.year)
        rows.append(TypeRow(facts.name, detail_address(facts.code, code), pieces, history, words, years))
    name, labels = having[0].features[code].name, labels_of(having[0].features[code])
    title = f"{name}: all garment types of {issuer.name}"
    every = [one for changes in on_record.values() for one in changes]
    writers, kinds = writers_of(one.version for one in every), kinds_of(every)
    seen = {
        facts.code: {p.state for p in details_of_type(facts, number=number).pieces.get(code, ())} for facts in having
    }
    expected = expected_changes(having, code, years_of_changes(rows, on_record), seen)
    return issuer_frame(issuer) | {
        "name": name,
        "svg": for_screens(lambda width: issuer_chart(title, rows, width)),
        "recorded": any(on_record.values()),
        "rows": [
            {
                "name": row.name,
                "address": row.address,
                "words": row.words,
                "recorded": [recorded_row(one, labels, writers, kinds) for one in on_record[row.name]],
            }
            for row in rows
        ],
        "expected": [expected_row(one, labels) for one in expected],
        "undated": undated,
    }


def years_of_changes(rows: list[TypeRow], on_record: Mapping[str, list[RecordedChange]]) -> dict:
    """The year of each change by garment type: from dated examples, else on record."""
    found: dict[tuple[str, str], dict[str, int]] = {}
    for row in rows:
        for one in on_record[row.name]:
            if one.year and len(one.before) == len(one.after) == 1:
                found.setdefault((one.before[0], one.after[0]), {})[row.name] = one.year
        for change in row.history.changes:
            found.setdefault((change.before, change.after), {})[row.name] = change.about
    return found


def writers_of(versions: Iterable[VersionFacts]) -> dict[str, str]:
    """Who wrote the record in force of each version, by its code; nothing where it was imported."""
    numbers = {version.code: version.record_number for version in versions}
    rows = VersionRecord.objects.filter(version__code__in=numbers, written_by__isnull=False)
    columns = rows.values_list("version__code", "number", "written_by__username")
    return {code: name for code, number, name in columns if numbers[code] == number}


def kinds_of(changes: Iterable[RecordedChange]) -> dict[str, str]:
    """What kind of source each of their papers is, by its code."""
    codes = {paper.source for one in changes for paper in one.papers}
    return dict(Source.objects.filter(code__in=codes).values_list("code", "kind"))


def recorded_row(
    one: RecordedChange, labels: Mapping[str, str], writers: Mapping[str, str], kinds: Mapping[str, str]
) -> dict:
    return {
        "before": " or ".join(labels.get(state, state) for state in one.before),
        "after": " or ".join(labels.get(state, state) for state in one.after),
        "version": one.version.name,
        "version_address": address_of("version", one.version.code),
        "dates": one.version.date_words,
        "grounds": grounds_of(one, kinds),
        "papers": [
            {"title": paper.title, "kind": kinds.get(paper.source, ""), "address": address_of("source", paper.source)}
            for paper in sorted(one.papers, key=lambda paper: not is_order(kinds.get(paper.source, "")))
        ],
        "carried_from": one.carried_from,
        "writer": writers.get(one.version.code, ""),
    }


def expected_row(one: Expected, labels: Mapping[str, str]) -> dict:
    return {
        "name": one.type_name,
        "before": labels.get(one.before, one.before),
        "after": labels.get(one.after, one.after),
        "version": one.version.name,
        "version_address": address_of("version", one.version.code),
        "until": one.version.to_year,
        "year": one.year,
        "elsewhere": " and ".join(one.elsewhere),
    }


def short_words(history: History, labels: Mapping[str, str]) -> str:
    """`Sewn, Slotted about 1986 (1985–88), 52 labels`."""
    number = counted(history.pieces, "label")
    if history.shown is Shown.TOO_FEW:
        return f"too few to say, {number}"
    if history.shown is not Shown.CHANGED:
        return f"{SHOWN[history.shown].lower()}, {number}"
    steps = [
        f"{labels.get(change.after, change.after)} about {change.about} ({years_between(change.first, change.last)})"
        for change in history.changes
    ]
    before = history.changes[0].before
    return f"{labels.get(before, before)}, then {', then '.join(steps)}; {number}"
