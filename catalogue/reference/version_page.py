"""What a version's page shows, worked out once for each state of the reference."""

from dataclasses import dataclass

from catalogue.reference.addresses import address_of, comparison_address
from catalogue.reference.changes import steps_to
from catalogue.reference.facts import CellFacts, CitationFacts, CompanionFacts, FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.models import GarmentType, VersionAncestor
from catalogue.reference.separation import separation
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.words import MEASURED_FROM, STANDING_WORDS, AncestorRole, Grade, Measured

NAMED_FEATURES = 4


@dataclass(frozen=True)
class Grounds:
    """What a state rests on: a word, the version it was carried over from, numbers of sources for and against it."""

    words: str
    carried_from: str
    supporting: tuple[int, ...]
    contradicting: tuple[int, ...]


def version_context(facts: TypeFacts, version: VersionFacts, *, number: int) -> dict:
    """Everything the template needs."""
    return keep_for_state(("version page", version.code), lambda: make_context(facts, version), number=number)


def make_context(facts: TypeFacts, version: VersionFacts) -> dict:
    sources = numbered_sources(version)
    number_of = {source.source: place for place, source in enumerate(sources, start=1)}
    groups, unrecorded, inapplicable = profile(facts, version, number_of)
    recorded = sum(len(group["rows"]) for group in groups)
    return {
        "facts": facts,
        "version": version,
        "type_address": address_of("type", facts.code),
        "groups": groups,
        "recorded": recorded,
        "possible": recorded + len(unrecorded),
        "unrecorded": unrecorded,
        "inapplicable": inapplicable,
        "standing": STANDING_WORDS.get(version.standing, ""),
        "sources": [source_row(source, number_of[source.source]) for source in sources],
        "supporting": [number_of[c.source] for c in version.citations if not c.contradicts],
        "contradicting": [number_of[c.source] for c in version.citations if c.contradicts],
        "numbers": [number_row(number, number_of) for number in version.stock_numbers],
        "size_table": size_table(version, number_of),
        "fits": [companion_row(one, number_of) for one in version.companions if one.fits],
        "worn_with": [companion_row(one, number_of) for one in version.companions if not one.fits],
        "makers": [{"name": m.name, "address": address_of("maker", m.code)} for m in version.makers],
        "steps": steps_to(facts, version),
        "neighbours": neighbours(facts, version),
        "became": [linked(code, known.name) for code in version.became if (known := facts.known(code))],
        "also_recorded_as": [
            linked(one.code, one.name) for one in facts.retired.values() if version.code in one.became
        ],
        **relations(version),
    }


def numbered_sources(version: VersionFacts) -> list[CitationFacts]:
    """Each source once, in the order in which the page meets it."""
    met: dict[str, CitationFacts] = {}
    cells = [cell for cells in version.cells.values() for cell in cells]
    for holder in (version, *version.companions, *version.stock_numbers, *cells):
        for citation in holder.citations:
            met.setdefault(citation.source, citation)
    for cell in version.sizes:
        met.setdefault(cell.source.source, cell.source)
    return list(met.values())


def source_row(source: CitationFacts, number: int) -> dict:
    return {
        "n": number,
        "code": source.source,
        "title": source.title,
        "grade": Grade(source.grade).label,
        "address": address_of("source", source.source),
    }


def number_row(number, number_of: dict[str, int]) -> dict:
    """A stock number with its years, its form, its notes and its sources."""
    return {
        "number": number.number,
        "form": number.form.split(":")[0],
        "years": number.years,
        "misprint_of": number.misprint_of,
        "note": number.note,
        "supporting": [number_of[c.source] for c in number.citations if not c.contradicts],
        "contradicting": [number_of[c.source] for c in number.citations if c.contradicts],
    }


def size_table(version: VersionFacts, number_of: dict[str, int]) -> dict | None:
    """A row for each size mark and a column for each length, in centimetres; with each length its source, where there
    is more than one. None without a table."""
    if not version.sizes:
        return None
    sources = list(dict.fromkeys(number_of[cell.source.source] for cell in version.sizes))
    columns = sorted({cell.what for cell in version.sizes}, key=Measured.values.index)
    rows: dict[str, dict[str, dict]] = {}
    for cell in version.sizes:
        shown = {"cm": f"{cell.mm / 10:.1f}", "source": number_of[cell.source.source] if len(sources) > 1 else None}
        rows.setdefault(cell.mark, {})[cell.what] = shown
    return {
        "columns": [{"name": Measured(what).label, "how": MEASURED_FROM[Measured(what)]} for what in columns],
        "rows": [{"mark": mark, "cells": [cells.get(what) for what in columns]} for mark, cells in rows.items()],
        "sources": sources,
    }


def companion_row(one: CompanionFacts, number_of: dict[str, int]) -> dict:
    """A version that this one goes with, its note and its sources."""
    return linked(one.version, one.name) | {
        "note": one.note,
        "supporting": [number_of[c.source] for c in one.citations if not c.contradicts],
        "contradicting": [number_of[c.source] for c in one.citations if c.contradicts],
    }


