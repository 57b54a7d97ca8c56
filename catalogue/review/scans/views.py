"""Scans of sources: put one in, say what it shows, read one, make a part unreadable, take one out."""

from django.conf import settings
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.accounts.roles import PROPOSE_CHANGES, may, required
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.photographs.keeping import file_name
from catalogue.member_examples.photographs.limits import SIZES
from catalogue.member_examples.photographs.serving import stored_picture
from catalogue.member_examples.submitting.views.photographs import areas_in, cells
from catalogue.reference.addresses import address_of
from catalogue.reference.models import Source, SourceScan
from catalogue.reference.nearest import record_or_nearest
from catalogue.review.proposals.gates import MISSING, proposal_of_author
from catalogue.review.proposals.gathering import title_of
from catalogue.review.proposals.rules import CHANGEABLE
from catalogue.review.proposals.saving import first_of_draft, saved
from catalogue.review.proposals.words import ProposalKind
from catalogue.review.scans import actions
from catalogue.review.scans.forms import FileForm, ScanForm
from catalogue.review.scans.gates import NOT_THERE, once_shown, scan_for_reader, sees_unshown
from catalogue.review.scans.pictures import picture_of_scan
from catalogue.review.scans.standing import rows_of

WRITING = ["GET", "HEAD", "POST"]
proposing_required = required(PROPOSE_CHANGES)


@require_http_methods(WRITING)
@proposing_required
def begin(request):
    """A scan of `?source=`; the draft is made with its file."""
    source = record_or_nearest(Source.objects.all(), "source", "source", request.GET.get("source", "")[:80], "title")
    sent = request.method == "POST"
    form = FileForm(request.POST if sent else None, request.FILES if sent else None)
    fault, there = "", ""
    if sent and form.is_valid():
        try:
            made = actions.begin_scan(by=request.user, source=source, file=form.cleaned_data["file"])
        except actions.AlreadyThere as refusal:
            fault, there = str(refusal), address_for(request.user, refusal.scan)
        except NotDone as refusal:
            form.add_error("file", str(refusal))
        else:
            messages.success(request, "The picture is here. Say what it shows, then send it.")
            return redirect("scans:edit", made.pk)
    context = {
        "source": source,
        "form": form,
        "address": address_of("source", source.code),
        "there": there,
        "fault": fault,
    }
    return render(request, "review/scans/begin.html", context, status=400 if form.errors or fault else 200)


def address_for(person, scan: SourceScan) -> str:
    """Where this person goes on with the picture that is there: nowhere while others' waits to be shown."""
    if scan.proposal.by_id == person.pk and scan.proposal.state in CHANGEABLE:
        return reverse("scans:edit", args=[scan.proposal.pk])
    return reverse("scans:one", args=[scan.pk]) if scan.shown or sees_unshown(person, scan) else ""


@require_http_methods(WRITING)
@proposing_required
def edit(request, number):
    """What it shows, whose it is, and whether names are to be seen on it."""
    found = proposal_of_author(request.user, number)
    if found.kind != ProposalKind.SCAN:
        raise Http404(MISSING)
    if found.state not in CHANGEABLE or not found.scan.key:
        return redirect("proposals:proposal", number)
    form = ScanForm(
        request.POST if request.method == "POST" else None,
        initial={**found.base, **found.rows} | first_of_draft(found),
    )
    if request.method == "POST" and form.is_valid() and saved(request, found, form, form.rows()):
        return redirect("scans:blur" if "to_blur" in request.POST else "proposals:proposal",
                        found.scan_id if "to_blur" in request.POST else number)  # fmt: skip
    context = {
        "proposal": found,
        "title": title_of(found, {}),
        "form": form,
        "at": picture_of_scan(found.scan),
        "address": address_of("source", found.scan.source.code),
    }
    return render(request, "review/scans/edit.html", context, status=400 if form.errors else 200)


@require_safe
def file(request, key, longer):
    """One size as WebP, asked for anew each time: it may be shown no more."""
    scan_for_reader(request.user, key=key)
    if longer not in SIZES:
        raise Http404(NOT_THERE)
    return stored_picture(request, file_name(key, longer))


@require_safe
def one(request, number):
    """The whole picture, what it shows and whose it is; once it is gone, that it is, and of what it was."""
    gone = once_shown(number)
    if gone is not None and not (gone.key and sees_unshown(request.user, gone)):
        context = {"source": gone.source, "address": address_of("source", gone.source.code)}
        return render(request, "review/scans/gone.html", context, status=410)
    row = scan_for_reader(request.user, pk=number)
    proposal = row.proposal
    context = {
        "row": row,
        "address": address_of("source", row.source.code),
        "proposal": proposal if may(request.user, PROPOSE_CHANGES) else None,
        "may_blur": actions.may_blur(request.user, row),
        "may_take_out": row.shown and proposal.by_id == request.user.pk,
        "contact": settings.CONTACT,
        "title": rows_of(row).get("shows") or f"Scan of {row.source.title}",
    }
    return render(request, "review/scans/one.html", context)


@require_http_methods(WRITING)
@proposing_required
def blur(request, number):
    """Choose what of it is to be made unreadable."""
    row = scan_for_reader(request.user, pk=number)
    if not actions.may_blur(request.user, row):
        raise Http404(NOT_THERE)
    fault = ""
    if request.method == "POST":
        areas = areas_in(request)
        try:
            if not areas:
                raise NotDone("Tick the cells that cover the name or face, or draw over it.")
            actions.blur(scan=row, by=request.user, areas=areas, seen=request.POST.get("seen", ""))
        except NotDone as refusal:
            fault = str(refusal)
            row = scan_for_reader(request.user, pk=number)
        else:
            messages.success(request, "Made unreadable in every stored size; the old files are deleted.")
            return redirect("proposals:proposal", row.proposal.pk)
    context = {"row": row, "at": picture_of_scan(row), "cells": cells(), "fault": fault}
    return render(request, "review/scans/blur.html", context, status=400 if fault else 200)


@require_POST
@proposing_required
def take_out(request, number):
    """Who put it in takes it out, with its files."""
    row = scan_for_reader(request.user, pk=number)
    try:
        actions.take_out(scan=row, by=request.user, seen=request.POST.get("seen", ""))
    except NotDone as refusal:
        messages.error(request, str(refusal))
        return redirect("scans:one", number)
    messages.success(request, "Taken out; its files are deleted.")
    return redirect(address_of("source", row.source.code))
