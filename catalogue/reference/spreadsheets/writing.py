"""Writing a checked folder into the tables. Only what differs is written: repeating an import writes nothing."""

from collections.abc import Callable, Iterable, Mapping

from django.db import models

from catalogue.reference.models import (
    Citation,
    Feature,
    FeaturePlace,
    FeatureState,
    IssueVersion,
    OpenQuestion,
    QuestionView,
    StockNumber,
    TypeFeature,
    TypeName,
    VersionAncestor,
    VersionName,
)
from catalogue.reference.numbers import bare_number
from catalogue.reference.spreadsheets.checking import CODED
from catalogue.reference.spreadsheets.reading import Folder, Row
from catalogue.reference.uncertain_dates import year_span
from catalogue.reference.words import AncestorRole, NameBy, Stance

NEVER_ISSUED = "(never issued)"
Fields = Mapping[str, object]


class Writer:
    """Writes rows and counts what it changed, by sheet."""

    def __init__(self, folder: Folder):
        self.folder = folder
        self.changed: dict[str, int] = {}
        self.ids: dict[str, dict[str, int]] = {}
        for name in CODED:
            self.learn(name)

    def learn(self, sheet: str) -> None:
        self.ids[sheet] = dict(CODED[sheet].objects.values_list("code", "pk"))

    def rows(self, sheet: str) -> list[Row]:
        return self.folder.rows.get(sheet, [])

    def pk(self, sheet: str, code: str) -> int | None:
        return self.ids[sheet][code] if code else None

    def count(self, sheet: str, number: int) -> None:
        if number:
            self.changed[sheet] = self.changed.get(sheet, 0) + number

    def coded(self, sheet: str, fields: Callable[[Row], Fields]) -> None:
        """Create or update the records of a sheet whose rows have a code of their own."""
        model = CODED[sheet]
        column = self.folder.rows and sheet and next(iter(self.rows(sheet)), None)
        if column is None:
            return
        key = KEYS[sheet]
        wanted = {str(row[key]): fields(row) for row in self.rows(sheet)}
        here = {record.code: record for record in model.objects.filter(code__in=wanted)}
        self.count(sheet, write_records(model, here, wanted, "code"))
        self.learn(sheet)

    def children(
        self, sheet: str, model: type[models.Model], parent: str, wanted: Mapping[int, list[Fields]], **only
    ) -> None:
        """Make the rows below each parent just the wanted ones; parents not named are left alone."""
        columns = [f.attname for f in model._meta.concrete_fields if f.attname not in ("id", f"{parent}_id")]
        here: dict[int, list[tuple[int, Fields]]] = {pk: [] for pk in wanted}
        below = model.objects.filter(**{f"{parent}_id__in": list(wanted)}, **only).order_by(*model._meta.ordering, "id")
        for record in below.values("id", f"{parent}_id", *columns):
            own = {column: record[column] for column in columns}
            here[record[f"{parent}_id"]].append((record["id"], own))
        old: list[int] = []
        new: list[models.Model] = []
        for pk, rows in wanted.items():
            full = [{**defaults(model, columns), **only, **row} for row in rows]
            if [row for _, row in here[pk]] != full:
                old += [record for record, _ in here[pk]]
                new += [model(**{f"{parent}_id": pk}, **row) for row in full]
        model.objects.filter(pk__in=old).delete()
        model.objects.bulk_create(new)
        self.count(sheet, max(len(old), len(new)))

    def links(self, sheet: str, field: models.ManyToManyField, wanted: Mapping[int, Iterable[int]]) -> None:
        """Make the many-to-many links of each record just the wanted ones."""
        through = field.remote_field.through
        ours, theirs = f"{field.m2m_field_name()}_id", f"{field.m2m_reverse_field_name()}_id"
        here = set(through.objects.filter(**{f"{ours}__in": list(wanted)}).values_list(ours, theirs))
        full = {(pk, other) for pk, others in wanted.items() for other in others}
        for pk, other in sorted(here - full):
            through.objects.filter(**{ours: pk, theirs: other}).delete()
        through.objects.bulk_create([through(**{ours: pk, theirs: other}) for pk, other in sorted(full - here)])
        self.count(sheet, len(here ^ full))

    def citations(self, sheet: str, claim: str, wanted: Mapping[int, list[tuple[str, str]]]) -> None:
        """Make the citations of each claim just the wanted (source code, stance) pairs, in their order."""
        rows = {
            pk: [
                {"source_id": self.ids["sources"][source], "stance": stance, "position": position}
                for position, (source, stance) in enumerate(dict(pairs).items())
            ]
            for pk, pairs in wanted.items()
        }
        self.children(sheet, Citation, claim, rows)


