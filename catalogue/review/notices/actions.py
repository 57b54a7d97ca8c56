"""Reading one's notices, and wishing for them by mail."""

from datetime import datetime

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import NotDone
from catalogue.review.models import MailHow, MailWish, Notice


@transaction.atomic
def read_notices(*, member: Member, now: datetime) -> int:
    """Everything that stood on the page has been read; how many were new."""
    return Notice.objects.filter(member=member, read_at__isnull=True, made_at__lte=now).update(read_at=now)


@transaction.atomic
def wish_for_mail(*, member: Member, how: str) -> None:
    """`how`: at_once, daily, weekly, or empty for none. A mail of several begins with what comes from now on."""
    if how not in (*MailHow.values, ""):
        raise NotDone("Choose when you want mails.")
    standing = MailWish.objects.filter(member=member)
    if not how:
        standing.delete()
    elif not standing.filter(how=how).exists():
        standing.delete()
        MailWish.objects.create(member=member, how=how)
