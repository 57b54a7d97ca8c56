"""What one person alone does not change under review, and no proposal holds: views of open questions."""

from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.reference.models import QuestionView
from catalogue.reference.spreadsheets.completing import held_values
from catalogue.reference.spreadsheets.layout import SHEET_BY_NAME
from catalogue.reference.spreadsheets.reading import Folder
from catalogue.review.importing.sorting import Wanted
from catalogue.review.questions.actions import tell_its_holder

VIEWS = "{}: view {} is left as it stands: who wrote it down changes it, on its page"


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
    """The keys of all views, before something is written."""
    return set(QuestionView.objects.values_list("pk", flat=True))


def sign_views(before: set[int], by: Member) -> None:
    """A view that was written at once says who brought it in. `before`: those that were there."""
    brought = QuestionView.objects.exclude(pk__in=before)
    brought.update(by=by, made_at=timezone.now())
    for view in brought.all():
        tell_its_holder(view)
