"""A person as others see them; taking one's data along; leaving."""

from allauth.account.decorators import reauthentication_required
from django.contrib import messages
from django.contrib.auth import logout
from django.db import transaction
from django.http import FileResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.cache import never_cache

from catalogue.accounts.access import person_called
from catalogue.accounts.actions import leave_society
from catalogue.accounts.export import export_of
from catalogue.accounts.forms import LeaveForm
from catalogue.accounts.refusals import CannotDo
from catalogue.accounts.roles import signed_in_required
from catalogue.accounts.sections import public_sections
from catalogue.accounts.wiping import wipe_what_was_deleted


def person(request, name):
    """Open to all: role, since when, and what the person chose to show."""
    found = person_called(name)
    if found.username != name:
        return redirect(found)
    sections = [] if found.has_left else public_sections(found)
    return render(request, "accounts/person.html", {"found": found, "sections": sections})


@signed_in_required
@reauthentication_required
@never_cache
def my_data(request):
    """Everything the site knows of whoever asks, as one file; open also to who waits to be admitted."""
    if request.method != "POST":
        return render(request, "accounts/my_data.html")
    now = timezone.now()
    packed = export_of(request.user, now)
    return FileResponse(packed, as_attachment=True, filename=f"my-data-{now:%Y-%m-%d}.zip")


@signed_in_required
@reauthentication_required
@never_cache
def leave(request):
    form = LeaveForm(request.POST or None, member=request.user)
    if form.is_valid():
        try:
            leave_society(member=request.user, now=timezone.now())
        except CannotDo as refusal:
            form.add_error(None, str(refusal))
        else:
            logout(request)
            transaction.on_commit(wipe_what_was_deleted, robust=True)
            messages.success(request, "You have left. Your account is empty; what you contributed stays.")
            return redirect("site_pages:home")
    return render(request, "accounts/leave.html", {"form": form})
