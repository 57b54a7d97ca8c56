"""Views that members write down on open questions, and moderators taking one out. Each refuses with `NotDone`, in
words; then nothing was written."""

from collections.abc import Sequence

from django.db import transaction
from django.db.models import F
from django.utils import timezone

from catalogue.accounts.mailboxes import same_person
from catalogue.accounts.models import Member
from catalogue.accounts.names import look_alike_key
from catalogue.accounts.roles import PROPOSE_CHANGES, REVIEW_REFERENCE, may
from catalogue.accounts.second_accounts import addresses
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.actions.refusals import refuse
from catalogue.reference.models import OpenQuestion, QuestionView, ReferenceState, Source
from catalogue.review.models import Decision, Proposal, ViewDecision
from catalogue.review.notices.telling import read_by_all, tell
from catalogue.review.proposals.rules import DECIDED
from catalogue.review.proposals.words import ProposalState
from catalogue.review.questions.lettering import next_letter
from catalogue.review.words import LONGEST

# The society's choice; no source.
MOST_BY_ONE = 6
FULL = "This question has as many views as there are letters for them. Write in the thread of a proposal about it."
ENOUGH = f"You have written {MOST_BY_ONE} views of this question down. Change one of them, or take one back first."
ELSEWHERE = "This view was changed elsewhere since you opened it. What you typed is still here."
WAITS = "Proposal {} asks for a decision for this view: until it is decided the view stays as it was read."
DECIDED_ONCE = "The question was decided for this view: it stays as it was read then."
MODERATED = "A moderator took this view out, or put it back: it stays as it was read then."
STANDS = "The question is settled for this view: propose another decision before it is taken out."
FOR_MODERATORS = "Only moderators take a view out, or put it back."


@transaction.atomic
def add_view(*, question: OpenQuestion, by: Member, holder: str, text: str, sources: Sequence[str]) -> QuestionView:
    """A further view under the next letter. The same view by the same member again is the one that is there."""
    if not may(by, PROPOSE_CHANGES):
        raise NotDone("Members write views down. Sign in first.")
    ReferenceState.hold()
    written = question.views.filter(by=by)
    same = written.filter(holder=holder.strip(), text=text.strip(), taken_out="").first()
    if same:
        return same
    if written.count() >= MOST_BY_ONE:
        raise NotDone(ENOUGH)
    letter = next_letter({*question.views.values_list("letter", flat=True), *letters_named(question)})
    if not letter:
        raise NotDone(FULL)
    made = QuestionView.objects.create(
        question=question, letter=letter, holder=holder.strip(), text=text.strip(), by=by, made_at=timezone.now()
    )
    made.sources.set(Source.objects.filter(code__in=sources))
    ReferenceState.mark_changed()
    tell_its_holder(made)
    return made


@transaction.atomic
def change_view(
    *, view: QuestionView, by: Member, holder: str, text: str, sources: Sequence[str], revision: int
) -> None:
    """One's own, while nothing rests on it. Who said that it is not theirs has said so of every later edition, unless
    it is held by somebody else now."""
    held = own_view(view, by)
    still = QuestionView.objects.filter(pk=held.pk, revision=revision)
    disowned = held.disowned and look_alike_key(held.holder) == look_alike_key(holder)
    if not still.update(holder=holder.strip(), text=text.strip(), disowned=disowned, revision=F("revision") + 1):
        raise NotDone(ELSEWHERE)
    read_by_all(view=held)
    held.refresh_from_db()
    tell_its_holder(held)
    held.sources.set(Source.objects.filter(code__in=sources))
    ReferenceState.mark_changed()


@transaction.atomic
def withdraw_view(*, view: QuestionView, by: Member) -> None:
    """One's own goes, while nothing rests on it."""
    own_view(view, by).delete()
    ReferenceState.mark_changed()


@transaction.atomic
def disown_view(*, view: QuestionView, by: Member, disowned: bool) -> None:
    """The member who is named as its holder says that it is not theirs, or takes that back. It stays where it is: what
    somebody was told has been told, but nobody reads it as theirs any more."""
    held = standing_view(view)
    if not may(by, PROPOSE_CHANGES) or not held.names(by) or held.by_id == by.pk:
        raise NotDone("Only the member who is named as its holder says whether a view is theirs.")
    QuestionView.objects.filter(pk=held.pk).update(disowned=disowned)
    read_by_all(view=held, member=by)
    ReferenceState.mark_changed()


