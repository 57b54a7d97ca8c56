"""Alterations that somebody sees on an accepted piece: added by its owner or by another member, taken back."""

from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.member_examples import gates
from catalogue.member_examples.actions import NotDone, add_alteration, confirm_alteration, take_back_alteration
from catalogue.member_examples.actions.alterations import may_confirm
from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.models import Alteration, Example
from catalogue.member_examples.submitting.forms import AlterationForm
from catalogue.member_examples.submitting.views.saved import facts_of, member_page, show
from catalogue.member_examples.titles import title_of
from catalogue.member_examples.words import ExampleState
from catalogue.reference.models import Feature


@require_http_methods(["GET", "HEAD", "POST"])
@member_page
def altered(request, code):
    """Say what was altered on a piece that was accepted."""
    found = gates.example_for_reader(request.user, code)
    if found.state != ExampleState.ACCEPTED:
        return redirect(example_address(found.code))
    form = AlterationForm(request.POST if request.method == "POST" else None, facts=facts_of(found))
    if request.method == "POST" and form.is_valid():
        features = list(Feature.objects.filter(code__in=form.cleaned_data["features"]))
        try:
            made = add_alteration(example=found, member=request.user, fields=form.fields_of_row, features=features)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            ending = "" if made.counts else " It counts once the owner or a moderator confirms it."
            messages.success(request, f"It is added under your name. What was there stays.{ending}")
            return redirect(f"{example_address(found.code)}#altered")
    counts_at_once = may_confirm(request.user, found)
    context = {"example": found, "title": title_of(found), "form": form, "counts_at_once": counts_at_once}
    return show(request, "altered", context, status=400 if form.errors else 200)


@require_POST
@member_page
def confirm(request, code, number):
    """The owner or a moderator holds what another added to be so, or no longer."""
    found, row = added_row(request.user, code, number)
    so = request.POST.get("so") != "no"
    try:
        confirm_alteration(alteration=row, member=request.user, so=so)
    except NotDone as refusal:
        messages.error(request, str(refusal))
    else:
        said = "It is confirmed, and stands in the title." if so else "It is one person's view again."
        messages.success(request, said)
    return redirect(f"{example_address(found.code)}#altered")


@require_POST
@member_page
def take_back(request, code, number):
    """Take back what one added oneself; moderators also what others added."""
    found, row = added_row(request.user, code, number)
    try:
        take_back_alteration(alteration=row, member=request.user)
    except NotDone as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, "It is taken back.")
    return redirect(f"{example_address(found.code)}#altered")


def added_row(person, code: str, number: int) -> tuple[Example, Alteration]:
    found = gates.example_for_reader(person, code)
    row = Alteration.with_taken_back.filter(pk=number, example=found).first()
    if row is None:
        raise Http404("There is no such alteration.")
    return found, row
