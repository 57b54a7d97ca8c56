"""A checked folder into the reference, sheet by sheet, in the order in which records need one another."""

from collections.abc import Callable, Iterable

from catalogue.reference.models import (
    Companion,
    Feature,
    FeaturePlace,
    FeatureState,
    IssueVersion,
    OpenQuestion,
    OwnSilhouette,
    QuestionView,
    SizeLength,
    StockNumber,
    TypeFeature,
    TypeName,
    VersionAncestor,
    VersionName,
    VersionSuccessor,
)
from catalogue.reference.numbers import bare_number
from catalogue.reference.spreadsheets.layout import STATE_FIELDS
from catalogue.reference.spreadsheets.order import positions
from catalogue.reference.spreadsheets.profiles import write_profiles
from catalogue.reference.spreadsheets.reading import Folder, Row
from catalogue.reference.spreadsheets.writer import Count, Fields, Writer, write
from catalogue.reference.uncertain_dates import year_span
from catalogue.reference.words import NEVER_ISSUED, AncestorRole, NameBy, Restriction, Stance


def given(row: Row, *columns: str) -> dict[str, object]:
    """Fields that have the name of their column."""
    return {column: row[column] for column in columns}


def numbered(column: str, values: Iterable) -> list[Fields]:
    return [{column: value, "position": position} for position, value in enumerate(values)]


def supporting(row: Row) -> list[tuple[str, str]]:
    return [(source, Stance.SUPPORTS) for source in row["sources"]]


def write_evidence(writer: Writer) -> None:
    writer.coded(
        "sources", lambda r: given(r, "kind", "title", "date", "holder", "shelf_mark", "grade", "personal_data", "note")
    )
    writer.coded("issuers", lambda r: given(r, "name", "date", "place", "note"))
    writer.coded("issuers", lambda r: writer.references(r, predecessor="issuers", successor="issuers"))
    writer.citations("issuers", "issuer", {pk: supporting(row) for pk, row in writer.by_record("issuers").items()})
    writer.coded("makers", lambda r: given(r, "name", "place", "first_year", "last_year", "kind", "mark", "habits"))
    writer.coded("cuts", lambda r: given(r, "name", "note"))
    writer.coded("colourways", lambda r: given(r, "name", "note"))
    columns = ("name", "groups", "pattern", "year_group", "check_rule", "years", "of_kind", "example", "note")
    writer.coded("number_forms", lambda r: given(r, *columns))


def write_features(writer: Writer) -> None:
    columns = (
        "name", "group", "question", "kind", "unit", "spread", "seen", "effort", "error", "error_note",
        "service_change", "change_note", "loss", "gain", "basis",
    )  # fmt: skip
    writer.coded("features", lambda r: given(r, *columns))
    write_states(writer)
    states = {(f, s): pk for f, s, pk in FeatureState.objects.values_list("feature__code", "code", "pk")}

    def parent_and_absent(row: Row) -> dict[str, int | None]:
        absent = states[(str(row["feature"]), str(row["absent"]))] if row["absent"] else None
        return writer.references(row, parent="features") | {"absent_state_id": absent}

    writer.coded("features", parent_and_absent)
    shown = {
        pk: [states[(str(row["parent"]), state)] for state in row["shown_when"]]
        for pk, row in writer.by_record("features").items()
    }
    writer.links("features", Feature._meta.get_field("shown_when"), shown)


def write_states(writer: Writer) -> None:
    """States by feature and code, in the order of the rows."""
    wanted: dict[str, dict[str, Fields]] = {}
    for row in writer.rows("states"):
        wanted.setdefault(str(row["feature"]), {})[str(row["state"])] = given(row, *STATE_FIELDS)
    held: dict[str, dict[str, FeatureState]] = {feature: {} for feature in wanted}
    for state in FeatureState.objects.filter(feature__code__in=wanted).select_related("feature"):
        held[state.feature.code][state.code] = state
    new, changes = [], []
    for feature, rows in wanted.items():
        own = held[feature]
        for code, place in positions({c: state.position for c, state in own.items()}, list(rows)).items():
            fields = {"position": place, **rows.get(code, {})}
            if code in own:
                changes.append((own[code], fields))
            else:
                new.append(FeatureState(feature_id=writer.ids["features"][feature], code=code, **fields))
    writer.note("states", write(FeatureState, new, changes))