def profile(facts: TypeFacts, version: VersionFacts, number_of: dict[str, int]) -> tuple[list[dict], list, list]:
    """Rows under their groups; names of features not recorded; why others do not apply."""
    groups: dict[str, list[dict]] = {}
    unrecorded, inapplicable = [], []
    numbers = facts.row_numbers(version)
    for feature in facts.features.values():
        cells = version.cells.get(feature.code)
        if cells:
            lines = state_lines(cells, number_of, feature)
            row = {"n": numbers[feature.code], "code": feature.code, "name": feature.name, "lines": lines}
            row["questions"] = [question for question in version.open_questions if feature.code in question.features]
            groups.setdefault(feature.group or "features", []).append(row)
        elif facts.applies(version, feature):
            unrecorded.append(feature.name)
        else:
            inapplicable.append(why_not(facts, version, feature))
    return [{"name": name, "rows": rows} for name, rows in groups.items()], unrecorded, inapplicable


def why_not(facts: TypeFacts, version: VersionFacts, feature: FeatureFacts) -> str:
    """A detail of a part that this version never has, with what the record says of the part."""
    parent = facts.features[feature.parent]
    while parent.code not in version.cells and parent.parent in facts.features:
        parent = facts.features[parent.parent]
    states = " or ".join(cell.label for cell in version.cells.get(parent.code, ()))
    return f"{feature.name}, because {parent.name.lower()} is: {states.lower()}"


def state_lines(cells: tuple[CellFacts, ...], number_of: dict[str, int], feature: FeatureFacts) -> list[dict]:
    """States with their grounds; those that rest on the same stand on one line."""
    several = len(cells) > 1
    lines: dict[Grounds, list[CellFacts]] = {}
    for cell in cells:
        lines.setdefault(grounds_of(cell, number_of), []).append(cell)
    return [
        {
            "states": "; or ".join(state_words(cell, several) for cell in alike),
            "drawn": [drawn(cell, feature) for cell in alike],
            "grounds": grounds.words,
            "carried_from": grounds.carried_from,
            "carried_address": address_of("version", grounds.carried_from) if grounds.carried_from else "",
            "supporting": grounds.supporting,
            "contradicting": grounds.contradicting,
        }
        for grounds, alike in lines.items()
    ]


def drawn(cell: CellFacts, feature: FeatureFacts) -> dict:
    """What the small picture of a state needs to be known by."""
    state = feature.state_by_code.get(cell.state)
    return {
        "feature": cell.feature,
        "state": cell.state,
        "drawing": state.drawing if state else "",
        "photograph": state.photograph if state else None,
    }


def grounds_of(cell: CellFacts, number_of: dict[str, int]) -> Grounds:
    return Grounds(
        words=cell.grounds if cell.grounds != "Asserted" else "Asserted, no source named",
        carried_from=cell.carried_from or "",
        supporting=tuple(number_of[c.source] for c in cell.citations if not c.contradicts),
        contradicting=tuple(number_of[c.source] for c in cell.citations if c.contradicts),
    )


def state_words(cell: CellFacts, several: bool) -> str:
    """A state with how often, on which pieces only, and the record's note, as far as they say anything."""
    extras = []
    if cell.share is not None:
        extras.append(f"{cell.share * 100:.0f} % of pieces")
    elif several or cell.how_often != "always":
        extras.append(cell.how_often)
    if cell.limits:
        extras.append(f"only {cell.limits}")
    if cell.note:
        extras.append(cell.note)
    return cell.label + (f" ({'; '.join(extras)})" if extras else "")


def neighbours(facts: TypeFacts, version: VersionFacts) -> list[dict]:
    """The other versions of the type, most alike first, each with the easiest features that tell them."""
    features = list(facts.features.values())
    rows = []
    for other in facts.versions.values():
        if other.code != version.code:
            found = separation(version, other, features)
            shared = [q for q in version.open_questions if q in other.open_questions]
            rows.append(
                {
                    "name": other.name,
                    "code": other.code,
                    "kind": other.kind_words.lower(),
                    "number": len(found.features),
                    "words": found.words,
                    "features": ", ".join(f.name.lower() for f in found.features[:NAMED_FEATURES]),
                    "more": max(0, len(found.features) - NAMED_FEATURES),
                    "address": comparison_address(version.code, other.code),
                    "question": address_of("open_question", shared[0].code) if shared and not found.features else "",
                }
            )
    return sorted(rows, key=lambda row: row["number"])


def relations(version: VersionFacts) -> dict:
    """What it continues, what it was made from, what came of it, and which other garments it can pass for."""
    following = VersionAncestor.objects.filter(ancestor__code=version.code).order_by("version__position")
    rows = list(following.values_list("version__code", "version__name", "role"))
    types = GarmentType.objects.filter(code__in=version.passes_for).values_list("code", "name")
    return {
        "continues": [linked(a.version, a.name) for a in version.ancestors if not a.made_from],
        "made_from": [linked(a.version, a.name) for a in version.ancestors if a.made_from],
        "followed_by": [linked(code, name) for code, name, role in rows if role == AncestorRole.CONTINUES],
        "made_into": [linked(code, name) for code, name, role in rows if role == AncestorRole.MADE_FROM],
        "passes_for": [{"name": name, "address": address_of("type", code)} for code, name in types],
    }


def linked(code: str, name: str) -> dict:
    return {"name": name, "code": code, "address": address_of("version", code)}
