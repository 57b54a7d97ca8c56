"""Views that members write down on open questions. Each refuses with `NotDone`, in words; then nothing was written."""

from collections.abc import Sequence
from string import ascii_uppercase

from django.db import transaction
from django.db.models import F
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.accounts.roles import PROPOSE_CHANGES, may
from catalogue.member_examples.actions import NotDone
from catalogue.reference.models import OpenQuestion, QuestionView, ReferenceState, Source
from catalogue.review.proposals.rules import DECIDED
from catalogue.review.proposals.words import ProposalState

FULL = "This question has as many views as there are letters. Write in the thread of a proposal about it instead."
ELSEWHERE = "This view was changed elsewhere since you opened it. What you typed is still here."
HELD = "The question was decided for this view, or a decision for it is proposed: it stays as it was read."


@transaction.atomic
def add_view(*, question: OpenQuestion, by: Member, holder: str, text: str, sources: Sequence[str]) -> QuestionView:
    """A further view under the next free letter. The same view by the same member again is the one that is there."""
    if not may(by, PROPOSE_CHANGES):
        raise NotDone("Members write views down. Sign in first.")
    ReferenceState.hold()
    same = question.views.filter(by=by, holder=holder.strip(), text=text.strip()).first()
    if same:
        return same
    taken = set(question.views.values_list("letter", flat=True))
    letter = next((one for one in ascii_uppercase if one not in taken), "")
    if not letter:
        raise NotDone(FULL)
    made = QuestionView.objects.create(
        question=question, letter=letter, holder=holder.strip(), text=text.strip(), by=by, made_at=timezone.now()
    )
    made.sources.set(Source.objects.filter(code__in=sources))
    ReferenceState.mark_changed()
    return made


@transaction.atomic
def change_view(
    *, view: QuestionView, by: Member, holder: str, text: str, sources: Sequence[str], revision: int
) -> None:
    """One's own, until the question is decided for it. `revision`: the one that the form was opened with."""
    held = held_by(view, by)
    still = QuestionView.objects.filter(pk=held.pk, revision=revision)
    if not still.update(holder=holder.strip(), text=text.strip(), revision=F("revision") + 1):
        raise NotDone(ELSEWHERE)
    held.sources.set(Source.objects.filter(code__in=sources))
    ReferenceState.mark_changed()


@transaction.atomic
def withdraw_view(*, view: QuestionView, by: Member) -> None:
    """One's own goes, until the question is decided for it."""
    held_by(view, by).delete()
    ReferenceState.mark_changed()


def held_by(view: QuestionView, by: Member) -> QuestionView:
    """The view as it stands while nobody else changes the reference."""
    ReferenceState.hold()
    held = QuestionView.objects.select_related("question").filter(pk=view.pk).first()
    if held is None:
        raise NotDone("This view was taken back already.")
    if held.by_id != by.pk or not may(by, PROPOSE_CHANGES):
        raise NotDone("This is not your view.")
    if held.stands or rests_on(held):
        raise NotDone(HELD)
    return held


def rests_on(view: QuestionView) -> bool:
    """Whether a proposal that was sent names this view, or a decision once did."""
    sent = view.question.proposals.exclude(state=ProposalState.DRAFT)
    return any(view.letter in (one.rows.get(DECIDED), one.base.get(DECIDED)) for one in sent)
