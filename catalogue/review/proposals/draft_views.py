"""Writing a proposal: begin, fill in, look, send, take back. Every step is a page that works without a script."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import urlencode
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.accounts.roles import MAINTAIN_REFERENCE, PROPOSE_CHANGES, may, required
from catalogue.reference.addresses import address_of
from catalogue.reference.models import IssueVersion
from catalogue.reference.nearest import LONGEST_SHOWN
from catalogue.reference.snapshots import type_facts
from catalogue.review.proposals import profile_form
from catalogue.review.proposals.actions import (
    NotDone,
    begin_change,
    begin_merge,
    begin_new_version,
    begin_prefilled,
    begin_split,
    discard_draft,
    save_draft,
    send_proposal,
    withdraw_proposal,
)
from catalogue.review.proposals.actions.merging import reason_not_to_merge
from catalogue.review.proposals.composing import row_in_words
from catalogue.review.proposals.forms import MergeForm, NewVersionForm, ParticularsForm, SplitForm, first_values
from catalogue.review.proposals.gates import proposal_of_author, type_to_propose_in, version_to_propose_on
from catalogue.review.proposals.gathering import feature_names, title_of
from catalogue.review.proposals.prefilled import from_labels, from_pieces
from catalogue.review.proposals.rules import CHANGEABLE
from catalogue.review.proposals.saving import first_of_draft, saved
from catalogue.review.proposals.split_page import pages_of_draft
from catalogue.review.proposals.subjects import NOT_OF_VERSIONS, codes_of_split, is_split
from catalogue.review.proposals.views import shown_instead_of_written
from catalogue.review.proposals.words import FIELD_WORDS, ProposalKind, ProposalState
from catalogue.review.proposals.written import written_of
from catalogue.revisions import revision_sent

NOT_SHOWN = "No accepted piece shows this any more, or it is recorded by now."
# Buttons that show something and save nothing.
LOOKS = {"_draw", "_here", "_quietly"}
WRITING = ["GET", "HEAD", "POST"]
proposing_required = required(PROPOSE_CHANGES)
author_proposing_required = required(MAINTAIN_REFERENCE)


@require_http_methods(WRITING)
@proposing_required
def new(request):
    """What kind of change of `?version=`; the draft is made only by POST. With `?feature=` the form of its features
    opens there; with `&state=`, or `?dates=labels`, the draft begins with what accepted pieces show."""
    version = version_to_propose_on(request.GET.get("version", ""))
    feature, state = (request.GET.get(name, "")[:80] for name in ("feature", "state"))
    asked = bool(state) or request.GET.get("dates") == "labels"
    offered = (from_pieces(version, feature, state) if state else from_labels(version)) if asked else None
    fault = ""
    if request.method == "POST":
        kind = request.POST.get("kind")
        try:
            if kind == "offered":
                if offered is None:
                    raise NotDone(NOT_SHOWN)
                made = begin_prefilled(by=request.user, version=version, offered=offered)
                return redirect("proposals:proposal", made.pk)
            made = begin_change(by=request.user, version=version, retire=kind == "retire")
        except NotDone as refusal:
            fault = str(refusal)
        else:
            if kind == "profile":
                there = f"?{urlencode({'feature': feature})}#feature" if feature else ""
                return redirect(reverse("proposals:edit_profile", args=[made.pk]) + there)
            return redirect("proposals:edit", made.pk)
    waiting = version.proposals.filter(state=ProposalState.OPEN).order_by("sent_at")
    context = {"version": version, "fault": fault, "waiting": waiting, "may_maintain": maintains(request)}
    context |= {"asked": asked and not fault, "offered": offered, "not_shown": NOT_SHOWN, "feature": feature}
    return render(request, "review/proposals/new.html", context)


@require_http_methods(WRITING)
@author_proposing_required
def new_version(request):
    """A version that is not there yet, of the garment type `?type=`; perhaps as a copy of `?copy=`."""
    home = type_to_propose_in(request.GET.get("type", ""))
    versions = {one.code: one for one in home.versions.in_force()}
    form = NewVersionForm(
        request.POST if request.method == "POST" else None,
        versions=[(code, f"{one.name} ({code})") for code, one in versions.items()],
        initial={"copy": request.GET.get("copy", "")},
    )
    if request.method == "POST" and form.is_valid():
        given = form.cleaned_data
        try:
            made = begin_new_version(
                by=request.user,
                garment_type=home,
                code=given["code"],
                name=given["name"],
                copy_of=versions.get(given["copy"]),
            )
        except NotDone as refusal:
            form.add_error("code", str(refusal))
        else:
            return redirect("proposals:edit", made.pk)
    return render(request, "review/proposals/new_version.html", {"home": home, "form": form})


@require_http_methods(WRITING)
@author_proposing_required
def merge(request):
    """`?version=` is the same as another version of its type: which, and which of the two stays."""
    version = version_to_propose_on(request.GET.get("version", ""))
    if version.retired_why:
        return gone_already(request, version, "merged")
    others = {one.code: one for one in version.garment_type.versions.in_force().exclude(pk=version.pk)}
    form = MergeForm(
        request.POST if request.method == "POST" else None,
        version=version,
        others=[(code, f"{one.name} ({code})") for code, one in others.items()],
    )
    if request.method == "POST" and form.is_valid():
        other = others[form.cleaned_data["other"]]
        stays, goes = (version, other) if form.cleaned_data["stays"] == "this" else (other, version)
        try:
            made = begin_merge(by=request.user, stays=stays, goes=goes)
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            return redirect("proposals:edit", made.pk)
    elif form.data.get("other") and "other" in form.errors:
        form.errors["other"] = form.error_class([why_not_with(version, form.data["other"])])
    return render(request, "review/proposals/merge.html", {"version": version, "form": form})


@require_http_methods(WRITING)
@author_proposing_required
def split(request):
    """`?version=` is two versions: what they are called."""
    version = version_to_propose_on(request.GET.get("version", ""))
    if version.retired_why:
        return gone_already(request, version, "split")
    first = {"first_name": version.name, "second_name": version.name}
    form = SplitForm(request.POST if request.method == "POST" else None, initial=first)
    if request.method == "POST" and form.is_valid():
        given = form.cleaned_data
        try:
            made = begin_split(
                by=request.user,
                version=version,
                codes=(given["first_code"], given["second_code"]),
                names=(given["first_name"], given["second_name"]),
            )
        except NotDone as refusal:
            form.add_error(None, str(refusal))
        else:
            return redirect("proposals:edit", made.pk)
    return render(request, "review/proposals/split.html", {"version": version, "form": form})


def gone_already(request, version: IssueVersion, what: str):
    """To the page that says what became of a version that is retired."""
    messages.error(request, f"{version.code} is retired already: only versions that are in force are {what}.")
    return redirect(address_of("version", version.code))


def why_not_with(version: IssueVersion, code: str) -> str:
    """Why a version is not merged with one that the form does not offer."""
    other = IssueVersion.objects.select_related("garment_type").filter(code=code).first()
    if other is None:
        return f"There is no version “{code[:LONGEST_SHOWN]}”."
    return reason_not_to_merge(version, other) or "Choose one of these."


def in_words(rows: dict, home) -> dict[str, str]:
    """The fields of a version in words."""
    return {name: row_in_words(name, rows[name], home) for name in FIELD_WORDS if name in rows}


def maintains(request) -> bool:
    return may(request.user, MAINTAIN_REFERENCE)


@require_http_methods(WRITING)
@proposing_required
def edit(request, number, *, second=False):
    """Names, dates, kind, notes, grounds and sources, each beside what stands today. `second`: of the second version
    that a split makes; grounds and sources are asked for with the first."""
    found = proposal_of_author(request.user, number)
    if found.state not in CHANGEABLE or (second and not is_split(found)):
        return shown_instead_of_written(request, found)
    if found.kind == ProposalKind.FEATURE:
        return redirect("feature_records:edit", number)
    if found.kind == ProposalKind.QUESTION:
        return redirect("questions:edit", number)
    if found.kind == ProposalKind.SCAN:
        return redirect("scans:edit", number)
    if found.kind == ProposalKind.BACKING:
        return redirect("backing:edit", number)
    home = type_facts(found.garment_type.code)
    writes = written_of(found, second=second)
    form = ParticularsForm(
        request.POST if request.method == "POST" else None,
        kind=found.kind,
        may_maintain=maintains(request),
        stands=in_words(writes.today, home),
        others=in_words(writes.other_today, home),
        begun=in_words(writes.moved, home),
        also=codes_of_split(found) if is_split(found) else (),
        initial=first_values(writes.whole) | first_of_draft(found),
    )
    if second:
        form.leave_out("grounds", "cites")
    if request.method == "POST" and form.is_valid():
        wanted = {**found.base, **found.rows, **writes.as_rows(form.rows())}
        if saved(request, found, form, wanted):
            after = "proposals:edit_profile" if "to_profile" in request.POST else "proposals:proposal"
            return redirect(f"{after}_second" if second and "to_profile" in request.POST else after, number)
    context = {
        "proposal": found,
        "title": title_of(found, feature_names()),
        "moved": bool(writes.moved),
        "form": form,
        "labels": writes.labels,
        "part": writes.code if is_split(found) else "",
        "parts": pages_of_draft(found, request.path) if is_split(found) else [],
        "has_profile": found.kind != ProposalKind.RETIRE,
    }
    return render(request, "review/proposals/edit.html", context)


@require_http_methods(WRITING)
@proposing_required
def edit_profile(request, number, *, second=False):
    """The features, each beside what stands today. `second`: of the second version that a split makes."""
    found = proposal_of_author(request.user, number)
    without = (ProposalKind.RETIRE, *NOT_OF_VERSIONS)
    if found.state not in CHANGEABLE or found.kind in without:
        return shown_instead_of_written(request, found, with_text=False)
    if second and not is_split(found):
        return redirect("proposals:proposal", number)
    home, may_maintain = type_facts(found.garment_type.code), maintains(request)
    fault, writes = "", written_of(found, second=second)
    if request.method != "POST":
        profile = profile_form.begun(writes, home, feature=request.GET.get("feature", ""))
    else:
        profile = profile_form.filled(writes, home, request.POST, may_maintain=may_maintain)
        rows = profile.rows()
        if "_show" in request.POST:
            profile.form.unfold_chosen(profile_form.typed_of(writes))
        elif rows is not None and not LOOKS & set(request.POST):
            try:
                save_draft(
                    proposal=found,
                    by=request.user,
                    revision=revision_sent(request),
                    wanted={**found.base, **found.rows, **writes.as_rows(rows)},
                    grounds=found.grounds,
                    sources=found.sources,
                )
            except NotDone as refusal:
                fault = str(refusal)
            else:
                return redirect("proposals:edit" if not found.grounds else "proposals:proposal", number)
    if "_quietly" in request.POST:  # the script asks for the drawing alone, while the form is being filled in
        return render(request, "review/proposals/drawn_so_far.html", {"figures": profile.figures()})
    context = {
        "proposal": found,
        "title": title_of(found, feature_names()),
        "moved": bool(writes.moved),
        "figures": profile.figures() if may_maintain else [],
        "place": profile.place,
        "garment_class": home.garment_class,
        "groups": profile.groups(),
        "faults": profile.form.faults(),
        "fault": fault,
        "may_maintain": may_maintain,
        "labels": writes.labels,
        "part": writes.code if is_split(found) else "",
        "parts": pages_of_draft(found, request.path) if is_split(found) else [],
        "revision": revision_sent(request) if request.method == "POST" else found.revision,
    }
    return render(request, "review/proposals/edit_profile.html", context)


@require_POST
@proposing_required
def send(request, number):
    """Put a draft, or a returned proposal again, before those who decide."""
    found = proposal_of_author(request.user, number)
    try:
        send_proposal(proposal=found, by=request.user)
    except NotDone as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, "Sent. You are told when somebody decides or writes about it.")
    return redirect("proposals:proposal", number)


@require_POST
@proposing_required
def withdraw(request, number):
    """Take back what was sent; throw away a draft that nobody has seen."""
    found = proposal_of_author(request.user, number)
    try:
        if found.state == ProposalState.DRAFT and not found.times_sent:
            discard_draft(proposal=found, by=request.user)
            messages.success(request, "The draft is thrown away.")
            return redirect("proposals:queue")
        withdraw_proposal(proposal=found, by=request.user)
    except NotDone as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, "Withdrawn. It stays readable here.")
    return redirect("proposals:proposal", number)
