"""A garment type with its features and versions, read out of the tables as plain frozen values (`facts.py`), in a
number of queries that does not grow with it. `snapshots.py` keeps what is read here."""

from collections import defaultdict
from dataclasses import replace

from django.db.models import Q

from catalogue.reference.facts import (
    Ancestor,
    CellFacts,
    CitationFacts,
    CompanionFacts,
    FeatureFacts,
    MakerFacts,
    NameFacts,
    NumberFacts,
    OpenQuestionFacts,
    Place,
    SizeFacts,
    StateFacts,
    TypeFacts,
    VersionFacts,
    years_in_words,
)
from catalogue.reference.marked_spots import marked_facts
from catalogue.reference.models import (
    Citation,
    Colourway,
    Companion,
    Cut,
    Feature,
    FeaturePlace,
    GarmentType,
    Issuer,
    IssueVersion,
    Maker,
    NumberForm,
    ProfileCell,
    TypeFeature,
)
from catalogue.reference.numbers import by_years
from catalogue.reference.photographed import with_states
from catalogue.reference.size_tables import in_a_table
from catalogue.reference.words import PASSED, AncestorRole, GoesWith, NameBy, Stance

# What versions name by code, by the word with which `TypeFacts.called` holds their names.
NAMED = {"cut": Cut, "colourway": Colourway, "issuer": Issuer, "type": GarmentType, "form": NumberForm,
         "maker": Maker}  # fmt: skip


def read_types(wanted: dict) -> dict[str, TypeFacts]:
    """The garment types that a filter names, by code."""
    found = GarmentType.objects.filter(**wanted).select_related("issuer")
    rows = list(found.prefetch_related("other_names", "silhouettes"))
    features = read_features(rows)
    versions = read_versions(rows, features)
    called = {name: dict(table.objects.order_by().values_list("code", "name")) for name, table in NAMED.items()}
    return {row.code: one_type(row, features[row.pk], versions[row.pk], called) for row in rows}


def one_type(
    row: GarmentType,
    features: dict[str, FeatureFacts],
    versions: dict[str, VersionFacts],
    called: dict[str, dict[str, str]],
) -> TypeFacts:
    with_grounds = with_carried_grounds(versions)
    facts = TypeFacts(
        code=row.code,
        name=row.name,
        other_names=tuple(name.name for name in row.other_names.all()),
        garment_class=row.garment_class,
        issuer=row.issuer.code if row.issuer else "",
        issuer_name=row.issuer.name if row.issuer else "",
        description=row.description,
        caution=row.caution,
        features=features,
        versions={code: version for code, version in with_grounds.items() if not version.retired_why},
        silhouettes={one.view: one.drawing for one in row.silhouettes.all()},
        retired={code: version for code, version in with_grounds.items() if version.retired_why},
        called=called,
    )
    return with_numbers_of_merged(facts) if any(version.became for version in facts.retired.values()) else facts


def with_numbers_of_merged(facts: TypeFacts) -> TypeFacts:
    """What labels and sellers call a version that became another leads to that one, and so does what it goes with; on
    record all of it stays where it was. A number that one of those it became has on record is left to that one."""
    versions = dict(facts.versions)
    for gone in facts.retired.values():
        became = facts.in_force(gone.code)
        numbers = {number.number for one in became for number in one.stock_numbers}
        for one in became:
            held = versions[one.code]
            names = {name.name for name in held.names}
            goes_with = {(other.version, other.fits) for other in held.companions}
            versions[one.code] = replace(
                held,
                stock_numbers=held.stock_numbers
                + tuple(replace(n, note=n.note or f"of {gone.code}") for n in gone.stock_numbers
                        if n.number not in numbers),
                names=held.names + tuple(name for name in gone.sellers_names if name.name not in names),
                companions=held.companions
                + tuple(other for other in gone.companions if (other.version, other.fits) not in goes_with),
            )  # fmt: skip
    return replace(facts, versions=versions)