def tell_its_holder(view: QuestionView) -> None:
    """The member who is named as the holder of a view that somebody else wrote down is told, of each edition once."""
    named = Member.objects.admitted().filter(name_key=look_alike_key(view.holder)).first()
    if named and named.pk != view.by_id:
        tell(named, view=view, sending=view.revision)


@transaction.atomic
def take_out_view(*, view: QuestionView, moderator: Member, reason: str) -> ViewDecision:
    """A moderator takes a view out: it is none of the question's any more, and stays to be read in its history, with
    the reason. Who wrote it down is told."""
    held = moderated_view(view, moderator, reason)
    if held.taken_out:
        raise NotDone("This view was taken out already.")
    if held.by_id == moderator.pk:
        raise NotDone("This is your own view: take it back yourself.")
    refuse(STANDS if held.stands else reason_of_waiting(held))
    return decided(held, moderator, reason, taken_out=True)


@transaction.atomic
def put_back_view(*, view: QuestionView, moderator: Member, reason: str) -> ViewDecision:
    """The newer decision that undoes one; never by who wrote the view down."""
    held = moderated_view(view, moderator, reason)
    if not held.taken_out:
        raise NotDone("This view is not taken out, or was put back already.")
    if held.by and (held.by_id == moderator.pk or same_person(addresses(held.by), addresses(moderator))):
        raise NotDone("Your own view is put back by somebody else.")
    return decided(held, moderator, reason, taken_out=False)


def decided(held: QuestionView, moderator: Member, reason: str, *, taken_out: bool) -> ViewDecision:
    reason = reason.strip()[:LONGEST]
    QuestionView.objects.filter(pk=held.pk).update(taken_out=reason if taken_out else "", revision=F("revision") + 1)
    made = ViewDecision.objects.create(
        view=held, turn=held.decisions.count() + 1, taken_out=taken_out, by=moderator, reason=reason
    )
    ReferenceState.mark_changed()
    if held.by and held.by_id != moderator.pk:
        tell(held.by, view_decision=made)
    return made


def moderated_view(view: QuestionView, moderator: Member, reason: str) -> QuestionView:
    """The view as it stands while nobody else changes the reference."""
    if not may(moderator, REVIEW_REFERENCE):
        raise NotDone(FOR_MODERATORS)
    if not reason.strip():
        raise NotDone("Write down why; it stays to be read in the history of the question.")
    return standing_view(view)


def standing_view(view: QuestionView) -> QuestionView:
    ReferenceState.hold()
    held = QuestionView.objects.select_related("question", "by").filter(pk=view.pk).first()
    if held is None:
        raise NotDone("This view was taken back already.")
    return held


def own_view(view: QuestionView, by: Member) -> QuestionView:
    held = standing_view(view)
    if held.by_id != by.pk or not may(by, PROPOSE_CHANGES):
        raise NotDone("This is not your view.")
    refuse(reason_to_keep(held))
    return held


def reason_to_keep(view: QuestionView) -> str | None:
    """Why a view is not changed any more, in words: a decision on the question, or of a moderator on the view, that
    people read, or a proposal that waits. What was declined, returned, withdrawn or never sent keeps nothing."""
    if view.stands or Decision.objects.filter(question=view.question_id, **{f"after__{DECIDED}": view.letter}).exists():
        return DECIDED_ONCE
    if view.decisions.exists():
        return MODERATED
    return reason_of_waiting(view)


def reason_of_waiting(view: QuestionView) -> str | None:
    waiting = view.question.proposals.filter(state=ProposalState.OPEN, **{f"rows__{DECIDED}": view.letter}).first()
    return WAITS.format(waiting.pk) if waiting else None


def letters_named(question: OpenQuestion) -> set[str]:
    """Every letter that a proposal about the question names, whatever became of it."""
    rows = Proposal.objects.filter(question=question).values_list(f"rows__{DECIDED}", f"base__{DECIDED}")
    return {letter for pair in rows for letter in pair if letter}
