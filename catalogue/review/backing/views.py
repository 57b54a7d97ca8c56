"""Writing a proposal on what versions rest on. Every step is a page that works without a script."""

from django.http import Http404
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from catalogue.accounts.roles import MAINTAIN_REFERENCE, required
from catalogue.member_examples.actions import NotDone
from catalogue.reference.addresses import address_of
from catalogue.reference.backing_rows import BACKINGS
from catalogue.reference.tried_numbers import ONLY_TRIED, TRIED, TRY
from catalogue.review.backing.forms import NewForm, form_of
from catalogue.review.backing.standing import found
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import begin_on_backing
from catalogue.review.proposals.gates import MISSING, proposal_of_author
from catalogue.review.proposals.gathering import title_of
from catalogue.review.proposals.rules import CHANGEABLE
from catalogue.review.proposals.saving import first_of_draft, saved
from catalogue.review.proposals.subjects import stands_now
from catalogue.review.proposals.words import ProposalKind, ProposalState

WRITING = ["GET", "HEAD", "POST"]
author_proposing_required = required(MAINTAIN_REFERENCE)


@require_http_methods(WRITING)
@author_proposing_required
def begin(request, table):
    """A change of `?code=`, or without it one that is new; the draft is made only by POST."""
    backing = BACKINGS.get(table)
    code = request.GET.get("code", "")[:80]
    record = found(table, code) if backing and code else None
    if backing is None or (record is None and (code or not backing.made)):
        raise Http404(f"There is no {backing.sort} with this code." if backing else MISSING)
    form = NewForm(request.POST if request.method == "POST" else None) if record is None else None
    fault = ""
    if request.method == "POST" and (form is None or form.is_valid()):
        given = form.cleaned_data if form else {"code": code}
        try:
            made = begin_on_backing(by=request.user, table=table, new=record is None, **given)
        except NotDone as refusal:
            fault = str(refusal)
        else:
            return redirect("backing:edit", made.pk)
    waiting = Proposal.objects.filter(backing=table, backing_code=code, state=ProposalState.OPEN) if code else ()
    context = {"backing": backing, "record": record, "form": form, "fault": fault, "waiting": waiting}
    context |= {"address": page_of(table, code), "fields": ", ".join(backing.fields.values()).lower()}
    return render(request, "review/backing/begin.html", context)


@require_http_methods(WRITING)
@author_proposing_required
def edit(request, number):
    """The record as it is wanted, beside what stands today."""
    one = proposal_of_author(request.user, number)
    if one.kind != ProposalKind.BACKING:
        raise Http404(MISSING)
    if one.state not in CHANGEABLE:
        return redirect("proposals:proposal", number)
    whole = {**one.base, **one.rows}
    form = form_of(
        one.backing,
        one.backing_code,
        whole,
        data=request.POST if request.method == "POST" else None,
        today=stands_now(one),
        initial=first_of_draft(one),
    )
    if request.method == "POST" and form.is_valid() and saved(request, one, form, whole | form.rows()):
        return redirect("proposals:proposal", number)
    context = {"proposal": one, "title": title_of(one, {}), "form": form, "may_try": TRIED in form.fields}
    if TRY in request.POST and TRIED in form.fields:
        context |= {"only_tried": ONLY_TRIED, "tried": form.data.get(TRIED, ""), "reading": form.reading()}
    return render(request, "review/backing/edit.html", context)


def page_of(table: str, code: str) -> str:
    """Where the record is read on the site; empty for what has no page."""
    return address_of(table, code) if code and table != "numberform" else ""
