"""The gates: one for each kind of object. What is not yours is not there."""

from django.http import Http404
from django.shortcuts import get_object_or_404

from catalogue.accounts.models import Holding, Invitation, JoinRequest, Member, Want
from catalogue.accounts.roles import MANAGE_MEMBERS, may

MISSING = "There is nobody of that name here."


def person_called(name: str) -> Member:
    """A member, or who was one, by display name; who has not been admitted is not told to exist."""
    found = Member.objects.called(name).first()
    if not found or not (found.is_admitted or found.has_left):
        raise Http404(MISSING)
    return found


def own_holding(person: Member, number: int) -> Holding:
    return get_object_or_404(Holding.objects.with_subjects(), pk=number, member=person)


def own_want(person: Member, number: int) -> Want:
    return get_object_or_404(Want.objects.with_subjects(), pk=number, member=person)


def invitation_of(person: Member, number: int) -> Invitation:
    """One's own; the secretary sees all."""
    rows = Invitation.objects.select_related("inviter", "used_by")
    if not may(person, MANAGE_MEMBERS):
        rows = rows.filter(inviter=person)
    return get_object_or_404(rows, pk=number)


def invitation_by_token(token: str) -> Invitation:
    try:
        return Invitation.objects.by_token(token)
    except Invitation.DoesNotExist as problem:
        raise Http404("There is no such invitation: perhaps a part of its address is missing.") from problem


def request_to_decide(number: int) -> JoinRequest:
    """Also one that is decided: the page then says by whom."""
    return get_object_or_404(JoinRequest.objects.select_related("member", "decided_by"), pk=number)


def admitted_person(number: int) -> Member:
    """A member, for the secretary."""
    return get_object_or_404(Member, pk=number, admitted_at__isnull=False, left_at__isnull=True)
