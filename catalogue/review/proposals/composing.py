"""A proposal as plain values: the version as it stands, and as it would look, for words, figures and the engine."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from catalogue.reference.changes import in_a_sentence
from catalogue.reference.facts import (
    Ancestor,
    CellFacts,
    CitationFacts,
    FeatureFacts,
    MakerFacts,
    NameFacts,
    NumberFacts,
    SizeFacts,
    TypeFacts,
    VersionFacts,
    years_in_words,
)
from catalogue.reference.models import Issuer, Source
from catalogue.reference.uncertain_dates import in_words, year_span
from catalogue.reference.words import Certainty, HazardKind, Measured, Restriction, VersionKind
from catalogue.review.proposals.rules import row_of
from catalogue.review.proposals.words import FEATURE

Rows = Mapping[str, object]
PLAIN_FACTS = (
    "name", "kind", "certainty", "reason", "note", "rarity", "abundance", "piece_seen", "hazard_kind", "hazard",
)  # fmt: skip


# Rows that hold one code, of what `TypeFacts.called` names.
BY_CODE = ("cut", "colourway", "issuer")


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
    fields |= {name: home.called.get(name, {}).get(rows[name], rows[name]) for name in BY_CODE if name in rows}
    if "issuer" in rows:
        dated = Issuer.objects.filter(code=rows["issuer"]).values_list("date", flat=True)
        fields["issuer_date"] = dated.first() or ""
    if "date" in rows:
        first, last = year_span(rows["date"]) if rows["date"] else (None, None)
        fields |= {"date": rows["date"], "from_year": first, "to_year": last}
    if "other_names" in rows:
        fields["names"] = tuple(NameFacts(name) for name in rows["other_names"]) + version.sellers_names
    if {"continues", "made_from"} & rows.keys():
        fields["ancestors"] = ancestors_with(version.ancestors, rows, home)
    if "makers" in rows:
        called = home.called.get("maker", {})
        fields["makers"] = tuple(MakerFacts(code, called.get(code, code)) for code in by_name(rows["makers"], called))
    if "sizes" in rows:
        fields["sizes"] = tuple(
            SizeFacts(one["mark"], one["what"], one["mm"], citation(one["source"], titles)) for one in rows["sizes"]
        )
    if "stock_numbers" in rows:
        fields["stock_numbers"] = tuple(number_facts(one, home, titles) for one in rows["stock_numbers"])
    if {"sources", "contradicting_sources"} & rows.keys():
        fields["citations"] = citations_with(version.citations, rows, titles)
    if "passes_for" in rows:
        fields["passes_for"] = tuple(rows["passes_for"])
    if "restrictions" in rows:
        fields["restrictions"] = tuple(one.value for one in Restriction if one.value in rows["restrictions"])
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
    cells += row_of(rows, "stock_numbers")
    cells += [{"sources": row_of(rows, name)} for name in ("sources", "contradicting_sources")]
    of_sizes = {one["source"] for one in row_of(rows, "sizes")}
    return {code for cell in cells for code in (*cell["sources"], *cell.get("against", ()))} | of_sizes


def citation(code: str, titles: Mapping[str, Source]) -> CitationFacts:
    row = titles.get(code)
    return CitationFacts(code, row.title if row else "gone", row.grade if row else "E")


def by_name(codes: Iterable[str], called: Mapping[str, str]) -> list[str]:
    """Makers as pages list them."""
    return sorted(codes, key=lambda code: called.get(code, code))


def ancestors_with(held: Iterable[Ancestor], rows: Rows, home: TypeFacts) -> tuple[Ancestor, ...]:
    """What a version continues and was made from, with what the rows name in place of its own."""
    names = {code: one.name for code, one in (*home.retired.items(), *home.versions.items())}
    sides = {"continues": False, "made_from": True}
    own = {name: [one for one in held if one.made_from is made] for name, made in sides.items()}
    own |= {
        name: [Ancestor(code, names.get(code, code), made) for code in rows[name]]
        for name, made in sides.items()
        if name in rows
    }
    return (*own["continues"], *own["made_from"])


def citations_with(
    held: Iterable[CitationFacts], rows: Rows, titles: Mapping[str, Source]
) -> tuple[CitationFacts, ...]:
    """The sources for and against a version, with those that the rows name in place of its own."""
    sides = {"sources": False, "contradicting_sources": True}
    own = {name: [one for one in held if one.contradicts is against] for name, against in sides.items()}
    own |= {
        name: [replace(citation(code, titles), contradicts=against) for code in rows[name]]
        for name, against in sides.items()
        if name in rows
    }
    return (*own["sources"], *own["contradicting_sources"])


def number_facts(one: Mapping, home: TypeFacts, titles: Mapping[str, Source]) -> NumberFacts:
    return NumberFacts(
        number=one["number"],
        form=home.called.get("form", {}).get(one["form"], one["form"]),
        years=years_in_words(one["first_year"], one["last_year"]),
        misprint_of=one["misprint_of"],
        note=one["note"],
        citations=citations_with((), {"sources": one["sources"], "contradicting_sources": one["against"]}, titles),
    )


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
        citations=citations_with(
            (), {"sources": cell["sources"], "contradicting_sources": cell.get("against", ())}, titles
        ),
    )


def row_in_words(key: str, value, home: TypeFacts) -> str:
    """A row as people read it; empty where it says nothing."""
    if key.startswith(FEATURE):
        feature = home.features.get(key.removeprefix(FEATURE))
        return "; or ".join(cell_in_words(feature, cell) for cell in value)
    if key == "sizes":
        return "; ".join(length_in_words(one) for one in value)
    if key == "stock_numbers":
        return "; ".join(number_in_words(one, home) for one in value)
    if key in BY_CODE:
        return named(value, home.called.get(key, {})) if value else ""
    if key == "passes_for":
        return ", ".join(named(code, home.called.get("type", {})) for code in value)
    if key == "restrictions":
        return "; ".join(Restriction(one).label if one in Restriction.values else one for one in value)
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


def named(code: str, names: Mapping[str, str]) -> str:
    """`Desert (D)`; the code alone of what is not there any more."""
    return f"{names[code]} ({code})" if code in names else code


def number_in_words(one: Mapping, home: TypeFacts) -> str:
    """A stock number with its form, its years and what it rests on."""
    parts = [
        home.called.get("form", {}).get(one["form"], one["form"]),
        years_in_words(one["first_year"], one["last_year"]),
        f"misprint of {one['misprint_of']}" if one["misprint_of"] else "",
        f"on {', '.join(one['sources'])}" if one["sources"] else "",
        f"against it: {', '.join(one['against'])}" if one["against"] else "",
        f"note: {in_a_sentence(one['note'])}" if one["note"] else "",
    ]
    told = "; ".join(part for part in parts if part)
    return f"{one['number']} ({told})" if told else one["number"]


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
    if cell.get("against"):
        parts.append(f"against it: {', '.join(cell['against'])}")
    if cell["note"]:
        parts.append(f"note: {in_a_sentence(cell['note'])}")
    return f"{facts.label if facts else cell['state']} ({'; '.join(parts)})"
