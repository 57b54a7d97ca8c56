"""What was decided on an open question, and what a member may do about it, for its page."""

from django import template

from catalogue.accounts.roles import PROPOSE_CHANGES, REVIEW_REFERENCE, may
from catalogue.review.models import Decision
from catalogue.review.proposals.rules import DECIDED
from catalogue.review.proposals.words import FIRST_OF_TWO, DecisionOn, ProposalState
from catalogue.review.questions.standing import row_in_words

register = template.Library()


@register.inclusion_tag("review/questions/decided.html", takes_context=True)
def question_decided(context, question):
    """Every decision of two people on how it stands, the latest first, what waits, and views that were taken out; in
    seven queries at most."""
    person = context["request"].user
    reads = may(person, PROPOSE_CHANGES)
    made = Decision.objects.filter(question=question, after__has_key=DECIDED)
    made = made.select_related("by", "in_place_of", "proposal__by").prefetch_related(
        "proposal__decisions__by", "proposal__decisions__in_place_of"
    )
    waiting = question.proposals.filter(state=ProposalState.OPEN).select_related("by").order_by("sent_at")
    views = list(question.views.select_related("by").prefetch_related("decisions__by"))
    return {
        "question": question,
        "reads": reads,
        "decisions": [decision_row(one) for one in made.order_by("-made_at", "-pk")],
        "waiting": list(waiting) if reads else [],
        "own": [view for view in views if view.by_id == person.pk and not view.taken_out] if reads else [],
        "named": [one for one in views if reads and not one.taken_out and one.by_id != person.pk and one.names(person)],
        "moderated": [row for view in views for row in moderated_rows(view, person)],
        "held": [view for view in views if not view.taken_out],
        "moderates": may(person, REVIEW_REFERENCE),
    }


def moderated_rows(view, person) -> list[dict]:
    """What moderators did to a view, in order of time; of one that came taken out with the reference, its reason. What
    such a view said is read by moderators and by who wrote it down: it may name somebody."""
    rows = [
        {"view": view, "out": one.taken_out, "by": one.by.username, "on": one.made_at, "reason": one.reason}
        for one in view.decisions.all()
    ]
    if view.taken_out and not rows:
        rows = [{"view": view, "out": True, "by": "", "on": None, "reason": view.taken_out}]
    if view.taken_out:
        rows[-1]["is_out"] = True
        rows[-1]["may_read"] = may(person, REVIEW_REFERENCE) or (view.by_id is not None and view.by_id == person.pk)
    return rows


def decision_row(made: Decision) -> dict:
    """What stood since, who proposed and who decided it, why, and whether it was revoked."""
    first = FIRST_OF_TWO[DecisionOn(made.kind)]
    rows = made.proposal.decisions.all()
    people = [one.decider for one in rows if one.kind == first and one.sending == made.sending]
    return {
        "words": row_in_words(DECIDED, made.after[DECIDED]),
        "revokes": made.kind == DecisionOn.REVOKED,
        "revoked": made.kind == DecisionOn.APPROVED and made.proposal.state == ProposalState.REVOKED,
        "by": [*people, made.decider],
        "proposed_by": made.proposal.by.username,
        "on": made.made_at,
        "reason": made.reason,
        "number": made.proposal_id,
    }
