"""What of a folder changes versions that are under review, taken out of it as the rows of proposals."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from catalogue.reference.backing_rows import BACKINGS, SHEETS
from catalogue.reference.models import FeatureState, IssueVersion, SizeLength, Source, StockNumber
from catalogue.reference.size_tables import in_a_table
from catalogue.reference.spreadsheets.completing import held_values
from catalogue.reference.spreadsheets.layout import SHEET_BY_NAME
from catalogue.reference.spreadsheets.profiles import FIELDS, current_profiles, wanted_profiles
from catalogue.reference.spreadsheets.reading import Folder, Row
from catalogue.reference.spreadsheets.writer import Writer
from catalogue.review.proposals.composing import codes_of
from catalogue.review.proposals.rules import against_of
from catalogue.review.proposals.standing import length_of, number_of, numbers_in_order
from catalogue.review.proposals.words import FEATURE, FIELD_WORDS, UNORDERED

Rows = dict[str, object]
# A version does not go to another garment type by a proposal: its features would not be those of the type.
ITS_TYPE = "type"
# These are rows of proposals too, of sheets of their own.
OF_OTHER_SHEETS = ("sizes", "stock_numbers")
FIELDS_OF_SHEET = tuple(name for name in FIELD_WORDS if name not in OF_OTHER_SHEETS)
NUMBER_FIELDS = ("number", "form", "first_year", "last_year", "misprint_of", "note", "sources")
UNDER_REVIEW = (*FIELDS_OF_SHEET, ITS_TYPE)


@dataclass
class Wanted:
    """What a folder wants of what is under review. `fields`: rows of proposals by version, where any is different;
    `profiles`: the rows of features, likewise; `new`: versions that are not there, with their garment type; `moved`:
    versions that the folder would take to another garment type; `features`: rows of features that stand, where any is
    different; `backings`: rows of what versions rest on, by table and code, likewise; `unready`: versions whose profile
    names a state that is only proposed, with which; `kept`: what stays as it is, `waits`: what waits until a new
    version stands, in words.
    """

    fields: dict[str, Rows] = field(default_factory=dict)
    profiles: dict[str, Rows] = field(default_factory=dict)
    new: dict[str, str] = field(default_factory=dict)
    moved: dict[str, str] = field(default_factory=dict)
    features: dict[str, Rows] = field(default_factory=dict)
    backings: dict[tuple[str, str], Rows] = field(default_factory=dict)
    unready: dict[str, str] = field(default_factory=dict)
    kept: list[str] = field(default_factory=list)
    waits: list[str] = field(default_factory=list)

    def codes(self) -> list[str]:
        return list(dict.fromkeys((*self.fields, *self.profiles, *self.moved, *self.unready)))


def take_out(folder: Folder) -> tuple[Wanted, list[Row]]:
    """Leaves in the folder what an import may write at once: all but new versions, what names them, and the columns of
    versions under review. Also gives the rows of profiles, which are compared when features and states are written.
    """
    wanted = Wanted()
    there = set(IssueVersion.objects.values_list("code", flat=True))
    take_out_backings(folder, wanted)
    take_out_fields(folder, wanted, there)
    take_out_sizes(folder, wanted)
    take_out_numbers(folder, wanted)
    take_out_what_names(folder, wanted)
    keep_decisions(folder, wanted)
    return wanted, folder.rows.pop("profiles", [])


def take_out_backings(folder: Folder, wanted: Wanted) -> None:
    """Of makers, services, sources and number forms that are there, the fields that identification or dating reads;
    new ones stay in the folder, but for those that count before a version names them."""
    for table, backing in BACKINGS.items():
        sheet = SHEET_BY_NAME[SHEETS[table]]
        columns = [column for column in sheet.columns if column.name in backing.fields]
        rows = folder.rows.get(sheet.name, [])
        held = held_values(sheet, columns, {str(row[sheet.key[0]]) for row in rows})
        for row in rows:
            code = str(row[sheet.key[0]])
            stands = held.get((code,))
            fields = {name: "" if row[name] is None else row[name] for name in backing.fields}
            if stands is None and backing.made:
                wanted.backings[table, code] = fields
            elif stands is not None:
                was = {name: "" if value is None else value for name, value in stands.items()}
                if different := {name: value for name, value in fields.items() if value != was[name]}:
                    wanted.backings[table, code] = different
                row.values |= stands
        if backing.made:
            folder.rows[sheet.name] = [row for row in rows if (str(row[sheet.key[0]]),) in held]


def take_out_fields(folder: Folder, wanted: Wanted, there: set[str]) -> None:
    sheet = SHEET_BY_NAME["versions"]
    columns = [column for column in sheet.columns if column.name in UNDER_REVIEW]
    rows = folder.rows.get("versions", [])
    held = held_values(sheet, columns, {str(row["version"]) for row in rows} & there)
    for row in rows:
        code = str(row["version"])
        fields = {name: plain(row[name], name) for name in FIELDS_OF_SHEET}
        if code not in there:
            wanted.new[code] = str(row[ITS_TYPE])
            wanted.fields[code] = fields
            continue
        stands = held[(code,)]
        if row[ITS_TYPE] != stands[ITS_TYPE]:
            wanted.moved[code] = str(row[ITS_TYPE])
        if different := {name: value for name, value in fields.items() if value != plain(stands[name], name)}:
            wanted.fields[code] = different
        row.values |= stands
    folder.rows["versions"] = [row for row in rows if row["version"] in there]


def plain(value, name: str = ""):
    """As a row of a proposal has it."""
    found = list(value) if isinstance(value, list | tuple) else value
    return sorted(found) if name in UNORDERED else found


def take_out_sizes(folder: Folder, wanted: Wanted) -> None:
    """The size table of each version that the folder names lengths of, where it would be another; the lengths that the
    folder leaves out stay."""
    named: dict[str, list[Row]] = {}
    for row in folder.rows.pop("sizes", []):
        named.setdefault(str(row["version"]), []).append(row)
    held = SizeLength.objects.filter(version__code__in=named).select_related("version", "source")
    tables: dict[str, dict] = {code: {} for code in named}
    for one in held:
        tables[one.version.code][one.mark, one.what] = length_of(one)
    for code, rows in named.items():
        given = [
            {"mark": str(r["mark"]), "what": str(r["length"]), "mm": r["mm"], "source": str(r["source"])} for r in rows
        ]
        table = tables[code] | {(one["mark"], one["what"]): one for one in given}
        if table != tables[code]:
            order = sorted(table.values(), key=lambda one: in_a_table(one["mark"], one["what"]))
            wanted.fields.setdefault(code, {})["sizes"] = order


def take_out_numbers(folder: Folder, wanted: Wanted) -> None:
    """The stock numbers of each version that the folder names any of, where they would be others; those that the folder
    leaves out stay, and so do sources against one, for which the sheet has no column."""
    named: dict[str, list[Row]] = {}
    for row in folder.rows.pop("stock_numbers", []):
        named.setdefault(str(row["version"]), []).append(row)
    held: dict[str, dict[str, Rows]] = {code: {} for code in named}
    there = StockNumber.objects.filter(version__code__in=named).select_related("version", "form")
    for one in there.prefetch_related("citations__source"):
        held[one.version.code][one.number] = number_of(one)
    for code, rows in named.items():
        table = held[code] | {
            str(row["number"]): {name: plain(row[name]) for name in NUMBER_FIELDS}
            | {"against": held[code].get(str(row["number"]), {}).get("against", [])}
            for row in rows
        }
        if table != held[code]:
            wanted.fields.setdefault(code, {})["stock_numbers"] = numbers_in_order(table.values())


def take_out_what_names(folder: Folder, wanted: Wanted) -> None:
    """Whatever else names a new version waits until it stands: the same folder can then be imported again."""
    pairs = folder.rows.get("companions", [])
    stay = [row for row in pairs if not {str(row["version"]), str(row["other"])} & set(wanted.new)]
    if len(stay) < len(pairs):
        folder.rows["companions"] = stay
        wanted.waits.append(f"what goes with new versions: {len(pairs) - len(stay)}")
    for row in folder.rows.get("open_questions", []):
        if named := [code for code in row["versions"] if code in wanted.new]:
            row.values["versions"] = [code for code in row["versions"] if code not in wanted.new]
            wanted.waits.append(f"{row['question']}, versions: {', '.join(named)}")


def keep_decisions(folder: Folder, wanted: Wanted) -> None:
    """How a question stands that is there already is decided by two people on its page."""
    otherwise: dict[str, None] = {}
    for name, decided in (
        ("open_questions", ("settled", "moderator_note")),
        ("question_views", ("stands", "taken_out")),
    ):
        sheet, rows = SHEET_BY_NAME[name], folder.rows.get(name, [])
        columns = [column for column in sheet.columns if column.name in decided]
        held = held_values(sheet, columns, {str(row["question"]) for row in rows})
        for row in rows:
            stands = held.get(tuple(str(row[key]) for key in sheet.key), {})
            if any(row[column] != value for column, value in stands.items()):
                otherwise[str(row["question"])] = None
            row.values |= stands
    wanted.kept += [f"{code} stands as it was decided: propose another decision on its page" for code in otherwise]


def compare_profiles(wanted: Wanted, rows: Iterable[Row]) -> None:
    """Where the rows of a version are another profile than that on record, the whole of it as rows of features.

    To be called when features, states, makers and sources of the folder are written.
    """
    by_version: dict[str, list[Row]] = {}
    for row in rows:
        by_version.setdefault(str(row["version"]), []).append(row)
    states = FeatureState.objects.values_list("feature__code", "code", "position")
    places = {(feature, state): (place, state) for feature, state, place in states}
    for code, own in list(by_version.items()):
        named = ((str(row["feature"]), str(row["state"])) for row in own)
        if missing := next((pair for pair in named if pair not in places), None):
            wanted.unready[code] = f"the state {missing[1]} of {missing[0]}"
            del by_version[code]
    there = {code: own for code, own in by_version.items() if code not in wanted.new}
    writer = Writer(Folder(rows={"profiles": [row for own in there.values() for row in own]}))
    cells = wanted_profiles(writer)
    here = current_profiles(cells)
    changed = {code for code in there if cells[writer.ids["versions"][code]] != here.get(writer.ids["versions"][code])}
    for code, own in by_version.items():
        if code in changed or code in wanted.new:
            wanted.profiles[code] = feature_rows(own, places)


def feature_rows(rows: Iterable[Row], places: dict) -> Rows:
    """Rows of profiles.csv as the rows of a proposal, states in the order of their feature."""
    found: Rows = {}
    for row in sorted(rows, key=lambda row: places[str(row["feature"]), str(row["state"])]):
        cell = {"state": str(row["state"]), **{name: row[name] for name in FIELDS}}
        cell |= {"sizes": " ".join(row["sizes"]), "makers": sorted(row["makers"]), "sources": list(row["sources"])}
        cell |= against_of(list(row["contradicting_sources"]))
        found.setdefault(f"{FEATURE}{row['feature']}", []).append(cell)
    return found


def sources_of(rows: Rows) -> list[str]:
    """Every source that rows cite, and which is there."""
    return list(Source.objects.filter(code__in=codes_of(rows)).order_by("code").values_list("code", flat=True))
