"""Invitations, and requests to join."""

import secrets
from datetime import datetime, timedelta

from django.db import IntegrityError, transaction

from catalogue.accounts import rules
from catalogue.accounts.happenings import asked_to_join, request_decided
from catalogue.accounts.models import Invitation, JoinRequest, Member
from catalogue.accounts.refusals import CannotDo
from catalogue.accounts.roles import ADMIT_MEMBERS, INVITE, MANAGE_MEMBERS, may


@transaction.atomic
def invite(*, inviter: Member, email: str, note: str, now: datetime) -> Invitation:
    """A new invitation for one person. Raises CannotDo when the inviter may not, or has too many open."""
    if not may(inviter, INVITE):
        raise CannotDo("Only members invite.")
    own = inviter.invitations.all()
    if refusal := rules.reason_not_to_invite(
        open_invitations=own.open_at(now).count(), made_in_a_day=own.filter(made_at__gt=now - timedelta(days=1)).count()
    ):
        raise CannotDo(refusal)
    return Invitation.objects.create(
        inviter=inviter,
        nonce=secrets.token_urlsafe(18),
        email=email,
        note=note,
        made_at=now,
        expires_at=now + rules.INVITATION_LASTS,
    )


@transaction.atomic
def revoke_invitation(*, invitation: Invitation, by: Member, now: datetime) -> None:
    """Take an invitation back: its inviter, or the secretary. Raises CannotDo when it has been used."""
    if invitation.inviter_id != by.pk and not may(by, MANAGE_MEMBERS):
        raise CannotDo("Only the inviter or the secretary takes an invitation back.")
    unused = Invitation.objects.filter(pk=invitation.pk, used_at__isnull=True)
    if not unused.filter(revoked_at__isnull=True).update(revoked_at=now) and not unused.exists():
        raise CannotDo("This invitation has been used already.")


@transaction.atomic
def take_invitation(*, invitation: Invitation, member: Member, now: datetime) -> None:
    """The invitation is this person's from now on. Raises CannotDo when it can no longer be used, by this person too.

    They are admitted by it once their e-mail address is verified: at once when it is already.
    """
    usable = Invitation.objects.filter(pk=invitation.pk).open_at(now).values("pk")
    try:
        with transaction.atomic():
            taken = Invitation.objects.filter(pk__in=list(usable.values_list("pk", flat=True)), used_at__isnull=True)
            found = taken.filter(revoked_at__isnull=True).update(used_at=now, used_by=member)
    except IntegrityError as problem:
        raise CannotDo("You have used another invitation already.") from problem
    if not found:
        raise CannotDo("This invitation can no longer be used. Ask for another, or ask to join.")
    admit_invited(member=member, now=now)


@transaction.atomic
def admit_invited(*, member: Member, now: datetime) -> bool:
    """Admit who holds a used invitation and a verified address; whether it was done. A second call does nothing."""
    invited = Invitation.objects.filter(used_by=member).exists()
    verified = member.emailaddress_set.filter(verified=True).exists()
    if not (invited and verified) or member.admitted_at or member.has_left:
        return False
    member.admit(at=now)
    member.join_requests.filter(state=JoinRequest.State.WAITING).update(state=JoinRequest.State.WITHDRAWN)
    return True


@transaction.atomic
def ask_to_join(*, member: Member, words: str, now: datetime) -> JoinRequest:
    """A request for the moderators. Raises CannotDo for members, and while another one waits."""
    if member.is_admitted or member.has_left:
        raise CannotDo("You are a member already.")
    try:
        with transaction.atomic():
            asked = JoinRequest.objects.create(member=member, words=words, made_at=now)
    except IntegrityError as problem:
        raise CannotDo("Your request is waiting already.") from problem
    asked_to_join.send(sender=None, request=asked)
    return asked


@transaction.atomic
def decide_request(*, request: JoinRequest, decider: Member, admit: bool, reason: str, now: datetime) -> JoinRequest:
    """Admit or decline. Raises CannotDo when somebody else was quicker, and for a refusal without a reason."""
    if not may(decider, ADMIT_MEMBERS):
        raise CannotDo("Only moderators and the secretary decide requests.")
    request.refresh_from_db()
    if refusal := rules.reason_not_to_decide(
        decider_id=decider.pk, applicant_id=request.member_id, state=request.state, declined=not admit, reason=reason
    ):
        raise CannotDo(refusal)
    state = JoinRequest.State.ADMITTED if admit else JoinRequest.State.DECLINED
    still_waiting = JoinRequest.objects.filter(pk=request.pk, state=JoinRequest.State.WAITING)
    if not still_waiting.update(state=state, decided_by=decider, decided_at=now, reason=reason.strip()):
        raise CannotDo("Somebody else has just decided this request.")
    request.refresh_from_db()
    if admit:
        request.member.admit(at=now)
    request_decided.send(sender=None, request=request)
    return request
