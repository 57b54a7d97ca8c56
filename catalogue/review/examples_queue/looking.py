"""Who looks at which piece just now: a hint to the other moderators, which shuts nobody out and expires."""

from datetime import datetime, timedelta

from django.db import IntegrityError, transaction

from catalogue.accounts.models import Member
from catalogue.member_examples.gates import is_moderator
from catalogue.member_examples.models import Example
from catalogue.review.models import QueueLook

EXPIRES = timedelta(minutes=15)


def look_at(*, example: Example, moderator: Member, now: datetime) -> QueueLook | None:
    """Note that a moderator looks at a piece; the look of another that still stands, or None where it is one's own."""
    if not is_moderator(moderator) or example.owner_id == moderator.pk:
        return standing(example, now=now)
    mine = QueueLook.objects.filter(example=example, moderator=moderator, last__gt=now - EXPIRES)
    if mine.update(last=now):
        return None
    if other := standing(example, now=now):
        return other
    try:
        with transaction.atomic():
            QueueLook.objects.filter(example=example, last__lte=now - EXPIRES).delete()
            QueueLook.objects.create(example=example, moderator=moderator, since=now, last=now)
    except IntegrityError:  # another opened it at the same moment
        return standing(example, now=now)
    return None


def standing(example: Example, *, now: datetime) -> QueueLook | None:
    found = QueueLook.objects.filter(example=example, last__gt=now - EXPIRES)
    return found.select_related("moderator").first()


def lookers(*, now: datetime) -> dict[int, QueueLook]:
    """By example who looks at it."""
    return {one.example_id: one for one in QueueLook.objects.filter(last__gt=now - EXPIRES).select_related("moderator")}


def leave(example: Example, moderator: Member) -> None:
    QueueLook.objects.filter(example=example, moderator=moderator).delete()