def read_features(types: list[GarmentType]) -> dict[int, dict[str, FeatureFacts]]:
    """Features of each type by code, in the type's reading order."""
    links = list(
        TypeFeature.objects.filter(garment_type__in=types).order_by("garment_type", "position", "feature__code")
    )
    rows = with_states(Feature.objects.filter(pk__in={link.feature_id for link in links}))
    bare = {row.pk: (feature_facts(row), row) for row in rows.prefetch_related("shown_when", "places")}
    homes = {row.pk: row for row in types}
    found: dict[int, dict[str, FeatureFacts]] = {row.pk: {} for row in types}
    for link in links:
        facts, row = bare[link.feature_id]
        places = places_for(list(row.places.all()), homes[link.garment_type_id])
        found[link.garment_type_id][facts.code] = replace(facts, places=places) if places else facts
    return found


def feature_facts(row: Feature) -> FeatureFacts:
    """The feature as all types have it: where it is looked for on one of them is left open."""
    return FeatureFacts(
        code=row.code,
        name=row.name,
        group=row.group,
        question=row.question,
        kind=row.kind,
        unit=row.unit,
        spread=row.spread,
        seen=row.seen,
        effort=row.effort,
        error=row.error,
        error_note=row.error_note,
        service_change=row.service_change,
        change_note=row.change_note,
        absent=row.absent_state.code if row.absent_state else None,
        loss=row.loss,
        gain=row.gain,
        parent=row.parent.code if row.parent else None,
        shown_when=tuple(sorted(state.code for state in row.shown_when.all())),
        basis=row.basis,
        states=tuple(
            StateFacts(s.code, s.label, s.low, s.high, s.drawing, marked_facts(s), s.explained, s.label_says)
            for s in row.states.all()
        ),
        places=(),
        photograph=marked_facts(row),
    )


def places_for(rows: list[FeaturePlace], garment_type: GarmentType) -> tuple[Place, ...]:
    """The places that hold for this type; those for all types only where it has none of its own."""
    own = [row for row in rows if row.garment_type_id == garment_type.pk]
    chosen = own or [row for row in rows if row.garment_type_id is None]
    return tuple(Place(row.view, row.region, garment_type.garment_class) for row in chosen)


def read_versions(
    types: list[GarmentType], features: dict[int, dict[str, FeatureFacts]]
) -> dict[int, dict[str, VersionFacts]]:
    """Versions of each type by code, in the order of their records."""
    rows = list(
        IssueVersion.objects.filter(garment_type__in=types)
        .select_related("cut", "colourway", "issuer", "current_record")
        .prefetch_related(
            "other_names",
            "makers",
            "ancestors__ancestor",
            "successors__successor",
            "passes_for",
            "citations__source",
            "stock_numbers__form",
            "stock_numbers__citations__source",
            "size_lengths__source",
            "open_questions__features",
        )
    )
    companions = read_companions(rows)
    cells = read_cells([row.current_record_id for row in rows if row.current_record_id])
    found: dict[int, dict[str, VersionFacts]] = {row.pk: {} for row in types}
    for row in rows:
        of_type = features[row.garment_type_id]
        own = cells.get(row.current_record_id, {})
        in_order = {code: tuple(own[code]) for code in of_type if code in own}
        found[row.garment_type_id][row.code] = version_facts(row, in_order, tuple(companions.get(row.pk, ())))
    return found


# What a cell's facts take from its row, in the order of CellFacts after feature, state and label.
CELL_COLUMNS = ("how_often", "share", "certainty", "sizes", "first_year", "last_year", "note")


