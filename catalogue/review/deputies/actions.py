"""Going on leave, and coming back."""

from datetime import date

from django.db import transaction
from django.utils import timezone

from catalogue.accounts.mailboxes import same_person
from catalogue.accounts.models import Member
from catalogue.accounts.roles import REVIEW_REFERENCE, may
from catalogue.accounts.second_accounts import addresses
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.actions.refusals import refuse
from catalogue.review.deputies.rules import reason_not_to_go
from catalogue.review.deputies.standing_in import may_stand_in
from catalogue.review.models import Leave
from catalogue.review.notices.telling import tell


@transaction.atomic
def go_on_leave(*, moderator: Member, deputy: Member, begins: date, ends: date) -> Leave:
    """From the first to the last day the deputy stands in, and is told. An earlier leave of the moderator's gives way;
    the same again is the same."""
    own = Leave.objects.filter(moderator=deputy).first()
    refuse(
        reason_not_to_go(
            moderates=may(moderator, REVIEW_REFERENCE),
            may_stand_in=may_stand_in(deputy),
            same_person=deputy.pk == moderator.pk or same_person(addresses(moderator), addresses(deputy)),
            begins=begins,
            ends=ends,
            today=timezone.localdate(),
            deputy_away=(own.begins, own.ends) if own else None,
        )
    )
    Member.objects.select_for_update().get(pk=moderator.pk)
    if standing := Leave.objects.filter(moderator=moderator, deputy=deputy, begins=begins, ends=ends).first():
        return standing
    Leave.objects.filter(moderator=moderator).delete()
    made = Leave.objects.create(moderator=moderator, deputy=deputy, begins=begins, ends=ends)
    tell(deputy, leave=made)
    return made


@transaction.atomic
def come_back(*, moderator: Member) -> None:
    """The leave is over, or never begins; what its deputy decided stands."""
    if not Leave.objects.filter(moderator=moderator).delete()[0]:
        raise NotDone("You are not on leave.")