def write_types(writer: Writer) -> None:
    columns = ("name", "garment_class", "description", "caution")
    writer.coded("types", lambda r: given(r, *columns) | writer.references(r, issuer="issuers"))
    rows = writer.by_record("types")
    names = {pk: numbered("name", row["other_names"]) for pk, row in rows.items()}
    writer.children("types", TypeName, "garment_type", names)
    features = {
        pk: numbered("feature_id", [writer.ids["features"][f] for f in r["features"]]) for pk, r in rows.items()
    }
    writer.children("types", TypeFeature, "garment_type", features)
    write_silhouettes(writer)
    places = {
        pk: [
            {"garment_type_id": writer.pk("types", home), "view": view, "region": region, "position": position}
            for position, (home, view, region) in enumerate(row["places"])
        ]
        for pk, row in writer.by_record("features").items()
    }
    writer.children("features", FeaturePlace, "feature", places)


def write_silhouettes(writer: Writer) -> None:
    """The society's own outlines, by type and view."""
    wanted = {(writer.pk("types", str(r["type"])), r["view"]): given(r, "drawing") for r in writer.rows("silhouettes")}
    held = {(one.garment_type_id, one.view): one for one in OwnSilhouette.objects.all()}
    new = [OwnSilhouette(garment_type_id=t, view=v, **wanted[t, v]) for t, v in wanted if (t, v) not in held]
    changes = [(held[key], fields) for key, fields in wanted.items() if key in held]
    writer.note("silhouettes", write(OwnSilhouette, new, changes))


def write_versions(writer: Writer) -> None:
    writer.coded("versions", lambda row: version_fields(row, writer))
    rows = writer.by_record("versions")
    writer.children("versions", VersionName, "version", {pk: version_names(row) for pk, row in rows.items()})
    for role, column in ((AncestorRole.CONTINUES, "continues"), (AncestorRole.MADE_FROM, "made_from")):
        above = {pk: numbered("ancestor_id", [writer.ids["versions"][v] for v in r[column]]) for pk, r in rows.items()}
        writer.children("versions", VersionAncestor, "version", above, role=role)
    became = {pk: [{"successor_id": writer.ids["versions"][v]} for v in row["became"]] for pk, row in rows.items()}
    writer.children("versions", VersionSuccessor, "version", became)
    for column, sheet in (("makers", "makers"), ("passes_for", "types")):
        linked = {pk: [writer.ids[sheet][code] for code in row[column]] for pk, row in rows.items()}
        writer.links("versions", IssueVersion._meta.get_field(column), linked)
    cited = {
        pk: supporting(r) + [(s, Stance.CONTRADICTS) for s in r["contradicting_sources"]] for pk, r in rows.items()
    }
    writer.citations("versions", "version", cited)


def version_fields(row: Row, writer: Writer) -> Fields:
    columns = (
        "name", "kind", "date", "rarity", "abundance", "certainty", "piece_seen", "reason", "note", "hazard_kind",
        "hazard",
    )  # fmt: skip
    first, last = year_span(str(row["date"])) if row["date"] else (None, None)
    return (
        given(row, *columns)
        | writer.references(row, cut="cuts", colourway="colourways", issuer="issuers")
        | {"garment_type_id": writer.ids["types"][str(row["type"])], "from_year": first, "to_year": last}
        | {"retired_why": row["retired"]}
        | {f"{kind.value}_restricted": kind.value in row["restrictions"] for kind in Restriction}
    )


def version_names(row: Row) -> list[Fields]:
    """Names used by members, then those of sellers."""
    names = [(name, NameBy.MEMBERS, False) for name in row["other_names"]]
    for name in row["sellers_names"]:
        names.append((name.removesuffix(NEVER_ISSUED).strip(), NameBy.SELLERS, name.endswith(NEVER_ISSUED)))
    return [
        {"name": name, "used_by": used_by, "never_issued": never_issued, "position": position}
        for position, (name, used_by, never_issued) in enumerate(names)
    ]


def write_numbers(writer: Writer) -> None:
    """Stock numbers by number and version."""
    ids = writer.ids["versions"]
    rows = {(str(row["number"]), ids[str(row["version"])]): row for row in writer.rows("stock_numbers")}
    below = StockNumber.objects.filter(version_id__in={version for _, version in rows})
    held = {(record.number, record.version_id): record for record in below}
    new, changes = [], []
    for (number, version), row in rows.items():
        fields = given(row, "first_year", "last_year", "misprint_of", "note")
        fields |= writer.references(row, form="number_forms")
        if (number, version) in held:
            changes.append((held[number, version], fields))
        else:
            new.append(StockNumber(number=number, bare=bare_number(number), version_id=version, **fields))
    writer.note("stock_numbers", write(StockNumber, new, changes))
    pks = {(number, version): pk for number, version, pk in below.all().values_list("number", "version_id", "pk")}
    writer.citations("stock_numbers", "stock_number", {pks[key]: supporting(row) for key, row in rows.items()})


