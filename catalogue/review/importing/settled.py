"""What no proposal holds and one person alone does not change under review: it stays as it stands, in words. Of it a
moderator brings in what a version lacks, and stock numbers; who, when and why is kept as in the back office."""

from collections.abc import Sequence

from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.reference.models import Correction, IssueVersion, QuestionView, StockNumber
from catalogue.reference.spreadsheets.completing import held_values
from catalogue.reference.spreadsheets.exporting import as_text
from catalogue.reference.spreadsheets.layout import SHEET_BY_NAME
from catalogue.reference.spreadsheets.reading import Folder, Row
from catalogue.review.importing.sorting import Wanted
from catalogue.review.questions.actions import tell_its_holder

FILLED_ONCE = ("cut", "colourway", "issuer")
UNPROPOSED = (*FILLED_ONCE, "passes_for", "contradicting_sources")
COLUMN_WORDS = {"passes_for": "passes for", "contradicting_sources": "contradicting sources"}
STAYS = (
    "{}: {} as it stands, for no proposal holds it and nobody changes it alone; a moderator brings in a cut, colourway "
    "or issuer that is still empty"
)
NUMBERS = "{}: stock number {} is left: a moderator writes it, or brings it in"
VIEWS = "{}: view {} is left as it stands: who wrote it down changes it, on its page"

# A record that a moderator changed or added by an import: its table, code or number with version, and what changed.
Noted = tuple[str, tuple[str, ...], list[list[str]]]


def keep_settled(folder: Folder, wanted: Wanted, *, moderates: bool) -> list[Noted]:
    """Leaves in the folder what may be written of it at once, and says what is left; gives what is to be noted."""
    noted = keep_unproposed(folder, wanted, moderates)
    noted += keep_numbers(folder, wanted, moderates)
    keep_views(folder, wanted)
    return noted


def keep_unproposed(folder: Folder, wanted: Wanted, moderates: bool) -> list[Noted]:
    sheet, rows = SHEET_BY_NAME["versions"], folder.rows.get("versions", [])
    columns = [column for column in sheet.columns if column.name in UNPROPOSED]
    held = held_values(sheet, columns, {str(row["version"]) for row in rows})
    noted: list[Noted] = []
    for row in rows:
        code, stands = str(row["version"]), held[(str(row["version"]),)]
        changed = [name for name, value in stands.items() if row[name] != value]
        filled = [name for name in changed if moderates and name in FILLED_ONCE and not stands[name]]
        if left := [COLUMN_WORDS.get(name, name) for name in changed if name not in filled]:
            wanted.kept.append(STAYS.format(code, f"{', '.join(left)} {'stays' if len(left) == 1 else 'stay'}"))
        if filled:
            noted.append(("issueversion", (code,), [[name, "", as_text(row[name])] for name in filled]))
        row.values |= {name: value for name, value in stands.items() if name not in filled}
    return noted


def keep_numbers(folder: Folder, wanted: Wanted, moderates: bool) -> list[Noted]:
    sheet, rows = SHEET_BY_NAME["stock_numbers"], folder.rows.get("stock_numbers", [])
    columns = [column for column in sheet.columns if column.name not in sheet.key]
    held = held_values(sheet, columns, {str(row["number"]) for row in rows})
    stay: list[Row] = []
    noted: list[Noted] = []
    for row in rows:
        number, code = str(row["number"]), str(row["version"])
        stands = held.get((number, code))
        changed = [
            [column.name, as_text(stands[column.name]) if stands else "", as_text(row[column.name])]
            for column in columns
            if row[column.name] != (stands[column.name] if stands else column.read(""))
        ]
        if stands is not None and not changed:
            stay.append(row)
        elif moderates:
            stay.append(row)
            noted.append(("stocknumber", (number, code), changed if stands else [["number", "", number], *changed]))
        else:
            wanted.kept.append(NUMBERS.format(code, number))
    if "stock_numbers" in folder.rows:
        folder.rows["stock_numbers"] = stay
    return noted


def keep_views(folder: Folder, wanted: Wanted) -> None:
    """A view that is there is its writer's; how a question stands is decided elsewhere."""
    sheet, rows = SHEET_BY_NAME["question_views"], folder.rows.get("question_views", [])
    columns = [column for column in sheet.columns if column.name in ("holder", "text", "sources")]
    held = held_values(sheet, columns, {str(row["question"]) for row in rows})
    for row in rows:
        stands = held.get((str(row["question"]), str(row["letter"])), {})
        if any(row[name] != value for name, value in stands.items()):
            wanted.kept.append(VIEWS.format(row["question"], row["letter"]))
        row.values |= stands


def views_there() -> set[int]:
    return set(QuestionView.objects.values_list("pk", flat=True))


def sign(noted: Sequence[Noted], views: set[int], by: Member, because: str) -> None:
    """What was written at once says who brought it in. `views`: those that were there before."""
    brought = QuestionView.objects.exclude(pk__in=views)
    brought.update(by=by, made_at=timezone.now())
    for view in brought.all():
        tell_its_holder(view)
    known = [(table, key, lines) for table, key, lines in noted if lines]
    versions = dict(IssueVersion.objects.values_list("code", "pk")) if known else {}
    numbers = {(one.number, one.version.code): one.pk for one in StockNumber.objects.select_related("version")}
    added = {"stocknumber": "number"}
    Correction.objects.bulk_create(
        Correction(
            table=table,
            row=numbers[key] if table == "stocknumber" else versions[key[0]],
            title=", ".join(key)[:300],
            deed=Correction.Deed.ADDED if lines[0][0] == added.get(table) else Correction.Deed.CHANGED,
            member=by,
            why=because,
            lines=[[name.replace("_", " ").capitalize(), before, after] for name, before, after in lines],
        )
        for table, key, lines in known
    )
