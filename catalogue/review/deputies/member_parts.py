"""What this slice knows of a person: their leave, and for whom they stand in."""

from django.db.models import Count, Min, Q
from django.utils import timezone

from catalogue.accounts.roles import REVIEW_REFERENCE, may
from catalogue.accounts.sections import MemberPart, register
from catalogue.review.examples_queue.rank import waiting_words, waits_long
from catalogue.review.models import Leave, Proposal
from catalogue.review.proposals.words import ProposalState


def leaves_of(member):
    return Leave.objects.filter(Q(moderator=member) | Q(deputy=member)).select_related("moderator", "deputy")


def own(member) -> dict | None:
    """For who decides on proposals how many of others wait and for how long; a moderator's own leave; for whom one
    stands in or will. None where there is nothing of these.
    """
    standing = leaves_of(member).filter(ends__gte=timezone.localdate())
    found = {one.moderator_id: one for one in standing}
    moderates = may(member, REVIEW_REFERENCE)
    leave = found.pop(member.pk, None) if moderates else None
    if not moderates and not found:
        return None
    today = timezone.localdate()
    decides = moderates or any(one.begins <= today for one in found.values())
    return {
        "moderates": moderates,
        "leave": leave,
        "stands_in": list(found.values()),
        "waiting": waiting_for(member) if decides else None,
    }


def waiting_for(member) -> dict | None:
    """Proposals of others that wait: how many, and since when the oldest; None where none does."""
    open_ones = Proposal.objects.filter(state=ProposalState.OPEN).exclude(by=member)
    found = open_ones.aggregate(many=Count("pk"), oldest=Min("sent_at"))
    if not found["many"]:
        return None
    now = timezone.now()
    return {
        "many": found["many"],
        "words": waiting_words(found["oldest"], now),
        "long": waits_long(found["oldest"], now),
    }


def exported(member) -> list[dict]:
    return [
        {"away": one.moderator.username, "deputy": one.deputy.username, "begins": one.begins, "ends": one.ends}
        for one in leaves_of(member)
    ]


register(
    MemberPart(
        name="away",
        heading="Deciding on proposals",
        template="review/deputies/own_section.html",
        own=own,
        export=exported,
        forget=lambda member: leaves_of(member).delete(),
    )
)
