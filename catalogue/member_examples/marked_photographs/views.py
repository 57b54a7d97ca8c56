"""Pages of marked photographs: read one, and for authors all that a feature has, add, mark, replace, take out."""

from django.contrib import messages
from django.core.files.storage import default_storage
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.utils.cache import patch_cache_control
from django.views.decorators.http import require_http_methods, require_safe

from catalogue.accounts.roles import author_required
from catalogue.figures.marked_pictures import ring
from catalogue.member_examples.actions.refusals import NotDone
from catalogue.member_examples.marked_photographs import actions
from catalogue.member_examples.marked_photographs.forms import AddForm, MarkForm, RemoveForm, ReplaceForm
from catalogue.member_examples.marked_photographs.gates import NOT_THERE, photograph_for_reader
from catalogue.member_examples.photographs.keeping import file_name
from catalogue.member_examples.photographs.limits import SIZES
from catalogue.reference.glossary import feature_address
from catalogue.reference.marked_spots import marked_facts, spot_on
from catalogue.reference.models import Feature, FeatureState, MarkedPhotograph
from catalogue.reference.photographed import with_states

KEPT_FOR = 600  # seconds, as drawings are; the address changes with the picture
DEEDS = {"_replace": ReplaceForm, "_remove": RemoveForm}


@require_safe
def file(request, key, longer):
    """One size as WebP."""
    close = MarkedPhotograph.objects.filter(close_key=key).exists() and longer == actions.CLOSE
    row = photograph_for_reader(request.user, **{"close_key" if close else "key": key})
    if longer not in SIZES:
        raise Http404(NOT_THERE)
    try:
        with default_storage.open(file_name(key, longer)) as found:
            data = found.read()
    except OSError as missing:
        raise Http404("The file of this photograph cannot be read.") from missing
    response = HttpResponse(data, content_type="image/webp")
    response["X-Content-Type-Options"] = "nosniff"
    if row.is_marked:
        patch_cache_control(response, private=True, max_age=KEPT_FOR)
    else:
        patch_cache_control(response, private=True, no_cache=True)
    return response


@require_safe
def one(request, number):
    """The whole photograph with its spot marked, what it shows, whose it is."""
    row = photograph_for_reader(request.user, pk=number)
    if not row.is_marked:
        return redirect("marked:mark", number)
    shown = marked_facts(row.state or row.feature)
    return render(request, "member_examples/marked_photographs/one.html", context_of(row) | {"photograph": shown})


@require_safe
@author_required
def of_feature(request, code):
    """The feature and its states, each with its photograph or the way to give it one."""
    feature = feature_named(code)
    context = {
        "feature": feature,
        "group_address": feature_address(feature),
        "photograph": photograph_of(feature),
        "states": [
            {"state": state, "photograph": photograph_of(state), "shown": marked_facts(state)}
            for state in feature.states.all()
        ],
    }
    return render(request, "member_examples/marked_photographs/of_feature.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@author_required
def add(request):
    """A photograph of `?feature=`, or of its `&state=`."""
    feature = feature_named(request.GET.get("feature", ""))
    code = request.GET.get("state", "")
    state = next((one for one in feature.states.all() if one.code == code), None)
    if code and state is None:
        raise Http404(f"{feature.name} has no state {code[:80]}.")
    form = AddForm(request.POST or None, request.FILES or None, initial={"credit": request.user.username})
    if request.method == "POST" and form.is_valid():
        given = form.cleaned_data
        try:
            made = actions.add(
                shown=state or feature, by=request.user, file=given["file"], words=form.words, why=given["why"]
            )
        except NotDone as refusal:
            form.add_error("file", str(refusal))
        else:
            messages.success(request, "The photograph is here. Now mark its spot: it is shown once that is done.")
            return redirect("marked:mark", made.pk)
    context = {"feature": feature, "state": state, "form": form, "group_address": feature_address(feature)}
    return render(request, "member_examples/marked_photographs/add.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@author_required
def mark(request, number):
    """Mark the spot, change the words; put another in its place, or take it out."""
    row = photograph_for_reader(request.user, pk=number)
    deed = next((name for name in DEEDS if name in request.POST), "_mark")
    forms = {name: form(request.POST, request.FILES) if name == deed else form() for name, form in DEEDS.items()}
    sent = request.POST if request.method == "POST" and deed == "_mark" else None
    forms["_mark"] = MarkForm(sent, is_shown=row.is_marked, initial=first_values(row))
    form = forms[deed]
    if request.method == "POST" and form.is_valid() and "_show" not in request.POST:
        try:
            return done(request, row, deed, form)
        except NotDone as refusal:
            form.add_error("file" if deed == "_replace" else None, str(refusal))
    spot = forms["_mark"].shown_spot()
    context = context_of(row) | {
        "form": forms["_mark"],
        "replace_form": forms["_replace"],
        "remove_form": forms["_remove"],
        "ring": ring(row.width, row.height, spot_on(row.width, row.height, *spot)),
    }
    return render(request, "member_examples/marked_photographs/mark.html", context)


def done(request, row: MarkedPhotograph, deed: str, form):
    """Does what the form asks; leads on. Raises NotDone."""
    known = {"number": row.pk, "seen": request.POST.get("seen", ""), "by": request.user}
    why = form.cleaned_data.get("why", "")
    if deed == "_remove":
        actions.remove(**known, why=why)
        messages.success(request, "The photograph was taken out, with its files.")
        return redirect("marked:of_feature", row.of_feature.code)
    if deed == "_replace":
        actions.replace(**known, file=form.cleaned_data["file"], why=why)
        messages.success(request, "Another photograph stands in its place. It is shown once its spot is marked.")
        return redirect("marked:mark", row.pk)
    actions.mark(**known, spot=form.spot, words=form.words, why=why)
    messages.success(request, "Marked. This is what readers see.")
    return redirect("marked:one", row.pk)


def first_values(row: MarkedPhotograph) -> dict:
    words = {name: getattr(row, name) for name in actions.WORDS}
    spot = {name: getattr(row, name) for name in ("x", "y", "radius")} if row.is_marked else {}
    return words | {name: f"{share * 100:.4g}" for name, share in spot.items()}


def context_of(row: MarkedPhotograph) -> dict:
    return {"row": row, "feature": row.of_feature, "state": row.state, "group_address": feature_address(row.of_feature)}


def feature_named(code: str) -> Feature:
    found = with_states(Feature.objects.filter(code=code[:80])).first()
    if found is None:
        raise Http404(f"There is no feature {code[:80]}.")
    return found


def photograph_of(shown: Feature | FeatureState) -> MarkedPhotograph | None:
    return getattr(shown, "photograph", None)