def defaults(model: type[models.Model], columns: list[str]) -> dict[str, object]:
    found = {}
    for field in model._meta.concrete_fields:
        if field.attname in columns:
            found[field.attname] = field.get_default()
    return found


def write_records(model: type[models.Model], here: Mapping, wanted: Mapping, key: str) -> int:
    """Create the wanted records that are not here, update those that differ. New ones go behind the old."""
    has_position = any(field.name == "position" for field in model._meta.concrete_fields)
    behind = (model.objects.aggregate(last=models.Max("position"))["last"] or 0) + 1 if has_position else 0
    new, different, touched = [], [], set()
    for code, fields in wanted.items():
        record = here.get(code)
        if record is None:
            place = {"position": behind + len(new)} if has_position else {}
            new.append(model(**{key: code}, **place, **fields))
        elif changes := {name for name, value in fields.items() if getattr(record, name) != value}:
            for name in changes:
                setattr(record, name, fields[name])
            different.append(record)
            touched |= changes
    model.objects.bulk_create(new)
    if different:
        model.objects.bulk_update(different, sorted(touched), batch_size=200)
    return len(new) + len(different)


def given(row: Row, *columns: str, **renamed: str) -> dict[str, object]:
    """The fields whose columns the file has."""
    pairs = [(column, column) for column in columns] + list(renamed.items())
    return {name: row.values[column] for name, column in pairs if column in row.values}


def has(row: Row, column: str) -> bool:
    return column in row.values


KEYS = {
    "issuers": "issuer",
    "makers": "maker",
    "sources": "source",
    "cuts": "cut",
    "colourways": "colourway",
    "types": "type",
    "features": "feature",
    "versions": "version",
    "number_forms": "form",
    "open_questions": "question",
}


def write_evidence(writer: Writer) -> None:
    writer.coded("sources", lambda r: given(r, "kind", "title", "date", "holder", "grade", "personal_data", "note"))
    writer.coded("issuers", lambda r: given(r, "name", "date", "place", "note"))
    writer.coded("issuers", lambda r: references(writer, r, predecessor="issuers", successor="issuers"))
    cited = {
        writer.ids["issuers"][str(r["issuer"])]: [(s, Stance.SUPPORTS) for s in r["sources"]]
        for r in writer.rows("issuers")
        if has(r, "sources")
    }
    writer.citations("issuers", "issuer", cited)
    columns = ("name", "place", "first_year", "last_year", "kind", "mark", "habits")
    writer.coded("makers", lambda r: given(r, *columns))
    writer.coded("cuts", lambda r: given(r, "name", "note"))
    writer.coded("colourways", lambda r: given(r, "name", "note"))
    columns = ("name", "groups", "pattern", "year_group", "check_rule", "years", "example", "note")
    writer.coded("number_forms", lambda r: given(r, *columns))


def references(writer: Writer, row: Row, **sheets: str) -> dict[str, int | None]:
    """Foreign keys by column, for the columns that the file has."""
    return {f"{name}_id": writer.pk(sheet, str(row[name])) for name, sheet in sheets.items() if has(row, name)}


def write_features(writer: Writer) -> None:
    columns = (
        "name", "group", "question", "kind", "unit", "spread", "seen", "effort", "error", "error_note",
        "service_change", "change_note", "loss", "gain", "basis",
    )  # fmt: skip
    writer.coded("features", lambda r: given(r, *columns))
    write_states(writer)
    states = {(f, s): pk for f, s, pk in FeatureState.objects.values_list("feature__code", "code", "pk")}

    def links(row: Row) -> dict[str, int | None]:
        found = references(writer, row, parent="features")
        if has(row, "absent"):
            found["absent_state_id"] = states[(str(row["feature"]), str(row["absent"]))] if row["absent"] else None
        return found

    writer.coded("features", links)
    shown = {
        writer.ids["features"][str(r["feature"])]: [states[(str(r["parent"]), s)] for s in r["shown_when"]]
        for r in writer.rows("features")
        if has(r, "shown_when") and has(r, "parent")
    }
    writer.links("features", Feature._meta.get_field("shown_when"), shown)