def read_cells(records: list[int]) -> dict[int, dict[str, list[CellFacts]]]:
    """Cells by record and feature, states in their feature's order.

    Plain rows instead of model instances: a reference has a hundred cells to a version, and whoever comes first after
    a change waits for all of them.
    """
    cells = ProfileCell.objects.filter(record__in=records)
    makers = grouped(
        ProfileCell.makers.through.objects.filter(profilecell__record__in=records)
        .order_by("maker__code")
        .values_list("profilecell_id", "maker__code")
    )
    cited = grouped(
        Citation.objects.filter(cell__record__in=records)
        .order_by("position")
        .values_list("cell_id", "source__code", "source__title", "source__grade", "stance")
    )
    found: dict[int, dict[str, list[CellFacts]]] = defaultdict(lambda: defaultdict(list))
    for pk, record, feature, state, label, *columns in (
        cells.order_by("state__position", "state__code")
        .values_list("pk", "record_id", "state__feature__code", "state__code", "state__label", *CELL_COLUMNS)
        .iterator(chunk_size=2_000)
    ):
        how_often, share, certainty, sizes, first_year, last_year, note = columns
        found[record][feature].append(
            CellFacts(
                feature=feature,
                state=state,
                label=label,
                how_often=how_often,
                share=share,
                certainty=certainty,
                sizes=tuple(sizes.split()),
                makers=tuple(code for (code,) in makers.get(pk, ())),
                first_year=first_year,
                last_year=last_year,
                note=note,
                citations=tuple(cited_facts(*row) for row in cited.get(pk, ())),
            )
        )
    return found


def grouped(rows) -> dict[int, list[tuple]]:
    """Rows without their first column, by it, in the order in which they come."""
    found: dict[int, list[tuple]] = defaultdict(list)
    for key, *rest in rows:
        found[key].append(tuple(rest))
    return found


def cited_facts(code: str, title: str, grade: str, stance: str) -> CitationFacts:
    return CitationFacts(code, title, grade, stance == Stance.CONTRADICTS)


def citation_facts(rows) -> tuple[CitationFacts, ...]:
    return tuple(citation(row) for row in rows)


def citation(row: Citation) -> CitationFacts:
    return cited_facts(row.source.code, row.source.title, row.source.grade, row.stance)


def read_companions(rows: list[IssueVersion]) -> dict[int, list[CompanionFacts]]:
    """What each version fits or was worn with, whichever of the two the table names first."""
    wanted = {row.pk for row in rows}
    found: dict[int, list[CompanionFacts]] = defaultdict(list)
    told = Companion.objects.filter(Q(version__in=wanted) | Q(other__in=wanted))
    for one in told.select_related("version", "other", "joined_by").prefetch_related("citations__source"):
        for own, other in ((one.version, one.other), (one.other, one.version)):
            if own.pk in wanted:
                found[own.pk].append(companion_facts(one, other))
    return {pk: sorted(own, key=lambda c: (not c.fits, c.version)) for pk, own in found.items()}


def companion_facts(row: Companion, other: IssueVersion) -> CompanionFacts:
    return CompanionFacts(
        version=other.code,
        name=other.name,
        fits=row.goes_with == GoesWith.FITS,
        joined_by=row.joined_by.code if row.joined_by else "",
        note=row.note,
        citations=citation_facts(row.citations.all()),
    )


