"""Roles, and leaving."""

from datetime import datetime

from allauth.mfa.models import Authenticator
from django.contrib.sessions.models import Session
from django.db import transaction
from django.db.models import Max, Q

from catalogue.accounts import names, rules
from catalogue.accounts.mailboxes import same_person
from catalogue.accounts.models import Invitation, JoinRequest, Member, RoleChange
from catalogue.accounts.refusals import CannotDo
from catalogue.accounts.roles import MANAGE_MEMBERS, may
from catalogue.accounts.second_accounts import addresses
from catalogue.accounts.sections import parts_of_a_person
from catalogue.accounts.unsent import KEPT_IN


@transaction.atomic
def change_role(*, member: Member, after: str, by: Member, reason: str, now: datetime) -> RoleChange:
    """Give another role, and record who did it and why. Raises CannotDo with the words of the rule that forbids it.

    Whoever stops being secretary loses the rights given at the server's terminal too.
    """
    secretaries = locked_secretaries()
    by.refresh_from_db()
    member = Member.objects.select_for_update().get(pk=member.pk)
    if not may(by, MANAGE_MEMBERS):
        raise CannotDo("Only the secretary changes roles.")
    if not member.is_admitted:
        raise CannotDo("Only a member has a role; this person has not been admitted, or has left.")
    before = member.role
    if refusal := rules.reason_not_to_change_role(
        by_id=by.pk,
        member_id=member.pk,
        before=before,
        after=after,
        known=set(Member.Role.values),
        reason=reason,
        secretaries=len(secretaries),
    ):
        raise CannotDo(refusal)
    member.role = after
    if after != Member.Role.SECRETARY:
        member.is_superuser = False
    member.save(update_fields=["role", "is_superuser"])
    return RoleChange.objects.create(member=member, before=before, after=after, by=by, at=now, reason=reason.strip())


@transaction.atomic
def leave_society(*, member: Member, now: datetime) -> Member:
    """Take everything personal away and keep the row, under "former member N", so that decisions stay signed.

    E-mail address, password, second factors, sessions, lists and words are gone; open invitations are taken back.
    Raises CannotDo for the only secretary. A second call does nothing.
    """
    secretaries = locked_secretaries()
    member = Member.objects.select_for_update().get(pk=member.pk)
    if member.has_left:
        return member
    role = member.role if member.is_admitted else "visitor"
    if refusal := rules.reason_not_to_leave(role=role, secretaries=len(secretaries)):
        raise CannotDo(refusal)
    own_addresses = addresses(member)
    for part in parts_of_a_person():
        part.forget(member)
    number = (Member.objects.aggregate(last=Max("former_number"))["last"] or 0) + 1
    member.username = f"{names.FORMER} {number}"
    member.former_number, member.left_at = number, now
    member.email, member.about, member.joined_year, member.last_login = "", "", None, None
    member.is_active = member.is_staff = member.is_superuser = False
    member.role = Member.Role.MEMBER
    member.set_unusable_password()
    member.save()
    member.groups.clear()
    member.user_permissions.clear()
    member.emailaddress_set.all().delete()
    Authenticator.objects.filter(user=member).delete()
    end_sessions(member, own_addresses, now)
    return member


def locked_secretaries() -> list[Member]:
    """Those there are, held until the end of the transaction: two who act at once cannot both be the last but one."""
    return list(Member.objects.secretaries().select_for_update().order_by("pk"))


def forget_how_they_joined(member: Member, now: datetime) -> None:
    """The words of requests and invitations go, also of those by which others invited them; who decided what, and why,
    stays."""
    member.join_requests.filter(state=JoinRequest.State.WAITING).update(state=JoinRequest.State.WITHDRAWN)
    member.join_requests.update(words="")
    member.invitations.filter(used_at__isnull=True, revoked_at__isnull=True).update(revoked_at=now)
    member.invitations.update(email="", note="")
    own = addresses(member)
    sent = Invitation.objects.exclude(email="").values_list("pk", "email")
    to_them = [number for number, email in sent if same_person(own, [email])]
    Invitation.objects.filter(Q(used_by=member) | Q(pk__in=to_them)).update(email="", note="")


def end_sessions(member: Member, own_addresses: list[str], now: datetime) -> None:
    """Sessions hold the address somebody signed in with, or asked with for a new password, and what was typed and not
    sent: so they are removed and not only void. What another person is signed in by stays."""
    own = {address.lower() for address in own_addresses} - {""}
    for session in Session.objects.filter(expire_date__gt=now).iterator():
        held = session.get_decoded()
        signed_in, typed_by = held.get("_auth_user_id"), held.get(KEPT_IN, {}).get("whose")
        named = signed_in is None and any(address in str(held).lower() for address in own)
        if str(member.pk) in (signed_in, typed_by) or named:
            session.delete()
