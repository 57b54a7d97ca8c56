"""Rows into tables: only what differs is written, so that repeating an import writes nothing."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from django.db import models

from catalogue.reference.models import Citation
from catalogue.reference.spreadsheets.code_checks import CODED
from catalogue.reference.spreadsheets.layout import SHEET_BY_NAME, SHEETS
from catalogue.reference.spreadsheets.order import positions
from catalogue.reference.spreadsheets.reading import Folder, Row

Fields = Mapping[str, object]
BATCH = 200


ADDED, CHANGED, MOVED = "added", "changed", "moved"


@dataclass(frozen=True)
class Count:
    """What became of the records of one sheet. `moved`: some stand at another place among the others now."""

    added: int
    changed: int
    as_they_were: int
    moved: bool

    @property
    def wrote(self) -> bool:
        return bool(self.added or self.changed or self.moved)

    def __str__(self) -> str:
        parts = [(self.added, "added"), (self.changed, "changed"), (self.as_they_were, "as before")]
        said = [f"{number} {word}" for number, word in parts if number]
        return ", ".join(said + (["in another order"] if self.moved else []))


class Writer:
    """Writes the rows of a checked and completed folder, and notes which records it added, changed and moved."""

    def __init__(self, folder: Folder, signed: Fields | None = None):
        self.folder = folder
        self.signed = signed or {}
        self.noted: dict[str, dict[str, set[int]]] = {}
        self.ids: dict[str, dict[str, int]] = {}
        for name in CODED:
            self.learn(name)

    def learn(self, sheet: str) -> None:
        self.ids[sheet] = dict(CODED[sheet].objects.values_list("code", "pk"))

    def rows(self, sheet: str) -> list[Row]:
        return self.folder.rows.get(sheet, [])

    def by_record(self, sheet: str) -> dict[int, Row]:
        """Rows by the number of their record, once the records are there."""
        key = SHEET_BY_NAME[sheet].key[0]
        return {self.ids[sheet][str(row[key])]: row for row in self.rows(sheet)}

    def pk(self, sheet: str, code: str) -> int | None:
        return self.ids[sheet][code] if code else None

    def references(self, row: Row, **sheets: str) -> dict[str, int | None]:
        """Foreign keys by column, for fields of the same name."""
        return {f"{column}_id": self.pk(sheet, str(row[column])) for column, sheet in sheets.items()}

    def note(self, sheet: str, written: Mapping[str, Iterable[int]]) -> None:
        """Keep the numbers of records that were written, by what was done: ADDED, CHANGED, MOVED."""
        noted = self.noted.setdefault(sheet, {ADDED: set(), CHANGED: set(), MOVED: set()})
        for deed, records in written.items():
            noted[deed].update(records)

    def counts(self) -> dict[str, Count]:
        """What became of the records that the files speak of, by sheet."""
        return {sheet.name: self.counted(sheet.name) for sheet in SHEETS if self.spoken_of(sheet.name)}

    def counted(self, sheet: str) -> Count:
        noted = self.noted.get(sheet, {ADDED: set(), CHANGED: set(), MOVED: set()})
        added, changed = len(noted[ADDED]), len(noted[CHANGED] - noted[ADDED])
        moved = bool(noted[MOVED] - noted[ADDED])
        return Count(added, changed, self.spoken_of(sheet) - added - changed, moved)

    def spoken_of(self, sheet: str) -> int:
        """How many records the rows of a sheet are of: each row is one, but a whole profile."""
        if sheet == "profiles":
            return len({str(row["version"]) for row in self.rows(sheet)} | self.folder.whole_profiles)
        return len(self.rows(sheet))

    def coded(self, sheet: str, fields: Callable[[Row], Fields]) -> None:
        """Create or update the records of a sheet whose rows have a code of their own, in the order of the rows."""
        if not self.rows(sheet):
            return
        model, key = CODED[sheet], SHEET_BY_NAME[sheet].key[0]
        wanted = {str(row[key]): dict(fields(row)) for row in self.rows(sheet)}
        held = {record.code: record for record in model.objects.all()}
        if hasattr(model, "position"):
            places = positions({code: record.position for code, record in held.items()}, list(wanted))
            wanted = {code: {"position": place, **wanted.get(code, {})} for code, place in places.items()}
        new = [model(code=code, **wanted[code]) for code in wanted if code not in held]
        changes = [(held[code], fields) for code, fields in wanted.items() if code in held]
        self.note(sheet, write(model, new, changes))
        self.learn(sheet)

    def children(
        self, sheet: str, model: type[models.Model], parent: str, wanted: Mapping[int, Sequence[Fields]], **only
    ) -> None:
        """Make the rows below each parent just the wanted ones; parents not named are left alone."""
        columns = [f.attname for f in model._meta.concrete_fields if f.attname not in ("id", f"{parent}_id")]
        empty = {f.attname: f.get_default() for f in model._meta.concrete_fields if f.attname in columns}
        held: dict[int, list[tuple[int, Fields]]] = {pk: [] for pk in wanted}
        below = model.objects.filter(**{f"{parent}_id__in": list(wanted)}, **only).order_by(*model._meta.ordering, "id")
        for record in below.values("id", f"{parent}_id", *columns):
            held[record[f"{parent}_id"]].append((record["id"], {column: record[column] for column in columns}))
        old: list[int] = []
        new: list[models.Model] = []
        parents: list[int] = []
        for pk, rows in wanted.items():
            full = [{**empty, **only, **row} for row in rows]
            if [row for _, row in held[pk]] != full:
                parents.append(pk)
                old += [record for record, _ in held[pk]]
                new += [model(**{f"{parent}_id": pk}, **row) for row in full]
        model.objects.filter(pk__in=old).delete()
        model.objects.bulk_create(new)
        self.note(sheet, {CHANGED: parents})

    def links(self, sheet: str, field: models.ManyToManyField, wanted: Mapping[int, Iterable[int]]) -> None:
        """Make the many-to-many links of each record just the wanted ones."""
        through = field.remote_field.through
        ours, theirs = f"{field.m2m_field_name()}_id", f"{field.m2m_reverse_field_name()}_id"
        rows = through.objects.filter(**{f"{ours}__in": list(wanted)}).values_list(ours, theirs, "pk")
        held = {(one, other): pk for one, other, pk in rows}
        full = {(pk, other) for pk, others in wanted.items() for other in others}
        through.objects.filter(pk__in=[held[pair] for pair in held.keys() - full]).delete()
        through.objects.bulk_create([through(**{ours: pk, theirs: other}) for pk, other in sorted(full - held.keys())])
        self.note(sheet, {CHANGED: [pk for pk, _ in held.keys() ^ full]})

    def citations(self, sheet: str, claim: str, wanted: Mapping[int, list[tuple[str, str]]]) -> None:
        """Make the citations of each claim just the wanted (source code, stance) pairs, in their order."""
        rows = {
            pk: [
                {"source_id": self.ids["sources"][source], "stance": stance, "position": position}
                for position, (source, stance) in enumerate(pairs)
            ]
            for pk, pairs in wanted.items()
        }
        self.children(sheet, Citation, claim, rows)


def write(model: type[models.Model], new: list, changes: list[tuple[models.Model, Fields]]) -> dict[str, list[int]]:
    """Create the new records, and update those whose fields differ. Returns their numbers by what was done to them."""
    changed, moved, touched = [], [], set()
    for record, fields in changes:
        names = {name for name, value in fields.items() if getattr(record, name) != value}
        for name in names:
            setattr(record, name, fields[name])
        if names:
            (moved if names == {"position"} else changed).append(record)
            touched |= names
    made = model.objects.bulk_create(new)
    if touched:
        model.objects.bulk_update(changed + moved, sorted(touched), batch_size=BATCH)
    done = {ADDED: made, CHANGED: changed, MOVED: moved}
    return {deed: [record.pk for record in records] for deed, records in done.items()}