def write_states(writer: Writer) -> None:
    """States by feature and code; new ones go behind those that are there."""
    rows = writer.rows("states")
    features = {str(row["feature"]) for row in rows}
    here = {(s.feature.code, s.code): s for s in states_of(features)}
    behind: dict[str, int] = {}
    for (feature, _), state in here.items():
        behind[feature] = max(behind.get(feature, 0), state.position + 1)
    new, different = [], []
    for row in rows:
        feature, fields = str(row["feature"]), given(row, "label", "low", "high")
        state = here.get((feature, str(row["state"])))
        if state is None:
            place = behind[feature] = behind.get(feature, 0) + 1
            home = writer.ids["features"][feature]
            new.append(FeatureState(feature_id=home, code=row["state"], position=place, **fields))
        elif any(getattr(state, name) != value for name, value in fields.items()):
            for name, value in fields.items():
                setattr(state, name, value)
            different.append(state)
    FeatureState.objects.bulk_create(new)
    FeatureState.objects.bulk_update(different, ["label", "low", "high"], batch_size=200)
    writer.count("states", len(new) + len(different))


def states_of(features: set[str]):
    return FeatureState.objects.filter(feature__code__in=features).select_related("feature")


def write_types(writer: Writer) -> None:
    def fields(row: Row) -> dict[str, object]:
        return given(row, "name", "garment_class", "description", "caution") | references(writer, row, issuer="issuers")

    writer.coded("types", fields)
    rows = {writer.ids["types"][str(row["type"])]: row for row in writer.rows("types")}
    names = {pk: numbered("name", row["other_names"]) for pk, row in rows.items() if has(row, "other_names")}
    writer.children("types", TypeName, "garment_type", names)
    ids = writer.ids["features"]
    features = {
        pk: numbered("feature_id", [ids[code] for code in row["features"]])
        for pk, row in rows.items()
        if has(row, "features")
    }
    writer.children("types", TypeFeature, "garment_type", features)
    places = {
        ids[str(row["feature"])]: [
            {"garment_type_id": writer.pk("types", home), "view": view, "region": region, "position": position}
            for position, (home, view, region) in enumerate(row["places"])
        ]
        for row in writer.rows("features")
        if has(row, "places")
    }
    writer.children("features", FeaturePlace, "feature", places)


def numbered(column: str, values: Iterable) -> list[Fields]:
    return [{column: value, "position": position} for position, value in enumerate(values)]


def write_versions(writer: Writer) -> None:
    columns = (
        "name", "kind", "date", "rarity", "abundance", "certainty", "piece_seen", "reason", "note", "hazard_kind",
        "hazard",
    )  # fmt: skip
    homes = {"cut": "cuts", "colourway": "colourways", "issuer": "issuers"}

    def fields(row: Row) -> dict[str, object]:
        found = given(row, *columns) | references(writer, row, **homes)
        found["garment_type_id"] = writer.ids["types"][str(row["type"])]
        if has(row, "date"):
            span = year_span(str(row["date"])) if row["date"] else (None, None)
            found["from_year"], found["to_year"] = span
        return found

    writer.coded("versions", fields)
    rows = {writer.ids["versions"][str(row["version"])]: row for row in writer.rows("versions")}
    for used_by, column in ((NameBy.MEMBERS, "other_names"), (NameBy.SELLERS, "sellers_names")):
        names = {pk: version_names(row[column]) for pk, row in rows.items() if has(row, column)}
        writer.children("versions", VersionName, "version", names, used_by=used_by)
    for role, column in ((AncestorRole.CONTINUES, "continues"), (AncestorRole.MADE_FROM, "made_from")):
        ids = writer.ids["versions"]
        above = {
            pk: numbered("ancestor_id", [ids[code] for code in row[column]])
            for pk, row in rows.items()
            if has(row, column)
        }
        writer.children("versions", VersionAncestor, "version", above, role=role)
    for column, sheet in (("makers", "makers"), ("passes_for", "types")):
        linked = {pk: [writer.ids[sheet][c] for c in row[column]] for pk, row in rows.items() if has(row, column)}
        writer.links("versions", IssueVersion._meta.get_field(column), linked)
    writer.citations("versions", "version", {pk: stances(row) for pk, row in rows.items() if has(row, "sources")})


