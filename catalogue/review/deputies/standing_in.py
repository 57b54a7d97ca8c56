"""Who is away today, who stands in, and who may decide on proposals because of it."""

from collections.abc import Callable, Iterable
from functools import wraps

from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.accounts.roles import MAINTAIN_REFERENCE, REVIEW_REFERENCE, may, required
from catalogue.review.models import Leave


def away_today() -> list[Leave]:
    """Leaves that run today, of who still is a moderator, whoever is back first first."""
    running = Leave.objects.on(timezone.localdate()).select_related("moderator", "deputy")
    return [one for one in running if may(one.moderator, REVIEW_REFERENCE)]


def may_stand_in(person: Member) -> bool:
    """Authors, moderators and the secretary may; with a second factor, where the society asks one of who decides."""
    return may(person, MAINTAIN_REFERENCE) and not person.lacks_second_factor


def stood_in_for(person: Member) -> list[Member]:
    """The moderators in whose place this person decides today; none for who is a moderator themself, since one person
    never counts as two."""
    if not person.is_authenticated or may(person, REVIEW_REFERENCE) or not may_stand_in(person):
        return []
    return [one.moderator for one in away_today() if one.deputy_id == person.pk]


def may_decide(person: Member) -> bool:
    return may(person, REVIEW_REFERENCE) or bool(stood_in_for(person))


def deciding_required(view: Callable) -> Callable:
    """Lets who stands in see a view that is else for moderators; everybody else is told as `required` tells them."""
    for_moderators = required(REVIEW_REFERENCE)(view)

    @wraps(view)
    def guarded(request, *args, **kwargs):
        opened = view if stood_in_for(request.user) else for_moderators
        return opened(request, *args, **kwargs)

    return guarded


def with_deputies(people: Iterable[Member]) -> list[Member]:
    """These people, and behind them who stands in for those of them that are away."""
    found = {one.pk: one for one in people}
    deputies = {one.deputy_id: one.deputy for one in away_today() if one.moderator_id in found}
    return list((found | {pk: one for pk, one in deputies.items() if pk not in found}).values())
