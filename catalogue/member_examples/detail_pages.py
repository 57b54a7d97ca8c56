"""The pages that say when a detail changed: of one type, and of all its details."""

import csv
from collections import Counter
from collections.abc import Mapping
from io import StringIO

from django.urls import reverse

from catalogue.figures.change_charts import detail_chart, for_screens
from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.dated import IssuedExample, details_of_type, issued_examples, maker_names
from catalogue.member_examples.queries import keep_evidence
from catalogue.member_examples.shades import is_shade, not_faded, shades_of_type
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import FeatureFacts, TypeFacts
from identification.dating.change_over import Change, DatedPiece, History, Shown
from identification.dating.comparing_words import link_sentences, link_sentences_unchanged
from identification.dating.goes_with import Piece, Standing, links_of_all
from identification.dating.size_marks import place_of_mark
from identification.dating.strays import half_made_by, odd_ones, still_made
from identification.dating.words import (
    counted,
    half_made_sentence,
    history_in_short,
    history_sentences,
    still_made_sentence,
)

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
        row = {"name": feature.name, "address": detail_address(facts.code, code)}
        labels = labels_of(feature)
        if history.shown is Shown.CHANGED:
            row["words"] = history_in_short(history, labels)
        else:
            row["words"] = history_sentences(history, labels, makers)[0]
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
    return {
        "still_made": still_made_sentence(still_made(change, pieces), makers),
        "half_made": half_made_sentence(half_made_by(change, pieces), makers),
        "odd": odd,
    }


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
