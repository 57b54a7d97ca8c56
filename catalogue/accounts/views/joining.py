"""The doors into the society: asking, an invitation, waiting."""

from allauth.account.views import SignupView
from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET

from catalogue.accounts.access import invitation_by_token
from catalogue.accounts.actions import ask_to_join, take_invitation
from catalogue.accounts.forms import AskAgainForm
from catalogue.accounts.models import Invitation, JoinRequest
from catalogue.accounts.refusals import CannotDo
from catalogue.accounts.roles import signed_in_required
from catalogue.accounts.sign_in_forms import InvitedForm


class AskToJoinView(SignupView):
    """An account and a request in one form."""

    template_name = "accounts/join.html"

    def form_valid(self, form):
        try:
            return super().form_valid(form)
        except CannotDo as refusal:
            form.add_error(None, str(refusal))
            return self.form_invalid(form)


class InvitedView(AskToJoinView):
    """The same form, filled in by somebody who was invited: no moderator has to decide."""

    template_name = "accounts/invited.html"

    def get_form_class(self):
        return InvitedForm

    def get_form_kwargs(self):
        return super().get_form_kwargs() | {"invitation": self.kwargs["invitation"]}

    def get_context_data(self, **kwargs):
        return super().get_context_data(**kwargs) | {"invitation": self.kwargs["invitation"]}


ask = AskToJoinView.as_view()
make_invited_account = InvitedView.as_view()


def invited(request, token):
    """The address of an invitation: an account is made, or the one there is gets admitted."""
    invitation = invitation_by_token(token)
    if not Invitation.objects.filter(pk=invitation.pk).open_at(timezone.now()).exists():
        return render(request, "accounts/invitation_closed.html", {"state": invitation.state()}, status=410)
    if not request.user.is_authenticated:
        return make_invited_account(request, invitation=invitation)
    if request.user.is_admitted:
        messages.info(request, "You are a member already: the invitation is still good for somebody else.")
        return redirect("accounts:my_page")
    return accept_invitation(request, invitation)


def accept_invitation(request, invitation):
    """Somebody who has an account and waits is admitted by an invitation."""
    refusal = ""
    if request.method == "POST":
        try:
            take_invitation(invitation=invitation, member=request.user, now=timezone.now())
        except CannotDo as problem:
            refusal = str(problem)
        else:
            messages.success(request, "You are a member now. Welcome.")
            return redirect("accounts:my_page")
    return render(request, "accounts/accept_invitation.html", {"invitation": invitation, "refusal": refusal})


@signed_in_required
def waiting(request):
    """What somebody with an account, but not admitted, waits for; and a second request after a refusal."""
    if request.user.is_admitted:
        return redirect("accounts:my_page")
    last = request.user.join_requests.select_related("decided_by").first()
    form = AskAgainForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            ask_to_join(member=request.user, words=form.cleaned_data["words"], now=timezone.now())
        except CannotDo as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, "Your request is with the moderators.")
            return redirect("accounts:waiting")
    is_waiting = bool(last and last.state == JoinRequest.State.WAITING)
    return render(request, "accounts/waiting.html", {"last": last, "is_waiting": is_waiting, "form": form})


@require_GET
@signed_in_required
def second_factor_first(request):
    """What takes more than a member's role waits for the second factor."""
    return render(request, "accounts/second_factor_first.html")
