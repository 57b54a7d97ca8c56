"""An open question as a proposal sees it: how it stands, what it may become, and the writing of what was approved."""

from catalogue.member_examples.actions import NotDone
from catalogue.reference.models import OpenQuestion, QuestionView, ReferenceState
from catalogue.review.proposals.rules import DECIDED
from catalogue.review.words import LONGEST

Rows = dict[str, object]
OPEN, SETTLED = "open", "settled"  # otherwise the letter of the view for which it is settled
FIELD_WORDS = {DECIDED: "Decision", "moderator_note": "The decision in words", "would_settle": "What would settle it"}


def rows_of(question: OpenQuestion) -> Rows:
    """Every row of it as the tables have it now."""
    held = OpenQuestion.objects.get(pk=question.pk)
    stands = held.views.filter(stands=True).first()
    decided = OPEN if not held.settled else stands.letter if stands else SETTLED
    return {DECIDED: decided, "moderator_note": held.moderator_note, "would_settle": held.would_settle}


def choices(question: OpenQuestion) -> list[tuple[str, str]]:
    """Every decision that can be taken, in words."""
    views = question.views.held().select_related("by")
    settled = [(view.letter, f"Settled for view {view.letter}, {view.whose}") for view in views]
    return [(OPEN, "Open"), *settled, (SETTLED, "Settled, for none of the views")]


def row_in_words(key: str, value) -> str:
    if key != DECIDED:
        return str(value)
    return {OPEN: "Open", SETTLED: "Settled, for none of the views"}.get(value) or f"Settled for view {value}"


def check_rows(rows: Rows, question: OpenQuestion) -> None:
    """Raises NotDone in words where the question could not stand so."""
    if DECIDED in rows and rows[DECIDED] not in dict(choices(question)):
        raise NotDone(f"There is no view {rows[DECIDED]} of this question: choose one that is there.")
    if any(len(str(rows.get(key, ""))) > LONGEST for key in ("moderator_note", "would_settle")):
        raise NotDone(f"At most {LONGEST:,} characters, please.")


def write_rows(question: OpenQuestion, rows: Rows) -> None:
    """The question with these rows changed; the reference has moved on. The view that lost stays readable."""
    plain = {key: rows[key] for key in ("moderator_note", "would_settle") if key in rows}
    if DECIDED in rows:
        plain["settled"] = rows[DECIDED] != OPEN
        question.views.filter(stands=True).update(stands=False)
        QuestionView.objects.filter(question=question, letter=rows[DECIDED]).update(stands=True)
    OpenQuestion.objects.filter(pk=question.pk).update(**plain)
    ReferenceState.mark_changed()
