"""A member's own pages."""

from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.accounts import mail
from catalogue.accounts.access import invitation_of, own_holding, own_want
from catalogue.accounts.actions import invite, revoke_invitation
from catalogue.accounts.devices import devices_of, sign_out
from catalogue.accounts.forms import HoldingForm, InvitationForm, ShownForm, WantForm
from catalogue.accounts.models import Holding, JoinRequest, Member, Want
from catalogue.accounts.refusals import CannotDo
from catalogue.accounts.roles import ADMIT_MEMBERS, INVITE, may, member_required, required
from catalogue.accounts.sections import own_sections

KINDS = {"pieces": (Holding, HoldingForm, own_holding), "wants": (Want, WantForm, own_want)}


@member_required
def my_page(request):
    waiting = JoinRequest.objects.waiting().count() if may(request.user, ADMIT_MEMBERS) else 0
    return render(request, "accounts/my_page.html", {"sections": own_sections(request.user), "waiting": waiting})


@member_required
def shown(request):
    """Change what others see."""
    member = Member.objects.get(pk=request.user.pk)  # a copy: a refused name must not stand in the menu
    form = ShownForm(request.POST or None, instance=member)
    if form.is_valid():
        form.save()
        messages.success(request, "Saved.")
        return redirect("accounts:my_page")
    return render(request, "accounts/shown.html", {"form": form})


@member_required
def devices(request):
    """Where one is signed in; signing out there, or everywhere else. Twice is once."""
    this, now = request.session.session_key, timezone.now()
    if request.method == "POST":
        mark = "" if request.POST.get("everywhere") else request.POST.get("mark", "")[:40] or "none"
        ended = sign_out(request.user, this=this, now=now, mark=mark)
        messages.success(request, f"Signed out in {ended} other browser{'' if ended == 1 else 's'}.")
        return redirect("accounts:devices")
    context = {"devices": devices_of(request.user, this=this, now=now)}
    return render(request, "accounts/devices.html", context)


def kind_of_list(name: str):
    if name not in KINDS:
        raise Http404
    return KINDS[name]


@member_required
def add(request, kind):
    """A piece for one of the two lists; `?version=CODE` or `?type=CODE` chooses beforehand."""
    model, form_class, _ = kind_of_list(kind)
    form = form_class(request.POST or None, instance=model(member=request.user), initial=chosen_before(request))
    return saved_or_shown(request, kind, form)


def chosen_before(request) -> dict:
    chosen = [f"{name}:{request.GET[name]}" for name in ("version", "type") if request.GET.get(name)]
    return {"subject": chosen[0]} if chosen else {}


@member_required
def change(request, kind, number):
    """A row of one's own; `?version=CODE` chooses another beforehand, such as what its version became."""
    _, form_class, gate = kind_of_list(kind)
    form = form_class(request.POST or None, instance=gate(request.user, number), initial=chosen_before(request))
    return saved_or_shown(request, kind, form)


def saved_or_shown(request, kind, form):
    if form.is_valid():
        form.save()
        messages.success(request, "Saved.")
        return redirect(f"{reverse('accounts:my_page')}#{'holdings' if kind == 'pieces' else 'wants'}")
    context = {"form": form, "is_piece": kind == "pieces", "row": form.instance if form.instance.pk else None}
    return render(request, "accounts/piece.html", context)


@member_required
@require_POST
def remove(request, kind, number):
    """Gone from the list; a second click finds it gone."""
    model, _, _ = kind_of_list(kind)
    if model.objects.filter(pk=number, member=request.user).delete()[0]:
        messages.success(request, "Taken from the list.")
    return redirect("accounts:my_page")


@required(INVITE)
def new_invitation(request):
    form = InvitationForm(request.POST or None)
    if form.is_valid():
        try:
            made = invite(inviter=request.user, now=timezone.now(), **form.cleaned_data)
        except CannotDo as refusal:
            form.add_error(None, str(refusal))
        else:
            send_invitation(request, made)
            return redirect("accounts:invitation", made.pk)
    return render(request, "accounts/new_invitation.html", {"form": form})


def address_of_invitation(request, invitation) -> str:
    return request.build_absolute_uri(reverse("accounts:invited", args=[invitation.token]))


def send_invitation(request, invitation) -> None:
    if not invitation.email:
        return
    address = address_of_invitation(request, invitation)
    if mail.send("invitation", invitation.email, invitation=invitation, address=address):
        messages.success(request, f"The invitation was sent to {invitation.email}.")
    else:
        messages.error(request, "The message could not be sent. Pass on the address below yourself.")


@required(INVITE)
def invitation(request, number):
    """One invitation, and its address as long as it can be used."""
    found = invitation_of(request.user, number)
    is_own = found.inviter_id == request.user.pk
    address = address_of_invitation(request, found) if found.is_open and is_own else ""
    return render(request, "accounts/invitation.html", {"invitation": found, "address": address})


@required(INVITE)
@require_POST
def revoke(request, number):
    found = invitation_of(request.user, number)
    try:
        revoke_invitation(invitation=found, by=request.user, now=timezone.now())
    except CannotDo as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, "The invitation was taken back: its address opens nothing any more.")
    return redirect("accounts:invitation", number)