def version_names(names: Iterable[str]) -> list[Fields]:
    return [
        {
            "name": name.removesuffix(NEVER_ISSUED).strip(),
            "never_issued": name.endswith(NEVER_ISSUED),
            "position": position,
        }
        for position, name in enumerate(names)
    ]


def stances(row: Row) -> list[tuple[str, str]]:
    supporting = [(source, Stance.SUPPORTS) for source in row.values.get("sources", ())]
    return supporting + [(source, Stance.CONTRADICTS) for source in row.values.get("contradicting_sources", ())]


def write_numbers(writer: Writer) -> None:
    """Stock numbers by number and version."""
    rows = writer.rows("stock_numbers")
    ids = writer.ids["versions"]
    keys = {(str(row["number"]), ids[str(row["version"])]): row for row in rows}
    here = {(n.number, n.version_id): n for n in StockNumber.objects.filter(version_id__in={v for _, v in keys})}
    new, different, touched = [], [], set()
    for (number, version), row in keys.items():
        fields = given(row, "first_year", "last_year", "misprint_of", "note")
        fields |= references(writer, row, form="number_forms")
        record = here.get((number, version))
        if record is None:
            new.append(StockNumber(number=number, bare=bare_number(number), version_id=version, **fields))
        elif changes := {name for name, value in fields.items() if getattr(record, name) != value}:
            for name in changes:
                setattr(record, name, fields[name])
            different.append(record)
            touched |= changes
    StockNumber.objects.bulk_create(new)
    if different:
        StockNumber.objects.bulk_update(different, sorted(touched), batch_size=200)
    writer.count("stock_numbers", len(new) + len(different))
    pks = {(n.number, n.version_id): n.pk for n in StockNumber.objects.filter(version_id__in={v for _, v in keys})}
    cited = {
        pks[key]: [(s, Stance.SUPPORTS) for s in row["sources"]] for key, row in keys.items() if has(row, "sources")
    }
    writer.citations("stock_numbers", "stock_number", cited)


def write_questions(writer: Writer) -> None:
    writer.coded("open_questions", lambda r: given(r, "settled", "moderator_note", question="text"))
    touched = {
        writer.ids["open_questions"][str(r["question"])]: [writer.ids["versions"][v] for v in r["versions"]]
        for r in writer.rows("open_questions")
        if has(r, "versions")
    }
    writer.links("open_questions", OpenQuestion._meta.get_field("versions"), touched)
    ids = writer.ids["open_questions"]
    keys = {(ids[str(r["question"])], str(r["letter"])): r for r in writer.rows("question_views")}
    here = {(v.question_id, v.letter): v for v in QuestionView.objects.filter(question_id__in={q for q, _ in keys})}
    changed = 0
    for (question, letter), row in sorted(keys.items(), key=lambda item: bool(item[1].values.get("stands"))):
        fields = given(row, "holder", "text", "stands")
        view = here.get((question, letter))
        if view is None:
            here[(question, letter)] = QuestionView.objects.create(question_id=question, letter=letter, **fields)
            changed += 1
        elif any(getattr(view, name) != value for name, value in fields.items()):
            QuestionView.objects.filter(pk=view.pk).update(**fields)
            changed += 1
    writer.count("question_views", changed)
    sources = {
        here[key].pk: [writer.ids["sources"][s] for s in row["sources"]]
        for key, row in keys.items()
        if has(row, "sources")
    }
    writer.links("question_views", QuestionView._meta.get_field("sources"), sources)


def write_folder(folder: Folder, profiles: Callable[[Writer], None], tell: Callable[[str], None]) -> dict[str, int]:
    """Write everything, in the order in which records need one another. Returns the number of changes by sheet."""
    writer = Writer(folder)
    steps = (write_evidence, write_features, write_types, write_versions, profiles, write_numbers, write_questions)
    for number, step in enumerate(steps, start=1):
        step(writer)
        tell(f"Step {number} of {len(steps)} written: {step.__name__.removeprefix('write_')}")
    return writer.changed
