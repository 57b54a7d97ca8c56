"""Drawings as files of their own, for cards that are loaded when they come into sight; authors' pages: the drawing
board, and how a state is drawn."""

from django.contrib import messages
from django.db import transaction
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import condition, require_http_methods

from catalogue.accounts.roles import author_required
from catalogue.figures.choosing_drawings import KEEP, DrawingForm, digest_of, offers, told
from catalogue.figures.drawing_board import board_context, read_board
from catalogue.figures.figure import file_of
from catalogue.figures.outlines import outline_file
from catalogue.reference.admin_base import tell_of_feature, write_down
from catalogue.reference.models import Correction, FeatureState, ReferenceState
from catalogue.reference.snapshots import keep_for_state, type_facts, type_of_retired, type_of_version


def state_tag(request, code, view="") -> str:
    """Drawings change with the reference, and only with it."""
    return f'"{ReferenceState.current_number()}"'


@condition(etag_func=state_tag)
def type_svg(request, code):
    """The outline of a garment type."""
    facts = type_facts(code)
    return drawing_file(
        facts and keep_for_state(("outline file", code), lambda: outline_file(facts)),
        f"There is no outline of {code[:80]}.",
    )


@condition(etag_func=state_tag)
def version_svg(request, code, view):
    """One view of a version, of a retired one as its last record says: an address that was public still answers."""
    facts = type_of_version(code) or type_of_retired(code)
    made = facts and keep_for_state(("figure file", code, view), lambda: file_of(facts, facts.known(code), view))
    return drawing_file(made, f"There is no drawing of {code[:80]} from this view.")


def drawing_file(made: str | None, missing: str) -> HttpResponse:
    if not made:
        raise Http404(missing)
    response = HttpResponse(made, content_type="image/svg+xml")
    response["Cache-Control"] = "max-age=600"
    return response


@author_required
@require_http_methods(["GET", "HEAD", "POST"])
def drawing_board(request, code):
    """A record drawn while its author chooses. What a form sends becomes an address; nothing is stored."""
    facts = type_facts(code)
    if facts is None:
        raise Http404(f"There is no garment type {code[:80]}.")
    if request.method == "POST":
        address = reverse("figures:drawing_board", args=[code])
        return redirect(address + read_board(facts, request.POST.dict()).query())
    return render(request, "figures/drawing_board.html", board_context(read_board(facts, request.GET.dict())))


@author_required
@require_http_methods(["GET", "HEAD", "POST"])
def choose_drawing(request, code):
    """How the state `?state=` of a feature is drawn, chosen by pictures."""
    asked = request.GET.get("state", "")[:80]
    state = FeatureState.objects.select_related("feature").filter(feature__code=code[:80], code=asked).first()
    if state is None:
        raise Http404(f"There is no state {asked} of a feature {code[:80]}.")
    form = DrawingForm(request.POST or None, initial={"seen": digest_of(state.drawing), "like": KEEP})
    if request.method == "POST" and form.is_valid():
        given = form.cleaned_data
        with transaction.atomic():
            ReferenceState.hold()
            state.refresh_from_db()
            if given["seen"] != digest_of(state.drawing):
                form.add_error(None, "Somebody changed this drawing while you had it open. Look again, and choose.")
                form.data = form.data.dict() | {"seen": digest_of(state.drawing)}  # which the page now shows
            elif given["like"] == KEEP or given["drawing"] == state.drawing:
                form.add_error("like", "That is how it is drawn already. Choose another picture.")
            else:
                lines = [[f"State {state.code}: drawing", told(state.drawing), told(given["drawing"])]]
                FeatureState.objects.filter(pk=state.pk).update(drawing=given["drawing"])
                made = write_down(request, state.feature, Correction.Deed.CHANGED, lines, given["why"])
                tell_of_feature(request, made)
                ReferenceState.mark_changed()
        if not form.errors:
            messages.success(request, f"“{state.label}” is drawn {told(given['drawing'])}.")
            return redirect("marked:of_feature", state.feature.code)
    context = {"state": state, "feature": state.feature, "form": form, "offers": offers(), "keep": KEEP}
    return render(request, "figures/choose_drawing.html", context)
