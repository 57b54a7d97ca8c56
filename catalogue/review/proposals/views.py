"""The lists of proposals and the page of one, for members; deciding, for moderators."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.accounts.roles import PROPOSE_CHANGES, required
from catalogue.accounts.unsent import OF_THE_SITE
from catalogue.long_lists import page_of
from catalogue.reference.models import ReferenceState
from catalogue.review.deputies.standing_in import away_today, deciding_required
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import (
    NotDone,
    decide_on_proposal,
    revoke_approval,
    settle_clashes,
    write_word_on_proposal,
)
from catalogue.review.proposals.forms import DecisionForm, RevokeForm, WordForm
from catalogue.review.proposals.gates import proposal_for_reader
from catalogue.review.proposals.gathering import LISTS, OPEN, listed, rows_of
from catalogue.review.proposals.proposal_page import proposal_context
from catalogue.review.proposals.words import DecisionOn, ProposalState
from catalogue.revisions import revision_sent

A_PAGE = 30
proposing_required = required(PROPOSE_CHANGES)
TOLD = {
    DecisionOn.AGREED: "Agreed. It needs one more person; its author is told.",
    DecisionOn.APPROVED: "Approved. It stands from now on; the people concerned are told.",
    DecisionOn.RETURNED: "Returned. Its author is told.",
    DecisionOn.DECLINED: "Declined. Its author is told.",
    DecisionOn.UNDO_AGREED: "Agreed. Revoking it needs one more person.",
    DecisionOn.REVOKED: "Revoked. What stood before stands again; the people concerned are told.",
}


WRITTEN_NO_MORE = "This proposal is {}: it is not written on any more. Nothing of what you sent was kept."


@require_safe
@proposing_required
def queue(request):
    """Proposals that wait, the oldest first; with `?state=` the others."""
    which = request.GET.get("state", "")
    which = which if which in LISTS else OPEN
    page, odd_page = page_of(request.GET.get("page"), listed(request.user, which), A_PAGE)
    context = {
        "page": page,
        "odd_page": odd_page,
        "rows": rows_of(page, request.user, now=timezone.now()),
        "lists": LISTS.items(),
        "chosen": which,
        "keep": f"state={which}&",
        "away": away_today(),
    }
    return render(request, "review/proposals/queue.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@proposing_required
def proposal(request, number):
    """One proposal with all that bears on the decision; the decision itself by POST."""
    found = proposal_for_reader(request.user, number)
    if request.method == "POST":
        return decide(request, found)
    return shown(request, found)


@deciding_required
def decide(request, found: Proposal):
    form = DecisionForm(request.POST, weight=found.weight, agreed=0)
    if form.is_valid():
        try:
            made = decide_on_proposal(proposal=found, decider=request.user, **form.cleaned_data)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
            found = proposal_for_reader(request.user, found.pk)
        else:
            messages.success(request, TOLD[DecisionOn(made.kind)])
            return redirect("proposals:proposal", found.pk)
    return shown(request, found, form=form)


def shown(request, found: Proposal, **forms):
    context = proposal_context(found, request.user, number=ReferenceState.current_number(), now=timezone.now())
    return render(request, "review/proposals/proposal.html", context | too_late(found, context, **forms) | forms)


def shown_instead_of_written(request, found: Proposal, *, with_text: bool = True):
    """For a draft that is none any more: the page of the proposal; where something was sent, with why it is not written
    on and, `with_text`, what was typed."""
    if request.method != "POST":
        return redirect("proposals:proposal", found.pk)
    words = WRITTEN_NO_MORE.format(ProposalState(found.state).label.lower())
    typed = [f"{name}: {text}" for name, text in request.POST.items() if name not in OF_THE_SITE and text.strip()]
    return shown(request, found, refused=[words], typed="\n".join(typed) if with_text else "")


def too_late(found: Proposal, context: dict, *, form=None, revoking=None, not_settled: str = "", **_) -> dict:
    """What was refused where the page has no place for it any more, since others were quicker, and what was typed."""
    late = [(form, found.state != ProposalState.OPEN), (revoking, found.state != ProposalState.APPROVED)]
    for one, is_late in late:
        if one is not None and is_late:
            return {"refused": one.non_field_errors(), "typed": one.data.get("reason", "")}
    if not_settled and not context["clashes"] and not context.get("other_changed"):
        return {"refused": [not_settled]}
    return {}


@require_POST
@proposing_required
def write_word(request, number):
    """A word in the thread."""
    found = proposal_for_reader(request.user, number)
    form = WordForm(request.POST)
    if form.is_valid():
        try:
            write_word_on_proposal(proposal=found, by=request.user, **form.cleaned_data)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            return redirect("proposals:proposal", number)
    return shown(request, found, word_form=form)


@require_POST
@proposing_required
def settle(request, number):
    """For each row that others changed meanwhile, what shall stand."""
    found = proposal_for_reader(request.user, number)
    choices = {key.removeprefix("row-"): value for key, value in request.POST.items() if key.startswith("row-")}
    try:
        settle_clashes(proposal=found, by=request.user, choices=choices, revision=revision_sent(request))
    except NotDone as refusal:
        found = proposal_for_reader(request.user, number)
        return shown(request, found, not_settled=str(refusal), choices=choices)
    messages.success(request, "Settled. The proposal is based on the record that stands now.")
    return redirect("proposals:proposal", number)


@require_POST
@deciding_required
def revoke(request, number):
    """Undo an approval by a newer decision."""
    found = proposal_for_reader(request.user, number)
    form = RevokeForm(request.POST)
    if form.is_valid():
        try:
            made = revoke_approval(proposal=found, decider=request.user, **form.cleaned_data)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
            found = proposal_for_reader(request.user, number)
        else:
            messages.success(request, TOLD[DecisionOn(made.kind)])
            return redirect("proposals:proposal", number)
    return shown(request, found, revoking=form)
