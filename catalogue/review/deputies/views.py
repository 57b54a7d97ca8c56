"""A moderator's page for their leave."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils.formats import date_format
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.accounts.roles import REVIEW_REFERENCE, required
from catalogue.member_examples.actions import NotDone
from catalogue.review.deputies.actions import come_back, go_on_leave
from catalogue.review.deputies.forms import LeaveForm
from catalogue.review.models import Leave

reviewing_required = required(REVIEW_REFERENCE)


@require_http_methods(["GET", "HEAD", "POST"])
@reviewing_required
def away(request):
    """Set or change one's leave."""
    form = LeaveForm(request.POST if request.method == "POST" else None, moderator=request.user)
    if request.method == "POST" and form.is_valid():
        try:
            made = go_on_leave(moderator=request.user, **form.cleaned_data)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            until = date_format(made.ends, "j F Y")
            messages.success(request, f"{made.deputy.username} stands in until {until}, and is told.")
            return redirect("accounts:my_page")
    leave = Leave.objects.filter(moderator=request.user).select_related("deputy").first()
    return render(request, "review/deputies/leave.html", {"form": form, "leave": leave})


@require_POST
@reviewing_required
def back(request):
    """The leave is over."""
    try:
        come_back(moderator=request.user)
    except NotDone as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, "Nobody stands in for you any more.")
    return redirect("accounts:my_page")
