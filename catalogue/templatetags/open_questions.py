"""What was decided on an open question, and what a member may do about it, for its page."""

from django import template

from catalogue.accounts.roles import PROPOSE_CHANGES, may
from catalogue.review.models import Decision
from catalogue.review.proposals.rules import DECIDED
from catalogue.review.proposals.words import FIRST_OF_TWO, DecisionOn, ProposalState
from catalogue.review.questions.standing import row_in_words

register = template.Library()


@register.inclusion_tag("review/questions/decided.html", takes_context=True)
def question_decided(context, question):
    """Every decision of two people on how it stands, the latest first, and what waits; in five queries at most."""
    person = context["request"].user
    reads = may(person, PROPOSE_CHANGES)
    made = Decision.objects.filter(question=question, after__has_key=DECIDED)
    made = made.select_related("by", "in_place_of", "proposal__by").prefetch_related(
        "proposal__decisions__by", "proposal__decisions__in_place_of"
    )
    waiting = question.proposals.filter(state=ProposalState.OPEN).select_related("by").order_by("sent_at")
    return {
        "question": question,
        "reads": reads,
        "decisions": [decision_row(one) for one in made.order_by("-made_at", "-pk")],
        "waiting": list(waiting) if reads else [],
        "own": list(question.views.filter(by=person).order_by("letter")) if reads else [],
    }


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
