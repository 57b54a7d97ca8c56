"""A proposal as plain values: the version as it stands, and as it would look, for words, figures and the engine."""

from collections.abc import Mapping
from dataclasses import replace

from catalogue.reference.changes import in_a_sentence
from catalogue.reference.facts import (
    Ancestor,
    CellFacts,
    CitationFacts,
    FeatureFacts,
    NameFacts,
    SizeFacts,
    TypeFacts,
    VersionFacts,
)
from catalogue.reference.models import Source
from catalogue.reference.uncertain_dates import in_words, year_span
from catalogue.reference.words import Certainty, HazardKind, Measured, VersionKind
from catalogue.review.proposals.rules import row_of
from catalogue.review.proposals.words import FEATURE

Rows = Mapping[str, object]
PLAIN_FACTS = (
    "name", "kind", "certainty", "reason", "note", "rarity", "abundance", "piece_seen", "hazard_kind", "hazard",
)  # fmt: skip


def bare_version(code: str) -> VersionFacts:
    """A version of which nothing is known yet."""
    return VersionFacts(
        code=code, name=code, kind=VersionKind.ISSUE, cut="", colourway="", issuer="", date="", from_year=None,
        to_year=None, rarity=3, abundance=None, certainty=Certainty.INFERRED, piece_seen=True, reason="", note="",
        hazard_kind="", hazard="", names=(), makers=(), ancestors=(), passes_for=(), citations=(), stock_numbers=(),
        open_questions=(), record_number=None, standing="", cells={},
    )  # fmt: skip


def with_rows(home: TypeFacts, version: VersionFacts, rows: Rows) -> VersionFacts:
    """The version with these rows in place of its own; a feature that the type does not have is left out."""
    titles = {one.code: one for one in Source.objects.filter(code__in=codes_of(rows))}
    fields = {name: rows[name] for name in PLAIN_FACTS if name in rows}
    if "date" in rows:
        first, last = year_span(rows["date"]) if rows["date"] else (None, None)
        fields |= {"date": rows["date"], "from_year": first, "to_year": last}
    if "other_names" in rows:
        fields["names"] = tuple(NameFacts(name) for name in rows["other_names"]) + version.sellers_names
    if "continues" in rows:
        named = {code: one.name for code, one in home.versions.items()}
        fields["ancestors"] = tuple(Ancestor(code, named.get(code, code), False) for code in rows["continues"])
    if "sizes" in rows:
        fields["sizes"] = tuple(
            SizeFacts(one["mark"], one["what"], one["mm"], citation(one["source"], titles)) for one in rows["sizes"]
        )
    cells = dict(version.cells)
    for key, value in rows.items():
        if key.startswith(FEATURE) and (feature := home.features.get(key.removeprefix(FEATURE))):
            cells.pop(feature.code, None)
            if value:
                cells[feature.code] = tuple(cell_facts(feature, cell, titles) for cell in value)
    in_order = {code: cells[code] for code in home.features if code in cells}
    return replace(version, **fields, cells=in_order)


def codes_of(rows: Rows) -> set[str]:
    """Every source that the rows cite."""
    cells = [cell for key, value in rows.items() if key.startswith(FEATURE) for cell in value]
    of_sizes = {one["source"] for one in row_of(rows, "sizes")}
    return {code for cell in cells for code in cell["sources"]} | set(row_of(rows, "sources")) | of_sizes


def citation(code: str, titles: Mapping[str, Source]) -> CitationFacts:
    row = titles.get(code)
    return CitationFacts(code, row.title if row else "gone", row.grade if row else "E")


def cell_facts(feature: FeatureFacts, cell: Mapping, titles: Mapping[str, Source]) -> CellFacts:
    return CellFacts(
        feature=feature.code,
        state=cell["state"],
        label=feature.label_of(cell["state"]),
        how_often=cell["how_often"],
        share=cell["share"],
        certainty=cell["certainty"],
        sizes=tuple(cell["sizes"].split()),
        makers=tuple(cell["makers"]),
        first_year=cell["first_year"],
        last_year=cell["last_year"],
        note=cell["note"],
        citations=tuple(citation(code, titles) for code in cell["sources"]),
    )


def row_in_words(key: str, value, home: TypeFacts) -> str:
    """A row as people read it; empty where it says nothing."""
    if key.startswith(FEATURE):
        feature = home.features.get(key.removeprefix(FEATURE))
        return "; or ".join(cell_in_words(feature, cell) for cell in value)
    if key == "sizes":
        return "; ".join(length_in_words(one) for one in value)
    if key == "kind":
        return VersionKind(value).label if value in VersionKind.values else value
    if key == "certainty":
        return Certainty(value).label if value in Certainty.values else value
    if key == "date":
        return in_words(value) if value else ""
    if key == "rarity":
        return f"{value} (1 common, 5 rare)"
    if key == "piece_seen":
        return "yes" if value else "no"
    if key == "abundance":
        return "" if value is None else f"{value:g}"
    if key == "hazard_kind":
        return HazardKind(value).label if value in HazardKind.values else value
    return ", ".join(value) if isinstance(value, list) else value


def length_in_words(one: Mapping) -> str:
    what = Measured(one["what"]).label.lower() if one["what"] in Measured.values else one["what"]
    return f"{one['mark']}: {what} {one['mm']} mm ({one['source']})"


def cell_in_words(feature: FeatureFacts | None, cell: Mapping) -> str:
    """A state with how often, on which pieces, and what it rests on."""
    facts = cell_facts(feature, cell, {}) if feature else None
    often = f"{cell['share']:.0%} counted" if cell["share"] is not None else cell["how_often"]
    parts = [often]
    if facts and facts.limits:
        parts.append(f"only {facts.limits}")
    if cell["certainty"]:
        parts.append(Certainty(cell["certainty"]).label.lower())
    if cell["sources"]:
        parts.append(f"on {', '.join(cell['sources'])}")
    if cell["note"]:
        parts.append(f"note: {in_a_sentence(cell['note'])}")
    return f"{facts.label if facts else cell['state']} ({'; '.join(parts)})"
