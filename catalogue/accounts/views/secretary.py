"""People, roles, invitations and requests, for those who look after them."""

from django.contrib import messages
from django.db.models import Q
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import urlencode

from catalogue.accounts import mail
from catalogue.accounts.access import admitted_person, request_to_decide
from catalogue.accounts.actions import change_role, decide_request
from catalogue.accounts.forms import DecisionForm, RoleForm
from catalogue.accounts.models import Invitation, JoinRequest, Member, RoleChange
from catalogue.accounts.refusals import CannotDo
from catalogue.accounts.roles import admitting_required, secretary_required
from catalogue.accounts.second_accounts import members_of_the_mailbox
from catalogue.long_lists import page_of

A_PAGE = 50
LATEST = 20


@secretary_required
def society(request):
    """Everybody, what waits, and what was changed last."""
    asked, role = request.GET.get("q", "").replace("\0", "")[:100], request.GET.get("role", "")
    rows = Member.objects.admitted().order_by("name_key")
    if asked:
        rows = rows.filter(Q(username__icontains=asked) | Q(emailaddress__email__icontains=asked)).distinct()
    if role in Member.Role.values:
        rows = rows.filter(role=role)
    page, odd_page = page_of(request.GET.get("page"), rows, A_PAGE)
    context = {
        "page": page,
        "odd_page": odd_page,
        "keep": urlencode({"q": asked, "role": role}) + "&" if asked or role else "",
        "asked": asked,
        "role": role,
        "roles": Member.Role.choices,
        "waiting": JoinRequest.objects.waiting().count(),
        "former": Member.objects.filter(left_at__isnull=False).count(),
        "changes": RoleChange.objects.select_related("member", "by")[:LATEST],
        "invitations": Invitation.objects.open_at(timezone.now()).select_related("inviter")[:A_PAGE],
    }
    return render(request, "accounts/society.html", context)


@secretary_required
def role(request, number):
    """Give another role, with a reason."""
    member = admitted_person(number)
    form = RoleForm(request.POST or None, initial={"after": member.role})
    if form.is_valid():
        try:
            changed = change_role(member=member, by=request.user, now=timezone.now(), **form.cleaned_data)
        except CannotDo as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, f"{member}: {changed.get_before_display()} to {changed.get_after_display()}.")
            return redirect("accounts:society")
    changes = member.role_changes.select_related("by", "member")
    return render(request, "accounts/role.html", {"member": member, "form": form, "changes": changes})


@admitting_required
def requests(request):
    """Who asks to join, longest waiting first; and what was decided last."""
    decided = JoinRequest.objects.filter(decided_by__isnull=False).order_by("-decided_at")
    waiting = JoinRequest.objects.waiting().select_related("member")
    page, odd_page = page_of(request.GET.get("page"), waiting, A_PAGE)
    context = {
        "page": page,
        "odd_page": odd_page,
        "decided": decided.select_related("member", "decided_by")[:LATEST],
    }
    return render(request, "accounts/requests.html", context)


@admitting_required
def decide(request, number):
    """Admit, or decline with a reason; `decision` is the button that was pressed."""
    found = request_to_decide(number)
    form = DecisionForm(request.POST or None)
    context = {"found": found, "form": form, "same_mailbox": members_of_the_mailbox(found.member)}
    decision = request.POST.get("decision")
    if form.is_valid():
        if decision not in ("admit", "decline"):
            form.add_error(None, "Press “Admit” or “Decline”.")
            return render(request, "accounts/decide.html", context)
        try:
            decided = decide_request(
                request=found,
                decider=request.user,
                admit=decision == "admit",
                reason=form.cleaned_data["reason"],
                now=timezone.now(),
            )
        except CannotDo as refusal:
            form.add_error(None, str(refusal))
        else:
            tell_applicant(request, decided)
            return redirect("accounts:requests")
    return render(request, "accounts/decide.html", context)


def tell_applicant(request, decided) -> None:
    """A message to the person, and a line for whoever decided."""
    words = "is a member now" if decided.state == JoinRequest.State.ADMITTED else "was declined"
    messages.success(request, f"{decided.member} {words}.")
    address = mail.address_of(decided.member)
    page = request.build_absolute_uri(reverse("accounts:my_page"))
    if address and not mail.send("decided", address, decided=decided, page=page):
        messages.error(request, "The message to the person could not be sent; the page they wait on says it.")
