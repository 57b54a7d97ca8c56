"""Asking for a name to be removed; and, for the owner and moderators, removing it from texts and pictures."""

from django.conf import settings
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.accounts.roles import SUBMIT_EXAMPLES, may, member_required, moderator_required, to_sign_in
from catalogue.member_examples import gates
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.models import Example, NameRequest, Photograph
from catalogue.member_examples.pictures import picture_of
from catalogue.member_examples.removing_names.actions import (
    LONGEST_REQUEST,
    ask_for_removal,
    blur_on_request,
    remove_on_request,
    settle_request,
    where_it_stands,
)
from catalogue.member_examples.submitting.steps import address
from catalogue.member_examples.submitting.views.photographs import areas_in, cells
from catalogue.member_examples.titles import title_of
from catalogue.member_examples.words import ExampleState

PAGES = "member_examples/removing_names"


@require_http_methods(["GET", "HEAD", "POST"])
def ask(request, code):
    """Whom to write to; for members a form."""
    found = gates.example_for_reader(request.user, code)
    if request.method == "POST" and not may(request.user, SUBMIT_EXAMPLES):
        return to_sign_in(request)
    typed, fault = request.POST.get("words", "")[:LONGEST_REQUEST], ""
    if request.method == "POST":
        try:
            ask_for_removal(example=found, member=request.user, words=typed)
        except NotDone as refusal:
            fault = str(refusal)
        else:
            messages.success(request, "Its owner and the moderators are told. What you wrote goes when it is done.")
            return redirect(example_address(found.code))
    context = {
        "example": found,
        "title": title_of(found),
        "is_member": gates.is_member(request.user),
        "may_remove": gates.may_remove_names(request.user, found),
        "contact": settings.CONTACT,
        "typed": typed,
        "fault": fault,
    }
    return render(request, f"{PAGES}/ask.html", context, status=400 if fault else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@member_required
def remove(request, code):
    """Where a name stands, and removing it everywhere."""
    found = gates.example_for_removing_names(request.user, code)
    typed = request.POST.get("names", "")[:LONGEST_REQUEST]
    fault, stands = "", None
    if request.method == "POST" and request.POST.get("act") == "look":
        stands = where_it_stands(found, typed.splitlines())
    elif request.method == "POST":
        try:
            number = remove_on_request(example=found, member=request.user, names=typed.splitlines())
        except NotDone as refusal:
            fault = str(refusal)
        else:
            messages.success(request, removed_words(number))
            return redirect("member_examples:names", found.code)
    context = page_context(request.user, found) | {"typed": typed, "fault": fault, "stands": stands}
    return render(request, f"{PAGES}/remove.html", context, status=400 if fault else 200)


def removed_words(number: int) -> str:
    if not number:
        return "It stood in no text of this piece. A dated note says that a removal was asked for."
    return f"Removed from {number} text{'s' if number > 1 else ''}. A dated note says so, without the name."


def page_context(person, example: Example) -> dict:
    moderates = gates.is_moderator(person)
    rows = [(row, picture_of(row)) for row in example.photographs.all()]
    return {
        "example": example,
        "title": title_of(example),
        "is_owner": gates.owns(person, example),
        "moderates": moderates,
        "back": address("piece", example.code) if gates.owns(person, example) else example_address(example.code),
        "photographs": [{"row": row, "at": picture} for row, picture in rows if picture],
        "notes": example.hidden_names.filter(on_request=True),
        "asked": example.name_requests.filter(settled_at__isnull=True).select_related("by"),
        "sent": example.state != ExampleState.DRAFT,
    }


@require_http_methods(["GET", "HEAD", "POST"])
@member_required
def blur(request, code, number):
    """Choose what of a picture is to be made unreadable, whatever state the piece is in."""
    found = gates.example_for_removing_names(request.user, code)
    row = Photograph.objects.filter(pk=number, example=found).first()
    picture = picture_of(row) if row else None
    if picture is None:
        raise Http404("This picture is not there any more.")
    context = page_context(request.user, found) | {"row": row, "at": picture, "cells": cells(), "fault": ""}
    if request.method != "POST":
        return render(request, f"{PAGES}/blur.html", context)
    areas = areas_in(request)
    if not areas:
        context["fault"] = "Tick the cells that cover the name, or draw over it."
        return render(request, f"{PAGES}/blur.html", context, status=400)
    try:
        left = blur_on_request(example=found, member=request.user, photograph=row, areas=areas)
    except NotDone as refusal:
        context["fault"] = str(refusal)
        return render(request, f"{PAGES}/blur.html", context, status=409)
    if left:
        messages.error(request, f"Blurred, but old files could not be deleted. Tell the secretary: {', '.join(left)}")
    else:
        messages.success(request, "Blurred in every stored size; the old files are deleted.")
    return redirect("member_examples:names", found.code)


@require_POST
@moderator_required
def settle(request, code, number):
    """A request has been dealt with: what was written in it goes."""
    found = gates.example_for_moderator(request.user, code)
    asked = NameRequest.objects.filter(pk=number, example=found).first()
    if asked is None:
        raise Http404("There is no such request.")
    settle_request(asked=asked, member=request.user)
    messages.success(request, "The request is settled, and what was written in it is deleted.")
    return redirect("member_examples:names", found.code)
