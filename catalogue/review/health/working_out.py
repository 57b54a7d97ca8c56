"""The health of one garment type, from its facts and what is seen on its accepted pieces. Plain values; the answer can
be kept as JSON."""

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from catalogue.member_examples.evidence import Evidence, Said, last_looks
from catalogue.member_examples.words import Answer
from catalogue.reference.facts import FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.separation import states_of
from catalogue.review.health.headline import of_matrix
from catalogue.review.health.measuring import measure
from catalogue.review.label_years import Span, gap, label_span
from identification.health.blind_spots import Blind, Cell, blind_pairs, confusion, dearest_cells

# What a kept row holds; raised when that changes, so that rows of before are worked out anew.
SHAPE = 4
# So many lines of a sort are kept for a type; the page says how many there are.
MOST_KEPT = 100
# So many pieces that agree against the record are a proposal waiting to be written. The society's choice; no source.
AGREEING = 3


@dataclass(frozen=True)
class OnPiece:
    """What else the health looks at on an accepted piece: its label's year, and who holds it to be another version."""

    code: str
    version: str
    label_year: int | None
    held_otherwise: tuple[tuple[str, str], ...] = ()


def health_of_type(
    facts: TypeFacts,
    evidence: Evidence,
    looks: Sequence[Mapping[str, Sequence[Said]]],
    pieces: Sequence[OnPiece],
) -> dict:
    """Everything that the page says of a type. `looks`: of each accepted piece the looks by feature."""
    matrix, questions = measure(facts, evidence)
    headline = of_matrix(matrix, questions)
    versions, features = list(facts.versions.values()), list(facts.features.values())
    pairs, blind = blind_pairs(matrix, most=MOST_KEPT)
    cells = dearest_cells(matrix)
    against = contradictions(facts, evidence)
    outside = years_outside(facts, pieces)
    disputed = [
        {"piece": p.code, "version": p.version, "others": [list(one) for one in p.held_otherwise]}
        for p in pieces
        if p.held_otherwise
    ]
    return {
        "shape": SHAPE,
        "type": facts.code,
        "name": facts.name,
        "versions": headline.versions,
        "identified": headline.identified,
        "questions": round(questions, 2),
        "confusion": confusion(matrix),
        "no_walk": bool(not features or not matrix.recorded.any()),
        "pairs": pairs,
        "blind": [blind_row(one, versions, features, evidence) for one in blind],
        "cells_number": len(cells),
        "cells": [cell_row(one, versions, features, evidence) for one in cells[:MOST_KEPT]],
        "against_number": len(against),
        "against": against[:MOST_KEPT],
        "outside_number": len(outside),
        "outside": outside[:MOST_KEPT],
        "disputed_number": len(disputed),
        "disputed": disputed[:MOST_KEPT],
        "patterns": patterns_of(facts, looks),
    }


def cell_row(
    found: Cell, versions: Sequence[VersionFacts], features: Sequence[FeatureFacts], evidence: Evidence
) -> dict:
    """An empty cell with its worth, and what accepted pieces show there already."""
    version, feature = versions[found.version].code, features[found.feature]
    return {
        "version": version,
        "feature": feature.name,
        "feature_code": feature.code,
        "worth": found.worth,
        "shown": most_seen(evidence, version, feature),
        "pieces": len(evidence.by_version.get(version, ())),
    }


def most_seen(evidence: Evidence, version: str, feature: FeatureFacts) -> dict | None:
    """The state that most accepted pieces of the version show; None where none was looked at."""
    shown = evidence.of(version, feature.code)
    known = {state: codes for state, codes in shown.by_state.items() if state in feature.state_by_code}
    if not known:
        return None
    state, codes = max(known.items(), key=lambda one: (len(one[1]), one[0]))
    return {"state": state, "label": feature.label_of(state), "number": len(codes), "of": shown.pieces}


def blind_row(
    found: Blind, versions: Sequence[VersionFacts], features: Sequence[FeatureFacts], evidence: Evidence
) -> dict:
    """A pair that nothing separates, what would, and the open questions that both versions have."""
    one, other = versions[found.one], versions[found.other]
    return {
        "one": one.code,
        "other": other.code,
        "weight": found.weight,
        "feature": features[found.settle].name if found.settle is not None else "",
        "feature_code": features[found.settle].code if found.settle is not None else "",
        "shown": [most_seen(evidence, versions[v].code, features[found.settle]) for v in found.record_for],
        "chance": found.chance,
        "record_for": [versions[index].code for index in found.record_for],
        "questions": [question.code for question in one.open_questions if question in other.open_questions],
    }


def contradictions(facts: TypeFacts, evidence: Evidence) -> list[dict]:
    """By version, feature and state: accepted pieces that show what the record of their version does not have. Three
    that agree come first, then by their share of the pieces that speak of the feature."""
    found = []
    for code, by_feature in evidence.shown.items():
        version = facts.versions.get(code)
        for feature_code, shown in by_feature.items() if version else ():
            feature, known = facts.features.get(feature_code), states_of(version, feature_code)
            if feature is None or not known or not facts.applies(version, feature):
                continue
            for state, codes in shown.by_state.items():
                if state not in known:
                    found.append(
                        {
                            "version": code,
                            "feature": feature.name,
                            "feature_code": feature_code,
                            "state": feature.label_of(state),
                            "state_code": state,
                            "recorded": [feature.label_of(one.state) for one in version.cells[feature_code]],
                            "pieces": list(codes[:MOST_KEPT]),
                            "number": len(codes),
                            "of": shown.pieces,
                        }
                    )
    return sorted(found, key=strongest)


def strongest(row: Mapping) -> tuple:
    """The order of contradictions: those in which enough pieces agree first, then by their share."""
    few = row["number"] < AGREEING
    return few, -row["number"] / row["of"], -row["number"], row["version"], row["feature"], row["state"]


def years_outside(facts: TypeFacts, pieces: Sequence[OnPiece]) -> list[dict]:
    """By version: label years before or after its span, the most pieces first. An altered piece keeps the label of
    what it was made from, so an early year says nothing there."""
    by_version: dict[str, list[tuple[int, str]]] = defaultdict(list)
    for piece in pieces:
        version = facts.versions.get(piece.version)
        if version and piece.label_year and gap(piece.label_year, *span_of(version)):
            by_version[piece.version].append((piece.label_year, piece.code))
    rows = []
    for code, dated in by_version.items():
        version = facts.versions[code]
        most = max(gap(year, *span_of(version)) for year, _ in dated)
        rows.append({"version": code, "span": version.date_words, "gap": most, "dated": sorted(dated)})
    return sorted(rows, key=lambda row: (-len(row["dated"]), -row["gap"], row["version"]))


def span_of(version: VersionFacts) -> Span:
    return label_span(version.kind, version.from_year, version.to_year)


def patterns_of(facts: TypeFacts, looks: Sequence[Mapping[str, Sequence[Said]]]) -> dict[str, list]:
    """By feature: what several people saw on one piece, as [[state, people], …], with on how many pieces."""
    counted: dict[str, Counter] = defaultdict(Counter)
    for by_feature in looks:
        for feature, said in by_feature.items():
            if len(said) < 2 or feature not in facts.features:
                continue
            seen = Counter(one.state for one in last_looks(said) if one.answer == Answer.SEEN and one.state)
            if sum(seen.values()) > 1:
                counted[feature][tuple(sorted(seen.items()))] += 1
    return {
        feature: [[[list(one) for one in pattern], many] for pattern, many in sorted(patterns.items())]
        for feature, patterns in counted.items()
    }
