"""What this slice knows of a person: their leave, and for whom they stand in."""

from django.db.models import Q
from django.utils import timezone

from catalogue.accounts.roles import REVIEW_REFERENCE, may
from catalogue.accounts.sections import MemberPart, register
from catalogue.review.models import Leave


def leaves_of(member):
    return Leave.objects.filter(Q(moderator=member) | Q(deputy=member)).select_related("moderator", "deputy")


def own(member) -> dict | None:
    """One's own leave, for moderators; those for whom one stands in or will; None where there is neither."""
    standing = leaves_of(member).filter(ends__gte=timezone.localdate())
    found = {one.moderator_id: one for one in standing}
    moderates = may(member, REVIEW_REFERENCE)
    leave = found.pop(member.pk, None) if moderates else None
    if not moderates and not found:
        return None
    return {"moderates": moderates, "leave": leave, "stands_in": list(found.values())}


def exported(member) -> list[dict]:
    return [
        {"away": one.moderator.username, "deputy": one.deputy.username, "begins": one.begins, "ends": one.ends}
        for one in leaves_of(member)
    ]


register(
    MemberPart(
        name="away",
        heading="Away, and standing in",
        template="review/deputies/own_section.html",
        own=own,
        export=exported,
        forget=lambda member: leaves_of(member).delete(),
    )
)