def write_sizes(writer: Writer) -> None:
    """Size tables by version, mark and length."""
    ids = writer.ids["versions"]
    rows = {(ids[str(row["version"])], str(row["mark"]), str(row["length"])): row for row in writer.rows("sizes")}
    below = SizeLength.objects.filter(version_id__in={version for version, _, _ in rows})
    held = {(one.version_id, one.mark, one.what): one for one in below}
    wanted = {key: given(row, "mm") | writer.references(row, source="sources") for key, row in rows.items()}
    new = [
        SizeLength(version_id=version, mark=mark, what=what, **fields)
        for (version, mark, what), fields in wanted.items()
        if (version, mark, what) not in held
    ]
    changes = [(held[key], fields) for key, fields in wanted.items() if key in held]
    writer.note("sizes", write(SizeLength, new, changes))


def write_companions(writer: Writer) -> None:
    """What goes with what, by both versions and how."""
    ids = writer.ids["versions"]
    rows = {
        (ids[str(row["version"])], ids[str(row["other"])], str(row["goes_with"])): row
        for row in writer.rows("companions")
    }
    below = Companion.objects.filter(version_id__in={version for version, _, _ in rows})
    held = {(record.version_id, record.other_id, record.goes_with): record for record in below}
    new, changes = [], []
    for key, row in rows.items():
        fields = given(row, "note") | writer.references(row, joined_by="features")
        if key in held:
            changes.append((held[key], fields))
        else:
            new.append(Companion(version_id=key[0], other_id=key[1], goes_with=key[2], **fields))
    writer.note("companions", write(Companion, new, changes))
    pks = {(one, other, how): pk for one, other, how, pk in
           below.all().values_list("version_id", "other_id", "goes_with", "pk")}  # fmt: skip
    writer.citations("companions", "companion", {pks[key]: supporting(row) for key, row in rows.items()})


def write_questions(writer: Writer) -> None:
    plain = ("would_settle", "settled", "moderator_note")
    writer.coded("open_questions", lambda r: given(r, *plain) | {"question": r["text"]})
    for touched in ("versions", "features"):
        linked = {
            pk: [writer.ids[touched][code] for code in row[touched]]
            for pk, row in writer.by_record("open_questions").items()
        }
        writer.links("open_questions", OpenQuestion._meta.get_field(touched), linked)
    write_views(writer)


def write_views(writer: Writer) -> None:
    """Views by question and letter. One of a question may stand: the one that stood lies down before another rises."""
    ids = writer.ids["open_questions"]
    rows = {(ids[str(row["question"])], str(row["letter"])): row for row in writer.rows("question_views")}
    below = QuestionView.objects.filter(question_id__in={question for question, _ in rows})
    held = {(view.question_id, view.letter): view for view in below}
    for stands in (False, True):
        of_this = {
            key: given(row, "holder", "text", "stands", "disowned", "taken_out")
            for key, row in rows.items()
            if row["stands"] is stands
        }
        new = [QuestionView(question_id=q, letter=x, **f) for (q, x), f in of_this.items() if (q, x) not in held]
        changes = [(held[key], fields) for key, fields in of_this.items() if key in held]
        writer.note("question_views", write(QuestionView, new, changes))
    pks = {(question, letter): pk for question, letter, pk in below.all().values_list("question_id", "letter", "pk")}
    sources = {pks[key]: [writer.ids["sources"][code] for code in row["sources"]] for key, row in rows.items()}
    writer.links("question_views", QuestionView._meta.get_field("sources"), sources)


STEPS = (
    write_evidence,
    write_features,
    write_types,
    write_versions,
    write_profiles,
    write_numbers,
    write_sizes,
    write_companions,
    write_questions,
)


def write_folder(folder: Folder, tell: Callable[[str], None], **signed) -> dict[str, Count]:
    """Write everything. Returns what became of the records, by sheet.

    `signed`: what the records of versions say beside their cells.
    """
    writer = Writer(folder, signed)
    for number, step in enumerate(STEPS, start=1):
        step(writer)
        tell(f"Step {number} of {len(STEPS)} written: {step.__name__.removeprefix('write_')}")
    return writer.counts()
