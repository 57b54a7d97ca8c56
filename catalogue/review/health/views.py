"""The health of the reference, for every reader; taking a measured error rate, for moderators."""

from django.contrib import messages
from django.http import HttpResponseRedirect
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from catalogue.accounts.roles import REVIEW_REFERENCE, may, required
from catalogue.member_examples.actions import NotDone
from catalogue.reference import nearest
from catalogue.reference.models import GarmentType, ReferenceState
from catalogue.review.health.actions import take_error_rate, undo_error_rate
from catalogue.review.health.gates import measured_feature, open_to_undo, standing_rate
from catalogue.review.health.page import page_as_written, page_context
from catalogue.review.words import share_words

moderators = required(REVIEW_REFERENCE)


@require_safe
def society(request):
    return shown(request, "")


@require_safe
def garment_type(request, code):
    """The same page for one garment type."""
    return shown(request, code)


def shown(request, code: str):
    number = ReferenceState.current_number()
    context = page_context(code, number=number)
    if context is None:
        known = GarmentType.objects.values_list("code", "name")
        raise nearest.no_such_record("garment type", "type", code, known)
    decides = may(request.user, REVIEW_REFERENCE)
    if decides:
        also = {"decides": True, "taken": open_to_undo()}
    else:
        also = {"written": page_as_written(code, number=number)}
    return render(request, "review/health/health.html", context | also)


@require_POST
@moderators
def take(request, feature):
    """The rate as it was shown comes with the form; another by now is refused."""
    found, line = measured_feature(feature, number=ReferenceState.current_number())
    if line is None:
        messages.error(request, f"No rate is offered for “{found.name}” now: one was taken already. Nothing changed.")
        return to_errors()
    if (request.POST.get("rate"), request.POST.get("in_use")) != (str(line["rate"]), str(line["in_use"])):
        messages.error(request, f"The figures of “{found.name}” have changed since you saw them. Nothing was written.")
        return to_errors()
    try:
        take_error_rate(
            feature=found, moderator=request.user, before=line["in_use"], after=line["rate"], wrong=line["wrong"],
            looks=line["looks"],
        )  # fmt: skip
    except NotDone as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, f"The engine now counts with {line['rate_words']} answers wrong for “{found.name}”.")
    return to_errors()


@require_POST
@moderators
def undo(request, taken):
    found = standing_rate(taken)
    try:
        undo_error_rate(taken=found, moderator=request.user)
    except NotDone as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, f"“{found.feature.name}” has its earlier error, {share_words(found.before)}, again.")
    return redirect("health:society")


def to_errors() -> HttpResponseRedirect:
    return HttpResponseRedirect(f"{reverse('health:society')}#errors")