def version_facts(
    row: IssueVersion, cells: dict[str, tuple[CellFacts, ...]], companions: tuple[CompanionFacts, ...] = ()
) -> VersionFacts:
    return VersionFacts(
        code=row.code,
        name=row.name,
        kind=row.kind,
        cut=row.cut.name if row.cut else "",
        colourway=row.colourway.name if row.colourway else "",
        issuer=row.issuer.name if row.issuer else "",
        issuer_date=row.issuer.date if row.issuer else "",
        date=row.date,
        from_year=row.from_year,
        to_year=row.to_year,
        rarity=row.rarity,
        abundance=row.abundance,
        certainty=row.certainty,
        piece_seen=row.piece_seen,
        reason=row.reason,
        note=row.note,
        hazard_kind=row.hazard_kind,
        hazard=row.hazard,
        restrictions=tuple(row.restrictions),
        names=tuple(NameFacts(n.name, n.used_by == NameBy.SELLERS, n.never_issued) for n in row.other_names.all()),
        makers=tuple(MakerFacts(maker.code, maker.name) for maker in row.makers.all()),
        ancestors=tuple(
            Ancestor(a.ancestor.code, a.ancestor.name, a.role == AncestorRole.MADE_FROM) for a in row.ancestors.all()
        ),
        passes_for=tuple(other.code for other in row.passes_for.all()),
        citations=citation_facts(row.citations.all()),
        stock_numbers=tuple(
            number_facts(one) for one in sorted(row.stock_numbers.all(), key=lambda n: by_years(n.first_year, n.number))
        ),
        open_questions=tuple(
            OpenQuestionFacts(q.code, q.question, q.settled, tuple(one.code for one in q.features.all()))
            for q in row.open_questions.all()
        ),
        record_number=row.current_record.number if row.current_record else None,
        standing=standing_of(row),
        cells=cells,
        retired_why=row.retired_why,
        became=tuple(one.successor.code for one in row.successors.all()),
        sizes=size_facts(row.size_lengths.all()),
        companions=companions,
    )


def standing_of(row) -> str:
    """A code of `STANDING_WORDS`; empty where no profile is on record."""
    if row.current_record is None:
        return ""
    return PASSED if row.passed_record_id == row.current_record_id else row.current_record.standing


def number_facts(row) -> NumberFacts:
    return NumberFacts(
        number=row.number,
        form=row.form.name if row.form else "",
        years=years_in_words(row.first_year, row.last_year),
        misprint_of=row.misprint_of,
        note=row.note,
        citations=citation_facts(row.citations.all()),
    )


def size_facts(rows) -> tuple[SizeFacts, ...]:
    """A size table, marks and lengths in the order in which tables are read."""
    return tuple(
        SizeFacts(
            one.mark,
            one.what,
            one.mm,
            cited_facts(one.source.code, one.source.title, one.source.grade, Stance.SUPPORTS),
        )
        for one in sorted(rows, key=lambda one: in_a_table(one.mark, one.what))
    )


def with_carried_grounds(versions: dict[str, VersionFacts]) -> dict[str, VersionFacts]:
    """Cells without grounds of their own get those of the version they follow."""
    return {code: replace(version, cells=grounded(version, versions)) for code, version in versions.items()}


def grounded(version: VersionFacts, versions: dict[str, VersionFacts]) -> dict[str, tuple[CellFacts, ...]]:
    above = line_above(version, versions)
    if not above:
        return version.cells
    return {
        feature: tuple(cell if cell.certainty or cell.supported else carried(cell, above) for cell in cells)
        for feature, cells in version.cells.items()
    }


def carried(cell: CellFacts, line: list[VersionFacts]) -> CellFacts:
    """A cell without grounds, with those of the nearest version up the line that shows the same state and cites some;
    what speaks against it stays its own.

    A version up the line that does not show the state breaks the line: then the cell stays asserted.
    """
    for above in line:
        same = next((c for c in above.cells.get(cell.feature, ()) if c.state == cell.state), None)
        if same is None:
            return cell
        if same.certainty or same.supported:
            supporting = (one for one in same.citations if not one.contradicts)
            return replace(cell, citations=(*supporting, *cell.citations), carried_from=above.code)
    return cell


def line_above(version: VersionFacts, versions: dict[str, VersionFacts]) -> list[VersionFacts]:
    """The versions that this one continues, the nearest first; each once, should they go round in a circle."""
    met, line = {version.code}, []
    above = first_continued(version, versions)
    while above and above.code not in met:
        met.add(above.code)
        line.append(above)
        above = first_continued(above, versions)
    return line


def first_continued(version: VersionFacts, versions: dict[str, VersionFacts]) -> VersionFacts | None:
    line = [ancestor.version for ancestor in version.ancestors if not ancestor.made_from]
    return versions.get(line[0]) if line else None
