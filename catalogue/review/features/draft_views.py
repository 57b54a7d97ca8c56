"""Writing a proposal about a feature. Every step is a page that works without a script."""

from django.http import Http404
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods

from catalogue.accounts.roles import MAINTAIN_REFERENCE, PROPOSE_CHANGES, may, required
from catalogue.member_examples.actions import NotDone
from catalogue.reference.glossary import feature_address
from catalogue.reference.models import Feature, GarmentType
from catalogue.review.features.forms import FeatureForm, NewFeatureForm, state_forms
from catalogue.review.proposals.actions import begin_feature, begin_new_feature
from catalogue.review.proposals.gates import MISSING, proposal_of_author
from catalogue.review.proposals.gathering import title_of
from catalogue.review.proposals.rules import CHANGEABLE
from catalogue.review.proposals.saving import first_of_draft, saved
from catalogue.review.proposals.views import shown_instead_of_written
from catalogue.review.proposals.words import ProposalKind, ProposalState

WRITING = ["GET", "HEAD", "POST"]
proposing_required = required(PROPOSE_CHANGES)
author_proposing_required = required(MAINTAIN_REFERENCE)


@require_http_methods(WRITING)
@proposing_required
def begin(request):
    """A change of `?feature=`; the draft is made only by POST."""
    feature = get_object_or_404(Feature, code=request.GET.get("feature", ""))
    fault = ""
    if request.method == "POST":
        try:
            made = begin_feature(by=request.user, feature=feature)
        except NotDone as refusal:
            fault = str(refusal)
        else:
            return redirect("feature_records:edit", made.pk)
    waiting = feature.proposals.filter(state=ProposalState.OPEN).select_related("by").order_by("sent_at")
    context = {"feature": feature, "fault": fault, "waiting": waiting}
    return render(request, "review/features/begin.html", context)


@require_http_methods(WRITING)
@author_proposing_required
def new(request):
    """A feature that is not there yet, perhaps of the garment type `?type=`."""
    form = NewFeatureForm(
        request.POST if request.method == "POST" else None, initial={"home": request.GET.get("type", "")}
    )
    if request.method == "POST" and form.is_valid():
        given = form.cleaned_data
        try:
            made = begin_new_feature(
                by=request.user,
                garment_type=GarmentType.objects.get(code=given["home"]),
                code=given["code"],
                name=given["name"],
            )
        except NotDone as refusal:
            form.add_error("code", str(refusal))
        else:
            return redirect("feature_records:edit", made.pk)
    return render(request, "review/features/new.html", {"form": form})


@require_http_methods(WRITING)
@proposing_required
def edit(request, number):
    """The feature as it is wanted, beside what stands today."""
    found = proposal_of_author(request.user, number)
    if found.kind != ProposalKind.FEATURE:
        raise Http404(MISSING)
    if found.state not in CHANGEABLE:
        return shown_instead_of_written(request, found)
    whole = {**found.base, **found.rows}
    data = request.POST if request.method == "POST" else None
    maintains = may(request.user, MAINTAIN_REFERENCE)
    form = FeatureForm(data, whole=whole, base=found.base, may_maintain=maintains, initial=first_of_draft(found))
    states = state_forms(whole, data) if maintains else None
    # All are asked, so that every fault is told at once.
    asked = [one for one in (form, states) if one is not None]
    sound = data is not None and all([one.is_valid() for one in asked])
    if sound and saved(request, found, form, whole | form.rows() | (states.rows() if states is not None else {})):
        to_states = "more_states" in request.POST
        return redirect("feature_records:edit" if to_states else "proposals:proposal", number)
    context = {"proposal": found, "title": title_of(found, {}), "form": form, "states": states}
    context["address"] = feature_address(found.feature) if found.feature else ""
    return render(request, "review/features/edit.html", context)
