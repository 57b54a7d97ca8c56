"""A source is added and taken back; the list of what was added. Every step is a page that works without a script."""

from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from catalogue.accounts.roles import PROPOSE_CHANGES, required
from catalogue.long_lists import page_of
from catalogue.member_examples.actions import NotDone
from catalogue.reference.addresses import address_of
from catalogue.reference.words import SourceKind
from catalogue.review.models import SourceAddition
from catalogue.review.sources import actions
from catalogue.review.sources.forms import SourceForm, TakenBackForm

WRITING = ["GET", "HEAD", "POST"]
A_PAGE = 50
proposing_required = required(PROPOSE_CHANGES)


@require_http_methods(WRITING)
@proposing_required
def add(request):
    """First its kind, which says what else is asked; then the source."""
    kind = request.GET.get("kind", "")
    if kind not in SourceKind.values:
        return render(request, "review/sources/kinds.html", {"kinds": SourceKind.choices, "unknown": kind[:80]})
    kind = SourceKind(kind)
    form = SourceForm(request.POST if request.method == "POST" else None, kind=kind)
    if request.method == "POST" and form.is_valid():
        try:
            made = actions.add_source(by=request.user, kind=kind.value, **form.cleaned_data)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, f"{made.code} is on the list now. Write {made.code} where sources are cited.")
            return redirect(address_of("source", made.code))
    context = {"form": form, "kind": kind}
    return render(request, "review/sources/add.html", context, status=400 if form.errors else 200)


@require_http_methods(WRITING)
@proposing_required
def take_back(request, pk):
    """Take one back that nothing rests on, with a reason."""
    addition = SourceAddition.objects.select_related("source", "by").filter(pk=pk).first()
    if addition is None or not actions.may_take_back(addition, request.user):
        raise Http404(actions.GONE)
    form = TakenBackForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        try:
            actions.take_back(addition=addition, by=request.user, reason=form.cleaned_data["reason"])
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, f"{addition.code} is taken back.")
            return redirect("sources:added")
    context = {"addition": addition, "form": form, "address": address_of("source", addition.code)}
    return render(request, "review/sources/take_back.html", context, status=400 if form.errors else 200)


@require_safe
@proposing_required
def added(request):
    """Every source that was added on the site, the latest first, and what was taken back with why."""
    rows = SourceAddition.objects.select_related("source", "by", "taken_back_by").order_by("-pk")
    page, odd_page = page_of(request.GET.get("page"), rows, A_PAGE)
    return render(request, "review/sources/added.html", {"page": page, "odd_page": odd_page})
