"""Sets of pieces: the list, one set compared, making one, changing it."""

import uuid

from django.contrib import messages
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.accounts.roles import SUBMIT_EXAMPLES, required
from catalogue.member_examples import gates
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.addresses import example_address, set_address
from catalogue.member_examples.models import Example
from catalogue.member_examples.sets.actions import (
    add_pieces,
    bring_back_set,
    change_set,
    dissolve_set,
    make_set,
    take_out,
)
from catalogue.member_examples.sets.forms import AddForm, NewSetForm, SetForm
from catalogue.member_examples.sets.page import changing_context, set_context, sets_context, sets_to_add_to
from catalogue.member_examples.views import kept_apart
from catalogue.reference.models import ReferenceState
from catalogue.revisions import revision_sent

member_page = required(SUBMIT_EXAMPLES)
a_form = require_http_methods(["GET", "HEAD", "POST"])


@require_safe
def sets(request):
    """Sets of which the person may read at least two pieces, and their own."""
    return shown(request, "list", sets_context(request.user, request.GET.get("page")))


@require_safe
def example_set(request, code):
    """Pieces found or sold together, compared."""
    found = gates.set_for_reader(request.user, code)
    return shown(request, "set", set_context(request.user, found, number=ReferenceState.current_number()))


@a_form
@member_page
def new(request):
    """Make a set. `?piece=CODE` begins with that piece, and offers the sets there are."""
    asked = request.GET.get("piece", "")
    piece = gates.example_for_reader(request.user, asked) if asked else None
    given = request.POST if request.method == "POST" else None
    own = piece is not None and gates.owns(request.user, piece)
    begins = {"own": [piece.code]} if own else {"codes": piece.code} if piece else {}
    form = NewSetForm(given, member=request.user, initial=begins)
    if given is not None and form.is_valid():
        fields = {name: form.cleaned_data[name] for name in SetForm.base_fields}
        try:
            made = make_set(member=request.user, token=token_in(request), fields=fields, pieces=form.pieces)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            return redirect(set_address(made.code))
    context = {
        "form": form,
        "piece": piece,
        "token": request.POST.get("token") or uuid.uuid4(),
        "others": sets_to_add_to(request.user, piece) if piece else [],
    }
    return shown(request, "new", context, status=400 if form.errors else 200)


@a_form
@member_page
def change(request, code):
    """What is said of one's own set, and its pieces."""
    found = gates.set_for_changing(request.user, code)
    given = request.POST if request.method == "POST" else None
    form = SetForm(given, initial={name: getattr(found, name) for name in SetForm.base_fields})
    if given is not None and form.is_valid():
        try:
            change_set(found=found, member=request.user, revision=revision_sent(request), fields=form.cleaned_data)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            return redirect(set_address(found.code))
    return changing(request, found, form, AddForm(member=request.user))


@require_POST
@member_page
def add(request, code):
    """Put pieces into one's own set."""
    found = gates.set_for_changing(request.user, code)
    form = AddForm(request.POST, member=request.user)
    if form.is_valid():
        try:
            add_pieces(found=found, member=request.user, pieces=form.pieces)
        except NotDone as refusal:
            form.add_error("codes", str(refusal))
        else:
            return redirect(set_address(found.code))
    return changing(request, found, SetForm(initial=said_of(found)), form)


@require_POST
@member_page
def out(request, code):
    """Take a piece out: who made the set any, the owner of a piece their own."""
    asked = request.POST.get("piece", "")[:60]
    piece = Example.objects.filter(code=asked, places_in_sets__example_set__code=code).first()
    own = piece is not None and gates.owns(request.user, piece)
    found = (gates.set_for_reader if own else gates.set_for_changing)(request.user, code)
    if piece is None:
        gates.example_for_reader(request.user, asked)  # it is out already; of what they may not read nothing is told
    else:
        take_out(found=found, member=request.user, piece=piece)
        messages.success(request, f"{piece.code} is taken out of “{found.name}”.")
    ours = found.made_by_id == request.user.pk or not own
    return redirect(f"{set_address(found.code)}change/" if ours else example_address(piece.code))


@require_POST
@member_page
def dissolve(request, code):
    """The set is one no more; its maker can bring it back."""
    found = gates.set_for_changing(request.user, code)
    dissolve_set(found=found, member=request.user)
    return redirect(f"{set_address(found.code)}change/")


@require_POST
@member_page
def bring_back(request, code):
    found = gates.set_for_changing(request.user, code)
    try:
        bring_back_set(found=found, member=request.user)
    except NotDone as refusal:
        messages.error(request, str(refusal))
        return redirect(f"{set_address(found.code)}change/")
    return redirect(set_address(found.code))


def changing(request, found, form: SetForm, adding: AddForm):
    faulty = form.errors or adding.errors
    number = ReferenceState.current_number()
    context = changing_context(request.user, found, number=number) | {"form": form, "adding": adding}
    return shown(request, "change", context, status=400 if faulty else 200)


def said_of(found) -> dict:
    return {name: getattr(found, name) for name in SetForm.base_fields}


def shown(request, template: str, context: dict, *, status: int = 200):
    return kept_apart(request, render(request, f"member_examples/sets/{template}.html", context, status=status))


def token_in(request) -> uuid.UUID | None:
    try:
        return uuid.UUID(request.POST.get("token", ""))
    except ValueError:
        return None
